"""The port behind which every engine stands, seen from within the child."""

from __future__ import annotations

from array import array
from dataclasses import dataclass
from typing import Protocol


class NoEngineError(Exception):
    """There is no such engine on this machine; the words say what is missing."""


class UnknownVoiceError(Exception):
    """There is no such voice; `known` are those there are."""

    def __init__(self, wanted: str, known: tuple[str, ...]) -> None:
        super().__init__(wanted)
        self.wanted = wanted
        self.known = known


@dataclass(frozen=True, slots=True)
class VoiceInfo:
    """A voice to choose: its id, a name for people, its language, and terms of use if told."""

    id: str
    name: str
    language: str
    terms: str = ""


class Engine(Protocol):
    """Something that turns ASCII into samples, at the one rate it was made for."""

    name: str
    voice: str

    def voices(self) -> list[VoiceInfo]:
        """Those there are."""
        ...

    def say(self, text: str) -> tuple[array[int], int]:
        """Samples as rendered, silence and all, and their rate in Hz."""
        ...
