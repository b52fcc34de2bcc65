"""Plans opened to be led: one by its path, those on the shelf, a class that broke off."""

from collections.abc import Sequence
from pathlib import Path

import click

from conductor import places, store
from conductor.cli.classroom import Class
from conductor.cli.how import How
from conductor.cli.opening import Opened as Opened  # noqa: PLC0414 -- what `made` may give
from conductor.cli.opening import opened
from conductor.cli.speech import with_plan
from conductor.findings import Weight
from conductor.plan.show import Paint, plain, show
from conductor.run.resume import Broken, NothingToResumeError, latest
from conductor.score.model import Score
from conductor.screens.wiring import Entry
from conductor.settings import Settings
from conductor.shapes.catalogue import load
from conductor.values import replace


def made(path: Path, settings: Settings, how: How) -> Class | Opened:
    """Make a class of a plan, or give what keeps it from being led."""
    found = opened(path, settings=settings)
    return _class(found, settings, how) if found.leadable else found


def resumed(settings: Settings, how: How) -> Class:
    """Make the class that broke off last ready, with the score it was led from."""
    try:
        broken = latest(store.journals())
    except NothingToResumeError as error:
        raise click.UsageError(f"there is nothing to resume: {error}") from error
    return of_broken(broken, settings, how)


def of_broken(broken: Broken, settings: Settings, how: How) -> Class:
    """Make a class that broke off ready, with the score it was led from."""
    source = Path(broken.score.meta.source)
    found = Opened(source, broken.score, shapes=load().shapes)
    return _class(found, settings, replace(how, broken=broken))


def _class(found: Opened, settings: Settings, how: How) -> Class:
    assert found.score is not None  # noqa: S101 -- only leadable plans come here
    settings = with_plan(settings, found.score.meta.options, how.given)
    return Class(found, _in_a_way(settings, found.score, how), how)


def _in_a_way(settings: Settings, score: Score, how: How) -> Settings:
    """Lead as written where a plan has no way of that name, unless it was asked for by name."""
    from conductor.engine.changes import LEVELS, ways_told  # noqa: PLC0415 -- not before a picture

    there = score.levels
    if settings.level in {*LEVELS, *there}:
        return settings
    if "level" in how.given:
        words = f"no way is called {settings.level!r} here. {ways_told(there)}"
        raise click.UsageError(words)
    return replace(settings, level="")


def refusal(found: Opened, paint: Paint = plain) -> str:
    """Tell why a plan cannot be led: its errors, and how much else the check has to say."""
    errors = [one for one in found.findings if one.weight is Weight.ERROR]
    besides = [
        f"{number} {weight}{'' if number == 1 else 's'}"
        for weight in (Weight.WARNING, Weight.REMARK)
        if (number := sum(one.weight is weight for one in found.findings))
    ]
    more = f" Besides there are {' and '.join(besides)}." if besides else ""
    last = f"This plan cannot be led.{more} `conductor check` shows all.\n"
    return show(errors, found.sources, paint) + last


class Shelf:
    """The plans that come with the program, and those in the folder one stands in."""

    def __init__(self, settings: Settings, how: How) -> None:
        self._settings = settings
        self._how = how

    def plans(self) -> Sequence[Entry]:
        """Compile each for its length and its problems; one that fails spoils no other."""
        return [self._entry(path) for path in self._paths()]

    def _paths(self) -> list[Path]:
        here = [path for path in sorted(Path().iterdir()) if path.suffix in places.SUFFIXES]
        return [*filter(_may_be_a_plan, here), *places.shipped_plans()]

    def _entry(self, path: Path) -> Entry:
        try:
            found = opened(path, settings=self._settings)
        except OSError as error:
            return Entry(str(path), path.stem, problem=str(error.strerror or error))
        except Exception as error:  # noqa: BLE001 -- whatever one file does, the others are shown
            return Entry(str(path), path.stem, problem=f"{type(error).__name__}: {error}")
        weights = [finding.weight for finding in found.findings]
        errors, warnings = weights.count(Weight.ERROR), weights.count(Weight.WARNING)
        if found.score is None:
            return Entry(str(path), path.stem, errors=errors, warnings=warnings)
        meta = found.score.meta
        return Entry(str(path), meta.title, meta.kind, found.score.length, errors, warnings)

    def open(self, key: str) -> Class | str:
        """A class made ready, or the findings that keep it from being led."""
        found = made(Path(key), self._settings, self._how)
        return found if isinstance(found, Class) else show(found.findings, found.sources)


def _may_be_a_plan(path: Path) -> bool:
    """Whether a file begins as plans do; one that cannot be read is listed with its problem."""
    try:
        if not path.is_file():
            return False
        with path.open("rb") as file:
            return b"plan:" in file.read(4096)
    except OSError:
        return True
