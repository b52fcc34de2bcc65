from array import array

from conductor.clock import SetClock
from conductor.score.model import Saying
from conductor.score.sounds import Bell, Sound, SoundId
from conductor.sound.timed import IDLE_S, WORDS, Timed
from tests.sound import pulse


class Room:
    """A timed output driven by hand; remembers at which ms what was started and stopped."""

    def __init__(self, speed: float = 1.0) -> None:
        self.clock = SetClock(5000)
        self.done: list[tuple[str, int]] = []
        self.output = Timed(self.library, self.clock, self.play, speed, run=False)

    def library(self, what: Saying | Bell) -> "array[int] | None":
        return array("h", [1, 2]) if what != Saying("mute") else None

    def play(self, _: "array[int]") -> "Room":
        self.done.append(("start", self.clock.now() - 5000))
        return self

    def stop(self) -> None:
        self.done.append(("stop", self.clock.now() - 5000))

    def go(self, until: int) -> None:
        """Let time pass as the thread would, to the ms; only a change of the list wakes it."""
        while (left := 5000 + until - self.clock.now()) > 0:
            wait = round(self.output.turn() * 1000)
            self.clock.forward(max(1, min(left, wait)))
        self.output.turn()


def said(start: int, what: Saying | Bell | None = None) -> Sound:
    return Sound(SoundId(f"{start}", 0, "v"), start, what or Saying("a"), start + 1500)


def test_sounds_start_at_their_times() -> None:
    room = Room()
    room.output.want([said(700, Bell("b")), said(1333), said(1400, Saying("mute"))], 0)
    room.go(3000)
    assert room.done == [("start", 700), ("start", 1333)]


def test_a_faster_class_has_them_sooner() -> None:
    room = Room(speed=1.25)
    room.output.want([said(1000)], 0)
    room.go(2000)
    assert room.done == [("start", 800)]


def test_what_is_taken_back_is_stopped_or_never_started() -> None:
    room = Room()
    room.output.want([said(500), said(1500)], 0)
    room.go(600)
    room.output.want([], 600)
    room.go(2000)
    assert room.done == [("start", 500), ("stop", 600)]


def test_a_voice_stops_the_voice_before_it_and_no_bell() -> None:
    room = Room()
    room.output.want([said(100, Bell("b")), said(500), said(900)], 0)
    room.go(1000)
    assert room.done == [("start", 100), ("start", 500), ("stop", 900), ("start", 900)]


def test_what_is_stale_is_not_said() -> None:
    room = Room()
    room.output.timed(5000, 1.0)
    room.clock.forward(2000)
    room.output.want([said(400), said(600)], 2000)
    room.go(2500)
    assert room.done == [("start", 2000)]


def test_nothing_is_due_before_anything_was_wanted() -> None:
    assert Room().output.turn() == IDLE_S


def test_its_thread_survives_a_library_that_fails_and_tells() -> None:
    def broken(_: "array[int]") -> Room:
        raise OSError("the card is taken")

    room = Room()
    output = Timed(room.library, room.clock, broken)
    assert output.status().words == WORDS
    output.want([said(0)], 0)
    assert pulse.until(lambda: "the card is taken" in output.status().words)
    assert not output.status().playing
    output.want([], 0)
    assert pulse.until(lambda: output.status().words == WORDS)
    output.close()
