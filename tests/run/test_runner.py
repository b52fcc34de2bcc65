from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st

from conductor.clock import SetClock
from conductor.engine.engine import Engine
from conductor.engine.model import Command, Do, Happening, Snapshot, State
from conductor.run.ports import OutputStatus
from conductor.run.runner import GOES_ON_MS, HORIZON_MS, VOICE_SPEED, Runner, Speed
from conductor.score.sounds import Sound
from conductor.settings import Settings
from tests.support import plan_of, score_of

SCORE = score_of(plan_of("- come to: mountain\n- in: arms overhead\n- out: mountain\n"))


class Heard:
    """An output that remembers what was wanted."""

    def __init__(self) -> None:
        self.wanted: list[tuple[int, tuple[Sound, ...]]] = []
        self.times: list[tuple[float, float]] = []
        self.closed = False

    def want(self, sounds: object, now: int) -> None:
        self.wanted.append((now, tuple(sounds)))  # type: ignore[arg-type]

    def timed(self, epoch: float, speed: float) -> None:
        self.times.append((epoch, speed))

    def status(self) -> OutputStatus:
        return OutputStatus(playing=True)

    def close(self) -> None:
        self.closed = True


class NoJournal:
    """Keeps lines in memory, to be read."""

    def __init__(self) -> None:
        self.lines: list[dict[str, object]] = []
        self.trouble = ""

    def write(self, line: dict[str, object]) -> None:
        """Keep the line."""
        self.lines.append(line)

    def close(self) -> None:
        """Nothing to let go of."""


def made(speed: float = 1.0) -> tuple[Runner, SetClock, Heard, NoJournal]:
    clock, heard, journal = SetClock(1_000), Heard(), NoJournal()
    engine = Engine(SCORE, {}, Settings())
    return Runner(engine, heard, journal, clock, speed), clock, heard, journal


def lead(runner: Runner, clock: SetClock, ms: int, step: int = 50) -> None:
    for _ in range(0, ms, step):
        clock.forward(step)
        runner.turn([])


def test_a_class_is_led_to_its_end_and_every_happening_is_journalled() -> None:
    runner, clock, _, journal = made()
    runner.turn([Command(Do.BEGIN)])
    lead(runner, clock, 25_000)
    assert runner.snapshot().state is State.FINISHED
    moments = [line["moment"] for line in journal.lines if line["kind"] == "moment"]
    assert moments == [moment.id for moment in SCORE.moments]


def test_speed_makes_class_time_run_faster() -> None:
    runner, clock, heard, _ = made(speed=10)
    runner.turn([Command(Do.BEGIN)])
    lead(runner, clock, 2_500)
    assert runner.now() == 25_000
    assert runner.snapshot().state is State.FINISHED
    assert heard.wanted == []  # at this speed voice and bells are text


def test_a_change_of_speed_does_not_jump_and_counts_from_there() -> None:
    runner, clock, heard, journal = made()
    runner.turn([Command(Do.BEGIN)])
    lead(runner, clock, 5_000)
    runner.turn([Speed(4.0)])
    assert runner.now() == 5_000
    lead(runner, clock, 1_000)
    assert runner.now() == 9_000
    runner.turn([Speed(0.5)])
    assert runner.now() == 9_000
    lead(runner, clock, 2_000)
    assert runner.now() == 10_000
    assert [line["speed"] for line in journal.lines if line["kind"] == "speed"] == [4.0, 0.5]
    (first, one), (second, two) = heard.times
    assert (first + 5_000 / one, second + 9_000 / two) == (6_000, 7_000)


def test_above_the_speed_of_speech_what_sounded_ceases_and_below_it_comes_back() -> None:
    runner, clock, heard, _ = made()
    runner.turn([Command(Do.BEGIN)])
    lead(runner, clock, 2_900)
    assert heard.wanted[-1][1]
    runner.turn([Speed(VOICE_SPEED + 0.1)])
    assert heard.wanted[-1][1] == ()
    number = len(heard.wanted)
    lead(runner, clock, 1_000)
    assert len(heard.wanted) == number
    runner.turn([Speed(VOICE_SPEED)])
    lead(runner, clock, 1_000)
    assert len(heard.wanted) > number


@given(
    st.lists(
        st.tuples(st.integers(0, 1_900), st.sampled_from([0.25, 1.0, 1.5, 3.0, 60.0])), max_size=12
    )
)
def test_class_time_never_goes_back_and_adds_up_over_all_speeds(
    changes: list[tuple[int, float]],
) -> None:
    runner, clock, _, _ = made()
    passed, speed = 0.0, 1.0
    for wait, times in changes:
        clock.forward(wait)
        passed += wait * speed
        before = runner.now()
        runner.turn([Speed(times)])
        assert runner.now() == before
        speed = times
    assert abs(runner.now() - passed) <= len(changes)


def test_sound_is_declared_as_far_as_the_horizon() -> None:
    runner, clock, heard, _ = made()
    runner.turn([Command(Do.BEGIN)])
    lead(runner, clock, 12_000)
    for now, sounds in heard.wanted:
        assert all(sound.start <= now + HORIZON_MS for sound in sounds)
    assert any(sounds for _, sounds in heard.wanted)


def test_a_sleep_is_noticed_and_stops_the_class() -> None:
    runner, clock, heard, journal = made()
    runner.turn([Command(Do.BEGIN)])
    lead(runner, clock, 6_000)
    clock.sleep(60_000)
    runner.turn([])
    assert runner.snapshot().state is State.STOPPED
    assert "slept" in [line["kind"] for line in journal.lines]
    assert heard.wanted[-1][1] == ()


def test_a_loop_that_stood_still_counts_as_a_sleep() -> None:
    runner, clock, _, _ = made()
    runner.turn([Command(Do.BEGIN)])
    lead(runner, clock, 6_000)
    clock.forward(30_000)
    runner.turn([])
    assert runner.snapshot().state is State.STOPPED


def test_a_refused_command_is_told_with_its_reason() -> None:
    runner, _, _, journal = made()
    runner.turn([Command(Do.GO_ON)])
    (line,) = [line for line in journal.lines if line["kind"] == "refused"]
    assert line["words"]
    assert runner.snapshot().reply is not None


def test_a_listener_that_fails_stops_nothing() -> None:
    runner, clock, _, _ = made()

    def fails(happened: tuple[Happening, ...], snapshot: Snapshot) -> None:
        raise RuntimeError("broken")

    runner.listen(fails)
    runner.turn([Command(Do.BEGIN)])
    lead(runner, clock, 25_000)
    assert runner.snapshot().state is State.FINISHED
    assert "broken" in runner.trouble


def test_on_its_own_thread_it_ends_when_it_is_closed() -> None:
    runner, clock, heard, _ = made()
    runner.start()
    runner.post(Command(Do.BEGIN))
    runner.close()
    assert runner.wait(1.0)
    assert heard.closed
    assert runner.snapshot().state is State.FINISHED
    assert clock.now() == 1_000


class Broken(Engine):
    """An engine that fails from its third look on."""

    looks = 0

    def advance(self, now: int) -> tuple[Happening, ...]:
        self.looks += 1
        if self.looks > 2:
            raise IndexError("out of range")
        return super().advance(now)


def test_a_fault_is_told_and_journalled_and_one_that_stays_ends_the_class() -> None:
    clock, heard, journal = SetClock(1_000), Heard(), NoJournal()
    runner = Runner(Broken(SCORE, {}, Settings()), heard, journal, clock)
    runner.start()
    runner.post(Command(Do.BEGIN))
    assert runner.wait(20.0)
    assert "IndexError: out of range" in runner.trouble
    assert "fault" in [line["kind"] for line in journal.lines]
    assert runner.snapshot().state is State.FINISHED
    runner.close()


def test_a_turn_that_takes_long_is_no_sleep() -> None:
    runner, clock, heard, journal = made()
    runner.turn([Command(Do.BEGIN)])
    lead(runner, clock, 4_000)

    def slow(sounds: object, now: int) -> None:
        clock.forward(2_500)

    heard.want = slow  # type: ignore[method-assign]
    runner.turn([])
    runner.turn([])
    assert "slept" not in [line["kind"] for line in journal.lines]
    clock.forward(2_500)  # while it waits, that is
    runner.turn([])
    assert "slept" in [line["kind"] for line in journal.lines]


REST = score_of(plan_of("- come to: mountain\n- free: 20 s\n  to: final rest\n- stay: 5 min\n"))


def test_a_long_rest_is_told_to_the_journal_again_and_again() -> None:
    clock, heard, journal = SetClock(1_000), Heard(), NoJournal()
    runner = Runner(Engine(REST, {}, Settings()), heard, journal, clock)
    runner.turn([Command(Do.BEGIN)])
    lead(runner, clock, 120_000, step=250)
    times = [int(str(line["now"])) for line in journal.lines if "now" in line]
    assert max(b - a for a, b in pairwise([*times, runner.now()])) <= GOES_ON_MS + 250
    assert {line["kind"] for line in journal.lines} >= {"going on", "moment"}


def test_a_class_that_waits_to_begin_tells_the_journal_nothing() -> None:
    runner, clock, _, journal = made()
    lead(runner, clock, 60_000, step=250)
    assert journal.lines == []
