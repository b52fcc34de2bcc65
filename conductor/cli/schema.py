"""`conductor schema`: the plan language for editors, as a JSON Schema."""

import json

import click

from conductor.cli.rulebook import RULES
from conductor.findings import Weight
from conductor.report.schema import schema as made
from conductor.shapes.catalogue import load

SWITCHED = tuple(rule for rule in RULES if rule.weight is not Weight.ERROR)
"""Rules that a plan can switch off: what cannot be led stays an error."""

EPILOG = """
\b
Write it to a file once, and tell your editor's YAML support to use it for your plans. Many
editors take the first line of a plan for that:
  # yaml-language-server: $schema=plan.schema.json
"""


@click.command(epilog=EPILOG)
def schema() -> None:
    """Print a JSON Schema (2020-12) of the plan language, for editors to complete and check by.

    It knows keys, forms of values and names of shapes; `conductor check` knows the rest.
    """
    click.echo(json.dumps(made(SWITCHED, load().shapes.values()), ensure_ascii=False, indent=1))
