"""`conductor lead`: a class from a plan, live in this terminal."""

import contextlib
import os
import re
import signal
import sys
from collections.abc import Sequence
from datetime import datetime, timedelta
from pathlib import Path
from typing import TYPE_CHECKING

import click

from conductor import places, store
from conductor.cli.classroom import Class, How, Led
from conductor.cli.opening import Opened, find, opened
from conductor.cli.progress import on_one_line
from conductor.cli.speech import with_plan
from conductor.cli.tell import tell
from conductor.engine.model import Command, Do
from conductor.findings import Weight
from conductor.settings import Settings
from conductor.values import replace
from conductor.voice.manner import VoiceError

if TYPE_CHECKING:
    from conductor.run.resume import Broken
    from conductor.screens.wiring import Entry

LATEST = timedelta(hours=6)  # an end further away is a time that is past, or a slip


@click.command()
@click.argument("plan", required=False)
@click.option("--plain", is_flag=True, help="Lines of text instead of a screen.")
@click.option("--speed", type=click.FloatRange(0.25, 120), default=1.0, help="Times as fast.")
@click.option("--end", metavar="HH:MM", help="Fit the class to end at this time of day.")
@click.option("--silent", is_flag=True, help="No sound at all.")
@click.option("--mute", is_flag=True, help="Bells, but no voice.")
@click.option("--voice", metavar="NAME", help="A voice of `conductor voices`.")
@click.option("--rate", type=int, metavar="WPM", help="Words a minute, 80 to 450.")
@click.option("--engine", type=click.Choice(["espeak", "natural"]), help="Which voice speaks.")
@click.option("--room", type=click.Choice(["known", "new"]), help="How far ahead cues start.")
@click.option("--level", type=click.Choice(["ease", "more", "or"]), help="Which ways are led.")
@click.option("--prompt", is_flag=True, help="Terse cues half a breath ahead, for you alone.")
@click.option("--offset-ms", type=int, metavar="MS", help="Move all sound, for Bluetooth.")
@click.option("--distance", type=float, metavar="M", help="How far away the screen stands.")
@click.option("--theme", type=click.Choice(["dark", "light", "contrast"]), help="Colours.")
@click.option("--resume", is_flag=True, help="Go on with the class that broke off last.")
@click.option("--no-journal", is_flag=True, help="Leave no journal of this class.")
def lead(plan: str | None, **options: object) -> None:
    """Lead the class of PLAN: a file, a shipped plan by name, or one chosen from a list.

    Space stops and goes on, the arrow keys skip and go back, ? shows all keys.
    """
    settings = _settings(options)
    how = How(
        speed=float(str(options["speed"])),
        end=_time_of_day(options["end"]),
        journal=not options["no_journal"],
    )
    plain = bool(options["plain"]) or not _terminal()
    broken = _broken() if options["resume"] else None
    if broken:
        how = replace(how, broken=broken)
    if plan is None and plain and not broken:
        known = ", ".join(path.stem for path in places.shipped_plans())
        raise click.UsageError(f"which plan? A file, or one of: {known}")
    try:
        ready = _resumed(broken, settings, how) if broken else None
        if plan and not ready:
            ready = _ready(find(plan), settings, how)
        status = _plain(ready) if plain and ready else _screens(ready, settings, how)
    except VoiceError as error:
        raise click.UsageError(str(error)) from error
    raise SystemExit(status)


def _terminal() -> bool:
    return sys.stdin.isatty() and sys.stdout.isatty() and os.environ.get("TERM") != "dumb"


def _settings(options: dict[str, object]) -> Settings:
    """Settings of the person, changed by what the command line says."""
    wanted: dict[str, object] = {}
    for option, setting in (
        ("voice", "voice"),
        ("rate", "rate"),
        ("engine", "engine"),
        ("room", "room"),
        ("level", "level"),
        ("offset_ms", "offset_ms"),
        ("distance", "view_distance_m"),
        ("theme", "theme"),
    ):
        if options[option] is not None:
            wanted[setting] = options[option]
    flags = (("silent", "sound", False), ("mute", "speak", False), ("prompt", "prompting", True))
    wanted.update({setting: value for option, setting, value in flags if options[option]})
    try:
        return store.changed(store.settings(), wanted, "command line")
    except store.SettingsError as error:
        raise click.UsageError(str(error)) from error


def _time_of_day(text: object) -> datetime | None:
    """Read HH:MM as the next such time, today or just past midnight."""
    if text is None:
        return None
    match = re.fullmatch(r"([01]?\d|2[0-3]):([0-5]\d)", str(text))
    if match is None:
        raise click.BadParameter("write the time as HH:MM, like 19:00", param_hint="--end")
    now = datetime.now().astimezone()
    end = now.replace(hour=int(match.group(1)), minute=int(match.group(2)), second=0, microsecond=0)
    end = end if end > now else end + timedelta(days=1)
    if end - now > LATEST:
        away = f"more than {LATEST.seconds // 3600} hours away"
        words = f"{text} is past, or {away}: it is {now:%H:%M} now"
        raise click.BadParameter(words, param_hint="--end")
    return end


def _ready(path: Path, settings: Settings, how: How) -> Class:
    """Open a plan to be led; one that cannot be led is told with its findings."""
    found = opened(path, settings=settings)
    if not found.leadable:
        tell(found)
        raise SystemExit(1)
    return _class(found, settings, how)


def _broken() -> "Broken":
    from conductor.run.resume import NothingToResumeError, latest  # noqa: PLC0415 -- only here

    try:
        return latest(store.journals())
    except NothingToResumeError as error:
        raise click.UsageError(f"there is nothing to resume: {error}") from error


def _resumed(broken: "Broken", settings: Settings, how: How) -> Class:
    """Make a class ready that broke off, with the score it was led from."""
    from conductor.shapes.catalogue import load  # noqa: PLC0415 -- only here

    source = Path(broken.score.meta.source)
    return _class(Opened(source, broken.score, shapes=load().shapes), settings, how)


def _class(found: Opened, settings: Settings, how: How) -> Class:
    assert found.score is not None  # noqa: S101 -- only leadable plans come here
    return Class(found, with_plan(settings, found.score.meta.options), how)


class _Shelf:
    """The plans that come with the program, and those in the folder one stands in."""

    def __init__(self, settings: Settings, how: How) -> None:
        self._settings = settings
        self._how = how

    def plans(self) -> "Sequence[Entry]":
        """Compile each for its length and its problems."""
        return [self._entry(path) for path in self._paths()]

    def _paths(self) -> list[Path]:
        here = [path for path in sorted(Path().iterdir()) if path.suffix in places.SUFFIXES]
        own = [path for path in here if path.is_file() and _looks_like_a_plan(path)]
        return [*own, *places.shipped_plans()]

    def _entry(self, path: Path) -> "Entry":
        from conductor.screens.wiring import Entry  # noqa: PLC0415 -- only with screens

        try:
            found = opened(path, settings=self._settings)
        except OSError as error:
            return Entry(str(path), path.stem, problem=str(error.strerror))
        weights = [finding.weight for finding in found.findings]
        errors, warnings = weights.count(Weight.ERROR), weights.count(Weight.WARNING)
        if found.score is None:
            return Entry(str(path), path.stem, errors=errors, warnings=warnings)
        meta = found.score.meta
        return Entry(str(path), meta.title, meta.kind, found.score.length, errors, warnings)

    def open(self, key: str) -> "Class | str":
        """A class made ready, or the findings that keep it from being led."""
        found = opened(Path(key), settings=self._settings)
        if found.leadable:
            return _class(found, self._settings, self._how)
        from conductor.plan.show import show  # noqa: PLC0415 -- only where it is shown

        return show(found.findings, found.sources)


def _looks_like_a_plan(path: Path) -> bool:
    with path.open("rb") as file:
        return b"plan:" in file.read(4096)


def _clock() -> str:
    return f"{datetime.now().astimezone():%H:%M}"


def _screens(ready: Class | None, settings: Settings, how: How) -> int:
    """Show the screens; if they die, plain lines take over on the same class."""
    from conductor.screens.running import run_app  # noqa: PLC0415 -- textual only here
    from conductor.screens.wiring import How as Ended  # noqa: PLC0415 -- textual only here

    shelf = None if ready else _Shelf(settings, how)
    ending = run_app(settings, _clock, shelf=shelf, prepared=ready, log=store.log())
    led = ending.leading
    if ending.how is Ended.DIED:
        with contextlib.suppress(OSError):  # the terminal itself may be gone
            click.echo(f"The screen closed: {ending.error}", err=True)
            if led is not None:
                click.echo("The class goes on in plain lines.", err=True)
        if isinstance(led, Led):
            return _lead_plain(led)
    if isinstance(led, Led):
        led.close()
    return 1 if ending.how is Ended.DIED else 0


def _plain(ready: Class) -> int:
    """Make the class ready with a line of progress, then lead it in lines of text."""
    from conductor.view.before import lines  # noqa: PLC0415 -- only here

    if not ready.how.broken:
        click.echo("\n".join(lines(ready.score)))
    trouble = ready.prepare(on_one_line("Rendering the voice"))
    for words in (trouble, ready.fitted):
        if words:
            click.echo(words, err=True)
    led = ready.begin()
    led.post(Command(Do.GO_ON if ready.how.broken else Do.BEGIN))
    return _lead_plain(led)


def _lead_plain(led: Led) -> int:
    from conductor.plain import lead_plain  # noqa: PLC0415 -- only here

    if hasattr(signal, "SIGHUP"):  # a closed terminal ends no class: the room still hears it
        signal.signal(signal.SIGHUP, signal.SIG_IGN)
    try:
        lead_plain(led, sys.stdout, sys.stdin)
    finally:
        led.close()
    return 0
