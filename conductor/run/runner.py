"""The runner: one thread owns the machine that leads, and gives out one immutable picture."""

import queue
import threading
from collections.abc import Callable, Sequence

from conductor.clock import Clock
from conductor.engine.model import Command, Do, Happening, Snapshot, State
from conductor.run.ports import Journal, Machine, Output, OutputStatus
from conductor.values import Struct, replace

TICK_MS = 250  # how long at most between two looks, in real time
HORIZON_MS = 4_000  # how far ahead sound is declared, in real time
SLEPT_MS = 500  # the clocks' noise is microseconds; half a second apart is a sleep
STALL_MS = 2_000  # a loop that stood still this long missed what a sleep misses
GOES_ON_MS = 5_000  # the longest time in a class of which the journal says nothing, real time
MOST_FAULTS = 20  # turns in a row that failed: nothing leads this class any more
FAULT_S = 0.05  # before the next turn, so that a fault that stays does not take the processor
VOICE_SPEED = 1.5  # above this speed voice and bells are text


Listener = Callable[[tuple[Happening, ...], Snapshot], None]


class Line(Struct, frozen=True):
    """How class time follows the clock: it is `now` when the clock shows `at`, and runs `speed`.

    One value, so that whoever reads it from another thread never mixes an old part with a new one.
    """

    at: int
    now: int
    speed: float

    def now_at(self, clock: int) -> int:
        """The class's `now` when the clock shows that; both ms."""
        return self.now + round((clock - self.at) * self.speed)

    @property
    def epoch(self) -> float:
        """Clock ms at which `now` was 0, had it always run at this speed."""
        return self.at - self.now / self.speed


class Speed(Struct, frozen=True):
    """Asks that class time run that many times as fast from here on; `now` does not jump."""

    times: float


Asked = Command | Speed | None
"""What is handed to the runner; None ends it."""


class Runner:
    """Leads a class on a thread of its own, so that no screen can stop it.

    `speed` makes class time run that many times as fast; `at` is the `now` a class goes on from.
    No sound is wanted above VOICE_SPEED. Listeners hear what happened, on the runner's thread;
    they must return at once. `turn` is one round of the loop; tests call it.
    """

    def __init__(
        self,
        machine: Machine,
        output: Output,
        journal: Journal,
        clock: Clock,
        speed: float = 1.0,
        at: int = 0,
    ) -> None:
        self._machine = machine
        self._output = output
        self._journal = journal
        self._clock = clock
        self._line = Line(clock.now(), at, speed)
        self._last = clock.now()
        self._written = clock.now()
        self._apart = clock.now() - clock.awake()
        self._commands: queue.SimpleQueue[Asked] = queue.SimpleQueue()
        self._listeners: list[Listener] = []
        self._thread: threading.Thread | None = None
        self._ended = threading.Event()
        self._pause = threading.Event()
        self.trouble = ""
        self._snapshot = machine.snapshot(at)

    # -- from any thread -----------------------------------------------------------------------

    @property
    def line(self) -> Line:
        """How class time follows the clock at present."""
        return self._line

    def now(self) -> int:
        """The class's `now`: ms since it was opened, counting sleep, times the speed."""
        return self._line.now_at(self._clock.now())

    def snapshot(self) -> Snapshot:
        """The newest picture; reading it costs nothing and waits for nobody."""
        return self._snapshot

    def post(self, command: Command | Speed) -> None:
        """Ask for something; the answer comes with the next picture."""
        self._commands.put(command)

    def sound(self) -> OutputStatus:
        """How the sound is."""
        return self._output.status()

    def listen(self, listener: Listener) -> None:
        """Hear what happens from now on."""
        self._listeners.append(listener)

    def start(self) -> None:
        """Begin to run; the class itself begins with the command."""
        self._last = self._clock.now()
        self._thread = threading.Thread(target=self._run, name="runner", daemon=True)
        self._thread.start()

    def wait(self, timeout: float | None = None) -> bool:
        """Wait until the class is over; tell whether it is."""
        return self._ended.wait(timeout)

    def close(self) -> None:
        """Shut down in order: no more commands, end the engine, fade and close, journal."""
        if not self._ended.is_set():
            self.post(Command(Do.END))
        self._commands.put(None)
        if self._thread:
            self._thread.join(2.0)
        self._output.close()

    # -- on the runner's thread ----------------------------------------------------------------

    def _run(self) -> None:
        faults = 0
        try:
            while not self._over():
                try:
                    if not self.turn(self._next()):
                        break
                    faults = 0
                except Exception as error:  # noqa: BLE001 -- a class goes on while it can
                    faults += 1
                    self._fault(error)
                    if faults >= MOST_FAULTS:
                        self._snapshot = replace(self._snapshot, state=State.FINISHED)
                    self._pause.wait(FAULT_S)
        finally:
            self._ended.set()

    def _fault(self, error: Exception) -> None:
        """Tell of a fault of our own, and keep it for whoever mends it."""
        words = f"{type(error).__name__}: {error}"
        self.trouble = f"A fault in the program: {words}. The class goes on as far as it can."
        self._journal.write({"now": self.now(), "kind": "fault", "words": words})

    def _over(self) -> bool:
        return self._snapshot.state is State.FINISHED

    def _next(self) -> list[Asked]:
        """Wait for a command, the next deadline or the tick; give all commands there are."""
        deadline = self._machine.next_deadline()
        wait = TICK_MS / 1000
        if deadline is not None:
            wait = min(wait, max(0.0, (deadline - self.now()) / self._line.speed / 1000))
        got: list[Asked] = []
        try:
            got.append(self._commands.get(timeout=wait) if wait else self._commands.get_nowait())
            while True:
                got.append(self._commands.get_nowait())
        except queue.Empty:
            return got

    def turn(self, commands: Sequence[Asked]) -> bool:
        """One round: a sleep, the commands, what became due, the sound, the picture."""
        now = self.now()
        gap = self._slept()
        if gap:
            self._machine.command(Command(Do.SLEPT, ms=gap), now)
        for command in commands:
            if isinstance(command, Speed):
                self._run_at(command.times)
            elif command is not None:
                self._machine.command(command, now)
        self._publish(self._machine.advance(now), now)
        self._last = self._clock.now()  # the time a turn itself takes is no sleep
        return None not in commands

    def _run_at(self, speed: float) -> None:
        """Run faster or slower from here on; the output learns it before it is asked for more."""
        clock = self._clock.now()
        now = self._line.now_at(clock)
        if self._line.speed <= VOICE_SPEED < speed:
            self._output.want((), now)
        self._line = Line(clock, now, speed)
        self._output.timed(self._line.epoch, speed)
        self._journal.write({"now": now, "kind": "speed", "speed": speed})

    def _slept(self) -> int:
        """Tell in class ms how long the machine slept, or the loop stood still; 0 when neither."""
        real, awake = self._clock.now(), self._clock.awake()
        slept = (real - awake) - self._apart
        stalled = real - self._last
        self._apart, self._last = real - awake, real
        gap = slept if slept > SLEPT_MS else stalled if stalled > STALL_MS else 0
        return round(gap * self._line.speed)

    def _publish(self, happened: tuple[Happening, ...], now: int) -> None:
        speed = self._line.speed
        if speed <= VOICE_SPEED:
            horizon = round(HORIZON_MS * speed)
            self._output.want(self._machine.upcoming(now, horizon), now)
        for happening in happened:
            self._journal.write(line_of(happening))
        snapshot = self._machine.snapshot(now)
        self._snapshot = snapshot
        self._going_on(now, bool(happened))
        if happened:
            self._tell(happened, snapshot)

    def _going_on(self, now: int, written: bool) -> None:
        """Write that the class still goes on, so that one killed in a long rest resumes there."""
        real = self._clock.now()
        quiet = self._snapshot.state in (State.READY, State.FINISHED)
        if not written and not quiet and real - self._written >= GOES_ON_MS:
            self._journal.write({"now": now, "kind": "going on"})
            written = True
        if written or quiet:
            self._written = real

    def _tell(self, happened: tuple[Happening, ...], snapshot: Snapshot) -> None:
        for listener in self._listeners:
            try:
                listener(happened, snapshot)
            except Exception as error:  # noqa: BLE001 -- no listener may stop a class
                self.trouble = f"{type(error).__name__}: {error}"


def line_of(happening: Happening) -> dict[str, object]:
    """Give the journal's line of a happening; empty fields are left out."""
    line: dict[str, object] = {"now": happening.now, "kind": happening.kind}
    if happening.moment:
        line["moment"] = happening.moment
    if happening.words:
        line["words"] = happening.words
    line.update(happening.data)
    return line
