import pytest

from conductor.sound.player import OPENING
from conductor.view.machine import power_told, sleep_told, sound_told

HOUR = 3_600_000


@pytest.mark.parametrize(
    ("plugged", "percent", "left", "words", "well"),
    [
        (True, 80, None, "plugged in, the battery at 80 %.", True),
        (False, 80, None, "on battery, 80 %.", True),
        (False, 20, None, "on battery, 20 %: plug it in.", False),
        (False, 90, 2 * HOUR + 5_000, "on battery, 90 %, about 120 min left.", True),
        (
            False,
            50,
            HOUR + 9 * 60_000,
            "on battery, 50 %, about 69 min left; the class takes 60 min: plug it in.",
            False,
        ),
    ],
)
def test_a_battery_is_held_against_the_length_of_the_class(
    plugged: bool, percent: int, left: int | None, words: str, well: bool
) -> None:
    told = power_told(plugged, percent, left, HOUR)
    assert (told.what, told.words, told.well) == ("Power", words, well)


def test_a_machine_that_may_sleep_is_told_with_what_to_do() -> None:
    assert sleep_told(True).well
    told = sleep_told(False)
    assert not told.well
    assert told.line.startswith("Sleep: cannot be held off here: set the machine")


def test_sound_names_its_device_cleaned_or_says_what_is_the_matter() -> None:
    assert (
        sound_told(True, "", "Room\x1b[2J One").words
        == "plays through Room[2J One; t strikes a bell."
    )
    assert sound_told(True, "", "").words.startswith("plays through the system's output")
    lost = sound_told(False, "No sound: the output device is gone.", "")
    assert (lost.words, lost.well) == ("the output device is gone.", False)
    assert sound_told(False, "Sound is off.", "").well
    assert sound_told(False, OPENING, "").line == "Sound: opening the output device."
