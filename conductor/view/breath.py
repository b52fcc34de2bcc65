"""A sitting of tapping one's breath in the words of a front end."""

from conductor.breathing.measure import ENOUGH_S
from conductor.breathing.model import Estimate, Half, Reading
from conductor.breathing.published import standing
from conductor.breathing.session import Session
from conductor.breathing.words import CARE, SHORT_CARE, amiss, proposed, rate, seconds
from conductor.sides import Breath
from conductor.values import Struct
from conductor.view.spell import clock, count

BEGIN = (
    "Breathe as you like. Press ↑ as each inhale begins and ↓ as each exhale begins; or hold ↑ "
    "through each inhale, or press Space at every turn. Two minutes are enough."
)
KEYS = "↑ inhale  ↓ exhale  Space either  r anew  Enter done"
FEW_KEYS = "↑ in ↓ out Space r anew Enter done"
USUAL_MS = 4000  # how long a half is drawn before anything is known of it


class BreathView(Struct, frozen=True):
    """One picture of a sitting. `halves` are what was breathed, the running one last (ms).

    `long` is how long a half usually is, by which the running one is drawn.
    """

    time: str
    phase: str
    inhale: str
    exhale: str
    inhale_sure: str
    exhale_sure: str
    rate: str
    told: tuple[str, ...]
    halves: tuple[Half, ...]
    usual: tuple[int, int]


def breath_view(session: Session, now: int) -> BreathView:
    """The sitting at `now` (ms)."""
    reading = session.reading(now)
    running = session.running(now)
    begun = session.taps(now)[:1]
    sat = now - begun[0].at if begun else 0
    return BreathView(
        time=f"{clock(sat)} of {clock(ENOUGH_S * 1000)}" if begun else "",
        phase={Breath.IN: "INHALE", Breath.OUT: "EXHALE"}[running.breath] if running else "",
        inhale=_long(reading.inhale),
        exhale=_long(reading.exhale),
        inhale_sure=_sure(reading.inhale),
        exhale_sure=_sure(reading.exhale),
        rate=rate(reading.breath) if reading.breath else "",
        told=_told(reading, begun=bool(begun)),
        halves=(*reading.turns.halves, *((running,) if running else ())),
        usual=(
            reading.inhale.ms if reading.inhale else USUAL_MS,
            reading.exhale.ms if reading.exhale else USUAL_MS,
        ),
    )


def _long(half: Estimate | None) -> str:
    return seconds(half.ms) if half else "-"


def _sure(half: Estimate | None) -> str:
    return f"{half.low / 1000:.1f} to {seconds(half.high)}" if half else ""


def _told(reading: Reading, *, begun: bool) -> tuple[str, ...]:
    """What to know or do, the most urgent first."""
    if not begun:
        return (BEGIN, CARE)
    if reading.trouble:
        heard = count(len(reading.turns.wholes), "breath")
        return (f"{heard} so far.", reading.trouble, SHORT_CARE, amiss(reading))
    enough = reading.seconds >= ENOUGH_S
    done = f"Enough. For a plan: breath: {proposed(reading)}" if enough else ""
    where = standing(reading.breath.ms) if reading.breath else ()
    return (done, SHORT_CARE, *where, amiss(reading))
