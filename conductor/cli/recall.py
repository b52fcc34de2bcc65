"""What each plan was led with last time: the voice, its pace, the ways; used again unless told."""

import contextlib
import json
import os
from collections.abc import Mapping
from pathlib import Path

from conductor import store
from conductor.settings import Settings

KEPT = (
    *("voice", "rate", "engine", "speak", "room", "level", "prompting"),
    *("voice_db", "bells_db"),
)
"""Settings that belong to a plan; those of the room, like distance and colours, do not."""
AS_BEGUN = (*KEPT, "sound", "keep_to_the_clock", "offset_ms", "view_distance_m")
"""Settings a class that broke off is gone on with, for else it were led again as another class."""
MOST = 500  # plans remembered; those not led for the longest time are forgotten first


def recalled(plan: Path) -> dict[str, object]:
    """The settings this plan was led with last time, by name; {} where none are known."""
    kept = _all().get(str(plan.resolve()))
    return {name: kept[name] for name in KEPT if name in kept} if isinstance(kept, dict) else {}


def as_last_time(settings: Settings, plan: Path, given: frozenset[str]) -> tuple[Settings, str]:
    """The settings with those of last time where none are asked for now, and what they are."""
    wanted = {name: value for name, value in recalled(plan).items() if name not in given}
    new = {name: value for name, value in wanted.items() if getattr(settings, name) != value}
    try:
        return store.changed(settings, new, "last time"), _told(new)
    except store.SettingsError:
        return settings, ""  # of another version, or changed by hand: it is only a convenience


def led_with(settings: Settings) -> dict[str, object]:
    """What a class begins with, for its journal."""
    return {name: getattr(settings, name) for name in AS_BEGUN}


def as_it_began(
    settings: Settings, opened: Mapping[str, object], given: frozenset[str]
) -> Settings:
    """The settings a class began with by its journal's first line, but for those asked for now."""
    kept = opened.get("led_with")
    known = kept if isinstance(kept, dict) else {}
    wanted = {name: known[name] for name in AS_BEGUN if name in known and name not in given}
    try:
        return store.changed(settings, wanted, "its journal")
    except store.SettingsError:
        return settings  # of another version


def _told(new: Mapping[str, object]) -> str:
    """The settings of last time as people read them."""
    words = {
        "speak": "voice on" if new.get("speak") else "voice off",
        "prompting": "the prompting voice" if new.get("prompting") else "the usual voice",
        "level": f"ways: {new.get('level') or 'as written'}",
        "rate": f"{new.get('rate')} words a minute",
        "voice_db": f"voice {new.get('voice_db')} dB",
        "bells_db": f"bells {new.get('bells_db')} dB",
        "room": "a room that knows it" if new.get("room") == "known" else "a room new to it",
    }
    return ", ".join(words.get(name, f"{name} {value}") for name, value in new.items())


def remember(plan: Path, settings: Settings, usual: Settings) -> None:
    """Keep what this plan was led with, where it differs from the usual settings."""
    kept = {
        name: getattr(settings, name)
        for name in KEPT
        if getattr(settings, name) != getattr(usual, name)
    }
    known = _all()
    known.pop(str(plan.resolve()), None)
    known = {str(plan.resolve()): kept, **known} if kept else known
    _write(dict(list(known.items())[:MOST]))


def _all() -> dict[str, object]:
    try:
        found = json.loads(store.remembered().read_text("utf-8"))
    except (OSError, ValueError):
        return {}  # a bad file is written anew the next time
    return found if isinstance(found, dict) else {}


def _write(known: Mapping[str, object]) -> None:
    """Put it in the place of the old file in one step; a full disk costs only the memory."""
    place = store.remembered()
    part = place.with_suffix(f".{os.getpid()}.part")
    with contextlib.suppress(OSError):
        part.write_text(json.dumps(known, indent=1, ensure_ascii=False), "utf-8")
        part.replace(place)
