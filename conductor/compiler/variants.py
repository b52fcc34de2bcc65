"""Variants: gentler, fuller and other ways ride in the moments of the way they stand beside."""

from conductor.body.ways import way
from conductor.compiler.mirror import mirror
from conductor.compiler.model import Bit, Run
from conductor.compiler.place import place
from conductor.compiler.rules import found
from conductor.compiler.say import say
from conductor.compiler.time import Timed, time
from conductor.compiler.word import word
from conductor.copies import changed
from conductor.findings import Finding
from conductor.score.model import Moment, Variant
from conductor.sides import Breath
from conductor.stance import Stance


def vary(timed: Timed, bits: tuple[Bit, ...], runs: tuple[Run, ...]) -> tuple[Finding, ...]:
    """Put every other way into the moments it belongs to; what does not match is a finding."""
    where = {bit.path: index for index, bit in enumerate(bits)}
    moments = {moment.id: index for index, moment in enumerate(timed.moments)}
    findings: dict[tuple[str, object], Finding] = {}
    for run in runs:
        at = where[run.first]
        begin = moments.get(run.first, moments.get(f"{run.first}.0"))
        if begin is None:
            continue
        if run.bits:
            trouble = _ride(timed, bits, run, at, begin)
            if trouble:
                findings.setdefault((trouble.rule, trouble.span), trouble)
        else:
            _add(timed, begin, Variant(run.level, run.text))
    return tuple(findings.values())


def _add(timed: Timed, index: int, variant: Variant) -> None:
    moment = timed.moments[index]
    timed.moments[index] = changed(moment, variants=(*moment.variants, variant))


def _ride(timed: Timed, bits: tuple[Bit, ...], run: Run, at: int, begin: int) -> Finding | None:
    """Lead the other way beside the main one, moment by moment."""
    before = bits[at - 1].stance if at else None
    aside, _ = place(mirror(run.bits), before)
    worded, _ = say(word(aside))
    own = time(_shaped(worded, timed, begin), _breath_before(timed, begin))
    beside = own.moments
    main = timed.moments[begin : begin + len(beside)]
    if _signature(beside) != _signature(main) or not _covers(bits, run, at, main, timed, begin):
        words = f"`{run.level}` has other half breaths than the way it stands beside"
        return found("variant-length", words, run.span)
    for offset, moment in enumerate(beside):
        text = run.text or own.shapes[moment.shape].name
        _add(timed, begin + offset, Variant(run.level, text, moment.shape, moment.words))
    timed.shapes.update(own.shapes)
    return _ends(bits, run, at, beside[-1].stance if beside else None)


def _shaped(bits: tuple[Bit, ...], timed: Timed, begin: int) -> tuple[Bit, ...]:
    """Let the first bit know the shape it stays in when it names none."""
    if bits and bits[0].shape is None and begin:
        shape = timed.shapes[timed.moments[begin - 1].shape]
        return (changed(bits[0], shape=shape), *bits[1:])
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
    main, following = bits[after - 1].stance, bits[after].stance
    if main is None or following is None or stance == main:
        return None
    feet = (stance.right, stance.left, stance.heading) == (main.right, main.left, main.heading)
    if feet and way(stance, following).possible:
        return None
    words = f"`{run.level}` ends where the next movement cannot be made with the same feet"
    hint = f"write `{run.level}` with `steps` on the whole passage, so that both ways end alike"
    return found("variant-end", words, run.span, hint)
