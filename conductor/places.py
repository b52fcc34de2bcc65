"""Where files are: the shipped plans and sounds, and paths that a plan names."""

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


def inside(plan_file: Path, named: str) -> Path:
    """Resolve a path that a plan names; it must stay in the plan's folder, links included."""
    folder = plan_file.parent.resolve()
    path = (folder / named).resolve()
    if Path(named).is_absolute() or not path.is_relative_to(folder):
        raise OutsideError(f"{named} leads out of the plan's folder")
    return path
