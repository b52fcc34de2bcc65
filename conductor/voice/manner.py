"""How it is said: engine, voice and pace, refused before class when they cannot be had."""

from pathlib import Path

from conductor.values import Struct

RATES_WPM = range(80, 451)  # outside of these the engine keeps its old rate and says nothing
ENGINES = ("espeak", "natural")


class VoiceError(ValueError):
    """A voice, engine or rate that cannot be had; `hint` says what can be typed instead."""

    def __init__(self, words: str, hint: str = "") -> None:
        super().__init__(f"{words}. {hint}" if hint else words)
        self.words = words
        self.hint = hint


class Manner(Struct, frozen=True):
    """Engine ("espeak" or "natural"), voice ("" its usual one), words a minute, volume 0 to 1.

    `model` is the file of a natural voice; None takes the one that is installed.
    """

    engine: str = "espeak"
    voice: str = ""
    rate: int = 150
    volume: float = 1.0
    model: Path | None = None

    def start(self, rate: int, work: Path | str) -> dict[str, object]:
        """What a child is told of it; `rate` may be corrected, `work` is for its scratch files."""
        return {
            "engine": self.engine,
            "voice": self.voice,
            "rate": rate,
            "model": str(self.model) if self.model else "",
            "work": str(work),
        }

    def check(self) -> None:
        """Refuse what no engine can do; whether a voice exists only the child can tell."""
        if self.engine not in ENGINES:
            raise VoiceError(f"no voice engine is called {self.engine!r}", "Use espeak or natural.")
        if self.rate not in RATES_WPM:
            low, high = RATES_WPM[0], RATES_WPM[-1]
            nearest = min(max(self.rate, low), high)
            raise VoiceError(
                f"the voice speaks {low} to {high} words a minute, not {self.rate}",
                f"The nearest is {nearest}.",
            )
        if not 0 < self.volume <= 1:
            raise VoiceError(
                f"the volume is above 0 and at most 1, not {self.volume}", "1 is usual."
            )
        if self.model is not None and not self.model.is_file():
            raise VoiceError(f"there is no voice model at {self.model}", "Give an .onnx file.")
