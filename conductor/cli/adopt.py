"""`conductor adopt`: the lengths that were really led, written back into the plan."""

from collections.abc import Sequence
from pathlib import Path

import click

from conductor import store
from conductor.cli.opening import find, opened, opened_text
from conductor.cli.rewriting import MARK, refused, said_anew, shown, write
from conductor.cli.tell import tell
from conductor.findings import Weight
from conductor.plan import amounts
from conductor.plan.edit import Change, EditError, amount_set, changed
from conductor.plan.reading import Scalar
from conductor.plan.sheet import Sheet
from conductor.rewrite import Original, original
from conductor.run.review.kept import classes, heads
from conductor.run.review.propose import amount, wish_words
from conductor.run.review.wishes import CLASSES, Reviewed, Wish, wishes
from conductor.score.model import Score
from conductor.view.spell import breaths, count, span


@click.command()
@click.argument("plan")
@click.option(
    "--classes", "most", type=click.IntRange(1, 50), default=CLASSES, show_default=True,
    help="How many of the last classes are asked.",
)  # fmt: skip
@click.option("--now", is_flag=True, help="Take what there is, be it one class.")
@click.option("--yes", is_flag=True, help="Write without a question.")
@click.option(
    "-o", "--output", type=click.Path(dir_okay=False, path_type=Path),
    help="Write another file, and leave PLAN as it is.",
)  # fmt: skip
def adopt(plan: str, most: int, now: bool, yes: bool, output: Path | None) -> None:
    """Write into PLAN how long its stays were really led, once three classes are of one mind.

    Only amounts of stays change: words, comments, order and spacing stay as you wrote them. Of
    several classes the middle length is taken, in whole breaths and alike on both sides; classes
    that were rehearsed, or fitted to the clock, tell nothing. The lines are shown first, you are
    asked, and the file as it was is kept beside the new one.
    """
    path = find(plan)
    refused(path, output)
    old, score = _plan(path)
    asked = classes(heads(store.journals()), str(path.resolve()), score.meta.title, most)
    found = wishes(score, asked, 1 if now else most, most)
    if not found:
        click.echo(_nothing(asked, most, now=now))
        return
    text, taken = _adopted(old.text, found, score)
    if not taken:
        click.echo("No length that could be written is another than the plan's.")
        return
    after = opened_text(path, text.removeprefix(MARK)).score
    for wish in taken:
        click.echo(f"line {wish.place.line}: {wish_words(wish)}{_fitted(wish, after)}")
    click.echo()
    for line in shown(old.text, text, path.name):
        click.echo(line)
    _checked(path, old.text, text)
    write(old, text, output, yes=yes)


def _plan(path: Path) -> tuple[Original, Score]:
    """The file and its score; findings are told where there is none."""
    found = opened(path)
    if found.score is None:
        tell(found)
        raise SystemExit(1)
    return original(path), found.score


def _nothing(asked: Sequence[Reviewed], most: int, *, now: bool) -> str:
    """Why there is nothing to write, and what would change that."""
    if not asked:
        return "No class of this plan has been kept yet: lead it, then come back."
    if len(asked) < most and not now:
        kept = count(len(asked), "class of this plan has", "classes of this plan have")
        return f"{kept} been kept, {most} are asked for: --now takes what there is."
    return "Nothing to adopt: the stays were led as long as they are written."


def _adopted(text: str, found: Sequence[Wish], score: Score) -> tuple[str, list[Wish]]:
    """The text with those wishes that can be written in it, and which these are."""
    try:
        sheet = Sheet(text)
        made = [(wish, _change(sheet, wish, score)) for wish in found]
        changes = [change for _, change in made if change is not None]
        return changed(sheet, changes), [wish for wish, change in made if change is not None]
    except EditError as error:
        raise click.ClickException(f"the plan cannot be changed: {error}") from error


def _change(sheet: Sheet, wish: Wish, score: Score) -> Change | None:
    """The change of an amount; None where no amount stands there that is this stay's."""
    node = sheet.spot(wish.place).node
    written = amounts.amount(node.value) if type(node) is Scalar else None
    if written is None or bool(written[1]) is not wish.timed:
        return None
    halves, ms = written
    hold = score.holds[wish.holds[0]]
    as_planned = ms == hold.amount if wish.timed else halves == 2 * hold.amount + hold.half
    if not (as_planned or hold.stretchable):
        return None
    new = (0, ms + wish.by) if wish.timed else (halves + 2 * wish.by, 0)
    return amount_set(sheet, wish.place, halves=new[0], ms=new[1]) if max(new) > 0 else None


def _fitted(wish: Wish, after: Score | None) -> str:
    """What the class makes of the length, where it is fitted to one of its own."""
    hold = after.holds.get(wish.holds[0]) if after else None
    if hold is None or hold.amount == wish.wanted:
        return ""
    led = span(hold.amount) if hold.timed else breaths(hold.amount, hold.half)
    return f" Fitted to the plan's length it is {led}, not {amount(wish, wish.wanted)}."


def _checked(path: Path, old: str, new: str) -> None:
    """Tell what the check says of the new plan alone; an error is no plan to write."""
    fresh, words = said_anew(path, old, new)
    if fresh:
        click.echo("\nThe check says of it what it does not say of the plan as it is:\n")
        click.echo(words, nl=False)
    if any(one.weight is Weight.ERROR for one in fresh):
        raise click.ClickException("with an error it would not be led: nothing is written")
