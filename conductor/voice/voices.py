"""What there is to choose from, and how a text will sound, asked of a child of its own."""

from __future__ import annotations

import tempfile
from collections.abc import Sequence
from typing import Any

from conductor.voice.engines import VoiceInfo
from conductor.voice.manner import Manner
from conductor.voice.pool import Bench, NoVoiceError
from conductor.voice.process import COMMAND, ChildGoneError

_PATIENCE_S = 20.0


def voices(manner: Manner | None = None, command: Sequence[str] = COMMAND) -> list[VoiceInfo]:
    """The voices of an engine; NoVoiceError or VoiceError where there is none."""
    answer = _asked(manner or Manner(), command, {"do": "voices"})
    return [VoiceInfo(*told) for told in answer["voices"]]


def phonemes(
    texts: Sequence[str], manner: Manner | None = None, command: Sequence[str] = COMMAND
) -> list[str]:
    """IPA of each text as espeak-ng would say it, by which a bad respelling shows."""
    answer = _asked(manner or Manner(), command, {"do": "phonemes", "texts": list(texts)})
    return [str(told) for told in answer["phonemes"]]


def _asked(manner: Manner, command: Sequence[str], question: dict[str, Any]) -> dict[str, Any]:
    manner.check()
    with tempfile.TemporaryDirectory(prefix="voice-") as work:
        bench = Bench(manner.start(manner.rate, work), _no_part, _PATIENCE_S, command)
        try:
            answer = bench.ask(**question)
        except ChildGoneError as error:
            raise NoVoiceError(f"the voice process: {error}") from error
        finally:
            bench.close()
    if not answer["ok"]:
        raise NoVoiceError(str(answer["words"]))
    return dict(answer)


def _no_part() -> Any:
    raise NotImplementedError("nothing is rendered here")
