"""Regular expressions that are compiled when they are first used: most plans need few of them."""

import re
from collections.abc import Callable
from typing import Any, cast

_METHODS = ("search", "match", "fullmatch", "findall", "finditer", "split", "sub", "subn")
# What is found in a text that lacks what a pattern needs.
_NOTHING: dict[str, Callable[[], Any]] = {
    "search": lambda: None,
    "match": lambda: None,
    "fullmatch": lambda: None,
    "findall": list,
    "finditer": lambda: iter(()),
}


class Pattern:
    """Stands in for a pattern; after the first use its methods are those of the compiled one."""

    def __init__(self, text: str, flags: int, needs: tuple[str, ...]) -> None:
        self.text, self.flags, self.needs = text, flags, needs
        self._needs = tuple(need.split("|") for need in needs)

    def __getattr__(self, name: str) -> Any:
        if self._needs and name in _NOTHING:
            return lambda text, *place: self._tried(name, text, *place)
        return getattr(self._compiled(), name)

    def _tried(self, name: str, text: str, *place: int) -> Any:
        words = folded(text)
        for need in self._needs:
            if not any(part in words for part in need):
                return _NOTHING[name]()
        return getattr(self._compiled(), name)(text, *place)

    def _compiled(self) -> re.Pattern[str]:
        compiled = re.compile(self.text, self.flags)
        for each in _METHODS:
            setattr(self, each, getattr(compiled, each))
        return compiled


def folded(text: str) -> str:
    """The text in lower case, with a plain letter wherever a pattern in either case takes one."""
    if text.isascii():
        return text.lower()
    return text.replace("İ", "i").replace("ı", "i").casefold()


def pattern(text: str, flags: int = 0, *needs: str) -> re.Pattern[str]:
    """A pattern that costs nothing before it is used; a fault in it is raised then too.

    `needs` are lower-case pieces without which it finds nothing, "|" between those of which one
    is enough. They are looked for first: in most plans they are nowhere, and it is never built.
    """
    return cast("re.Pattern[str]", Pattern(text, flags, needs))
