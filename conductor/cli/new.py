"""`conductor new`: ask a few questions, or take options, and write a first plan."""

import random
import sys
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import TypeVar

import click

from conductor.cli.opening import Opened, opened_text
from conductor.cli.tell import tell
from conductor.draft.draft import Draft, drafts
from conductor.draft.graph import shapes
from conductor.draft.tree import Tempo
from conductor.draft.wish import (
    MEANS,
    CannotError,
    Focus,
    Wish,
    agreeing,
    focus_of,
    length_of,
    people_of,
    tempo_of,
    title_of,
    usual_tempo,
)
from conductor.findings import Weight
from conductor.plan.amounts import amount, tempo
from conductor.sides import Side

T = TypeVar("T")
SEEDS = 10_000
STDOUT = "-"

EPILOG = """
\b
Focus:
  hips       {hips}
  backbend   {backbend}
  balance    {balance}
  slow       {slow}

On a terminal, what no option gives is asked; Enter takes the answer in brackets. Elsewhere it is
taken without asking. The same options and the same seed write the same plan again.

\b
  conductor new --length 45min --focus hips -o tuesday.yaml
  conductor new --focus slow --for beginners --seed 7 -o -
""".format(**{focus.value: MEANS[focus] for focus in Focus})


@click.command(epilog=EPILOG)
@click.option("--length", metavar="TIME", help="10 to 90 min, such as 45min.")
@click.option("--focus", metavar="FOCUS", help="hips, backbend, balance or slow.")
@click.option(
    "--for",
    "people",
    metavar="WORDS",
    help="Whom it is for: beginners get gentle shapes, mixed level more, experienced strong ones.",
)
@click.option("--breath", metavar="TEMPO", help="Such as '4 s in, 5 s out'.")
@click.option("--first-side", metavar="SIDE", help="right or left.")
@click.option("--seed", type=click.IntRange(min=0), help="Another number, another plan.")
@click.option("--title", help="What the class is called; left out, it gets a name.")
@click.option("-o", "--output", metavar="FILE", help="Where to write; - writes to the terminal.")
@click.option("--force", is_flag=True, help="Write over a file that is there.")
def new(**asked: object) -> None:
    """Write a first plan: sound, commented, and there to be changed."""
    given = {name: None if value is None else str(value) for name, value in asked.items()}
    try:
        wish = agreeing(_wish(given))
    except CannotError as error:
        raise click.UsageError(str(error)) from error
    draft, found = _sound(wish)
    _write(draft, wish, found, given["output"], force=bool(asked["force"]))


def _wish(given: Mapping[str, str | None]) -> Wish:
    """What options say, and what is answered to the questions they leave."""
    focus = _answer("What should the class lead up to", given["focus"], "hips", focus_of, _FOCUSES)
    usual = usual_tempo(focus)
    breath = f"{usual.inhale // 1000} s in, {usual.exhale // 1000} s out"
    seed = given["seed"]
    return Wish(
        minutes=_answer("How long is it", given["length"], "45 min", _length),
        focus=focus,
        people=_answer("Whom is it for", given["people"], "mixed level", people_of, _PEOPLE),
        tempo=_answer("How long is a breath", given["breath"], breath, _tempo),
        first_side=_answer("Which side is led first", given["first_side"], "right", _side),
        seed=random.SystemRandom().randrange(1, SEEDS) if seed is None else int(seed),
        title=title_of(given["title"] or ""),
    )


_FOCUSES = "".join(f"  {focus.value:<10} {MEANS[focus]}\n" for focus in Focus)
_PEOPLE = "  beginners, mixed level or experienced, in your own words\n"


def _answer(
    question: str, given: str | None, usual: str, read: Callable[[str], T], told: str = ""
) -> T:
    """What an option gives, or what is answered; a bad answer is asked for again."""
    if given is not None:
        try:
            return read(given)
        except CannotError as error:
            raise click.UsageError(str(error)) from error
    if not _asks():
        return read(usual)
    if told:
        click.echo(told, err=True, nl=False)
    while True:
        answer = click.prompt(question, default=usual, err=True)
        try:
            return read(str(answer))
        except CannotError as error:
            click.echo(f"  {error}", err=True)


def _asks() -> bool:
    """Whether there is somebody to ask."""
    return sys.stdin.isatty() and sys.stderr.isatty()


def _length(text: str) -> int:
    plain = text.strip()
    _, ms = amount(f"{plain} min" if plain.isdecimal() else plain) or (0, 0)
    if not ms:
        raise CannotError(f"{text!r} is no length: write 45 min, or 1 h 15 min")
    return length_of(ms)


def _tempo(text: str) -> Tempo:
    found = tempo(text)
    if found is None:
        raise CannotError(f"{text!r} is no breath: write 4 s in, 5 s out, or 6 a minute")
    return tempo_of(*found)


def _side(text: str) -> Side:
    try:
        return Side(text.strip().lower())
    except ValueError:
        raise CannotError(f"{text!r} is no side: right or left") from None


def _sound(wish: Wish) -> tuple[Draft, Opened]:
    """The first draft of which the check has nothing to say; else the one with least against it."""
    tried: list[tuple[Draft, Opened]] = []
    try:
        for draft in drafts(wish):
            found = opened_text(Path("plan.yaml"), draft.text)
            if not found.findings and found.leadable:
                return draft, found
            tried.append((draft, found))
    except CannotError as error:
        raise click.UsageError(str(error)) from error
    return min(tried, key=lambda one: _against(one[1]))


def _against(found: Opened) -> tuple[int, ...]:
    weights = [finding.weight for finding in found.findings]
    return tuple(weights.count(weight) for weight in Weight)


def _write(draft: Draft, wish: Wish, found: Opened, output: str | None, *, force: bool) -> None:
    if found.findings:
        tell(found)
    if output == STDOUT:
        click.echo(draft.text, nl=False)
        return
    usual = f"{slug(draft.title)}.yaml"
    name = output or (
        click.prompt("Where to write it", default=usual, err=True) if _asks() else usual
    )
    path = Path(name)
    if path.is_dir():
        path /= usual
    _save(path, draft.text, force)
    shape = shapes()[draft.peak.shape].name
    told = "the check has nothing to say" if not found.findings else "see what the check says above"
    click.echo(
        f"{path}: “{draft.title}”, {wish.minutes} min, leads up to {shape}; {told}.", err=True
    )
    click.echo("It replaces neither a teacher's training nor medical advice.", err=True)
    click.echo(f"Seed {wish.seed}: another --seed writes another class.", err=True)
    click.echo(
        f"Change what you like, then: conductor check {path}; conductor lead {path}", err=True
    )


def _save(path: Path, text: str, force: bool) -> None:
    """Write the plan; what is there already is written over only when that is wanted."""
    mode = "x"
    if path.exists():
        if not force and not (
            _asks() and click.confirm(f"{path} is there. Write over it?", err=True)
        ):
            raise click.UsageError(
                f"{path} is there already: name another -o FILE, or give --force"
            )
        mode = "w"
    try:
        with path.open(mode, encoding="utf-8", newline="\n") as file:
            file.write(text)
    except OSError as error:
        raise click.ClickException(f"{path}: {error.strerror}") from error


def slug(title: str) -> str:
    """A title as the name of a file."""
    plain = "".join(sign if sign.isalnum() else " " for sign in title.lower())
    return "-".join(plain.split()) or "plan"
