"""From keys to taps: a key held down repeats, and where its repeats end it was let go.

Hardly any terminal tells when a key is let go. But a held key repeats, after half a second or so
and then some thirty times a second, so the last repeat stands for the letting go.
"""

from collections.abc import Sequence

from conductor.breathing.model import Tap
from conductor.sides import Breath

FIRST_MS = 720  # until a held key repeats: 250 to 660 ms are usual (from memory)
REPEAT_MS = 120  # between repeats: 25 to 40 ms are usual (from memory); slow terminals lag
HELD = 4  # events in a row that only a held key makes


def taps(events: Sequence[Tap], now: int | None = None) -> tuple[Tap, ...]:
    """The taps that key events stand for: held keys give one as they go down and one at the end.

    A key held for an inhale says that the exhale begins as it is let go, and the other way round.
    `now` (ms) is the present, for a key that may still be down.
    """
    found: list[Tap] = []
    for row in _rows(events):
        first, last = row[0], row[-1]
        if len(row) < HELD:
            found += row
            continue
        breath = first.breath or Breath.IN  # one key for all is held through the inhale
        found.append(Tap(first.at, breath))
        if now is None or now - last.at > REPEAT_MS:
            found.append(Tap(last.at, breath.other))
    return tuple(found)


def _rows(events: Sequence[Tap]) -> list[list[Tap]]:
    """Events of one key in rows that a held key may have made."""
    rows: list[list[Tap]] = []
    for event in events:
        row = rows[-1] if rows else []
        gap = event.at - row[-1].at if row else 0
        most = FIRST_MS if len(row) == 1 else REPEAT_MS
        if row and row[-1].breath is event.breath and gap <= most:
            row.append(event)
        else:
            rows.append([event])
    return rows
