"""Whatever is asked, and whenever: what must hold of every class as it is led."""

from collections.abc import Sequence

from hypothesis import settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, invariant, precondition, rule

from conductor.engine.model import Command, Do, Happening, Snapshot, State
from conductor.score.sounds import SoundId
from conductor.values import replace
from tests.engine.make import Class, small

WAITS = st.integers(0, 9000) | st.integers(0, 60_000)
ANY = st.sampled_from([do for do in Do if do not in {Do.BEGIN, Do.END, Do.SLEPT}])
RUNNING = (State.ARRIVING, State.LEADING, State.HOLDING)


class Anything(RuleBasedStateMachine):
    """Two leaders get the same commands; one is looked at all the time, the other hardly ever."""

    def __init__(self) -> None:
        super().__init__()
        self.often = Class()
        self.seldom = Class()
        self.starts: dict[SoundId, int] = {}
        self.told_often: list[Happening] = []
        self.told_seldom: list[Happening] = []
        self.place: tuple[int, int] | None = None

    # -- what is asked -----------------------------------------------------------------------

    def both(self, do: Do, ms: int = 0, word: str = "") -> None:
        before = self.often.look()
        sounds = self.often.engine.upcoming(self.often.now, 4000)
        sides = self.sides_to_come(before)
        reply = self.often.do(do, ms, word)
        assert reply == self.seldom.engine.command(Command(do, ms, word), self.often.now)
        after = self.often.look()
        if not reply.done:
            assert replace(after, reply=None) == replace(before, reply=None)
            assert self.often.engine.upcoming(self.often.now, 4000) == sounds
        if reply.done and do in {Do.MORE, Do.FEWER} and sides:
            self.equal(after)
        self.place = None

    @rule(wait=WAITS)
    def pass_time(self, wait: int) -> None:
        for _ in range(3):
            self.told_often += self.often.wait(wait // 3)
        self.told_often += self.often.wait(wait - wait // 3 * 3)

    @rule()
    def begin(self) -> None:
        self.both(Do.BEGIN)

    @rule(do=ANY, word=st.sampled_from(["", "ease", "dog right", "nonsense"]))
    def ask(self, do: Do, word: str) -> None:
        self.both(do, word=word if do in {Do.LEVEL, Do.GO_TO} else "")

    @rule(do=st.sampled_from([Do.HOLD, Do.GO_ON, Do.STOP, Do.GO_ON]))
    def wait_or_go_on(self, do: Do) -> None:
        self.both(do)

    @rule(ms=st.integers(1, 300_000))
    def land_elsewhere(self, ms: int) -> None:
        self.both(Do.LAND, ms)

    @rule(ms=st.integers(1, 90_000))
    def sleep(self, ms: int) -> None:
        self.often.now += ms
        self.both(Do.SLEPT, ms)

    @precondition(lambda self: self.often.look().state in RUNNING)
    @rule(odds=st.integers(0, 30))
    def end(self, odds: int) -> None:
        if not odds:
            self.both(Do.END)

    # -- what must hold ----------------------------------------------------------------------

    @invariant()
    def it_does_not_matter_how_often_one_looks(self) -> None:
        assert self.seldom.engine.snapshot(self.often.now) == self.often.look()

    @rule()
    def the_same_has_happened(self) -> None:
        self.told_often += self.often.wait(0)
        self.told_seldom += self.seldom.engine.advance(self.often.now)
        assert self.told_often == self.told_seldom
        nows = [one.now for one in self.told_often]
        assert nows == sorted(nows)
        no_moment_skipped_or_doubled(self.told_often)
        said = [
            (one.moment, dict(one.data)["slot"], dict(one.data)["pass"])
            for one in self.told_often
            if one.kind in {"cue", "bell"}
        ]
        assert len(said) == len(set(said))

    @invariant()
    def the_deadline_is_true(self) -> None:
        self.told_often += self.often.wait(0)
        due = self.often.engine.next_deadline()
        look = self.often.look()
        assert (due is None) == (look.state not in RUNNING)
        if due is not None:
            assert due > self.often.now

    @invariant()
    def the_class_goes_on_and_never_back_by_itself(self) -> None:
        look = self.often.look()
        if self.place is not None:
            assert (look.index, look.held) >= (self.place[0], 0)
        self.place = (look.index, look.held)

    @invariant()
    def the_picture_is_whole(self) -> None:
        look = self.often.look()
        assert 0 <= look.index < len(look.score.moments)
        assert (look.leaves is None) == (look.state not in RUNNING)
        if look.state in (State.LEADING, State.HOLDING):
            assert look.leaves is not None
            assert look.entered <= look.now < look.leaves
        if look.state is State.ARRIVING:
            assert look.now < look.entered
        assert look.ends_at >= look.now or look.state is State.FINISHED

    @invariant()
    def a_sound_that_began_keeps_its_start(self) -> None:
        now = self.often.now
        sounds = self.often.engine.upcoming(now, 4000)
        ids = [one.id for one in sounds]
        assert len(ids) == len(set(ids))
        if self.often.look().state in (State.READY, State.STOPPED):
            assert sounds == ()
        for one in sounds:
            assert one.start <= now + 4000
            assert one.stale_after > one.start
            if one.start <= now:
                assert self.starts.setdefault(one.id, one.start) == one.start

    @invariant()
    def the_final_rest_keeps_what_it_must(self) -> None:
        hold = self.often.look().score.holds["rest"]
        moment = next(m for m in self.often.look().score.moments if m.hold == "rest")
        assert moment.length == hold.amount >= hold.least

    @invariant()
    def the_score_has_no_gap(self) -> None:
        score = self.often.look().score
        at = 0
        for moment in score.moments:
            assert moment.start == at
            at = moment.end
        assert score.parts[0].first == 0
        assert [p.last for p in score.parts] == [
            *(p.first for p in score.parts[1:]),
            len(score.moments),
        ]
        for number, part in enumerate(score.parts):
            assert {m.part for m in score.moments[part.first : part.last]} == {number}
        assert len({m.id for m in score.moments}) == len(score.moments)

    # -- helpers -----------------------------------------------------------------------------

    def sides_to_come(self, look: Snapshot) -> bool:
        """Whether neither side's stay has begun, or only the present one has."""
        moments = look.score.moments
        here = moments[look.index]
        first = {h: i for i, m in reversed(list(enumerate(moments))) if (h := m.hold)}
        name = here.hold or (moments[look.index + 1].hold if look.index + 1 < len(moments) else "")
        mates = look.score.holds[name].mates if name in look.score.holds else ()
        return bool(mates) and all(first[mate] > look.index for mate in mates)

    def equal(self, look: Snapshot) -> None:
        counts = [sum(m.hold == name for m in look.score.moments) for name in ("h right", "h left")]
        assert counts[0] == counts[1] == 2 * look.score.holds["h right"].amount


def no_moment_skipped_or_doubled(told: Sequence[Happening]) -> None:
    """Between commands each moment follows the one before, and its time is its length."""
    last: tuple[int, int, int] | None = None
    for one in told:
        data = dict(one.data)
        if one.kind in {"command", "slept", "state"}:
            last = None
        elif one.kind == "moment":
            index, length = int(data["index"]), int(data["length"])
            pace = int(data["pace"])
            if last is not None:
                assert index == last[0] + 1
                assert 0 <= one.now - last[1] - last[2] * pace // 1000 <= 1
            last = (index, one.now, length)


TestAnything = Anything.TestCase
TestAnything.settings = settings(max_examples=60, stateful_step_count=40, deadline=None)


def test_the_small_class_is_as_the_machine_takes_it() -> None:
    assert {m.hold for m in small().moments} == {"", "h right", "h left", "rest"}
