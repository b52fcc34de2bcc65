"""The child's main: reads questions and answers them, one JSON line each.

It is a process of its own because engines print, block and may crash, none of which a class may
notice. Its answers leave by a private descriptor; whatever is printed goes nowhere.
"""

from __future__ import annotations

import json
import math
import os
import signal
from array import array
from collections.abc import Callable, Mapping
from difflib import get_close_matches
from pathlib import Path
from typing import Any, TextIO

from conductor.voice import pcm
from conductor.voice.cache import no_room
from conductor.voice.engines import Engine, NoEngineError, UnknownVoiceError
from conductor.voice.loudness import TARGET_LUFS, levelled
from conductor.voice.natural import NaturalEngine
from conductor.voice.recordings import decode
from conductor.voice.system import SystemEngine
from conductor.voice.text import split

# Cues as a class has them, by which the pace asked for and the pace heard are compared.
MEASURED = (
    "Inhale, reach the arms overhead.",
    "Inhale, half lift.",
    "Exhale, step the left foot back to low lunge.",
    "Sink the hips, reach through both hands.",
)
_AUDIBLE = 328  # a hundredth of full scale; the quietest voice peaks at 0.6
_PIECE = 500  # letters: about half a minute
_PAUSE = array("h", [0] * (pcm.RATE_HZ // 4))  # a quarter of a second
_SHORTEST, _LONGEST, _GRACE_S = 0.25, 4.0, 1.5

Answer = dict[str, Any]


class OddError(Exception):
    """A render that cannot be right: silent, far too short or far too long."""


class Desk:
    """Answers questions; an engine is loaded when the first `start` asks for one."""

    def __init__(self) -> None:
        self._engine: Engine | None = None
        self._rate = 150
        self._jobs: Mapping[str, Callable[[Mapping[str, Any]], Answer]] = {
            "start": self._start,
            "measure": self._measure,
            "render": self._render,
            "take": self._take,
            "voices": self._voices,
            "phonemes": self._phonemes,
        }

    def answer(self, question: Mapping[str, Any]) -> Answer:
        """What became of it: `ok` and facts, or not `ok`, a `kind` and words."""
        try:
            return {"ok": True, **self._jobs[question["do"]](question)}
        except NoEngineError as error:
            return _no("no engine", error)
        except UnknownVoiceError as error:
            near = get_close_matches(error.wanted.lower(), error.known, 3, 0.4)
            near = near or list(error.known[:3])
            return {**_no("unknown voice", error), "near": near}
        except OddError as error:
            return _no("odd", error)
        except OSError as error:
            return _no("full" if no_room(error) else "failed", error)
        except Exception as error:  # noqa: BLE001 - one bad cue must not end the others
            return _no("failed", error)

    def _start(self, question: Mapping[str, Any]) -> Answer:
        model = question.get("model")
        voice, self._rate = question["voice"], question["rate"]
        if question["engine"] == "natural":
            self._engine = NaturalEngine(voice, self._rate, Path(model) if model else None)
        else:
            self._engine = SystemEngine(voice, self._rate, Path(question["work"]))
        return {"name": self._engine.name, "voice": self._engine.voice}

    def _measure(self, _question: Mapping[str, Any]) -> Answer:
        samples = [_said(self._loaded(), text) for text in MEASURED]
        for one in samples:
            _check(one, 0, even_odd=True)
        minutes = sum(map(len, samples)) / pcm.RATE_HZ / 60
        words = sum(len(text.split()) for text in MEASURED)
        return {"delivered": round(words / minutes, 1)}

    def _render(self, question: Mapping[str, Any]) -> Answer:
        text, even_odd = question["text"], question.get("even_odd", False)
        samples = _said(self._loaded(), text)
        _check(samples, len(text.split()) * 60 / self._rate, even_odd)
        return _keep(samples, question)

    def _take(self, question: Mapping[str, Any]) -> Answer:
        samples = decode(Path(question["source"]))
        _check(samples, 0, even_odd=True)
        return _keep(samples, question)

    def _voices(self, _question: Mapping[str, Any]) -> Answer:
        voices = self._loaded().voices()
        return {"voices": [[v.id, v.name, v.language, v.terms] for v in voices]}

    def _phonemes(self, question: Mapping[str, Any]) -> Answer:
        engine = self._loaded()
        if not isinstance(engine, SystemEngine):
            raise NoEngineError("only espeak-ng tells phonemes")
        return {"phonemes": [engine.phonemes(text) for text in question["texts"]]}

    def _loaded(self) -> Engine:
        if self._engine is None:
            raise NoEngineError("no engine was started")
        return self._engine


def _said(engine: Engine, text: str) -> array[int]:
    """A long text piece by piece, so that no run is long, with a speaker's pause between."""
    whole = array("h")
    for piece in split(text, _PIECE):
        whole.extend(_PAUSE if whole else ())
        whole.extend(pcm.trimmed(pcm.resampled(*engine.say(piece))))
    return whole


def _keep(samples: array[int], question: Mapping[str, Any]) -> Answer:
    target = TARGET_LUFS + 20 * math.log10(question["volume"])
    pcm.store(Path(question["part"]), levelled(samples, target))
    return {"samples": len(samples)}


def _check(samples: array[int], expected_s: float, even_odd: bool) -> None:
    if not any(sample > _AUDIBLE for sample in samples):
        raise OddError("not a sound in it")
    length_s = len(samples) / pcm.RATE_HZ
    low, high = expected_s * _SHORTEST, expected_s * _LONGEST + _GRACE_S
    if not (even_odd or low <= length_s <= high):
        raise OddError(f"{length_s:.1f} s where about {expected_s:.1f} s were expected")


def _no(kind: str, error: Exception) -> Answer:
    words = (error.strerror or str(error)) if isinstance(error, OSError) else str(error)
    return {"ok": False, "kind": kind, "words": words or type(error).__name__}


def _private() -> tuple[TextIO, TextIO]:
    """Move the protocol off descriptors 0 and 1, which libraries print to and read from."""
    questions = os.fdopen(os.dup(0), "r", encoding="utf-8")
    answers = os.fdopen(os.dup(1), "w", encoding="utf-8")
    nowhere = os.open(os.devnull, os.O_RDWR)
    os.dup2(nowhere, 0)
    os.dup2(nowhere, 1)
    os.close(nowhere)
    return questions, answers


def main() -> None:
    """Answer until there are no more questions; a Ctrl-C is the parent's to handle."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    questions, answers = _private()
    desk = Desk()
    for line in questions:
        answers.write(json.dumps(desk.answer(json.loads(line))) + "\n")
        answers.flush()


if __name__ == "__main__":
    main()
