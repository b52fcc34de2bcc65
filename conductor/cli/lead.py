"""`conductor lead`: a class from a plan, live in this terminal."""

import contextlib
import os
import re
import signal
import sys
from collections.abc import Callable
from datetime import datetime, timedelta
from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING, TextIO, TypeVar, cast

import click

from conductor import places, store
from conductor.cli.how import How
from conductor.engine.model import Command, Do
from conductor.screens.wiring import Wishes
from conductor.settings import Settings
from conductor.values import replace
from conductor.view.glass import Glass
from conductor.view.own_keys import keyed
from conductor.voice.manner import VoiceError

if TYPE_CHECKING:  # what reads, compiles and leads a plan comes after the first picture
    from collections.abc import Sequence

    from conductor.cli.classroom import Class, Led
    from conductor.cli.opening import Opened
    from conductor.cli.shelf import Shelf
    from conductor.screens.wiring import Entry, Offer

LATEST = timedelta(hours=6)  # an end further away is a time that is past, or a slip


_OPTIONS = (
    click.option("--plain", is_flag=True, help="Lines of text instead of a screen."),
    click.option("--silent", is_flag=True, help="No sound at all."),
    click.option("--mute", is_flag=True, help="Bells, but no voice."),
    click.option("--voice", metavar="NAME", help="A voice of `conductor voices`."),
    click.option("--rate", type=int, metavar="WPM", help="Words a minute, 80 to 450."),
    click.option("--engine", type=click.Choice(["espeak", "natural"]), help="Which voice speaks."),
    click.option("--room", type=click.Choice(["known", "new"]), help="How far ahead cues start."),
    click.option("--level", metavar="NAME", help="Which ways are led: ease, more, or, or a name."),
    click.option(
        "--keep", is_flag=True, help="Keep to the clock: stays give and take on their own."
    ),
    click.option("--prompt", is_flag=True, help="Terse cues half a breath ahead, for you alone."),
    click.option("--offset-ms", type=int, metavar="MS", help="Move all sound, for Bluetooth."),
    click.option("--distance", type=float, metavar="M", help="How far away the screen stands."),
    click.option("--theme", type=click.Choice(["dark", "light", "contrast"]), help="Colours."),
    click.option(
        "--mirror",
        type=click.Choice(["off", "screen", "cues", "both"]),
        help="Tell your own side as you face the class.",
    ),
    click.option("--no-journal", is_flag=True, help="Leave no journal of it."),
)

Verb = TypeVar("Verb", bound=Callable[..., object])


def of_leading(verb: Verb) -> Verb:
    """Give a verb the options that leading and rehearsing have in common."""
    for option in reversed(_OPTIONS):
        verb = option(verb)
    return verb


@click.command()
@click.argument("plan", required=False)
@click.option("--speed", type=click.FloatRange(0.25, 120), default=1.0, help="Times as fast.")
@click.option("--end", metavar="HH:MM", help="Fit the class to end at this time of day.")
@click.option("--resume", is_flag=True, help="Go on with the class that broke off last.")
@click.option("--afresh", is_flag=True, help="Not with the voice and ways of last time.")
@of_leading
def lead(plan: str | None, **options: object) -> None:
    """Lead the class of PLAN: a file, a shipped plan by name, or a folder to choose from.

    Space stops and goes on, the arrow keys skip and go back, ? shows all keys.
    """
    settings, wishes = settings_of(options)
    how = How(
        speed=float(str(options["speed"])),
        end=_time_of_day(options["end"]),
        journal=not options["no_journal"],
        recall=not options["afresh"],
        given=given_of(options),
        glass=wishes.glass,
    )
    plain = bool(options["plain"]) or not terminal()
    resume = bool(options["resume"])
    if resume and (plan or how.end):
        raise click.UsageError("a class that broke off keeps its plan and its end: --resume alone")
    folder = Path(plan) if plan and Path(plan).is_dir() else None
    if plain and not resume and (plan is None or folder):
        raise click.UsageError(_which(folder))
    path = None if resume or folder or plan is None else find(plan)
    asked = Asked(path, settings, how) if path or resume else _Shelf(settings, how, folder)
    raise SystemExit(run(asked, settings, how, wishes, sys.stdout if plain else None))


def run(
    asked: "Asked | _Shelf", settings: Settings, how: How, wishes: Wishes, plain: TextIO | None
) -> int:
    """Lead what is asked for, or what is chosen from the shelf; `plain` takes lines of text."""
    try:
        if plain and isinstance(asked, Asked):
            return _plain(asked, settings, how, wishes, plain)
        return _screens(asked, settings, how, wishes)
    except VoiceError as error:
        raise click.UsageError(str(error)) from error


def _which(folder: Path | None) -> str:
    """Ask for a plan, naming those there are."""
    there = places.plans_in(folder) if folder else places.shipped_plans()
    known = ", ".join(str(path) if folder else path.stem for path in there)
    return f"which plan? A file, or one of: {known}"


def terminal(out: TextIO | None = None) -> bool:
    """Whether a person sits at a terminal that can show screens."""
    drawn = (out or sys.stdout).isatty()
    return sys.stdin.isatty() and drawn and os.environ.get("TERM") != "dumb"


def _wanted(options: dict[str, object]) -> dict[str, object]:
    """What the command line says, by the names of the settings."""
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
        ("mirror", "mirror"),
    ):
        if options[option] is not None:
            wanted[setting] = options[option]
    flags = (
        ("silent", "sound", False),
        ("mute", "speak", False),
        ("prompt", "prompting", True),
        ("keep", "keep_to_the_clock", True),
    )
    wanted.update({setting: value for option, setting, value in flags if options[option]})
    return wanted


def given_of(options: dict[str, object]) -> frozenset[str]:
    """Names of the settings that the command line names, which win over a plan's."""
    return frozenset(_wanted(options))


def settings_of(options: dict[str, object]) -> tuple[Settings, Wishes]:
    """Settings and keys of the person, changed by what the command line says.

    What is wrong in the file is told and left out: a slip there must not keep a class waiting.
    """
    kept = store.kept()
    own = keyed(kept.keys)
    file = store.settings_file()
    troubles = (*kept.troubles, *(f"{file}: [keys] {words}" for words in own.troubles))
    for words in troubles:
        click.echo(words, err=True)
    try:
        settings = store.changed(kept.settings, _wanted(options), "command line")
    except store.SettingsError as error:
        raise click.UsageError(str(error)) from error
    return settings, Wishes(own.actions, troubles, glass=Glass(settings.mirror))


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


def find(plan: str) -> Path:
    """Find a plan with nothing loaded; a name that is none is told with those there are."""
    try:
        return places.plan(plan)
    except FileNotFoundError:
        from conductor.cli import opening  # noqa: PLC0415 -- not before a picture

        return opening.find(plan)


class Asked:
    """The class asked for, of a plan or the one that broke off: opened when it is called.

    What kept it from being opened stays here, so that it can be told once the screens are closed;
    so does the class it was `made`, for what is to be told of it then.
    """

    def __init__(self, path: Path | None, settings: Settings, how: How) -> None:
        self._path = path
        self._settings = settings
        self._how = how
        self.refused: Opened | click.ClickException | None = None
        self.made: Class | None = None

    @property
    def goes_on(self) -> bool:
        """Whether the class that broke off is what was asked for."""
        return self._path is None

    @property
    def title(self) -> str:
        """The plan's title as its first lines have it, else the file's name; nothing is loaded."""
        if self._path is None:
            return "The class that broke off"
        return places.title(self._path)

    def __call__(self) -> "Class | str":
        """Open it; why not, in words, when it cannot be led."""
        from conductor.cli import shelf  # noqa: PLC0415 -- not before a picture

        try:
            found = self._opened()
        except click.ClickException as error:
            self.refused = error
            return error.message
        except OSError as error:
            words = f"{self._path} cannot be read: {error.strerror or error}"
            self.refused = click.ClickException(words)
            return words
        if not isinstance(found, shelf.Opened):
            self.made = found
            return found
        self.refused = found
        return shelf.refusal(found)

    def _opened(self) -> "Class | Opened":
        from conductor.cli import shelf  # noqa: PLC0415 -- not before a picture

        if self._path is None:
            return shelf.resumed(self._settings, self._how)
        return shelf.made(self._path, self._settings, self._how)

    def tell(self, words: str = "") -> None:
        """Print why it cannot be led, in colour where the terminal has it; leave with 1 or 2."""
        from conductor.cli import shelf, tell  # noqa: PLC0415 -- not before a picture

        if isinstance(self.refused, click.ClickException):
            raise self.refused
        if self.refused is not None:
            words = shelf.refusal(self.refused, tell.painter(sys.stderr))
        click.echo(words.rstrip("\n"), err=True)


class _Shelf:
    """The shelf of plans, whose code is loaded when it is first looked at, after the picture."""

    def __init__(self, settings: Settings, how: How, folder: Path | None) -> None:
        self._settings = settings
        self._how = how
        self._folder = folder

    @cached_property
    def _shelf(self) -> "Shelf":
        from conductor.cli import shelf  # noqa: PLC0415 -- not before a picture

        return shelf.Shelf(self._settings, self._how, self._folder)

    def plans(self) -> "Sequence[Entry]":
        """All of them, unread."""
        return self._shelf.plans()

    def entry(self, key: str) -> "Entry":
        """One of them read."""
        return self._shelf.entry(key)

    def open(self, key: str) -> "Class | str":
        """A class made ready, or the findings that keep it from being led."""
        return self._shelf.open(key)


def _clock() -> str:
    return f"{datetime.now().astimezone():%H:%M}"


def _screens(asked: "Asked | _Shelf | None", settings: Settings, how: How, wishes: Wishes) -> int:
    """Show the screens; if they die, plain lines take over on the same class."""
    from conductor.screens.running import run_app  # noqa: PLC0415 -- textual only here
    from conductor.screens.wiring import How as Ended  # noqa: PLC0415 -- textual only here
    from conductor.screens.wiring import Opening  # noqa: PLC0415 -- textual only here
    from conductor.terminal import row_pixels  # noqa: PLC0415 -- only with screens

    wishes = replace(wishes, pixels=row_pixels())
    shelf = asked if isinstance(asked, _Shelf) else None
    asked = asked if isinstance(asked, Asked) else None
    opening = Opening(asked.title, asked) if asked else None
    ending = run_app(
        settings,
        _clock,
        shelf=shelf,
        opening=opening,
        offering=None if asked and asked.goes_on else lambda: _offer(settings, how),
        wishes=wishes,
        log=store.log(),
    )
    if ending.how is Ended.REFUSED and asked:
        asked.tell(ending.error)
        return 1
    if ending.how is Ended.LEFT and ending.leading is None:
        return 0
    from conductor.cli.classroom import Led  # noqa: PLC0415 -- not before a picture

    led = ending.leading
    if ending.how is Ended.DIED:
        with contextlib.suppress(OSError):  # the terminal itself may be gone
            click.echo(f"The screen closed: {ending.error}", err=True)
            if led is not None:
                click.echo("The class goes on in plain lines.", err=True)
        if isinstance(led, Led):
            led.news(0)  # what was on the screens is not told again
            return _lead_plain(led, wishes)
    if isinstance(led, Led):
        led.close()
    return 1 if ending.how is Ended.DIED else 0


def _offer(settings: Settings, how: How) -> "Offer | None":
    """What there is to be taken up again."""
    from conductor.cli.back import offer  # noqa: PLC0415 -- not before a picture

    return offer(settings, how)


def _plain_offer(asked: Asked, settings: Settings, how: How) -> "Class | str":
    """Open what was asked for, or the class that broke off where somebody says so."""
    offer = None if asked.goes_on else _offer(settings, how)
    if offer is None:
        return asked()
    click.echo(offer.words, err=True)
    if not sys.stdin.isatty():
        click.echo("`conductor lead --resume` goes on with it.", err=True)
        return asked()
    if click.confirm("Go on with it?", default=True, err=True):
        return cast("Class | str", offer.go_on())
    offer.let_go()
    return asked()


def _plain(asked: Asked, settings: Settings, how: How, wishes: Wishes, out: TextIO) -> int:
    """Make the class ready with a line of progress, then lead it in lines of text."""
    from conductor.cli.progress import on_one_line  # noqa: PLC0415 -- only here
    from conductor.view.before import lines  # noqa: PLC0415 -- only here

    ready = _plain_offer(asked, settings, how)
    if isinstance(ready, str):
        asked.tell(ready)
        return 1
    click.echo("\n".join(lines(ready.score, ready.goes_on)), out)
    trouble = ready.prepare(on_one_line("Rendering the voice"))
    last = f"As last time: {ready.as_last_time}." if ready.as_last_time else ""
    machine = [one.line for one in ready.machine()] if how.speed == 1.0 else []
    for words in (last, trouble, *machine, ready.begin_now()):
        if words:
            click.echo(words, err=True)
    led = ready.begin()
    if ready.unkept:
        click.echo(ready.unkept, err=True)
    led.post(Command(Do.GO_ON if ready.how.broken else Do.BEGIN))
    return _lead_plain(led, wishes, out)


def _lead_plain(led: "Led", wishes: Wishes, out: TextIO | None = None) -> int:
    from conductor.plain import lead_plain  # noqa: PLC0415 -- only here

    if hasattr(signal, "SIGHUP"):  # a closed terminal ends no class: the room still hears it
        signal.signal(signal.SIGHUP, signal.SIG_IGN)
    try:
        lead_plain(led, out or sys.stdout, sys.stdin, wishes.actions, wishes.glass)
    finally:
        led.close()
    return 0
