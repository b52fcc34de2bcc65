"""How loud voice and bells are: part of the class, so that journal and taking back know it."""

from conductor.engine.changes import Done
from conductor.engine.led import Led, Tools
from conductor.engine.model import Command
from conductor.engine.moves import RefusedError
from conductor.settings import BELLS_DBS, VOICE_DBS
from conductor.values import replace

STEP_DB = 3  # plainly heard, and eight presses from loudest to hardly there


def voice_louder(led: Led, _: Command, _now: int, _tools: Tools) -> Done:
    """The voice a step louder, what is being said included."""
    db = _stepped(led.voice_db, STEP_DB, VOICE_DBS, "The voice is")
    return replace(led, voice_db=db), f"Voice louder: {told(db)}.", []


def voice_softer(led: Led, _: Command, _now: int, _tools: Tools) -> Done:
    """The voice a step softer, what is being said included."""
    db = _stepped(led.voice_db, -STEP_DB, VOICE_DBS, "The voice is")
    return replace(led, voice_db=db), f"Voice softer: {told(db)}.", []


def bells_louder(led: Led, _: Command, _now: int, _tools: Tools) -> Done:
    """The bells a step louder, what rings included."""
    db = _stepped(led.bells_db, STEP_DB, BELLS_DBS, "The bells are")
    return replace(led, bells_db=db), f"Bells louder: {told(db)}.", []


def bells_softer(led: Led, _: Command, _now: int, _tools: Tools) -> Done:
    """The bells a step softer, what rings included."""
    db = _stepped(led.bells_db, -STEP_DB, BELLS_DBS, "The bells are")
    return replace(led, bells_db=db), f"Bells softer: {told(db)}.", []


def _stepped(db: int, by: int, bounds: tuple[int, int], what: str) -> int:
    low, high = bounds
    wanted = min(max(db + by, low), high)
    if wanted == db:
        end = "loud as it goes; turn up the loudspeaker" if by > 0 else "soft as it goes"
        raise RefusedError(f"{what} as {end}.")
    return wanted


def told(db: int) -> str:
    """A volume in words: "as recorded", "6 dB softer"."""
    if not db:
        return "as recorded"
    return f"{abs(db)} dB {'louder' if db > 0 else 'softer'} than recorded"
