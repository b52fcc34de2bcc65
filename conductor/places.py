"""Where files are: the shipped plans and sounds, and paths that a plan names."""

import re
from pathlib import Path

_PACKAGE = Path(__file__).parent
_SHIPPED = _PACKAGE / "_shipped"
SUFFIXES = (".yaml", ".yml")


class OutsideError(ValueError):
    """A path in a plan that leads out of the plan's folder."""


def shipped(what: str) -> Path:
    """Find the folder plans or sounds: in the installed package, else in the checkout."""
    inside = _SHIPPED / what
    return inside if inside.is_dir() else _PACKAGE.parent / what


def shipped_plans() -> tuple[Path, ...]:
    """List the plans that come with the program, by name."""
    folder = shipped("plans")
    return tuple(sorted(path for path in folder.glob("*") if path.suffix in SUFFIXES))


def plan(name: str) -> Path:
    """Find a plan by path, or one of the shipped ones by its bare name.

    Raises FileNotFoundError naming what was looked for.
    """
    path = Path(name)
    if path.is_file():
        return path
    for suffix in ("", *SUFFIXES):
        candidate = shipped("plans") / f"{name}{suffix}"
        if path.name == name and candidate.is_file():
            return candidate
    raise FileNotFoundError(name)


def plans_in(folder: Path) -> tuple[Path, ...]:
    """List what may be a plan in a folder, by name; what cannot be read is listed too."""
    files = sorted(path for path in folder.iterdir() if path.suffix in SUFFIXES)
    return tuple(path for path in files if _may_be_a_plan(path))


def _may_be_a_plan(path: Path) -> bool:
    try:
        return path.is_file() and b"plan:" in _head(path)
    except OSError:
        return True


def _head(path: Path) -> bytes:
    with path.open("rb") as file:
        return file.read(4096)


def title(path: Path) -> str:
    """A plan's title as its first lines have it, else the file's name; nothing is parsed."""
    try:
        head = _head(path).decode("utf-8-sig", "replace")
    except OSError:
        return path.stem
    match = re.search(r"^title:[ \t]*(\S[^\n#]*)", head, re.MULTILINE)
    return match.group(1).strip().strip("\"'") if match else path.stem


def inside(plan_file: Path, named: str) -> Path:
    """Resolve a path that a plan names; it must stay in the plan's folder, links included."""
    folder = plan_file.parent.resolve()
    path = (folder / named).resolve()
    if Path(named).is_absolute() or not path.is_relative_to(folder):
        raise OutsideError(f"{named} leads out of the plan's folder")
    return path
