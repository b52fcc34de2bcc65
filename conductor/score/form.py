"""The one canonical JSON form of a score, the way back from it, and its name by hash."""

import hashlib
import json
import types
import typing
from collections.abc import Mapping
from enum import Enum
from functools import cache
from typing import Any, Union, get_args, get_origin

from conductor.score.model import Score
from conductor.values import Struct

FORM = 1  # raised when a field changes its meaning


def plain(value: object) -> object:
    """Turn values of the score into what JSON knows; mappings keep their own order."""
    if isinstance(value, Enum):
        return value.value
    if isinstance(value, Struct):
        return {name.rstrip("_"): plain(getattr(value, name)) for name in value.__struct_fields__}
    if isinstance(value, Mapping):
        return {str(key): plain(item) for key, item in value.items()}
    if isinstance(value, tuple):
        return [plain(item) for item in value]
    return value


def to_json(score: Score) -> str:
    """Write the score as canonical JSON: sorted keys, no spaces, the same on every machine."""
    form = {"score": FORM, "ms": score.length, **typing.cast("dict[str, object]", plain(score))}
    return json.dumps(form, sort_keys=True, ensure_ascii=False, separators=(",", ":"))


def from_json(text: str) -> Score:
    """Read a score back; raises ValueError when it is not one of this form.

    A field that came later than the text has its default, so that old classes can be read.
    """
    data = json.loads(text)
    if not isinstance(data, dict) or data.pop("score", None) != FORM:
        raise ValueError(f"this is no score of form {FORM}")
    data.pop("ms", None)
    try:
        return typing.cast("Score", _built(Score, data))
    except (KeyError, TypeError) as error:
        raise ValueError(f"this score cannot be read: {error}") from error


def name(score: Score) -> str:
    """Name a score by the hash of its canonical form."""
    return hashlib.sha256(to_json(score).encode()).hexdigest()[:16]


@cache
def _hints(kind: type) -> dict[str, Any]:
    return typing.get_type_hints(kind)


def _built(kind: Any, data: Any) -> Any:
    origin = get_origin(kind)
    if origin in {Union, types.UnionType}:
        inner = next(arg for arg in get_args(kind) if arg is not type(None))
        return None if data is None else _built(inner, data)
    if origin is tuple:
        return _tuple(get_args(kind), data)
    if origin in {dict, Mapping}:
        return {key: _built(get_args(kind)[1], item) for key, item in data.items()}
    if isinstance(kind, type) and issubclass(kind, Struct):
        hints = _hints(kind)
        known = {key: data[key.rstrip("_")] for key in hints if key.rstrip("_") in data}
        return kind(**{key: _built(hints[key], value) for key, value in known.items()})
    if isinstance(kind, type) and issubclass(kind, Enum):
        return kind(data)
    return data


def _tuple(args: tuple[Any, ...], data: list[Any]) -> tuple[Any, ...]:
    if len(args) == 2 and args[1] is Ellipsis:
        return tuple(_built(args[0], item) for item in data)
    return tuple(_built(arg, item) for arg, item in zip(args, data, strict=True))
