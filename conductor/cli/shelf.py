"""Plans opened to be led: one by its path, those on the shelf, a class that broke off."""

import contextlib
from collections.abc import Mapping, Sequence
from pathlib import Path

import click

from conductor import places, store
from conductor.cli.classroom import Class
from conductor.cli.how import How
from conductor.cli.listing import entries, read
from conductor.cli.opening import Opened as Opened  # noqa: PLC0414 -- what `made` may give
from conductor.cli.opening import opened
from conductor.cli.recall import as_it_began, as_last_time
from conductor.cli.speech import with_plan
from conductor.findings import Weight
from conductor.plan.show import Paint, plain, show
from conductor.run.resume import Broken, NothingToResumeError, latest
from conductor.score.model import Score
from conductor.screens.wiring import Entry
from conductor.settings import Settings
from conductor.shapes.catalogue import load
from conductor.shapes.model import Shape
from conductor.values import replace


def made(path: Path, settings: Settings, how: How) -> Class | Opened:
    """Make a class of a plan, or give what keeps it from being led."""
    found = opened(path, settings=settings)
    if how.rehearsal is not None:
        from conductor.cli.rehearsing import cut  # noqa: PLC0415 -- only to rehearse

        found = cut(found, how.rehearsal)
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
    source = Path(str(broken.opened.get("plan") or broken.score.meta.source))
    found = Opened(source, broken.score, shapes=_shapes(source, broken.score))
    return _class(found, settings, replace(how, broken=broken))


def _shapes(source: Path, score: Score) -> Mapping[str, Shape]:
    """The shapes of a score: the plan's own too, or what watches a fit would know it no more."""
    shapes = load().shapes
    if all(moment.shape in shapes for moment in score.moments):
        return shapes
    with contextlib.suppress(Exception):  # whatever became of the plan, its class goes on
        return {**shapes, **opened(source).shapes}
    return shapes


def _class(found: Opened, settings: Settings, how: How) -> Class:
    assert found.score is not None  # noqa: S101 -- only leadable plans come here
    usual = with_plan(settings, found.score.meta.options, how.given)
    led, told = usual, ""
    if how.broken:
        led = as_it_began(usual, how.broken.opened, how.given)
    elif how.recall:
        led, told = as_last_time(usual, found.path, how.given)
    return Class(found, _in_a_way(led, found.score, how), how, usual=usual, as_last_time=told)


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
    """The plans of a folder, by default the one that one stands in, and those that come along."""

    def __init__(self, settings: Settings, how: How, folder: Path | None = None) -> None:
        self._settings = settings
        self._how = how
        self._folder = folder
        self._unread: dict[str, Entry] = {}

    def plans(self) -> Sequence[Entry]:
        """All of them, unread; a folder that was named stands alone."""
        shipped = () if self._folder else places.shipped_plans()
        found = entries(self._folder or Path(), shipped)
        self._unread = {one.key: one for one in found}
        return found

    def entry(self, key: str) -> Entry:
        """One of them read."""
        return read(self._unread[key], self._settings)

    def open(self, key: str) -> Class | str:
        """A class made ready, or the findings that keep it from being led."""
        found = made(Path(key), self._settings, self._how)
        return found if isinstance(found, Class) else show(found.findings, found.sources)
