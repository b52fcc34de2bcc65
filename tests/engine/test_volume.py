from typing import Any

import pytest

from conductor.engine.model import Do
from conductor.engine.volume import told
from conductor.score.sounds import Bell
from conductor.settings import BELLS_DBS, VOICE_DBS, Settings
from tests.engine.make import Class, at, leading


def volumes(led: Class) -> dict[type, set[int]]:
    """How loud voice and bells are wanted."""
    found: dict[type, set[int]] = {}
    for sound in led.engine.upcoming(led.now, 200_000):
        found.setdefault(type(sound.what), set()).add(sound.db)
    return found


@pytest.mark.parametrize(
    ("do", "field", "bounds"),
    [
        (Do.VOICE_LOUDER, "voice_db", VOICE_DBS),
        (Do.VOICE_SOFTER, "voice_db", VOICE_DBS),
        (Do.BELLS_LOUDER, "bells_db", BELLS_DBS),
        (Do.BELLS_SOFTER, "bells_db", BELLS_DBS),
    ],
)
def test_a_volume_goes_by_steps_to_its_end_and_no_further(
    do: Do, field: str, bounds: tuple[int, int]
) -> None:
    led = leading()
    end = bounds["louder" in do]
    heard = [getattr(led.look(), field)]
    while do in led.look().offers:
        assert led.do(do).done
        heard.append(getattr(led.look(), field))
    assert heard == list(range(0, end + (1 if end >= 0 else -1), 3 if end > 0 else -3)) or not end
    assert heard[-1] == end
    assert "as it goes" in led.do(do).words


def test_the_volume_holds_for_what_sounds_already_and_for_all_to_come() -> None:
    led = at("leg right", 3700)
    before = led.engine.upcoming(led.now, 0)
    led.do(Do.VOICE_SOFTER)
    after = led.engine.upcoming(led.now, 0)
    assert [(one.id, one.start, one.db) for one in after] == [
        (one.id, one.start, -3) for one in before
    ]
    led.do(Do.BELLS_SOFTER)
    led.do(Do.BELLS_SOFTER)
    kinds = volumes(led)
    assert kinds.pop(Bell) == {-6}
    assert list(kinds.values()) == [{-3}]


def test_a_class_begins_as_loud_as_was_set() -> None:
    given: dict[str, Any] = {"pick": Settings(voice_db=-7, bells_db=-23)}
    led = Class(**given)
    led.begin()
    assert led.do(Do.VOICE_LOUDER).words == "Voice louder: 4 dB softer than recorded."
    assert led.do(Do.BELLS_SOFTER).words == "Bells softer: 24 dB softer than recorded."


def test_volumes_in_words() -> None:
    assert [told(db) for db in (3, 0, -6)] == [
        "3 dB louder than recorded",
        "as recorded",
        "6 dB softer than recorded",
    ]
