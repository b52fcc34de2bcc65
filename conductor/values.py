"""Classes of frozen values as `dataclasses` makes them, made in a third of the time.

A plan is checked in a tenth of a second, and more than a third of that went into making sixty
such classes. To a type checker `dataclass` and `field` are the standard ones, and classes that ask
for more than plain frozen fields are made by them.
"""

import dataclasses
import inspect
import sys
from collections.abc import Callable
from operator import attrgetter
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from dataclasses import dataclass, field
else:
    field = dataclasses.field
    _PLAIN = {"frozen", "slots", "order"}
    _SPECIAL = ("ClassVar", "InitVar", "KW_ONLY")

    def dataclass(cls: type | None = None, /, **wanted: bool) -> Any:
        """Make a class of values; the standard library does what is more than plain and frozen."""
        if cls is None:
            return lambda cls: dataclass(cls, **wanted)
        plain = wanted.get("frozen") and wanted.keys() <= _PLAIN
        found = _fields(cls) if plain else None
        if found is None:
            return dataclasses.dataclass(cls, **wanted)
        return _made(cls, found, **wanted)

    def _fields(cls: type) -> dict[str, dataclasses.Field] | None:
        """The fields of a class, or None where it takes the standard library to make it."""
        if cls.__bases__ != (object,) or sys.version_info >= (3, 14):
            return None  # from 3.14 on annotations are not there before they are asked for
        found = {}
        for name, kind in inspect.get_annotations(cls).items():
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

    def _made(
        cls: type, found: dict[str, dataclasses.Field], *, slots: bool = False, **wanted: bool
    ) -> type:
        names = tuple(found)
        made = _slotted(cls, names) if slots else cls
        for name, one in found.items():
            if not slots and isinstance(cls.__dict__.get(name), dataclasses.Field):
                if one.default is dataclasses.MISSING:
                    delattr(cls, name)
                else:
                    setattr(cls, name, one.default)
        made.__dataclass_fields__, made.__match_args__ = found, names
        values = _all(names)
        methods = _methods(values, names) | (_order(values) if wanted.get("order") else {})
        for name, method in methods.items():
            if cls.__dict__.get(name) is None:
                setattr(made, name, method)
        made.__init__ = _init(made, found, slots=slots)
        made.__setattr__, made.__delattr__ = _no_setting, _no_deleting
        return made

    def _slotted(cls: type, names: tuple[str, ...]) -> type:
        gone = {*names, "__dict__", "__weakref__"}
        body = {key: value for key, value in cls.__dict__.items() if key not in gone}
        made = type(cls)(cls.__name__, cls.__bases__, {**body, "__slots__": names})
        made.__qualname__ = cls.__qualname__
        return made

    def _all(names: tuple[str, ...]) -> Callable[[Any], tuple]:
        if len(names) > 1:
            return attrgetter(*names)
        return lambda value: tuple(getattr(value, name) for name in names)

    def _methods(values: Callable[[Any], tuple], names: tuple[str, ...]) -> dict[str, Callable]:
        def eq(self: Any, other: object) -> bool:
            same = other.__class__ is self.__class__
            return values(self) == values(other) if same else NotImplemented

        def hashed(self: Any) -> int:
            return hash(values(self))

        def reduced(self: Any) -> tuple:
            return self.__class__, values(self)

        def shown(self: Any) -> str:
            fields = (f"{name}={value!r}" for name, value in zip(names, values(self), strict=True))
            return f"{self.__class__.__qualname__}({', '.join(fields)})"

        return {"__eq__": eq, "__hash__": hashed, "__repr__": shown, "__reduce__": reduced}

    def _no_setting(self: Any, name: str, value: object) -> None:  # noqa: ARG001 -- as it is called
        raise dataclasses.FrozenInstanceError(f"cannot assign to field {name!r}")

    def _no_deleting(self: Any, name: str) -> None:  # noqa: ARG001 -- as it is called
        raise dataclasses.FrozenInstanceError(f"cannot delete field {name!r}")

    def _order(values: Callable[[Any], tuple]) -> dict[str, Callable]:
        def lt(self: Any, other: Any) -> bool:
            same = other.__class__ is self.__class__
            return values(self) < values(other) if same else NotImplemented

        def le(self: Any, other: Any) -> bool:
            same = other.__class__ is self.__class__
            return values(self) <= values(other) if same else NotImplemented

        def gt(self: Any, other: Any) -> bool:
            same = other.__class__ is self.__class__
            return values(self) > values(other) if same else NotImplemented

        def ge(self: Any, other: Any) -> bool:
            same = other.__class__ is self.__class__
            return values(self) >= values(other) if same else NotImplemented

        return {"__lt__": lt, "__le__": le, "__gt__": gt, "__ge__": ge}

    def _init(made: type, found: dict[str, dataclasses.Field], *, slots: bool) -> Callable:
        """Write the constructor; it sets each field past the frozen `__setattr__`."""
        known: dict[str, Any] = {}
        parameters, lines = [], [] if slots else [" _fields = self.__dict__\n"]
        for name, one in found.items():
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
            if slots:
                known[f"_set_{name}"] = made.__dict__[name].__set__
                lines.append(f" _set_{name}(self, {value})\n")
            else:
                lines.append(f" _fields[{name!r}] = {value}\n")
        if "__post_init__" in made.__dict__:
            lines.append(" self.__post_init__()\n")
        text = f"def __init__({', '.join(('self', *parameters))}):\n{''.join(lines) or ' pass'}"
        exec(text, known)  # noqa: S102 -- the text holds names of fields alone
        init = known["__init__"]
        init.__qualname__ = f"{made.__qualname__}.__init__"
        init.__module__ = made.__module__
        return init


__all__ = ["dataclass", "field"]
