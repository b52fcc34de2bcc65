"""A measured breath in words: how long, how sure, how it changed; and as a plan writes it."""

from conductor.breathing.measure import ENOUGH_S
from conductor.breathing.model import Estimate, Reading
from conductor.breathing.published import standing

CARE = (
    "This is no medical advice, and no breath is right for everybody. If you feel dizzy or short "
    "of breath, stop and breathe as you like."
)
SHORT_CARE = "Dizzy? Stop, and breathe as you like. No medical advice."
STEP_MS = 100  # a tenth of a second: finer than anybody breathes
SURE = "19 times in 20"


def proposed(reading: Reading) -> str:
    """The value of `breath:` that a plan would have, to a tenth of a second; "" with trouble."""
    if reading.trouble or not reading.inhale or not reading.exhale:
        return ""
    return f"{_plain(reading.inhale.ms)} s in, {_plain(reading.exhale.ms)} s out"


def _plain(ms: int) -> str:
    return f"{max(round(ms / STEP_MS), 1) * STEP_MS / 1000:g}"


def seconds(ms: int) -> str:
    """A length in seconds with one decimal: 4.0 s."""
    return f"{ms / 1000:.1f} s"


def half(name: str, estimate: Estimate) -> str:
    """One half in a line: its middle, how sure that is, how far single ones are off."""
    between = f"{estimate.low / 1000:.1f} and {seconds(estimate.high)}"
    return (
        f"{name}: {seconds(estimate.ms)}; {SURE} between {between}; "
        f"one is usually {estimate.spread / 1000:.1f} s off, from {estimate.count}"
    )


def rate(breath: Estimate) -> str:
    """Breaths a minute with their bounds."""
    low, middle, high = (60_000 / max(ms, 1) for ms in (breath.high, breath.ms, breath.low))
    return f"{middle:.1f} breaths a minute ({low:.1f} to {high:.1f})"


def drift(reading: Reading) -> str:
    """How the breath changed over the minutes, "" where it surely did not."""
    breath = reading.breath
    if breath is None or not breath.drifts or reading.seconds < ENOUGH_S // 2:
        return ""
    way = "longer" if breath.drift > 0 else "shorter"
    low, high = sorted((abs(breath.drift_low), abs(breath.drift_high)))
    return (
        f"A breath grew {way} by {seconds(abs(breath.drift))} a minute "
        f"({low / 1000:.1f} to {seconds(high)})."
    )


def amiss(reading: Reading) -> str:
    """What was wrong with the taps and has been allowed for, "" where nothing was."""
    turns = reading.turns
    told = [
        f"{number} {words}"
        for number, words in (
            (turns.missed, "missed"),
            (turns.doubled, "too many"),
            (turns.wrong, "of the other key"),
        )
        if number
    ]
    taps = f"Taps allowed for: {', '.join(told)}." if told else ""
    left_out = f"Left out: {_pauses(turns.pauses)}." if turns.pauses else ""
    return " ".join(word for word in (taps, left_out) if word)


def _pauses(pauses: tuple[int, ...]) -> str:
    lasted = ", ".join(seconds(ms) for ms in pauses[:3])
    return f"{len(pauses)} {'pause' if len(pauses) == 1 else 'pauses'} ({lasted})"


def lines(reading: Reading) -> tuple[str, ...]:
    """All there is to tell, a line each; what to write into a plan comes last."""
    told = [reading.trouble] if reading.trouble else []
    if reading.inhale and reading.exhale:
        told += [half("Inhale", reading.inhale), half("Exhale", reading.exhale)]
    if reading.breath:
        told.append(f"{rate(reading.breath)}:")
        told += [f"  {line}" for line in standing(reading.breath.ms)]
        told.append(drift(reading))
    told.append(amiss(reading))
    if proposed(reading):
        told += [sureness(reading), f"For a plan: breath: {proposed(reading)}"]
    return tuple(line for line in told if line)


def sureness(reading: Reading) -> str:
    """What the figures are good for: this sitting, and how long it was."""
    short = " Two minutes would make it surer." if reading.seconds < ENOUGH_S else ""
    return f"Measured over {reading.seconds} s of this sitting; another day differs.{short}"


def as_data(reading: Reading) -> dict[str, object]:
    """The same for programs; ms."""
    return {
        "seconds": reading.seconds,
        "trouble": reading.trouble,
        "breath": proposed(reading),
        **{
            name: _data(estimate)
            for name, estimate in (
                ("inhale", reading.inhale),
                ("exhale", reading.exhale),
                ("whole", reading.breath),
            )
        },
        "missed": reading.turns.missed,
        "doubled": reading.turns.doubled,
        "wrong_key": reading.turns.wrong,
        "pauses_ms": list(reading.turns.pauses),
        "published": list(standing(reading.breath.ms)) if reading.breath else [],
    }


def _data(estimate: Estimate | None) -> dict[str, object] | None:
    if estimate is None:
        return None
    return {
        "ms": estimate.ms,
        "sure_95_percent_ms": [estimate.low, estimate.high],
        "spread_ms": estimate.spread,
        "drift_ms_a_minute": estimate.drift,
        "drift_95_percent": [estimate.drift_low, estimate.drift_high],
        "count": estimate.count,
    }
