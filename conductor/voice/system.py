"""The engine through pyttsx3: espeak-ng, or the system's own voice where that is usual."""

from __future__ import annotations

import ctypes
import os
import sys
from array import array
from pathlib import Path
from typing import Any

from conductor.voice import pcm
from conductor.voice.engines import NoEngineError, UnknownVoiceError, VoiceInfo

USUAL_VOICE = "gmw/en"
_UTF8, _IPA = 1, 2


class SystemEngine:
    """pyttsx3 with its traps handled: warmed up, one run for each text, waited for."""

    def __init__(self, voice: str, rate: int, work: Path) -> None:
        self._library = _bundled()
        self._raw = work / f"{os.getpid()}.raw"
        self._engine = _pyttsx3()
        if self._library is None and self._engine.driver_name == "espeak":
            from pyttsx3.drivers import _espeak  # noqa: PLC0415

            self._library = _espeak.dll
        self.name = self._named()
        self.voice = self._choose(voice)
        self._engine.setProperty("rate", rate)
        # The first run of a process may return before its file is whole, and the one after a
        # change of rate may be mute: two are spent, and the rate is never changed again.
        self._render("warm up")
        self._render("warm up")

    def voices(self) -> list[VoiceInfo]:
        """Those that need no further program."""
        found = self._engine.getProperty("voices")
        infos = [VoiceInfo(v.id, v.name, _language(v)) for v in found]
        return [info for info in infos if not info.id.startswith("mb/")]

    def say(self, text: str) -> tuple[array[int], int]:
        """One text, one run, one file, since only the last of several would be written."""
        self._render(text)
        try:
            return pcm.read(self._raw)
        finally:
            self._raw.unlink(missing_ok=True)

    def phonemes(self, text: str) -> str:
        """IPA of the text in the present voice."""
        if self._library is None:
            raise NoEngineError("only espeak-ng tells phonemes")
        self._engine.runAndWait()
        call = self._library.espeak_TextToPhonemes
        call.restype = ctypes.c_char_p
        rest = ctypes.c_char_p(text.encode())
        clauses = []
        while rest.value:
            clauses.append((call(ctypes.byref(rest), _UTF8, _IPA) or b"").decode())
        return " ".join(" ".join(clauses).split())

    def _render(self, text: str) -> None:
        self._engine.save_to_file(text, str(self._raw))
        self._engine.runAndWait()
        if self._library is not None:
            self._library.espeak_Synchronize()

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
        self._engine.setProperty("voice", voice)
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

        os.environ["ESPEAK_DATA_PATH"] = espeakng_loader.get_data_path()
        return ctypes.CDLL(espeakng_loader.get_library_path(), mode=ctypes.RTLD_GLOBAL)
    except (ImportError, OSError, RuntimeError):
        os.environ.pop("ESPEAK_DATA_PATH", None)
        return None


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
