"""One proposal for next time: the first of these that the class gives a reason for."""

from collections.abc import Sequence
from pathlib import PurePath

from conductor.run.review.account import LONGER, SHORTER
from conductor.run.review.model import Ending, Review, ShapeLed
from conductor.run.review.wishes import CLASSES, Reviewed, Wish, wishes
from conductor.sides import Side
from conductor.view.clean import clean
from conductor.view.faces import info_of, side_face
from conductor.view.spell import breaths, count, span

REST_LOST_MS = 20_000
REST_LOST_PART = 0.1
OVER_MS = 60_000
UNEVEN_MS = 5_000  # less is a movement led again, not a side held longer
LATE_CUES = 3

_NUMBERS = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine")


def proposal(now: Reviewed, earlier: Sequence[Reviewed]) -> str:
    """What to do another time; `earlier` are classes of the same plan, the newest first."""
    kinds = (_rest_lost(now), _uneven(now), _habit(now, earlier), _over(now.review))
    more = (_unsaid(now.review), _once(now))
    words = next((words for words in (*kinds, *more) if words), "")
    return words or _nothing(now.review)


def _nothing(review: Review) -> str:
    if review.not_reached or review.left_out > review.landed:
        return "Nothing to propose: not all of the plan was led."
    return "Nothing to change: the class went as planned."


def _rest_lost(now: Reviewed) -> str:
    if now.review.ending not in (Ending.FINISHED, Ending.ENDED):
        return ""
    planned = sum(hold.amount for hold in now.score.holds.values() if hold.rest and hold.timed)
    led = sum(stay.led for stay in now.review.stays if stay.rest and stay.timed)
    lost = planned - led
    if lost < max(REST_LOST_MS, planned * REST_LOST_PART):
        return ""
    if not led:
        return (
            f"It ended before its rest of {span(planned)}: r takes the shortest way down to it, "
            "at any moment."
        )
    early = now.review.planned - now.review.led
    if early >= lost / 2:
        return f"The rest lost {span(lost)} of {span(planned)}; there was time for it: let it run."
    return (
        f"The rest lost {span(lost)} of {span(planned)}. When time runs short, l lands the class "
        "on time and keeps the rest, and r takes the shortest way down to it."
    )


def uneven(review: Review) -> list[ShapeLed]:
    """Shapes led longer on one side than on the other, the most uneven first.

    One that was led on neither side is not uneven, whatever the plan gives it.
    """
    found = [one for one in review.shapes if (one.right or one.left) and apart(one) >= UNEVEN_MS]
    return sorted(found, key=apart, reverse=True)


def apart(shape: ShapeLed) -> int:
    """By how many ms the sides differ, beyond what the plan itself gives them."""
    return abs((shape.right - shape.left) - (shape.planned_right - shape.planned_left))


def _uneven(now: Reviewed) -> str:
    if now.review.ending not in (Ending.FINISHED, Ending.ENDED):
        return ""
    found = uneven(now.review)
    if not found:
        return ""
    worst = found[0]
    right = worst.right - worst.planned_right
    shorter = Side.LEFT if right > worst.left - worst.planned_left else Side.RIGHT
    face = side_face(shorter, info_of(now.score, worst.id))
    where = face.words if face else str(shorter)
    return (
        f"Watch the {where} in {clean(worst.name)}: it had {span(apart(worst))} less. "
        "Before the second side, + and - change the stay to come as well; a leads a side again."
    )


def _habit(now: Reviewed, earlier: Sequence[Reviewed]) -> str:
    found = () if now.review.rehearsal else wishes(now.score, (now, *earlier))
    if not found:
        return ""
    more = f" {count(len(found) - 1, 'other stay')} too." if len(found) > 1 else ""
    best = max(found, key=lambda wish: abs(wish.by) * len(wish.holds))
    return f"{wish_words(best)}{more} {adopting(now.review)} writes it into the plan."


def adopting(review: Review) -> str:
    """The command that writes it, for the plan as it is called in its folder."""
    name = clean(PurePath(review.plan).name)
    return f"`conductor adopt {name}`" if name else "`conductor adopt`"


def wish_words(wish: Wish) -> str:
    """A wish in full, with its reason."""
    new, old = amount(wish, wish.wanted), _bare(wish)
    classes = len(wish.led)
    by = {led - wish.planned for led in wish.led}
    which = "this class" if classes == 1 else f"each of the last {_number(classes)} classes"
    if len(by) == 1 and not wish.timed:
        did = "added" if wish.by > 0 else "left out"
        why = f"you {did} {_number(abs(by.pop()))} in {which}"
    else:
        led = ", ".join(amount(wish, one) for one in wish.led)
        why = f"it was led {led} in the last {_number(classes)} classes"
    return f"Write {new} instead of {old} for {clean(wish.shape)}: {why}."


def amount(wish: Wish, of: int) -> str:
    """A length of a stay as a plan has it."""
    return span(of) if wish.timed else breaths(of, wish.half)


def _bare(wish: Wish) -> str:
    """The length as planned, beside one that has named its kind already."""
    return amount(wish, wish.planned) if wish.timed or wish.half else str(wish.planned)


def _number(of: int) -> str:
    return _NUMBERS[of] if of < len(_NUMBERS) else str(of)


def _over(review: Review) -> str:
    goal = review.must_end if review.must_end is not None else review.planned
    over = review.led - goal
    if review.ending not in (Ending.FINISHED, Ending.ENDED) or over < OVER_MS:
        return ""
    if review.must_end is not None:
        return f"It ended {span(over)} late: l, pressed as soon as it stands late, fits the rest."
    stays = review.account[LONGER] + review.account[SHORTER]
    if stays >= over / 2:
        return f"The stays took {span(stays)} more than written: write them so, or shorten others."
    return f"It ran {span(over)} over: `--end HH:MM` leads it to end on time, l lands it in class."


def _unsaid(review: Review) -> str:
    spoken = review.spoken
    if spoken.late + spoken.dropped < LATE_CUES:
        return ""
    told = f"{count(spoken.late, 'cue')} came late and {spoken.dropped} were not said"
    return f"{told}: `conductor check --voice` says which are too long for their breath."


def _once(now: Reviewed) -> str:
    found = wishes(now.score, (now,), least=1, most=1)
    if not found:
        return ""
    one = max(found, key=lambda wish: abs(wish.by) * len(wish.holds))
    led, old = amount(one, one.led[0]), _bare(one)
    again = f"after {_number(CLASSES)} classes of one mind {adopting(now.review)} writes it"
    return f"{clean(one.shape).capitalize()} was led {led} instead of {old}: {again}."
