"""A person's breath from their taps: inhale, exhale and whole breath, or why it cannot be told."""

from collections.abc import Sequence
from itertools import pairwise

from conductor.breathing.model import Estimate, Reading, Tap, Turns
from conductor.breathing.robust import LEAST, estimate, median
from conductor.breathing.turns import read, settled
from conductor.sides import Breath

ENOUGH_S = 120  # two minutes: a dozen breaths at six a minute, forty at twenty
FASTEST_MS = 1_200  # of a whole breath: fifty a minute, more than anybody breathes at rest
SLOWEST_MS = 90_000
UNEVEN = 0.35  # of the middle: as far off as this is no usual length

NONE = "No breath has been tapped yet."
FEW = "Too few to tell: {} of {} whole breaths. Two minutes are enough."
ONE_KEY = (
    "Only each {one} was tapped: a whole breath is known, but not its halves. Tap each {other} too."
)
FAST = "These taps come every {:.1f} s, faster than anybody breathes. Tap once as each half begins."
SLOW = "These taps come every {:.0f} s, slower than anybody breathes. Tap as each half begins."
UNEVEN_WORDS = "Too uneven to tell: one {} is off from another by {:.0f} %. Breathe and tap on."


def measured(taps: Sequence[Tap]) -> Reading:
    """All that the taps tell."""
    taps = settled(taps)
    seconds = (taps[-1].at - taps[0].at) // 1000 if taps else 0
    if len(taps) < 2:
        return Reading(seconds=seconds, trouble=NONE if not taps else FEW.format(0, LEAST))
    trouble = _senseless(taps)
    if trouble:
        return Reading(seconds=seconds, trouble=trouble)
    labels = {tap.breath for tap in taps}
    if len(labels) == 1 and None not in labels:
        return _of_one_key(taps, seconds)
    turns = read(taps)
    return _read(turns, seconds)


def _senseless(taps: Sequence[Tap]) -> str:
    """Why taps are no breath at all, "" where they may be one."""
    gap = median([two.at - one.at for one, two in pairwise(taps)])
    halves = 1 if len({tap.breath for tap in taps}) == 1 and taps[0].breath else 2
    if gap * halves < FASTEST_MS:
        return FAST.format(gap / 1000)
    return SLOW.format(gap / 1000) if gap * halves > SLOWEST_MS else ""


def _of_one_key(taps: Sequence[Tap], seconds: int) -> Reading:
    """Only one of the two keys was pressed: whole breaths, a tap each."""
    one = taps[0].breath or Breath.IN
    names = {Breath.IN: "inhale", Breath.OUT: "exhale"}
    turned = read([Tap(tap.at) for tap in taps])  # in halves that are whole breaths
    wholes = tuple((half.at, half.ms) for half in turned.halves)
    words = ONE_KEY.format(one=names[one], other=names[one.other])
    turns = Turns(wholes=wholes, pauses=turned.pauses, doubled=turned.doubled)
    return Reading(turns, breath=estimate(wholes), seconds=seconds, trouble=words)


def _read(turns: Turns, seconds: int) -> Reading:
    inhale, exhale = (
        estimate([(half.at, half.ms) for half in turns.halves if half.breath is breath])
        for breath in (Breath.IN, Breath.OUT)
    )
    whole = estimate(turns.wholes)
    if inhale is None or exhale is None:
        counts = [
            sum(half.breath is one for half in turns.halves) for one in (Breath.IN, Breath.OUT)
        ]
        return Reading(turns, seconds=seconds, trouble=FEW.format(min(counts), LEAST))
    trouble = _uneven(inhale, "inhale") or _uneven(exhale, "exhale")
    return Reading(turns, inhale, exhale, whole, seconds, trouble)


def _uneven(half: Estimate, name: str) -> str:
    off = half.spread / max(half.ms, 1)
    return UNEVEN_WORDS.format(name, 100 * off) if off > UNEVEN else ""
