"""The command line: builds everything, and imports each verb's code only when it is used."""

import gc
import importlib
import sys
from typing import TYPE_CHECKING

import click

from conductor import __version__
from conductor.uncollected import uncollected

if TYPE_CHECKING:
    from click.shell_completion import CompletionItem

_VERBS = {
    "lead": ("conductor.cli.lead", "Lead a class from a plan, live."),
    "rehearse": ("conductor.cli.rehearse", "Rehearse a class: faster, or its hard parts alone."),
    "breath": ("conductor.cli.breath", "Measure your own breath, for the breath of a plan."),
    "check": ("conductor.cli.check", "Prove plans sound before anybody stands on a mat."),
    "adopt": ("conductor.cli.adopt", "Write the lengths that were really led into the plan."),
    "review": ("conductor.cli.review", "Tell how a class went, and what to change next time."),
    "new": ("conductor.cli.new", "Write a first plan for a length and a focus."),
    "score": ("conductor.cli.score", "Print the compiled plan, moment by moment."),
    "picture": ("conductor.cli.picture", "Draw a class as lanes over its time."),
    "fit": ("conductor.cli.fit", "Fit a plan to another length, and write it back."),
    "compare": ("conductor.cli.compare", "Say what changed between two classes, and draw both."),
    "watch": ("conductor.cli.watch", "Check a plan whenever it is saved, while you write it."),
    "language": ("conductor.cli.lists", "Show the plan language: every key with an example."),
    "schema": ("conductor.cli.schema", "Print the plan language as a JSON Schema for editors."),
    "plans": ("conductor.cli.lists", "List the plans that come with the program."),
    "shapes": ("conductor.cli.lists", "List shapes, or search them."),
    "shape": ("conductor.cli.lists", "Show one shape wholly."),
    "rules": ("conductor.cli.lists", "List the rules of the check."),
    "rule": ("conductor.cli.lists", "Explain one rule."),
    "keys": ("conductor.cli.keys", "List the keys in class, and start a list of your own."),
    "screen": ("conductor.cli.screen", "Measure this terminal, so that letters are large enough."),
    "voices": ("conductor.cli.voices", "List the voices there are, and hear one."),
    "audio": ("conductor.cli.audio", "Write a whole class as a sound file."),
    "completion": ("conductor.cli.completion", "Print what a shell needs to complete all this."),
}


class _Verbs(click.Group):
    """A group whose commands are loaded when they are asked for."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        return [*_VERBS]

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        if cmd_name not in _VERBS:
            return None
        module = importlib.import_module(_VERBS[cmd_name][0])
        if cmd_name != "check":
            gc.enable()  # what may run for an hour looks for garbage in circles as ever
        command = getattr(module, cmd_name)
        assert isinstance(command, click.Command)  # noqa: S101 -- the table names commands
        return _offering(command) if ctx.resilient_parsing else command

    def shell_complete(self, ctx: click.Context, incomplete: str) -> "list[CompletionItem]":
        """Offer the verbs from their table: nothing is loaded to complete one."""
        from conductor.cli.completing import starting  # noqa: PLC0415 -- only at the tab key

        verbs = starting({verb: text for verb, (_, text) in _VERBS.items()}, incomplete)
        return [*verbs, *click.Command.shell_complete(self, ctx, incomplete)]

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        with formatter.section("Commands"):
            formatter.write_dl([(verb, text) for verb, (_, text) in _VERBS.items()])

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        try:
            return super().resolve_command(ctx, args)
        except click.UsageError as error:
            near = _near(args[0]) if args else None
            if near:
                raise click.UsageError(f"{error.message} Did you mean {near}?", ctx) from error
            raise


def _offering(command: click.Command) -> click.Command:
    from conductor.cli.completing import offering  # noqa: PLC0415 -- only at the tab key

    return offering(command)


def _near(word: str) -> str | None:
    from rapidfuzz import process  # noqa: PLC0415 -- only on a slip

    match = process.extractOne(word, list(_VERBS), score_cutoff=60)
    return match[0] if match else None


@click.group(cls=_Verbs, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(__version__, prog_name="conductor")
def cli() -> None:
    """Lead a breath-linked movement class from a plain text plan.

    Conductor replaces neither a teacher's training nor medical advice.
    """


def main() -> None:
    """Run the command line; text goes out in UTF-8 whatever the machine's own encoding is."""
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(encoding="utf-8", errors="replace")
    with uncollected():
        try:
            cli()
        finally:
            gc.freeze()  # all of it ends now: to look through it for circles would take long
