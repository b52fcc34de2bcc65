"""A teacher's own shape, built from plain words on one of the catalogue or on its own stance."""

import re
from collections.abc import Callable, Mapping
from typing import Any, TypeVar

from conductor.shapes import cautions
from conductor.shapes.catalogue import Catalogue
from conductor.shapes.model import Shape, Template
from conductor.shapes.words import ARMS, BENDS, BREATHS, FACES, PARTS, SPINES, STANDS
from conductor.stance import Base, Foot, Trunk
from conductor.values import Struct, field, replace

T = TypeVar("T")
Trouble = tuple[str, str, str]  # field, message, hint

_LOADED = frozenset(
    {Base.FOOT, Base.FOOT_HAND, Base.HANDS, Base.FOREARMS, Base.HEAD, Base.SHOULDERS}
)
_UNSEEN = frozenset({Trunk.FOLDED, Trunk.RESTING, Trunk.INVERTED})


class _Draft(Struct):
    """What the fields read so far make of the shape, and what is wrong with them."""

    shape: Shape
    catalogue: Catalogue
    troubles: list[Trouble] = field(default_factory=list)

    def trouble(self, name: str, message: str, hint: str = "") -> None:
        self.troubles.append((name, message, hint))

    def change(self, **values: Any) -> None:
        self.shape = replace(self.shape, **values)

    def place(self, **values: Any) -> None:
        self.change(place=replace(self.shape.place, **values))


def own(
    name: str, fields: Mapping[str, str], catalogue: Catalogue
) -> tuple[Shape | None, tuple[Trouble, ...]]:
    """The teacher's shape, or None, and every field that could not be read, with a hint."""
    given = {re.sub(r"[\s_]+", " ", key.strip().lower()): text for key, text in fields.items()}
    draft = _Draft(_blank(name), catalogue)
    for key in given:
        if key not in _READERS:
            draft.trouble(key, f"`{key}` is no field of a shape", _near(key, _READERS))
    if "like" not in given and "stands on" not in given:
        draft.trouble(
            "stands on",
            "a shape that is like no other must say what it stands on",
            f"like: a shape's name, or stands on: {', '.join(list(STANDS)[:4])} ...",
        )
    for key, read in _READERS.items():
        if key in given:
            read(draft, given[key].strip())
    if draft.troubles:
        return None, tuple(draft.troubles)
    return (draft.shape if "like" in given else _judged(draft.shape)), ()


def _blank(name: str) -> Shape:
    return Shape(
        id=re.sub(r"[^\w]+", "-", name.replace("'", "").lower()).strip("-_") or "own",
        names=(name,),
        family="own",
        place=Template(Base.FEET, Foot.TOP, Foot.TOP),
        sources={"*": "the plan"},
    )


def _like(draft: _Draft, text: str) -> None:
    found = draft.catalogue.find(text)
    if found is None:
        nearest = draft.catalogue.nearest(text) or ""
        draft.trouble("like", f"no shape is called `{text}`", f"like: {nearest}" if nearest else "")
    elif found.side is not None:
        draft.trouble("like", "a shape is like another on both sides", f"like: {found.shape.name}")
    else:
        blank = draft.shape
        draft.shape = replace(
            found.shape, id=blank.id, names=blank.names, spellings=(), sources=blank.sources,
            iast="", deva="", ascii="", spoken="", spoken_sanskrit="",
        )  # fmt: skip


def _with(draft: _Draft, text: str) -> None:
    words = text.lower()
    draft.change(enter=text)
    for word in sorted(ARMS, key=len, reverse=True):
        if f"arms {word}" in words or f"hands {word}" in words or f"{word} arms" in words:
            draft.place(hands=ARMS[word])
            return


def _side_means(draft: _Draft, text: str) -> None:
    words = text.lower()
    if words in {"none", "nothing", "no side", "no sides"}:
        draft.change(side_means="", side_part="")
        return
    part = next((part for part in PARTS if part in words), "")
    draft.change(side_means=text, side_part=part)
    place = draft.shape.place
    if "raised" in words or "lifted" in words:
        if place.own is not place.other and place.other is Foot.LIFTED:
            draft.place(own=place.other, other=place.own, standing="other")
    elif "standing" in words and place.own is Foot.LIFTED and place.other is not Foot.LIFTED:
        draft.place(own=place.other, other=place.own, standing="own")


def _stands_on(draft: _Draft, text: str) -> None:
    if (stand := _choose(draft, "stands on", text, STANDS)) is not None:
        base, own_foot, other_foot, knees, standing = stand
        draft.place(base=base, own=own_foot, other=other_foot, knees=knees, standing=standing)
        if own_foot is not other_foot and standing and not draft.shape.side_means:
            draft.change(side_means="standing leg", side_part="leg")


def _faces(draft: _Draft, text: str) -> None:
    if (frame := _choose(draft, "faces", text, FACES)) is not None:
        draft.place(frame=frame)


def _bends(draft: _Draft, text: str) -> None:
    if (trunk := _choose(draft, "bends", text, BENDS)) is not None:
        draft.place(trunk=trunk)
        draft.change(spine=SPINES[trunk])


def _arms(draft: _Draft, text: str) -> None:
    if (hands := _choose(draft, "arms", text, ARMS)) is not None:
        draft.place(hands=hands)


def _breath(draft: _Draft, text: str) -> None:
    if (breath := _choose(draft, "breath", text, BREATHS)) is not None:
        draft.change(breath=breath, breath_note="")


def _level(draft: _Draft, text: str) -> None:
    levels = {"1": 1, "2": 2, "3": 3, "easy": 1, "middle": 2, "hard": 3}
    if (level := _choose(draft, "level", text, levels)) is not None:
        draft.change(level=level)


def _cautions(draft: _Draft, text: str) -> None:
    legend = {word: code for code, words in cautions.legend().items() for word in (code, words)}
    known = {word.lower(): code for word, code in legend.items()}
    codes: list[str] = []
    for part in filter(None, (part.strip() for part in text.split(","))):
        code = _choose(draft, "cautions", part, known)
        codes += [code] if code and code not in codes else []
    draft.change(cautions=tuple(dict.fromkeys((*draft.shape.cautions, *codes))))


# Read in this order, whatever the order written: the stance first, then what changes it.
_READERS: dict[str, Callable[[_Draft, str], None]] = {
    "like": _like,
    "stands on": _stands_on,
    "with": _with,
    "say it": lambda draft, text: draft.change(spoken=text),
    "side means": _side_means,
    "faces": _faces,
    "bends": _bends,
    "arms": _arms,
    "breath": _breath,
    "level": _level,
    "cautions": _cautions,
}
FIELDS = tuple(_READERS)
"""The fields of a shape of one's own."""


def _choose(draft: _Draft, name: str, text: str, choices: Mapping[str, T]) -> T | None:
    """The value a word stands for; a word not known is a trouble with the nearest one as hint."""
    word = re.sub(r"\s+", " ", text.lower()).removeprefix("the ").removeprefix("both ")
    if word in choices:
        return choices[word]
    listed = ", ".join(list(choices)[:8])
    hint = _near(word, choices)
    draft.trouble(name, f"`{text}` is not one of: {listed}", f"{name}: {hint}" if hint else "")
    return None


def _near(word: str, choices: Mapping[str, Any]) -> str:
    from difflib import get_close_matches  # noqa: PLC0415 -- only on a slip

    return next(iter(get_close_matches(word, choices, 1, 0.5)), "")


def _judged(shape: Shape) -> Shape:
    """What follows from a stance alone: whether it loads, balances, or hides the screen."""
    place = shape.place
    loads = place.base in _LOADED
    return replace(shape, loads=loads, balance=loads, unseen=place.trunk in _UNSEEN)
