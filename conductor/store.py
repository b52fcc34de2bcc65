"""What is kept between classes: settings, rendered speech, journals; in the system's own places."""

import os
import tomllib
from collections.abc import Mapping
from pathlib import Path

import platformdirs

from conductor.settings import BELLS_DBS, VOICE_DBS, Settings
from conductor.values import Struct, field, replace

NAME = "conductor"


class SettingsError(ValueError):
    """A settings file that cannot be used, with what to do."""


def private(folder: Path) -> Path:
    """Make a folder that only its owner can read; speech and journals tell about people."""
    folder.mkdir(parents=True, exist_ok=True, mode=0o700)
    if os.name == "posix":
        folder.chmod(0o700)
    return folder


def speech() -> Path:
    """Give the folder of rendered speech."""
    return private(Path(platformdirs.user_cache_dir(NAME)) / "speech")


def journals() -> Path:
    """Give the folder of journals and of the scores led."""
    return private(Path(platformdirs.user_state_dir(NAME)) / "journals")


def log() -> Path:
    """Give the file that takes what C libraries print while the screen is drawn."""
    return private(Path(platformdirs.user_state_dir(NAME))) / "output.log"


def remembered() -> Path:
    """Give the file of what each plan was led with; it need not exist."""
    return private(Path(platformdirs.user_state_dir(NAME))) / "plans.json"


def settings_file() -> Path:
    """Give the file of settings; it need not exist."""
    return Path(platformdirs.user_config_dir(NAME)) / "settings.toml"


class Kept(Struct, frozen=True):
    """The file of settings as read: what can be used, own keys unread, and a line for the rest."""

    settings: Settings = Settings()
    keys: Mapping[str, object] = field(default_factory=dict)
    troubles: tuple[str, ...] = ()


def kept(file: Path | None = None) -> Kept:
    """Read the settings; what cannot be used is told and keeps its default, so a class can begin.

    A person learns of a slip in the file minutes before a class: all of it, and no more than that
    is left out.
    """
    file = file or settings_file()
    try:
        data = tomllib.loads(file.read_text("utf-8-sig"))
    except FileNotFoundError:
        return Kept()
    except OSError as error:
        return Kept(troubles=(f"{file}: cannot be read: {error.strerror or error}",))
    except (tomllib.TOMLDecodeError, UnicodeDecodeError) as error:
        return Kept(troubles=(f"{file}: none of it can be used: {error}",))
    keys = data.pop("keys", {})
    found, troubles = Settings(), []
    for name, value in data.items():
        try:
            found = changed(found, {name.replace(" ", "_"): value}, file)
        except SettingsError as error:
            troubles.append(str(error))
    if not isinstance(keys, dict):
        troubles.append(f"{file}: keys stand below a line [keys], one action to a line")
        keys = {}
    return Kept(found, keys, tuple(troubles))


def settings(file: Path | None = None) -> Settings:
    """Read the settings; raises SettingsError with the file, the key and what is allowed."""
    found = kept(file)
    if found.troubles:
        raise SettingsError("\n".join(found.troubles))
    return found.settings


_KINDS = {
    int: "a whole number",
    float: "a number",
    bool: "true or false, without quotes",
    str: "words in quotes",
}


def changed(base: Settings, wanted: dict[str, object], where: object) -> Settings:
    """Change settings by name; raises SettingsError for an unknown name or a wrong kind."""
    known = {name: type(getattr(base, name)) for name in base.__struct_fields__}
    values: dict[str, object] = {}
    for key, value in wanted.items():
        if key not in known:
            raise SettingsError(f"{where}: no setting is called {key}; known: {', '.join(known)}")
        kind = known[key]
        if kind is float and isinstance(value, int) and not isinstance(value, bool):
            value = float(value)  # noqa: PLW2901 -- 2 metres are 2.0 metres
        if not isinstance(value, kind) or isinstance(value, bool) is not (kind is bool):
            raise SettingsError(f"{where}: {key} is {_KINDS[kind]}, not {value!r}")
        values[key] = value
    return _bounded(replace(base, **values), where)


_BOUNDS = {
    "rate": (80, 450),
    "buffer_ms": (100, 1000),
    "offset_ms": (-500, 500),
    "voice_db": VOICE_DBS,
    "bells_db": BELLS_DBS,
    "twice_ms": (0, 2000),
    "fastest": (0, 40),
    "view_distance_m": (0.3, 10.0),
    "cell_mm": (1.0, 60.0),
    "screen_ppi": (30.0, 1000.0),
}
_CHOICES = {
    "room": ("known", "new"),
    "theme": ("dark", "light", "contrast"),
    "engine": ("espeak", "natural"),
    "mirror": ("off", "screen", "cues", "both"),
}


def _bounded(settings: Settings, where: object) -> Settings:
    for name, (low, high) in _BOUNDS.items():
        value = getattr(settings, name)
        if value != getattr(Settings(), name) and not low <= value <= high:
            raise SettingsError(f"{where}: {name} lies between {low} and {high}")
    for name, allowed in _CHOICES.items():
        if getattr(settings, name) not in allowed:
            choices = ", ".join(repr(choice) for choice in allowed)
            raise SettingsError(f"{where}: {name} is one of {choices}")
    return settings
