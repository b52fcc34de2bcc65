"""The engine through pyttsx3: espeak-ng, or the system's own voice where that is usual."""

from __future__ import annotations

import ctypes
import os
import sys
import time
from array import array
from pathlib import Path
from typing import Any

from conductor.voice import pcm
from conductor.voice.engines import NoEngineError, UnknownVoiceError, VoiceInfo

USUAL_VOICE = "gmw/en"
_UTF8, _IPA = 1, 2
_RATE, _CURRENT = 1, 1
_POLL_S = 0.001  # the library's own wait looks only each 20 ms


class SystemEngine:
    """pyttsx3 with its traps handled: warmed up, one run for each text, waited for."""

    def __init__(self, voice: str, rate: int, work: Path) -> None:
        bundled = _bundled()
        self._raw = work / f"{os.getpid()}.raw"
        self._engine = _pyttsx3()
        self._library = None
        if self._engine.driver_name == "espeak":
            from pyttsx3.drivers import _espeak  # noqa: PLC0415

            self._library = bundled or _espeak.dll
        self.name = self._named()
        self._rate = rate
        self.voice = self._settle(voice, rate)

    def voices(self) -> list[VoiceInfo]:
        """Those that need no further program."""
        found = self._engine.getProperty("voices")
        infos = [VoiceInfo(v.id, v.name, _language(v)) for v in found]
        return [info for info in infos if not info.id.startswith("mb/")]

    def say(self, text: str) -> tuple[array[int], int]:
        """One text, one run, one file, since only the last of several would be written."""
        self._render(text)
        if not self._holds():
            raise NoEngineError(f"the voice lost its rate of {self._rate}")
        try:
            return pcm.read(self._raw)
        finally:
            self._raw.unlink(missing_ok=True)

    def phonemes(self, text: str) -> str:
        """IPA of the text in the present voice."""
        if self._library is None:
            raise NoEngineError("only espeak-ng tells phonemes")
        call = self._library.espeak_TextToPhonemes
        call.restype = ctypes.c_char_p
        rest = ctypes.c_char_p(f"{text}\n".encode())  # else a number at the end is held back
        clauses = []
        while rest.value:
            clauses.append((call(ctypes.byref(rest), _UTF8, _IPA) or b"").decode())
        return " ".join(" ".join(clauses).split())

    def _render(self, text: str) -> None:
        self._wait()
        self._engine.save_to_file(text, str(self._raw))
        self._engine.runAndWait()
        self._wait()

    def _wait(self) -> None:
        while self._library is not None and self._library.espeak_IsPlaying():
            time.sleep(_POLL_S)

    def _settle(self, voice: str, rate: int) -> str:
        """Set voice and rate for good.

        A run drops every setting that is still on its way, so one is spent first, after which
        settings go through at once, and another after them; then it is seen whether they hold.
        """
        self._render("warm up")
        chosen = self._choose(voice)
        self._engine.setProperty("voice", chosen)
        self._engine.setProperty("rate", rate)
        self._wait()
        self._render("warm up")
        if not self._holds():
            raise NoEngineError(f"the voice does not take the rate {rate}")
        return chosen

    def _holds(self) -> bool:
        if self._library is None:
            return True
        return int(self._library.espeak_GetParameter(_RATE, _CURRENT)) == self._rate

    def _choose(self, wanted: str) -> str:
        known = {info.id: info for info in self.voices()}
        name, _, variant = (wanted or self._usual(known)).partition("+")
        voice = next((key for key, v in known.items() if _answers(v, name)), None)
        if voice is None:
            names = {v.language for v in known.values()} | known.keys()
            raise UnknownVoiceError(name, tuple(sorted(names)))
        if variant:
            variants = self._variants()
            if variant.lower() not in variants:
                raise UnknownVoiceError(wanted, tuple(f"{name}+{v}" for v in sorted(variants)))
            voice = f"{voice}+{variants[variant.lower()]}"
        return voice

    def _usual(self, known: dict[str, VoiceInfo]) -> str:
        return USUAL_VOICE if USUAL_VOICE in known else str(self._engine.getProperty("voice"))

    def _variants(self) -> dict[str, str]:
        folder = Path(self._info()[1]) / "voices" / "!v"
        return {file.name.lower(): file.name for file in folder.glob("*") if file.is_file()}

    def _named(self) -> str:
        return f"espeak-ng {self._info()[0]}" if self._library else f"system voice ({sys.platform})"

    def _info(self) -> tuple[str, str]:
        if self._library is None:
            return "", ""
        folder = ctypes.c_char_p()
        self._library.espeak_Info.restype = ctypes.c_char_p
        version = self._library.espeak_Info(ctypes.byref(folder)) or b""
        return version.decode().split()[0], (folder.value or b"").decode()


def _bundled() -> Any:
    """Load the library that comes with us before pyttsx3 looks for one of the system."""
    try:
        import espeakng_loader  # noqa: PLC0415

        data = espeakng_loader.get_data_path()
        library = ctypes.CDLL(espeakng_loader.get_library_path(), mode=ctypes.RTLD_GLOBAL)
    except (ImportError, OSError, RuntimeError):
        return None
    os.environ["ESPEAK_DATA_PATH"] = data
    return library


def _pyttsx3() -> Any:
    try:
        import pyttsx3  # noqa: PLC0415

        return pyttsx3.init()
    except Exception as error:  # a driver may raise anything where its library is missing
        raise NoEngineError(
            f"no voice library was found ({type(error).__name__}: {error})"
        ) from error


def _language(voice: Any) -> str:
    languages = [code for code in voice.languages if code]
    return str(languages[0]).lstrip("\x05").strip() if languages else ""


def _answers(info: VoiceInfo, wanted: str) -> bool:
    return wanted.lower() in (info.id.lower(), info.language.lower(), info.name.lower())
