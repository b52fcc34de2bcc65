"""A class told with the sides of a teacher who faces it as its mirror image, and marked as such.

What the teacher's own body does is mirrored: side, arms, the pass. Notes, and words to be said to
the class, stay the class's. The score is never changed.
"""

import re
from collections.abc import Callable, Iterable, Mapping

from conductor.compiler.exchange import sides
from conductor.patterns import pattern
from conductor.score.model import Moment, Saying, Score, Words
from conductor.sides import Side
from conductor.timing.sayings import Form, ahead_forms, forms, terse_forms, words_of
from conductor.values import replace
from conductor.view.faces import SIDE_SIGNS
from conductor.view.glass import Mirror
from conductor.view.model import Face, SideFace, View

LETTERS = {Side.RIGHT: "R", Side.LEFT: "L"}
_SIDE = pattern(r"\b(left|right)\b", re.IGNORECASE)


def exchanged(text: str) -> str:
    """The text read for the other side, where left and right plainly name one."""
    return sides(text)[0]


def mirrored_side(face: SideFace) -> SideFace:
    """The other side in the same words."""
    side, other = str(face.side), str(face.side.other)
    return SideFace(
        face.side.other,
        face.words.replace(side, other, 1),
        face.phrase.replace(side, other, 1),
        SIDE_SIGNS[face.side.other],
    )


def mirrored_face(face: Face) -> Face:
    """The shape as the teacher who faces the class takes it."""
    side = mirrored_side(face.side) if face.side else None
    return replace(face, side=side, detail=exchanged(face.detail))


def mark(side: Side | None, mirror: Mirror) -> str:
    """Whose side is shown and said; `side` is the class's in the shape now. "" without a mirror."""
    yours = LETTERS[side.other] if side else ""
    if mirror.screen and not side:
        return "mirrored, cues too" if mirror.cues else "mirrored: your side"
    if mirror.screen and side:
        screen = f"you: {yours} · class: {LETTERS[side]}"
        return f"{screen} · cues: {yours}" if mirror.cues else screen
    said = f"class: {LETTERS[side]} · cues: {yours}" if side else "cues mirrored"
    return said if mirror.cues else ""


def shown(view: View, mirror: Mirror) -> View:
    """The picture as the mirror has it, with its mark; words to say stay the class's if unasked."""
    side = view.now.side.side if view.now.side else None
    saying = exchanged(view.saying) if mirror.cues else view.saying
    view = replace(view, mark=mark(side, mirror), saying=saying)
    if not mirror.screen:
        return view
    if not mirror.cues and exchanged(saying) != saying:
        view = replace(view, saying=f"To the class: {saying}")
    return replace(
        view,
        now=mirrored_face(view.now),
        next=mirrored_face(view.next) if view.next else None,
        ahead=tuple(mirrored_face(one) for one in view.ahead),
        place=exchanged_place(view.place),
        owed=exchanged_place(view.owed),
        reply=exchanged(view.reply),
    )


def exchanged_place(place: str) -> str:
    """A place of the program's own words: "on the right" is "on the left"."""
    return _SIDE.sub(lambda found: Side(found[1].lower()).other, place)


def heard(score: Score) -> Mapping[str, str]:
    """Cues of this class by their words, as they stand on the other side of their passage.

    The mate of a moment says exactly what `exchanged` can only tell where the words are plain:
    its author wrote placeholders. Words that differ in more than the side are no mirror image.
    """
    by_id = {moment.id: moment for moment in score.moments}
    found: dict[str, str] = {}
    for moment in score.moments:
        mate = by_id.get(moment.mate)
        if mate is not None:
            found.update(_pairs(moment, mate))
    return found


def _pairs(moment: Moment, mate: Moment) -> Iterable[tuple[str, str]]:
    """Each saying of a moment with that of its mate, where only the side differs."""
    kinds: tuple[Callable[[Words], tuple[Form, ...]], ...] = (forms, ahead_forms, terse_forms)
    levels = ("", *(variant.level for variant in moment.variants))
    both = [
        (one, other)
        for level in levels
        for kind in kinds
        for one, other in _same_form(kind(words_of(moment, level)), kind(words_of(mate, level)))
    ]
    if len(moment.lines) == len(mate.lines):
        both += [
            (one.saying, other.saying) for one, other in zip(moment.lines, mate.lines, strict=True)
        ]
    for one, other in both:
        if one != other and _SIDE.sub("", one.text) == _SIDE.sub("", other.text):
            yield one.text, other.text


def _same_form(mine: tuple[Form, ...], theirs: tuple[Form, ...]) -> list[tuple[Saying, Saying]]:
    other = dict(theirs)
    return [(saying, other[form]) for form, saying in mine if form in other]


def heard_as(saying: Saying, known: Mapping[str, str]) -> Saying:
    """A cue as the mirrored voice says it; `known` comes from `heard`."""
    text = known.get(saying.text) or exchanged(saying.text)
    return saying if text == saying.text else replace(saying, text=text)
