"""The score as a table that a teacher can read beside their plan."""

from collections.abc import Iterator

from conductor.score.model import Moment, Score, ShapeInfo
from conductor.sides import Breath
from conductor.stance import Frame
from conductor.timing.model import Cue

_BREATH = {Breath.IN: "in", Breath.OUT: "out", Breath.FREE: "own"}


def clock(ms: int) -> str:
    """Write a time as minutes and seconds, with tenths only where there are some."""
    minutes, rest = divmod(max(0, ms), 60_000)
    seconds, part = divmod(rest, 1000)
    tenths = f".{part // 100}" if part else ""
    return f"{minutes}:{seconds:02}{tenths}"


def table(score: Score, cues: tuple[Cue, ...], *, every: bool = False) -> str:
    """Lay out the whole class; the breaths of a stay share a line unless `every` is set."""
    said: dict[int, list[Cue]] = {}
    for cue in cues:
        said.setdefault(cue.moment, []).append(cue)
    lines = list(_head(score))
    met: set[str] = set()
    for number, part in enumerate(score.parts):
        length = sum(moment.length for moment in score.moments[part.first : part.last])
        lines += ["", f"{part.name}  ({clock(length)})"]
        lines += _part(score, number, said, met, every=every)
    return "\n".join(lines) + "\n"


def _head(score: Score) -> Iterator[str]:
    meta = score.meta
    wanted = f", asked for {clock(meta.length)}" if meta.length else ""
    yield f"{meta.title} - {meta.kind}, {clock(score.length)}{wanted}"
    per_minute = 60_000 / (meta.inhale + meta.exhale)
    breath = f"{meta.inhale / 1000:g} s in, {meta.exhale / 1000:g} s out"
    yield f"breath {breath} ({per_minute:.3g} a minute), first side {meta.first_side}"


def _part(
    score: Score, number: int, said: dict[int, list[Cue]], met: set[str], *, every: bool
) -> Iterator[str]:
    part = score.parts[number]
    around = ""
    for index in range(part.first, part.last):
        moment = score.moments[index]
        if moment.hold and not every and not moment.id.endswith(".0"):
            yield from (_line(cue) for cue in said.get(index, ()))
            continue
        where = _around(moment)
        if where and where != around:
            yield f"  -- {where} --"
        around = where
        yield row(score, moment)
        shape = score.shapes[moment.shape]
        if shape.side_means and shape.id not in met:
            met.add(shape.id)
            yield f"{'':33}right = {shape.side_means}"
        if moment.readings:
            yield f"{'':33}as written: {moment.readings[0]}"
        yield from (_line(cue) for cue in said.get(index, ()))


def _around(moment: Moment) -> str:
    words = []
    if moment.round[1] > 1:
        words.append(f"round {moment.round[0]} of {moment.round[1]}")
    if moment.pass_key and moment.pass_side:
        words.append(f"{moment.pass_side} side")
    return ", ".join(words)


def row(score: Score, moment: Moment) -> str:
    """One moment, or a whole stay at its first: time, breath, shape, side and facing."""
    shape = score.shapes[moment.shape]
    name = shape.name + (f", {moment.with_}" if moment.with_ else "")
    if moment.through:
        name += " through " + ", ".join(score.shapes[passed].name for passed in moment.through)
    if moment.cycle:
        name = ", ".join(score.shapes[passed].name for passed in moment.cycle)
    breath = _BREATH[moment.breath]
    if moment.hold:
        hold = score.holds[moment.hold]
        half = " and a half" if hold.half else ""
        plural = "" if hold.amount == 1 and not hold.half else "s"
        length = clock(hold.amount) if hold.timed else f"{hold.amount}{half} breath{plural}"
        breath = f"stay {length}" if not moment.arriving else f"own {length}"
    if moment.bells:
        name += f", {moment.bells} bell{'' if moment.bells == 1 else 's'}"
    return (
        f"{clock(moment.start):>8}  {breath:<17} {name:<36} "
        f"{_side(moment, shape):<24} {_facing(moment)}"
    ).rstrip()


def _side(moment: Moment, shape: ShapeInfo) -> str:
    if moment.side is None:
        return ""
    part = f" {shape.side_part}" if shape.side_part else ""
    return f"{moment.side}{part} ({moment.decided})"


def _facing(moment: Moment) -> str:
    stance = moment.stance
    if stance.frame is Frame.LONG:
        wall = f" ({stance.wall} wall)" if stance.wall else ""
        return f"long side{wall}, head of the mat: {stance.heading}"
    return str(stance.heading)


def _line(cue: Cue) -> str:
    length = f"{cue.length / 1000:.1f} s{'' if cue.measured else ' est.'}"
    late = "" if cue.fits else f", room for {max(0, cue.room) / 1000:.1f} s"
    at = clock(cue.start) if cue.start >= 0 else f"-{clock(-cue.start)}"
    return f"{'':10}> {at}  {cue.saying.text}  [{length}{late}]"
