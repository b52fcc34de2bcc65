"""The catalogue: shapes by id, and by any of the names people use for them."""

from collections.abc import Iterable, Mapping
from functools import cache, cached_property
from types import MappingProxyType

from conductor.shapes import files, names
from conductor.shapes.model import Shape
from conductor.sides import Side
from conductor.values import Struct


class Found(Struct, frozen=True):
    """A shape found by name, and the side when the text named one."""

    shape: Shape
    side: Side | None = None


class Catalogue:
    """Shapes and their names; never changes, `with_own` gives a new one on top of it."""

    def __init__(self, shapes: Iterable[Shape], under: "Catalogue | None" = None) -> None:
        self._own = tuple(shapes)
        self._under = under
        below = under.shapes if under else {}
        self.shapes: Mapping[str, Shape] = MappingProxyType(
            {**below, **{shape.id: shape for shape in self._own}}
        )

    def find(self, text: str) -> Found | None:
        """The shape of that name, in English or Sanskrit, with the side named before or after."""
        key = names.key(text)
        splits = ((None, key), *names.side_splits(key))
        for look in (self.exact, self.near):  # the indexes of what is near take long to make
            for side, rest in splits:
                if shape := look(rest):
                    return Found(shape, side)
        return None

    def nearest(self, text: str) -> str | None:
        """The known name most like the text, or None when nothing is; the side word is ignored."""
        from rapidfuzz import fuzz, process  # noqa: PLC0415 - loaded on a miss only

        splits = names.side_splits(names.key(text))
        query = splits[0][1] if splits else names.key(text)
        best = process.extractOne(query, self._display, scorer=fuzz.ratio, score_cutoff=70)
        best = best or process.extractOne(query, self._display, scorer=fuzz.WRatio, score_cutoff=80)
        return self._display[best[2]] if best else None

    def with_own(self, shapes: Iterable[Shape]) -> "Catalogue":
        """The same catalogue with a teacher's own shapes, whose names win; its index is shared."""
        return Catalogue(shapes, under=self)

    def names(self, text: str) -> bool:
        """Whether the text is just a name of a shape, a side word before or after it allowed."""
        key = names.key(text)
        return self.exact(key) is not None or any(
            self.exact(rest) is not None for _, rest in names.side_splits(key)
        )

    def exact(self, key: str) -> Shape | None:
        """The shape whose name has exactly this key."""
        return self._exact.get(key) or (self._under.exact(key) if self._under else None)

    def near(self, key: str) -> Shape | None:
        """The shape whose name has this key when spelled loosely, or as it sounds."""
        return (
            self._loose.get(names.loose(key))
            or self._sounds.get(names.sound(key))
            or (self._under.near(key) if self._under else None)
        )

    @cached_property
    def _exact(self) -> dict[str, Shape]:
        index: dict[str, Shape] = {}
        for shape in self._own:
            for name in (*shape.names, *shape.spellings, *_sanskrit(shape)):
                if self._under is None:
                    index.setdefault(names.key(name), shape)
                elif name not in _sanskrit(shape):  # what it is built on keeps its Sanskrit
                    index[names.key(name)] = shape
        return index

    @cached_property
    def _loose(self) -> dict[str, Shape]:
        return _folded(self._exact, names.loose)

    @cached_property
    def _sounds(self) -> dict[str, Shape]:
        return _folded(
            {
                key: shape
                for key, shape in self._exact.items()
                if "asan" in key or (shape.iast and key in map(names.key, _sanskrit(shape)))
            },
            names.sound,
        )

    @cached_property
    def _display(self) -> dict[str, str]:
        own = {
            key: name
            for shape in self._own
            for name in (*shape.names, *filter(None, (shape.ascii,)))
            for key in (names.key(name),)
        }
        return {**self._under._display, **own} if self._under else own


def _sanskrit(shape: Shape) -> tuple[str, ...]:
    return tuple(name for name in (shape.iast, shape.ascii, shape.deva) if name)


def _folded(index: Mapping[str, Shape], fold: "names.Fold") -> dict[str, Shape]:
    """The index under folded keys; a key two shapes would share names neither."""
    folded: dict[str, Shape] = {}
    shared: set[str] = set()
    for key, shape in index.items():
        if folded.setdefault(fold(key), shape) is not shape:
            shared.add(fold(key))
    return {key: shape for key, shape in folded.items() if key not in shared}


@cache
def load() -> Catalogue:
    """The catalogue that comes with the program, read once."""
    return Catalogue(files.read())
