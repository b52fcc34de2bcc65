"""The catalogue's files: one JSON list of shapes for each family."""

from collections.abc import Mapping
from pathlib import Path
from typing import Any

from conductor.shapes.model import Shape, Template
from conductor.stance import Base, Foot, Frame, Hands, Trunk
from conductor.values import decode

DATA = Path(__file__).with_name("data")
LEGEND = "cautions.json"
_LISTS = ("names", "spellings", "prepares", "undoes", "before", "after", "props", "cautions")


def read(folder: Path = DATA) -> tuple[Shape, ...]:
    """Every shape in the folder, in the order of the file names and then as written."""
    return tuple(
        shape_of(entry, path.stem)
        for path in sorted(folder.iterdir())
        if path.suffix == ".json" and path.name != LEGEND
        for entry in decode(path.read_bytes())
    )


def shape_of(entry: Mapping[str, Any], family: str) -> Shape:
    """One shape from its entry; lists become tuples, words become the types they stand for."""
    values = dict(entry)
    values.update({name: tuple(values[name]) for name in _LISTS if name in values})
    if "hold" in values:
        low, high = values["hold"]
        values["hold"] = (low, high)
    return Shape(**(values | {"family": family, "place": _place(values["place"])}))


def _place(entry: Mapping[str, Any]) -> Template:
    return Template(
        base=Base(entry["base"]),
        own=Foot(entry["own"]),
        other=Foot(entry["other"]),
        knees=tuple(entry.get("knees", ())),
        hands=Hands(entry.get("hands", "free")),
        trunk=Trunk(entry.get("trunk", "upright")),
        frame=Frame(entry.get("frame", "end")),
        standing=entry.get("standing", ""),
    )
