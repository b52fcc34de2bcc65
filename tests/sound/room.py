"""A device that is played by the test: virtual time, no thread, no waiting."""

from array import array

from conductor.clock import SetClock
from conductor.score.model import Saying
from conductor.score.sounds import Bell, Sound, SoundId
from conductor.settings import Settings
from conductor.sound.player import Fill, NoOutputError, Player, Stream

PERIOD_MS = 200
STALL_MS = 700  # the irregular start of a stream
WORD = Saying("ah")
LONG = Saying("aah")
BELL = Bell("rest")
LEVEL = 10_000
SOUNDS: dict[Saying | Bell, "array[int]"] = {
    WORD: array("h", [LEVEL] * 4410),
    LONG: array("h", [LEVEL] * 88_200),
    BELL: array("h", [9000] * 4410),
}


class Output:
    """A device: asks for 200 ms of frames each 200 ms, after the stall of its start."""

    def __init__(self, fill: Fill, at: int) -> None:
        self.fill = fill
        self.latency_ms = float(PERIOD_MS)
        self.name = "the room"
        self.closed = False
        self.dues = [at, at + STALL_MS]

    def close(self) -> None:
        self.closed = True


class Room:
    """A player, a clock set by hand and a device that may come and go."""

    def __init__(self, *, there: bool = True, offset: int = 0, speed: float = 1.0) -> None:
        self.clock = SetClock(1_000_000)
        self.there = there
        self.trouble: Exception = NoOutputError("no output device was found")
        self.outputs: list[Output] = []
        self.heard: list[tuple[int, array[int]]] = []  # clock at which a block is heard
        self.player = Player(
            SOUNDS.get, self.clock, Settings(offset_ms=offset), self.open, speed=speed
        )
        self.sounds: list[Sound] = []
        self.speed = speed

    def open(self, fill: Fill, buffer_ms: int) -> Stream:
        assert buffer_ms == PERIOD_MS
        if not self.there:
            raise self.trouble
        self.outputs.append(Output(fill, self.clock.now()))
        return self.outputs[-1]

    @property
    def now(self) -> int:
        assert self.player.epoch is not None
        return round((self.clock.now() - self.player.epoch) * self.speed)

    def begin(self) -> None:
        self.began = self.clock.now()
        self.player.timed(self.began, self.speed)

    def run_at(self, speed: float) -> None:
        """Change the speed so that `now` does not jump."""
        epoch, self.speed = self.clock.now() - self.now / speed, speed
        self.player.timed(epoch, speed)

    def go(self, ms: int) -> None:
        """Let time pass in steps of 10 ms; the runner declares its sounds each 250 ms."""
        for _ in range(ms // 10):
            self.clock.forward(10)
            self._device()
            if self.clock.now() % 250 == 0:
                if self.player.epoch is not None:
                    self.player.want(self.sounds, self.now)
                self.player.tick()

    def _device(self) -> None:
        output = self.outputs[-1] if self.outputs else None
        if output is None or output.closed or not self.there:
            return
        while output.dues[0] <= self.clock.now():
            block = output.fill(PERIOD_MS * 441 // 10)
            self.heard.append((output.dues.pop(0) + PERIOD_MS, block))
            if len(output.dues) == 1:
                output.dues.append(output.dues[0] + PERIOD_MS)

    def onsets(self) -> list[tuple[int, int]]:
        """When sound set in after quiet (class ms, real), and how loud it is."""
        found, loud = [], False
        for at, block in self.heard:
            for k, sample in enumerate(block):
                if sample and not loud:
                    found.append((round(at + k / 44.1 - (self.player.epoch or 0)), sample))
                loud = bool(sample)
        return found

    def onset_times(self) -> list[int]:
        """When sound set in after quiet, by the clock."""
        return [start + round(self.player.epoch or 0) for start in self.starts()]

    def starts(self) -> list[int]:
        return [start for start, _ in self.onsets()]


def said(start: int, what: Saying | Bell = WORD, name: str = "", stale: int = 1500) -> Sound:
    return Sound(SoundId(name or str(start), 0, "voice"), start, what, start + stale)


def ready(room: Room) -> Room:
    room.go(3000)
    assert room.player.status.playing
    room.begin()
    return room
