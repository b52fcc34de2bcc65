"""`conductor breath`: how long one's own inhale and exhale are, tapped in two minutes."""

import json
import sys
from typing import TextIO

import click

from conductor import store
from conductor.breathing.session import Session
from conductor.breathing.words import CARE, as_data, lines, proposed
from conductor.cli.lead import terminal
from conductor.clock import Clock, SystemClock
from conductor.sides import Breath
from conductor.values import replace

BEGIN = (
    "Breathe as you like. Press Enter as each inhale begins and as each exhale begins, an inhale "
    "first; or type i for an inhale and o for an exhale before it. q and Enter end it. Two minutes "
    "are enough."
)
TYPED = {"": None, "i": Breath.IN, "in": Breath.IN, "o": Breath.OUT, "out": Breath.OUT}


@click.command()
@click.option("--plain", is_flag=True, help="Lines of text and the Enter key instead of a screen.")
@click.option("--json", "as_json", is_flag=True, help="End with the figures as JSON.")
@click.option("--write", "plan", metavar="PLAN", help="Offer to write the breath into this plan.")
@click.option("--part", metavar="NAME", help="Into this part of the plan, not its head.")
@click.option("--yes", is_flag=True, help="Write without a question.")
@click.option("--theme", type=click.Choice(["dark", "light", "contrast"]), help="Colours.")
def breath(
    plain: bool, as_json: bool, plan: str | None, part: str | None, yes: bool, theme: str | None
) -> None:
    """Measure your own breath: tap as each inhale and each exhale begins, for two minutes.

    Missed, doubled and wrong taps are allowed for. Told are the length of both halves, how sure
    that is, whether it changed, how it stands to published figures, and the line for a plan.
    Breathing practice can make dizzy: then stop, and breathe as you like. No medical advice.
    """
    if part and not plan:
        raise click.UsageError("--part says where in the plan of --write PLAN")
    to = None
    if plan:
        from conductor.cli.breath_write import target  # noqa: PLC0415 -- only to write

        to = target(plan, part)
    session, clock = Session(), SystemClock()
    drawn = sys.stderr if as_json else sys.stdout
    if plain or not terminal(drawn):
        _listen(session, clock, drawn)
    else:
        _sit(session, clock, theme)
    reading = session.reading()
    if as_json:
        click.echo(json.dumps(as_data(reading), ensure_ascii=False, indent=2))
    else:
        click.echo("\n".join((*lines(reading), CARE)))
    if to:
        if not proposed(reading):
            raise click.ClickException("no breath could be measured: nothing is written")
        from conductor.cli.breath_write import write_breath  # noqa: PLC0415 -- only to write

        write_breath(to, proposed(reading), yes=yes)
    raise SystemExit(1 if reading.trouble else 0)


def _sit(session: Session, clock: Clock, theme: str | None) -> None:
    from conductor.screens.breathing import BreathApp  # noqa: PLC0415 -- textual only here

    settings = store.kept().settings
    settings = replace(settings, theme=theme) if theme else settings
    BreathApp(session, clock.now, settings).run(mouse=False)


def _listen(session: Session, clock: Clock, out: TextIO) -> None:
    """Take a tap a line until q, the end of the input or Ctrl+C."""
    click.echo(f"{BEGIN}\n{CARE}", out)
    told = 0
    try:
        for line in sys.stdin:
            now, word = clock.now(), line.strip().lower()
            if word in ("q", "quit", "done"):
                break
            if word not in TYPED:
                click.echo("Enter alone, i or o and Enter, or q and Enter.", out)
                continue
            session.press(now, TYPED[word])
            reading = session.reading(now)
            if reading.breath and reading.breath.count >= told + 5:
                told = reading.breath.count
                click.echo(f"{told} breaths, {reading.seconds} s: {proposed(reading)}", out)
    except KeyboardInterrupt:
        click.echo("", out)
