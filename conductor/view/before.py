"""What there is to read of a class before it begins."""

from itertools import groupby

from conductor.score.model import Score, ShapeInfo
from conductor.values import Struct
from conductor.view.clean import clean
from conductor.view.faces import face, part_of
from conductor.view.spell import clock, count, span

DISCLAIMER = (
    "These are usual cautions, not all there are. Movement and breathing practice can hurt. This "
    "program replaces neither a teacher's training nor medical advice: with pain, injury, illness "
    "or pregnancy, ask a doctor or another licensed professional first. Stop when something hurts."
)

_WAYS = {"ease": "gentler", "more": "fuller", "or": "other way"}  # as the keys call them

UNSEEN_MS = 15_000  # what is shown ahead carries over less


class Overview(Struct, frozen=True):
    """A class in a few lines: `parts` are (name, length), `cautions` (what to mind, shapes).

    `ways` are the names of other ways that the plan has; `unseen` says where the screen cannot be
    seen by who takes the shapes along.
    """

    title: str
    summary: str
    parts: tuple[tuple[str, str], ...]
    props: tuple[str, ...]
    cautions: tuple[tuple[str, str], ...]
    ways: tuple[str, ...] = ()
    unseen: str = ""


def overview(score: Score) -> Overview:
    """Length, parts, props and the cautions of the shapes that are used, in their order."""
    meta = score.meta
    used = dict.fromkeys(shape for one in score.moments for shape in (one.shape, *one.cycle))
    infos = [score.shapes[shape] for shape in used if shape in score.shapes]
    summary = [meta.kind, meta.for_, span(score.length), count(len(infos), "shape")]
    wanted = dict.fromkeys((*meta.props, *(prop for info in infos for prop in info.props)))
    return Overview(
        title=clean(meta.title),
        summary=clean(", ".join(words for words in summary if words)),
        parts=tuple((clean(name), length) for name, length in _parts(score)),
        props=tuple(clean(prop) for prop in wanted),
        cautions=_cautions(infos),
        ways=tuple(_WAYS.get(way, clean(way)) for way in score.levels[1:]),
        unseen=unseen(score),
    )


def unseen(score: Score) -> str:
    """The stretches in which the screen cannot be seen, but for the short ones of a flow."""
    blind = {shape for shape, info in score.shapes.items() if info.unseen}
    found: list[tuple[int, int]] = []
    for hidden, group in groupby(score.moments, lambda one: one.shape in blind):
        moments = list(group)
        length = moments[-1].end - moments[0].start
        if hidden and length >= UNSEEN_MS:
            found.append((moments[0].start, length))
    if not found:
        return ""
    first, longest = clock(found[0][0]), span(max(length for _, length in found))
    if len(found) == 1:
        return f"One stretch of {longest}, at {first}: the voice leads there, or your memory."
    return (
        f"{len(found)} stretches of {span(UNSEEN_MS)} and more, the longest {longest}, the first "
        f"at {first}: the voice leads there, or your memory."
    )


def _cautions(infos: list[ShapeInfo]) -> tuple[tuple[str, str], ...]:
    """Whom to look out for, each with the shapes; people ask by what they have, not by shape."""
    minded: dict[str, list[str]] = {}
    for info in infos:
        for words in info.cautions:
            minded.setdefault(clean(words), []).append(clean(info.name))
    return tuple((words, ", ".join(names)) for words, names in minded.items())


def _parts(score: Score) -> list[tuple[str, str]]:
    lengths = [(p, score.moments[p.first : p.last]) for p in score.parts]
    return [(part.name, span(sum(one.length for one in moments))) for part, moments in lengths]


def going_on(score: Score, moment_id: str) -> str:
    """Where a class that broke off goes on: its part and its shape."""
    at = next((at for at, one in enumerate(score.moments) if one.id == moment_id), None)
    if at is None:
        return "It goes on from where it broke off."
    where = (part_of(score, at), face(score, at).phrase)
    return f"It goes on from where it broke off: {', '.join(word for word in where if word)}."


def lines(score: Score, goes_on: str = "") -> tuple[str, ...]:
    """The same as lines of text, for front ends without a screen; a resumed class in two."""
    if goes_on:
        return (clean(score.meta.title), going_on(score, goes_on))
    view = overview(score)
    parts = [f"{name}: {length}" for name, length in view.parts]
    props = [f"Props: {', '.join(view.props)}"] if view.props else []
    hidden = [f"Screen out of sight: {view.unseen}"] if view.unseen else []
    ways = [f"Ways beside the written one: {', '.join(view.ways)}"] if view.ways else []
    cautions = [f"Take care with {words}: {names}" for words, names in view.cautions]
    head = f"{view.title} ({view.summary})"
    return (head, *parts, *props, *ways, *hidden, *cautions, DISCLAIMER)
