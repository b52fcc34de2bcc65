"""Variants: gentler, fuller and other ways ride in the moments of the way they stand beside."""

from conductor.body.ways import way
from conductor.compiler.led import Reader, beside
from conductor.compiler.mirror import mirror
from conductor.compiler.model import Bit, Run
from conductor.compiler.place import place
from conductor.compiler.rules import found
from conductor.compiler.say import say
from conductor.compiler.time import Timed, time
from conductor.compiler.word import word
from conductor.findings import Finding
from conductor.score.model import Hold, Moment, Variant, Words
from conductor.sides import Breath
from conductor.stance import Stance
from conductor.values import replace


def vary(timed: Timed, bits: tuple[Bit, ...], runs: tuple[Run, ...]) -> tuple[Finding, ...]:
    """Put every other way into the moments it belongs to; what does not match is a finding."""
    where = {bit.path: index for index, bit in enumerate(bits)}
    moments = {moment.id: index for index, moment in enumerate(timed.moments)}
    findings: dict[tuple[str, object], Finding] = {}
    reader = Reader()
    for run in runs:
        at = where[run.first]
        begin = moments.get(run.first, moments.get(f"{run.first}.0"))
        if begin is None:
            continue
        if run.bits:
            trouble = _ride(timed, bits, run, at, begin)
            if trouble:
                findings.setdefault((trouble.rule, trouble.span), trouble)
        elif run.text:
            text = reader.read(run.text, bits[at])[0]
            words = _worded(timed.moments[begin].words, text, run)
            _add(timed, begin, Variant(run.level, text, "", words))
            _ride_on(timed, run.level, begin)
    return (*findings.values(), *reader.findings.values())


def _worded(main: Words, text: str, run: Run) -> Words:
    """Words of a way that is words alone: said after those of the movement, or in their place."""
    if run.say or not main.full:
        return Words(text, text, main.breath, main.form, written=True)
    full = f"{main.full.rstrip('.')}, {text[:1].lower()}{text[1:]}"
    return Words(full, text, main.breath, main.form, written=True)


def _add(timed: Timed, index: int, variant: Variant) -> None:
    moment = timed.moments[index]
    timed.moments[index] = replace(moment, variants=(*moment.variants, variant))


def _ride_on(timed: Timed, level: str, at: int) -> None:
    """Let another way of a movement last as long as the class stays where it led."""
    variant = next(one for one in reversed(timed.moments[at].variants) if one.level == level)
    staying = replace(variant, words=Words(form="nothing"))
    for index in range(at + 1, len(timed.moments)):
        moment = timed.moments[index]
        if moment.arriving or moment.shape != timed.moments[at].shape:
            return
        if all(one.level != level for one in moment.variants):
            _add(timed, index, staying)


def _ride(timed: Timed, bits: tuple[Bit, ...], run: Run, at: int, begin: int) -> Finding | None:
    """Lead the other way beside the main one, moment by moment."""
    before = bits[at - 1].stance if at else None
    aside, _ = place(mirror(run.bits), before)
    aside, _ = beside(aside)
    worded, _ = say(word(aside))
    own = time(_shaped(worded, timed, begin), _breath_before(timed, begin))
    led = own.moments
    main = timed.moments[begin : begin + len(led)]
    if _signature(led) != _signature(main) or not _covers(bits, run, at, main, timed, begin):
        words = f"`{run.level}` has other half breaths than the way it stands beside"
        return found("variant-length", words, run.span)
    for offset, moment in enumerate(led):
        name = own.shapes[moment.shape].name
        stay = own.holds.get(moment.hold)
        lines = moment.lines if moment.lines or (stay and stay.lines) else None
        _add(timed, begin + offset, Variant(run.level, name, moment.shape, moment.words, lines))
        _stay_beside(timed, begin + offset, run.level, stay)
    timed.shapes.update(own.shapes)
    if run.count == len(run.bits) == 1:
        _ride_on(timed, run.level, begin + len(led) - 1)
    return _ends(bits, run, at, led[-1].stance if led else None)


def _stay_beside(timed: Timed, index: int, level: str, own: Hold | None) -> None:
    """Let a stay know the lines of the one that another way has in its place."""
    name = timed.moments[index].hold
    main = timed.holds.get(name)
    if own is None or main is None or not own.lines or level in main.ways:
        return
    first = not index or timed.moments[index - 1].hold != name
    if first and (own.amount, own.half, own.timed) == (main.amount, main.half, main.timed):
        timed.holds[name] = replace(main, ways={**main.ways, level: own.lines})


def _shaped(bits: tuple[Bit, ...], timed: Timed, begin: int) -> tuple[Bit, ...]:
    """Let the first bit know the shape it stays in when it names none."""
    if bits and bits[0].shape is None and begin:
        shape = timed.shapes[timed.moments[begin - 1].shape]
        return (replace(bits[0], shape=shape), *bits[1:])
    return bits


def _breath_before(timed: Timed, begin: int) -> Breath:
    before = timed.moments[begin - 1].breath if begin else Breath.OUT
    return Breath.OUT if before is Breath.FREE else before


def _signature(moments: list[Moment]) -> list[tuple[str, int]]:
    return [(moment.breath, moment.length) for moment in moments]


def _covers(
    bits: tuple[Bit, ...], run: Run, at: int, main: list[Moment], timed: Timed, begin: int
) -> bool:
    """Whether the other way lasts exactly as long as the stretch it stands beside."""
    after = at + run.count
    if after >= len(bits):
        return begin + len(main) == len(timed.moments)
    following = bits[after].path
    index = begin + len(main)
    return index < len(timed.moments) and timed.moments[index].id in {
        following,
        f"{following}.0",
    }


def _ends(bits: tuple[Bit, ...], run: Run, at: int, stance: Stance | None) -> Finding | None:
    after = at + run.count
    if stance is None or after >= len(bits):
        return None
    moving = next((bit for bit in bits[after:] if bit.shape is not None), None)
    main, following = bits[after - 1].stance, moving.stance if moving else None
    if main is None or following is None or stance == main:
        return None
    alike = (stance.front, stance.heading) == (main.front, main.heading)
    if alike and way(stance, following).effort <= max(1, way(main, following).effort):
        return None
    shape = run.bits[-1].shape
    taken = f" in {shape.name}" if shape else ""
    words = f"`{run.level}` ends{taken}, from where the next movement cannot be made"
    hint = (
        f"write `{run.level}` with `steps` on the whole passage, so that both ways end alike; "
        "if words were meant and no shape, write more of them"
    )
    return found("variant-end", words, run.span, hint)
