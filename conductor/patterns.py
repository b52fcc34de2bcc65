"""Regular expressions that are compiled when they are first used: most plans need few of them."""

import re
from typing import Any, cast

_METHODS = ("search", "match", "fullmatch", "findall", "finditer", "split", "sub", "subn")


class _Pattern:
    """Stands in for a pattern; after the first use its methods are those of the compiled one."""

    def __init__(self, text: str, flags: int) -> None:
        self._made = text, flags

    def __getattr__(self, name: str) -> Any:
        compiled = re.compile(*self._made)
        for each in _METHODS:
            setattr(self, each, getattr(compiled, each))
        return getattr(compiled, name)


def pattern(text: str, flags: int = 0) -> re.Pattern[str]:
    """A pattern that costs nothing before it is used; a fault in it is raised then too."""
    return cast("re.Pattern[str]", _Pattern(text, flags))
