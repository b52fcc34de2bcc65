"""The state of the machine before a class, in words: sound, sleep, power."""

from conductor.values import Struct
from conductor.view.clean import clean
from conductor.view.spell import span

SPARE_MS = 15 * 60_000  # beyond the class itself: a room comes in and leaves
NO_SOUND = "No sound: "  # so begins what an output says of itself; a line says what it is of
LOW_PERCENT = 30  # where the time left is not known


class Fact(Struct, frozen=True):
    """One thing of the machine: how it is, and whether it is well as it is."""

    what: str
    words: str
    well: bool = True

    @property
    def line(self) -> str:
        """It as a line of text."""
        return f"{self.what}: {self.words}"


def power_told(plugged: bool, percent: int, left_ms: int | None, class_ms: int) -> Fact:
    """The battery, and whether it lasts for the class and a quarter of an hour."""
    if plugged:
        return Fact("Power", f"plugged in, the battery at {percent} %.")
    told = f"on battery, {percent} %"
    if left_ms is None:
        low = percent < LOW_PERCENT
        return Fact("Power", f"{told}{': plug it in.' if low else '.'}", not low)
    left = f"{told}, about {span(left_ms // 60_000 * 60_000)} left"
    if left_ms < class_ms + SPARE_MS:
        return Fact("Power", f"{left}; the class takes {span(class_ms)}: plug it in.", False)
    return Fact("Power", f"{left}.")


NO_BATTERY = Fact("Power", "no battery tells of itself: mains, as far as is known.")


def sleep_told(held: bool) -> Fact:
    """Whether the machine stays awake while nobody touches it."""
    if held:
        return Fact("Sleep", "held off while the class is led, blanking too.")
    words = "cannot be held off here: set the machine itself not to sleep or go dark."
    return Fact("Sleep", words, False)


def sound_told(playing: bool, words: str, device: str) -> Fact:
    """Where sound goes, or what is the matter with it."""
    if not playing:
        told = clean(words).removeprefix(NO_SOUND).removeprefix("Sound: ")
        return Fact("Sound", told, not words.startswith(NO_SOUND.rstrip(": ")))
    where = f"through {clean(device)}" if device else "through the system's output"
    return Fact("Sound", f"plays {where}; t strikes a bell. {clean(words)}".strip(), not words)
