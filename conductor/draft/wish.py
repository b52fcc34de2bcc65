"""What somebody wishes for: length, focus, people, breath; and why a wish cannot be met."""

from enum import StrEnum

from conductor.checks.care_words import BEGINNERS, codes
from conductor.draft.tree import Tempo
from conductor.patterns import pattern
from conductor.shapes.cautions import legend
from conductor.sides import Side
from conductor.values import Struct
from conductor.view.clean import clean

SHORTEST_MIN, LONGEST_MIN = 10, 90
HALF_MS = (3_000, 7_000)  # slower or faster the words and holds of a moving class do not fit
SLOW_MS = 8_000  # a breath of a slow class: 7.5 a minute; slow is 4 to 10 (Russo et al. 2017)
MOST_RATIO = 2
TITLE_CHARS = 80


class Focus(StrEnum):
    """What a class leads up to."""

    HIPS = "hips"
    BACKBEND = "backbend"
    BALANCE = "balance"
    SLOW = "slow"


MEANS = {
    Focus.HIPS: "opens the hips, and ends its way up in a deep hip opener",
    Focus.BACKBEND: "warms the spine toward a backbend, and undoes it",
    Focus.BALANCE: "steadies the feet toward standing on one leg",
    Focus.SLOW: "few shapes, long stays, no salutations",
}


class CannotError(ValueError):
    """A wish that no sound class can meet; the words say why, and what can be."""


class Wish(Struct, frozen=True):
    """A wish that can be met. `level` is that of the catalogue: 1 gentle, 2 mixed, 3 strong."""

    minutes: int = 45
    focus: Focus = Focus.HIPS
    people: str = "mixed level"
    tempo: Tempo = Tempo(4_000, 4_000)
    first_side: Side = Side.RIGHT
    seed: int = 1
    title: str = ""

    @property
    def length(self) -> int:
        """Milliseconds of the class."""
        return self.minutes * 60_000

    @property
    def level(self) -> int:
        """How strong a shape may be, as the words for the people say."""
        if BEGINNERS.search(self.people) or _GENTLE.search(self.people):
            return 1
        return 3 if _STRONG.search(self.people) else 2


_GENTLE = pattern(r"(?i)\b(?:gentle|easy|new to|first class|restorative|everybody|all levels)\b")
_STRONG = pattern(r"(?i)\b(?:advanced|experienced|strong|years of practice|teachers)\b")


def usual_tempo(focus: Focus) -> Tempo:
    """The breath when none is asked for: slower where the class is slow."""
    return Tempo(5_000, 5_000) if focus is Focus.SLOW else Tempo(4_000, 4_000)


def focus_of(text: str) -> Focus:
    """The focus of that name, or what there is."""
    try:
        return Focus(text.strip().lower())
    except ValueError:
        names = ", ".join(focus.value for focus in Focus)
        raise CannotError(f"no class is drafted toward {text!r}: give one of {names}") from None


def title_of(text: str) -> str:
    """A title on one line, without what is no letter, sign or space."""
    return " ".join(clean(text).split())[:TITLE_CHARS]


def length_of(ms: int) -> int:
    """Whole minutes of a length, or why there is no class of it."""
    minutes, rest = divmod(ms, 60_000)
    if rest:
        words = f"a class is drafted in whole minutes: {minutes} min or {minutes + 1} min"
        raise CannotError(words)
    if not SHORTEST_MIN <= minutes <= LONGEST_MIN:
        words = "too short for an arrival, a warm-up, a peak and a rest"
        words = words if minutes < SHORTEST_MIN else "longer than what can be drafted well"
        possible = f"give {SHORTEST_MIN} to {LONGEST_MIN} min"
        raise CannotError(f"{minutes} min is {words}: {possible}")
    return minutes


def tempo_of(inhale: int, exhale: int) -> Tempo:
    """A breath that a class can be drafted in, or why it cannot."""
    least, most = HALF_MS
    if not (least <= inhale <= most and least <= exhale <= most):
        told = f"{inhale / 1000:g} s in and {exhale / 1000:g} s out"
        can = f"each half from {least / 1000:g} to {most / 1000:g} s"
        raise CannotError(f"no class is drafted at {told}: give {can}, for example 4 s in, 5 s out")
    if max(inhale, exhale) > MOST_RATIO * min(inhale, exhale):
        words = "one half of the breath is more than twice as long as the other"
        raise CannotError(f"{words}: that is breathing practice, not a class that moves")
    return Tempo(inhale, exhale)


def agreeing(wish: Wish) -> Wish:
    """The wish, if its parts agree with each other."""
    slow = wish.focus is Focus.SLOW
    if slow and wish.tempo.breath < SLOW_MS:
        told = f"{wish.tempo.inhale / 1000:g} s in and {wish.tempo.exhale / 1000:g} s out"
        words = f"a slow class and a breath of {told} contradict each other"
        raise CannotError(f"{words}: give 4 s in, 4 s out or slower, or another focus")
    return wish


def people_of(text: str) -> str:
    """The words for the people, or why a draft is not for them.

    A class for people whom a caution concerns is made by somebody who knows them.
    """
    words = " ".join(clean(text).split())
    concerned = [legend().get(code, code) for code in codes(words)]
    if concerned:
        raise CannotError(
            f"no class is drafted for people whom a caution concerns ({', '.join(concerned)}): "
            "that is for somebody trained for it, and for medical or licensed advice. "
            "What can be: beginners, mixed level, experienced"
        )
    return words or "mixed level"
