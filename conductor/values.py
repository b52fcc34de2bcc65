"""Frozen values as `dataclasses` makes them, made and copied in a fraction of the time.

A plan is checked in a tenth of a second, and a third of that went into making classes. To a type
checker these are the standard ones; classes that ask for more than plain fields are made by them.
"""

import dataclasses
import sys
from collections.abc import Callable
from operator import attrgetter
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from dataclasses import dataclass, field, replace
else:
    field = dataclasses.field
    _PLAIN = {"frozen", "slots", "order"}
    _SPECIAL = ("ClassVar", "InitVar", "KW_ONLY")
    _BEYOND = ("init", "repr", "compare", "kw_only")

    def dataclass(cls: type | None = None, /, **wanted: bool) -> Any:
        """Make a class of values; the standard library does what is not frozen and slotted."""
        if cls is None:
            return lambda cls: dataclass(cls, **wanted)
        plain = wanted.get("frozen") and wanted.get("slots") and wanted.keys() <= _PLAIN
        found = _fields(cls) if plain else None
        if found is None:
            return dataclasses.dataclass(cls, **wanted)
        return _made(cls, found, order=wanted.get("order", False))

    def replace(value: Any, /, **changes: Any) -> Any:
        """Copy a value with some fields changed."""
        cls = value.__class__
        known = getattr(cls, "__values__", None)
        if known is None:
            return dataclasses.replace(value, **changes)
        values, index = known
        copied = list(values(value))
        for name, new in changes.items():
            try:
                copied[index[name]] = new
            except KeyError:
                raise TypeError(f"{cls.__name__} has no field {name!r}") from None
        return cls(*copied)

    def _fields(cls: type) -> dict[str, dataclasses.Field] | None:
        """The fields of a class, or None where it takes the standard library to make it."""
        if cls.__bases__ != (object,) or sys.version_info >= (3, 14):
            return None  # from 3.14 on annotations are not there before they are asked for
        found = {}
        for name, kind in cls.__dict__.get("__annotations__", {}).items():
            default = cls.__dict__.get(name, dataclasses.MISSING)
            if any(word in str(kind) for word in _SPECIAL):
                return None
            if not isinstance(default, dataclasses.Field):
                default = dataclasses.field(default=default)
            if default.kw_only is True or not (default.init and default.repr and default.compare):
                return None
            default.name, default.type = name, kind
            default.kw_only, default._field_type = False, dataclasses._FIELD
            found[name] = default
        return found

    def _made(cls: type, found: dict[str, dataclasses.Field], *, order: bool) -> type:
        names = tuple(found)
        body = {key: value for key, value in cls.__dict__.items() if key not in found}
        body.pop("__dict__", None)
        body.pop("__weakref__", None)
        body |= {"__slots__": names, "__match_args__": names, "__dataclass_fields__": found}
        made = type(cls)(cls.__name__, cls.__bases__, body)
        made.__qualname__ = cls.__qualname__
        values = _all(names)
        made.__values__ = values, {name: index for index, name in enumerate(names)}
        for method in (*_methods(values, names), *(_order(values) if order else ())):
            if method.__name__ not in cls.__dict__:
                setattr(made, method.__name__, method)
        made.__init__ = _init(made, found)
        return made

    def _all(names: tuple[str, ...]) -> Callable[[Any], tuple]:
        if len(names) > 1:
            return attrgetter(*names)
        return lambda value: tuple(getattr(value, name) for name in names)

    def _methods(values: Callable[[Any], tuple], names: tuple[str, ...]) -> tuple:
        def __eq__(self: Any, other: object) -> bool:
            if other.__class__ is not self.__class__:
                return NotImplemented
            return values(self) == values(other)

        def __hash__(self: Any) -> int:
            return hash(values(self))

        def __repr__(self: Any) -> str:
            shown = (f"{name}={value!r}" for name, value in zip(names, values(self), strict=True))
            return f"{self.__class__.__qualname__}({', '.join(shown)})"

        def __reduce__(self: Any) -> tuple:
            return self.__class__, values(self)

        return __eq__, __hash__, __repr__, __reduce__, __setattr__, __delattr__

    def __setattr__(self: Any, name: str, value: object) -> None:
        raise dataclasses.FrozenInstanceError(f"cannot assign to field {name!r}")

    def __delattr__(self: Any, name: str) -> None:
        raise dataclasses.FrozenInstanceError(f"cannot delete field {name!r}")

    def _order(values: Callable[[Any], tuple]) -> tuple:
        def __lt__(self: Any, other: Any) -> bool:
            same = other.__class__ is self.__class__
            return values(self) < values(other) if same else NotImplemented

        def __le__(self: Any, other: Any) -> bool:
            same = other.__class__ is self.__class__
            return values(self) <= values(other) if same else NotImplemented

        def __gt__(self: Any, other: Any) -> bool:
            same = other.__class__ is self.__class__
            return values(self) > values(other) if same else NotImplemented

        def __ge__(self: Any, other: Any) -> bool:
            same = other.__class__ is self.__class__
            return values(self) >= values(other) if same else NotImplemented

        return __lt__, __le__, __gt__, __ge__

    def _init(made: type, found: dict[str, dataclasses.Field]) -> Callable[..., None]:
        """Write the constructor; it sets each field by its slot, past the frozen `__setattr__`."""
        known: dict[str, Any] = {}
        parameters, lines = [], []
        for name, one in found.items():
            known[f"_set_{name}"] = made.__dict__[name].__set__
            value = name
            if one.default_factory is not dataclasses.MISSING:
                known[f"_new_{name}"] = one.default_factory
                value = f"_new_{name}() if {name} is _new_{name} else {name}"
                parameters.append(f"{name}=_new_{name}")
            elif one.default is not dataclasses.MISSING:
                known[f"_or_{name}"] = one.default
                parameters.append(f"{name}=_or_{name}")
            else:
                parameters.append(name)
            lines.append(f" _set_{name}(self, {value})\n")
        if "__post_init__" in made.__dict__:
            lines.append(" self.__post_init__()\n")
        text = f"def __init__({', '.join(('self', *parameters))}):\n{''.join(lines) or ' pass'}"
        exec(text, known)  # noqa: S102 -- the text holds names of fields alone
        init = known["__init__"]
        init.__qualname__ = f"{made.__qualname__}.__init__"
        init.__module__ = made.__module__
        return init


__all__ = ["dataclass", "field", "replace"]
