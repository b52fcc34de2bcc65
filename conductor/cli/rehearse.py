"""`conductor rehearse`: the class in front of nobody, faster, or only the hard parts of it."""

import json
import sys
from typing import TYPE_CHECKING

import click

from conductor.cli.how import How, Wish
from conductor.cli.lead import Asked, find, given_of, of_leading, run, settings_of, terminal
from conductor.values import replace
from conductor.view.rehearsing import with_rehearsal

if TYPE_CHECKING:  # what leads comes after the first picture
    from conductor.cli.classroom import Class


@click.command()
@click.argument("plan")
@click.option(
    "--speed",
    type=click.FloatRange(1, 60),
    default=1.0,
    metavar="TIMES",
    help="Begin so many times as fast, 1 to 60; < and > change it.",
)
@click.option("--part", "parts", multiple=True, metavar="NAME", help="Only this part; repeatable.")
@click.option("--side", type=click.Choice(["left", "right"]), help="Only what is led on this side.")
@click.option("--from", "first", metavar="SHAPE", help="Begin with the movement into this shape.")
@click.option("--to", "last", metavar="SHAPE", help="End after this shape, its stay included.")
@click.option("--json", "as_json", is_flag=True, help="End with marks and breath as JSON.")
@of_leading
def rehearse(plan: str, *, as_json: bool, **options: object) -> None:
    """Rehearse the class of PLAN: the screens and keys of a class, up to 60 times as fast.

    < and > change the speed (voice and bells up to 1.5 times, text above), / goes to any part or
    shape, m marks a place where you stumble, u and j tap your own inhale and exhale. It ends with
    the marks by line of the plan, and your breath by part. A rehearsal is not counted as a class
    and not resumed.
    """
    settings, wishes = settings_of(options)
    wishes = replace(wishes, actions=with_rehearsal(wishes.actions))
    parts = options["parts"]
    wish = Wish(
        parts=tuple(map(str, parts)) if isinstance(parts, tuple) else (),
        side=str(options["side"] or ""),
        first=str(options["first"] or ""),
        last=str(options["last"] or ""),
    )
    how = How(
        speed=float(str(options["speed"])),
        journal=not options["no_journal"],
        given=given_of(options),
        rehearsal=wish,
    )
    drawn = sys.stderr if as_json else sys.stdout
    plain = None if not options["plain"] and terminal(drawn) else drawn
    asked = Asked(find(plan), settings, how)
    status = run(asked, settings, how, wishes, plain)
    if asked.made is not None:
        _tell(asked.made, as_json=as_json)
    raise SystemExit(status)


def _tell(rehearsed: "Class", *, as_json: bool) -> None:
    """What the rehearsal leaves behind: its marks by line of the plan."""
    from conductor.cli.rehearsing import Rehearsed  # noqa: PLC0415 -- not before a picture

    led = rehearsed.led
    if not isinstance(led, Rehearsed):
        return  # it was left before it began
    if as_json:
        click.echo(json.dumps(led.as_data(), ensure_ascii=False, indent=2))
    else:
        click.echo("\n".join(led.remains()))
