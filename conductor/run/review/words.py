"""A review in words: three things first, and below them the figures."""

from collections.abc import Iterable, Sequence

from conductor.engine.model import Do
from conductor.run.review import account
from conductor.run.review.model import Ending, Review, ShapeLed, Waited
from conductor.run.review.propose import UNEVEN_MS, proposal, uneven
from conductor.run.review.wishes import Reviewed
from conductor.score.model import Score
from conductor.sides import Side
from conductor.view.after import After
from conductor.view.clean import clean
from conductor.view.faces import info_of, side_face
from conductor.view.spell import clock, count, span

LEAST_MS = 3_000  # of the account; less is rounding and the turn of a breath
ON_TIME_MS = 20_000
MOST_TOLD = 4  # things told first; the rest stands in the figures
WIDTH = 24

_MORE = {
    account.HELD: "held",
    account.STOPPED: "stopped",
    account.AWAY: "away",
    account.COMING: "coming in again",
    account.LONGER: "longer stays",
    account.AGAIN: "led again",
    account.BREATH: "slower breath",
}
_LESS = {
    account.LEFT_OUT: "left out",
    account.NOT_REACHED: "not reached",
    account.SHORTER: "shorter stays",
    account.BREATH: "faster breath",
}
_ENDED = {
    Ending.FINISHED: "",
    Ending.ENDED: " It was ended by hand.",
    Ending.BROKE_OFF: " It broke off there; `conductor lead --resume` goes on with the last one.",
    Ending.GOING_ON: " It is being led at this moment.",
}

_CALLED = {str(Do.QUIET): "voice off or on", str(Do.LEVEL): "ways"}  # as the keys call them


def after(now: Reviewed, earlier: Sequence[Reviewed] = ()) -> After:
    """The page: `earlier` are classes of the same plan, the newest first."""
    review = now.review
    apart = f" ({rehearsed(review.speed)})" if review.rehearsal else ""
    blocks = (
        ("Parts: planned, led, waited", _parts(review)),
        ("Holds and stops", _waits(now)),
        ("Shapes: planned, led, by side", _shapes(now)),
        ("Commands", _commands(review)),
        ("Words", _spoken(review)),
    )
    return After(
        title=f"{clean(review.title)}{_when(review)}{apart}",
        first=(
            ("Where the time went", where(review)),
            ("The sides", sides(now)),
            ("Next time", proposal(now, earlier)),
        ),
        blocks=tuple((heading, tuple(rows)) for heading, rows in blocks if rows),
    )


def _when(review: Review) -> str:
    """The minute at which it was opened, by the clock on the wall there."""
    return f", {clean(review.wall[:16]).replace('T', ' ')}" if review.wall else ""


def ended(ending: Ending) -> str:
    """How a class ended, in a word or two."""
    words = {Ending.FINISHED: "to its end", Ending.ENDED: "ended by hand"}
    return words.get(ending, str(ending))


def where(review: Review) -> str:
    """Led against planned, and what made the difference."""
    over = _against(review.led - review.planned, "over")
    told = [f"Led {span(review.led)}; planned {span(review.planned)}: {over}."]
    told[0] += _ENDED[review.ending]
    told += _clock(review)
    more = _account(review, _MORE, 1)
    less = _account(review, _LESS, -1)
    told += [f"More time: {more}."] if more else []
    told += [f"Less time: {less}."] if less else []
    told += _out(review)
    return "\n".join(told)


def _against(ms: int, more: str) -> str:
    return f"{span(abs(ms))} {more if ms > 0 else 'early'}" if abs(ms) >= ON_TIME_MS else "on time"


def _clock(review: Review) -> list[str]:
    """What became of a time of day at which the class should end."""
    if review.must_end is None:
        return []
    when = _against(review.led - review.must_end, "late")
    return [f"Fitted to end at a time of day, it ended {when}."]


def _account(review: Review, names: dict[str, str], sign: int) -> str:
    found = [(sign * review.account[kind], name) for kind, name in names.items()]
    told = sorted((one for one in found if one[0] >= LEAST_MS), reverse=True)
    return ", ".join(f"{name} {span(ms)}" for ms, name in told[:MOST_TOLD])


def _out(review: Review) -> list[str]:
    """What was left out, to land on time or in which parts."""
    chosen = review.left_out - min(review.landed, review.left_out)
    told = []
    if review.landed:
        were = "was" if review.landed == 1 else "were"
        told.append(f"{count(review.landed, 'moment')} {were} left out to land on time.")
    beyond = review.not_reached
    if beyond:
        told.append(f"{count(beyond, 'moment')} of {review.moments} not reached.")
    if not chosen:
        return told if beyond else [*told, f"Every {'other ' if told else ''}moment was led."]
    parts = [f"{clean(one.name)} {one.left_out}" for one in review.parts if one.left_out]
    of = count(review.moments, "moment")
    return [*told, f"Left out {chosen} of {of} ({', '.join(parts)})."]


def rehearsed(speed: float) -> str:
    """How a rehearsal was begun; its keys may have changed the speed later."""
    return f"rehearsal at {speed:g} times the speed" if speed != 1 else "rehearsal"


def sides(now: Reviewed) -> str:
    """The sides as they were really held: alike, or where they were not."""
    shapes = now.review.shapes
    if not any(one.right or one.left for one in shapes):
        sided = any(one.planned_right or one.planned_left for one in shapes)
        return "No shape with sides was led." if sided else "No shape of this class has sides."
    right = sum(one.right for one in now.review.shapes)
    left = sum(one.left for one in now.review.shapes)
    found = uneven(now.review)
    if not found:
        alike = bool(right and left) and abs(right - left) < UNEVEN_MS
        told = f"right {span(right)}, left {span(left)}."
        return f"Both sides were led alike: {told}" if alike else f"In all: {told}"
    rows = [f"{clean(one.name)}: {_both(one, now.score)}." for one in found[:MOST_TOLD]]
    if len(found) > MOST_TOLD:
        rows.append(f"And {count(len(found) - MOST_TOLD, 'more shape')}, in the figures below.")
    return "\n".join(rows)


def _both(shape: ShapeLed, score: Score) -> str:
    info = info_of(score, shape.id)
    led = {Side.RIGHT: shape.right, Side.LEFT: shape.left}
    faces = [(side, face) for side in Side if (face := side_face(side, info))]
    return ", ".join(f"{face.words} {span(led[side])}" for side, face in faces)


def _parts(review: Review) -> list[str]:
    return [
        _row(one.name, one.planned, one.led, _extras(one.held, one.stopped, one.left_out))
        for one in review.parts
    ]


def _row(name: str, planned: int, led: int, more: str = "") -> str:
    name = clean(name)
    short = name if len(name) <= WIDTH else f"{name[: WIDTH - 1]}\u2026"
    row = f"{short:<{WIDTH}} {span(planned):>11} {span(led):>11}  {more}"
    return row.rstrip()


def _extras(held: int, stopped: int, left_out: int) -> str:
    told = [f"{word} {span(ms)}" for word, ms in (("held", held), ("waited", stopped)) if ms >= 500]
    told += [f"{left_out} left out"] if left_out else []
    return ", ".join(told)


def _shapes(now: Reviewed) -> list[str]:
    rows = []
    for one in now.review.shapes:
        both = _both(one, now.score) if one.planned_right + one.planned_left else ""
        rows.append(_row(one.name, one.planned, one.led, both))
    return rows


def _waits(now: Reviewed) -> list[str]:
    review = now.review
    told = [(one, "held") for one in review.holds] + [(one, "stopped") for one in review.stops]
    return [_wait(one, word) for one, word in sorted(told, key=lambda pair: pair[0].at)]


def _wait(one: Waited, word: str) -> str:
    side = f" ({one.side})" if one.side else ""
    return (
        f"{clock(one.at):>8}  {word} {span(one.ms)} in {clean(one.shape)}{side}, {clean(one.part)}"
    )


def _commands(review: Review) -> list[str]:
    usual = (Do.BEGIN, Do.END)
    asked = [(str(do), number) for do, number in review.commands.items() if do not in usual]
    told = [f"{_CALLED.get(do, do)} {number}" for do, number in asked]
    rows = _wrapped(told)
    rows += [f"{count(review.refused, 'command')} refused."] if review.refused else []
    rows += [f"{count(review.offers, 'resting shape')} offered."] if review.offers else []
    rows += [f"{count(review.faults, 'fault')} of the program."] if review.faults else []
    return rows


def _wrapped(words: Iterable[str], width: int = 72) -> list[str]:
    rows: list[str] = []
    for word in words:
        if rows and len(rows[-1]) + len(word) + 2 <= width:
            rows[-1] += f", {word}"
        else:
            rows.append(word)
    return rows


def _spoken(review: Review) -> list[str]:
    said = review.spoken
    if not said.cues and not said.dropped:
        return []
    part = round(100 * said.ms / review.led) if review.led else 0
    whose = "The voice spoke" if said.heard else "With no voice, the words shown would take"
    rows = [f"{whose} {span(said.ms)} of {span(review.led)}, {part} % ({count(said.cues, 'cue')})."]
    if said.late:
        rows.append(f"{count(said.late, 'cue')} came late, at most by {said.latest / 1000:.1f} s.")
    if said.dropped:
        rows.append(f"{count(said.dropped, 'cue')} came too late to be said.")
    return rows
