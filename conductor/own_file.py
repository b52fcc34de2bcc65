"""Writing into a person's file of settings: a line of theirs is changed, nothing else is touched.

Comments, order and formatting are theirs. What a change would do is read back before it is kept.
"""

import re
import tomllib
from pathlib import Path

from conductor.rewrite import original, rewrite
from conductor.store import SettingsError

TABLE = re.compile(r"\s*\[")


def with_value(text: str, name: str, value: float) -> str:
    """The text of a file of settings with one number set; the comment beside it stays."""
    lines = text.splitlines(keepends=True)
    top = next((at for at, line in enumerate(lines) if TABLE.match(line)), len(lines))
    words = re.escape(name).replace("_", "[_ ]")
    held = re.compile(rf"(\s*[\"']?{words}[\"']?\s*=\s*)[^\s#]+(.*)", re.DOTALL)
    for at, line in enumerate(lines[:top]):
        found = held.fullmatch(line)
        if found:
            lines[at] = f"{found[1]}{value:g}{found[2]}"
            return _read_back(text, "".join(lines), name, value)
    end = "\r\n" if text.count("\r\n") > text.count("\n") / 2 else "\n"
    while top and not lines[top - 1].strip():
        top -= 1
    if top and not lines[top - 1].endswith("\n"):
        lines[top - 1] += end
    return _read_back(
        text, "".join([*lines[:top], f"{name} = {value:g}{end}", *lines[top:]]), name, value
    )


def _read_back(before: str, after: str, name: str, value: float) -> str:
    """The new text, if it says what the old one did and the new value besides."""
    try:
        old, new = tomllib.loads(before), tomllib.loads(after)
    except tomllib.TOMLDecodeError as error:
        raise SettingsError(f"{error}; mend it first, or write {name} = {value:g}") from error
    spelt = {key.replace(" ", "_"): value for key, value in new.items()}
    others = [{k: v for k, v in one.items() if k.replace(" ", "_") != name} for one in (old, new)]
    if spelt.get(name) != float(f"{value:g}") or others[0] != others[1]:
        raise SettingsError(f"the file is too unusual to be changed: write {name} = {value:g}")
    return after


def write(file: Path, text: str) -> None:
    """Put the text in the file's place; the old one is kept beside it, as with a plan."""
    try:
        if file.exists():
            rewrite(original(file), text)
        else:
            file.parent.mkdir(parents=True, exist_ok=True)
            file.write_text(text, "utf-8", newline="")
    except OSError as error:
        raise SettingsError(f"{file}: {error.strerror or error}") from error


def text_of(file: Path) -> str:
    """What the file says now, its line ends as they are; nothing where there is none."""
    try:
        with file.open(encoding="utf-8", newline="") as lines:
            return lines.read()
    except FileNotFoundError:
        return ""
    except (OSError, UnicodeDecodeError) as error:
        raise SettingsError(f"{file}: cannot be read: {error}") from error


def keep(file: Path, name: str, value: float) -> None:
    """Set one number in the file; raises SettingsError, with nothing changed, where it cannot."""
    try:
        changed = with_value(text_of(file), name, value)
    except SettingsError as error:
        raise SettingsError(f"{file}: {error}") from error
    write(file, changed)


def add_keys(file: Path, block: str) -> None:
    """Put a table of keys at the end of the file, which must have none."""
    text = text_of(file)
    try:
        there = "keys" in tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise SettingsError(f"{file}: {error}; mend it first") from error
    if there:
        raise SettingsError(f"{file} has a table of keys already; change it there")
    gap = "" if not text else "\n" if text.endswith("\n") else "\n\n"
    write(file, f"{text}{gap}{block}")
