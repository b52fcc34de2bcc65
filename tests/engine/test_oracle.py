"""The leader against the slow, obvious one, command by command, on a grid of 50 ms."""

from hypothesis import settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, invariant, rule

from conductor.engine.model import Do, State
from tests.engine.make import Class
from tests.engine.slow import STEP, Slow

LEAVES_OUT = {
    Do.BEGIN, Do.END, Do.SLEPT, Do.SLOWER, Do.FASTER, Do.LAND, Do.KEEP, Do.LEVEL
}  # fmt: skip
SHORT = st.integers(0, 20_000 // STEP)
WITHIN = st.sampled_from([0, 0, 50, 9950, 10_000, 10_050]).map(lambda ms: ms // STEP) | st.integers(
    0, 10_000 // STEP
)
STOPS = st.sampled_from([Do.STOP, Do.SILENCE])
MOVES = st.sampled_from([do for do in Do if do not in LEAVES_OUT])


class Both(RuleBasedStateMachine):
    def __init__(self) -> None:
        super().__init__()
        self.led = Class()
        self.slow = Slow()

    @initialize(wait=st.integers(0, 200_000 // STEP))
    def begin(self, wait: int) -> None:
        """Most of a class lies some way in."""
        self.ask(Do.BEGIN)
        self.pass_time(wait)

    @rule(steps=st.integers(0, 8000 // STEP) | st.integers(0, 40_000 // STEP))
    def pass_time(self, steps: int) -> None:
        self.led.wait(steps * STEP)
        self.slow.pass_time(steps * STEP)

    @rule(do=MOVES)
    def ask(self, do: Do) -> None:
        assert self.led.do(do).done == self.slow.do(do)

    @rule(do=st.sampled_from([Do.HOLD, Do.GO_ON, Do.STOP, Do.GO_ON, Do.BEGIN]))
    def ask_usual(self, do: Do) -> None:
        self.ask(do)

    @rule(first=SHORT, then=SHORT)
    def hold_a_while(self, first: int, then: int) -> None:
        for do, steps in ((Do.HOLD, first), (Do.GO_ON, then)):
            self.ask(do)
            self.they_agree()
            self.pass_time(steps)
            self.they_agree()

    @rule(steps=SHORT | st.sampled_from([19_950 // STEP, 20_000 // STEP]), do=STOPS)
    def stop_a_while(self, steps: int, do: Do) -> None:
        self.ask(do)
        self.pass_time(steps)
        self.ask(Do.GO_ON)

    @rule(steps=st.sampled_from([2350 // STEP, 2400 // STEP, 4950 // STEP, 5000 // STEP]))
    def back_twice(self, steps: int) -> None:
        self.ask(Do.BACK)
        self.pass_time(steps)
        self.they_agree()
        self.ask(Do.BACK)

    @rule(first=MOVES, then=MOVES, waits=st.tuples(WITHIN, WITHIN, WITHIN))
    def take_back(self, first: Do, then: Do, waits: tuple[int, int, int]) -> None:
        for do, steps in zip((first, then, Do.BACK), waits, strict=True):
            self.ask(do)
            self.they_agree()
            self.pass_time(steps)
            self.they_agree()
        self.ask(Do.BACK)

    @rule(more=st.lists(st.sampled_from([Do.MORE, Do.FEWER]), min_size=1, max_size=4))
    def resize(self, more: list[Do]) -> None:
        for do in more:
            self.ask(do)

    @rule(share=st.integers(0, 99))
    def go_to(self, share: int) -> None:
        index = share * len(self.slow.bits) // 100
        moment = self.led.look().score.moments[index].id
        assert self.led.do(Do.GO_TO, word=moment).done == self.slow.do(Do.GO_TO, index)

    @rule(steps=st.integers(1, 30_000 // STEP))
    def sleep(self, steps: int) -> None:
        self.led.now += steps * STEP
        done = self.led.do(Do.SLEPT, ms=steps * STEP).done
        stopped = self.slow.state == "stopped"
        assert done == self.slow.do(Do.SLEPT)
        self.slow.now += steps * STEP
        if not done or stopped:
            return
        assert self.led.look().state is State.STOPPED

    @rule(odds=st.integers(0, 40))
    def end(self, odds: int) -> None:
        if not odds:
            self.ask(Do.END)

    @invariant()
    def they_agree(self) -> None:
        look, slow = self.led.look(), self.slow
        assert (look.state, look.index) == (slow.state, slow.index)
        bits = [(m.id, str(m.breath), m.length, m.hold) for m in look.score.moments]
        assert bits == [(b.name, b.breath, b.ms, b.stay) for b in slow.bits]
        assert (look.quiet, look.voice_db, look.bells_db) == (slow.quiet, slow.voice, slow.bells)
        if slow.state == "leading":
            assert look.now - look.entered == slow.at
            assert look.ends_at - look.now == slow.left_here() + slow.left_after()
        elif slow.state == "arriving":
            assert look.entered - look.now == slow.wait
            assert look.ends_at - look.entered == slow.left_here() + slow.left_after()
        elif slow.state == "holding":
            assert look.leaves is not None
            assert (look.held, look.breath) == (slow.held, slow.half)
            assert look.leaves - look.now == slow.half_left
            assert look.ends_at - look.now == slow.left_of_hold() + slow.left_after()
        assert look.silenced == slow.silent
        assert sum(one.ms for one in look.owed) == slow.owed


TestBoth = Both.TestCase
TestBoth.settings = settings(max_examples=80, stateful_step_count=30, deadline=None)
