"""The names of keys: as the terminal's library calls them, as people write and read them."""

import unicodedata
from collections.abc import Mapping

SHOWN: Mapping[str, str] = {
    "left": "←",
    "right": "→",
    "up": "↑",
    "down": "↓",
    "pagedown": "Page Down",
    "pageup": "Page Up",
    "escape": "Escape",
    "space": "Space",
    "enter": "Enter",
    "tab": "Tab",
    "backspace": "Backspace",
    "delete": "Delete",
    "insert": "Insert",
    "home": "Home",
    "end": "End",
    **{f"f{number}": f"F{number}" for number in range(1, 25)},
}
ALSO: Mapping[str, str] = {
    "esc": "escape",
    "return": "enter",
    "page down": "pagedown",
    "page up": "pageup",
    "pgdn": "pagedown",
    "pgup": "pageup",
    "del": "delete",
    "ins": "insert",
    "space bar": "space",
}
SHORTER: Mapping[str, str] = {  # where the library shortens the sign's own name
    "solidus": "slash",
    "reverse_solidus": "backslash",
    "commercial_at": "at",
    "hyphen_minus": "minus",
    "plus_sign": "plus",
    "low_line": "underscore",
}
SIGNS: Mapping[str, str] = {
    SHORTER.get(name, name): sign
    for sign in "!\"#$%&'()*+,-./:;<=>?@[\\]^_`{|}~"
    for name in [unicodedata.name(sign).lower().replace("-", "_").replace(" ", "_")]
}
"""Each sign of the keyboard by its name."""

TAKEN: Mapping[str, str] = {  # why a key cannot be given to anything
    "ctrl+q": "always asks whether to end the class",
    "ctrl+c": "always asks whether to end the class",
    "ctrl+p": "always opens the list of commands",
    "ctrl+z": "belongs to the terminal: it would put the class out of sight",
    "f1": "always shows the help",
    "ctrl+i": "is Tab to a terminal",
    "ctrl+m": "is Enter to a terminal",
    "ctrl+j": "is Enter to a terminal",
    "ctrl+h": "is Backspace to a terminal",
    "ctrl+s": "stops the output of many terminals",
}


class KeyNameError(ValueError):
    """A key that no keyboard has, or that cannot be given away; says why."""


def shown(key: str) -> str:
    """A key as it is written for people."""
    *held, name = key.split("+") if len(key) > 1 else [key]
    word = SHOWN.get(name) or SIGNS.get(name) or (name.upper() if held else name)
    return "+".join([*(one.capitalize() for one in held), word])


def key_of(text: str) -> str:
    """The key a person means by "Page Down", "?", "→", "n", "Ctrl+N" or "f5"."""
    words = " ".join(text.split()) or text[:1]
    if words.lower().startswith(("ctrl+", "shift+", "alt+")) and len(words.partition("+")[2]) > 0:
        held, _, rest = words.lower().partition("+")
        key = _held(held, key_of(rest), words)
    else:
        key = _bare(words)
    if key in TAKEN:
        raise KeyNameError(f"{shown(key)} {TAKEN[key]}")
    return key


def _bare(words: str) -> str:
    """A key pressed alone; a letter keeps its case."""
    if len(words) == 1 and words.isalnum():
        return words
    if words == " ":
        return "space"
    names = {sign: name for name, sign in (*SIGNS.items(), *SHOWN.items())}
    lower = words.lower()
    known = {sign.lower(): name for sign, name in names.items()}
    for table in (ALSO, known):
        if lower in table:
            return table[lower]
    if lower in SHOWN or lower in SIGNS:
        return lower
    raise KeyNameError(f"no key is called {words!r}")


def _held(held: str, key: str, words: str) -> str:
    """A key with another held down, where a terminal can tell it from the key alone."""
    if len(key) == 1 and key.isalpha():
        if held == "shift":
            return key.upper()
        return f"{held}+{key.lower()}"
    if "+" in key:
        raise KeyNameError(f"no key is called {words!r}")
    if held == "alt" or (len(key) == 1 or key in SIGNS):
        raise KeyNameError(f"a terminal cannot tell {words!r}")
    return f"{held}+{key}"
