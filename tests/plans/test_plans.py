"""The shipped plans: sound, on the minute, even on both sides, led through to the end."""

from collections import Counter
from pathlib import Path

import pytest

from conductor.cli.opening import Opened, opened
from conductor.engine.engine import Engine
from conductor.engine.model import State
from conductor.findings import Weight
from conductor.places import shipped_plans
from conductor.run.through import through
from conductor.score.model import Hold, Moment, Score
from conductor.settings import Settings
from conductor.sides import Breath, End, Side
from conductor.stance import Trunk
from conductor.timing.cues import wanted
from conductor.voice.text import spoken

PLANS = {path.stem: path for path in shipped_plans()}
CLASSES = {"short-tide": 10, "lighthouse-morning": 30, "harbour-hour": 60}
MIN_MS = 60_000

each_plan = pytest.mark.parametrize("name", sorted(PLANS))
each_class = pytest.mark.parametrize("name", sorted(CLASSES))
crossing = pytest.mark.parametrize("name", ["lighthouse-morning", "harbour-hour"])

_opened: dict[str, Opened] = {}


def plan(name: str) -> Opened:
    """Open a plan as the command line does, once."""
    if name not in _opened:
        _opened[name] = opened(PLANS[name])
    return _opened[name]


def score_of(name: str) -> Score:
    score = plan(name).score
    assert score is not None
    return score


def rest_of(score: Score) -> Hold:
    return next(hold for hold in score.holds.values() if hold.rest)


def test_the_shipped_plans_are_those_named_here() -> None:
    assert set(CLASSES) <= set(PLANS)
    assert {"salutation-a", "salutation-b", "salutation-twelve"} <= set(PLANS)


@each_plan
def test_a_plan_is_led_without_error_or_warning(name: str) -> None:
    told = [
        f"{finding.span}: {finding.words} [{finding.rule}]"
        for finding in plan(name).findings
        if finding.weight is not Weight.REMARK
    ]
    assert told == []


@each_class
def test_a_class_ends_on_its_minute(name: str) -> None:
    score = score_of(name)
    assert score.meta.kind == "class"
    assert score.length == score.meta.length == CLASSES[name] * MIN_MS
    assert sum(moment.length for moment in score.moments) == score.length


@each_class
def test_a_class_has_room_left_to_be_made_longer_and_shorter(name: str) -> None:
    holds = [hold for hold in score_of(name).holds.values() if hold.stretchable]
    assert any(hold.amount < hold.most for hold in holds if not hold.rest)
    assert any(hold.amount > hold.least for hold in holds if not hold.rest)


@each_plan
def test_every_shape_is_held_as_long_on_the_right_as_on_the_left(name: str) -> None:
    sides: dict[Side, Counter[tuple[str, str]]] = {side: Counter() for side in Side}
    for moment in score_of(name).moments:
        if moment.side and moment.pass_key:
            sides[moment.side][moment.shape, moment.with_] += moment.length
    assert sides[Side.RIGHT] == sides[Side.LEFT]


@each_plan
def test_a_shape_led_on_one_side_alone_is_only_the_roll_out_of_rest(name: str) -> None:
    alone = {
        moment.shape for moment in score_of(name).moments if moment.side and not moment.pass_key
    }
    allowed = {"warrior-one"} if name == "salutation-b" else {"side-lying-rest"}
    assert alone <= allowed


@each_plan
def test_every_movement_of_a_passage_comes_back_on_the_other_side(name: str) -> None:
    score = score_of(name)
    by_id = {moment.id: moment for moment in score.moments}
    for moment in score.moments:
        if not moment.mate:
            continue
        mate = by_id[moment.mate]
        assert (mate.shape, mate.breath, mate.length) == (
            moment.shape,
            moment.breath,
            moment.length,
        )
        assert mate.mate == moment.id
        assert mate.side is (moment.side.other if moment.side else None)


@each_plan
def test_a_class_begins_and_ends_facing_the_front(name: str) -> None:
    score = score_of(name)
    assert score.moments[0].stance.heading is End.FRONT
    assert score.moments[-1].stance.heading is End.FRONT


@crossing
def test_the_crossing_reaches_the_far_end_and_comes_home_on_the_other_side(name: str) -> None:
    turns = [moment for moment in score_of(name).moments if moment.turn == "other end"]
    assert [(turn.pass_side, turn.stance.heading) for turn in turns] == [
        (Side.RIGHT, End.BACK),
        (Side.LEFT, End.FRONT),
    ]


@crossing
def test_the_words_of_the_turn_name_the_end_that_is_turned_to(name: str) -> None:
    for moment in score_of(name).moments:
        if moment.turn == "other end":
            assert str(moment.stance.heading) in moment.words.full
            assert str(moment.stance.heading) in moment.words.short
            assert str(moment.stance.heading.other) not in moment.words.full


@each_class
def test_the_final_rest_is_long_enough_and_silent(name: str) -> None:
    # Five minutes in an hour and eight in a hundred otherwise: both customs are seen, others differ
    score = score_of(name)
    rest = rest_of(score)
    least = 5 * MIN_MS if CLASSES[name] >= 30 else 0.08 * score.length
    assert rest.amount >= least
    resting = {index for index, one in enumerate(score.moments) if one.hold == rest.id}
    assert not [cue.saying.text for cue in plan(name).cues if cue.moment in resting]


@each_class
def test_the_rest_ends_in_steps_and_the_class_with_a_bell_in_a_seat(name: str) -> None:
    score = score_of(name)
    last = max(index for index, one in enumerate(score.moments) if one.hold == rest_of(score).id)
    after = score.moments[last + 1]
    assert after.stance.trunk is Trunk.RESTING  # a voice comes before any movement
    assert [cue for cue in plan(name).cues if cue.moment == last + 1]
    assert score.moments[-1].bells
    assert score.moments[-1].shape == "easy-seat"


@each_plan
def test_every_cue_is_over_before_the_next_one_begins(name: str) -> None:
    late = [
        f"{cue.start} {cue.saying.text}: {cue.length} ms, room for {cue.room}"
        for cue in plan(name).cues
        if not cue.fits
    ]
    assert late == []


@each_plan
def test_every_movement_is_spoken_of_at_or_before_its_own_breath(name: str) -> None:
    opening = plan(name)
    score = score_of(name)
    for cue in opening.cues:
        if cue.slot in {"ahead", "main"}:
            assert cue.start <= max(0, score.moments[cue.moment].start), cue.saying.text


@each_plan
def test_inhale_and_exhale_alternate_without_a_break(name: str) -> None:
    before: Moment | None = None
    for moment in score_of(name).moments:
        if before and Breath.FREE not in {moment.breath, before.breath}:
            assert moment.breath is not before.breath, moment.id
        before = moment


@each_plan
def test_all_that_may_be_said_is_plain_for_the_voice(name: str) -> None:
    assert PLANS[name].read_text(encoding="utf-8").isascii()
    opening = plan(name)
    assert opening.score is not None
    for saying in wanted(opening.score):
        assert "<" not in saying.text, saying.text
        said = spoken(saying, {})
        assert said == saying.text  # nothing had to be replaced
        assert said.isascii()


@each_class
def test_a_class_says_for_whom_it_is_and_offers_other_ways(name: str) -> None:
    score = score_of(name)
    assert score.meta.for_
    levels = Counter(one.level for moment in score.moments for one in moment.variants)
    assert levels["ease"] >= 3
    balances = [one for one in score.moments if score.shapes[one.shape].balance and one.arriving]
    for moment in balances:
        assert {one.level for one in moment.variants} >= {"ease", "more"}, moment.id


@each_plan
def test_a_plan_leads_through_to_its_end_each_moment_at_its_time(name: str) -> None:
    score = score_of(name)
    engine = Engine(score, {}, Settings())
    told = [one for some in through(engine) for one in some]
    entered = [(one.moment, one.now) for one in told if one.kind == "moment"]
    begun = entered[0][1]
    assert entered == [(moment.id, begun + moment.start) for moment in score.moments]
    assert told[-1].kind == "finished"
    assert told[-1].now == begun + score.length
    assert engine.snapshot(told[-1].now).state is State.FINISHED


@each_plan
def test_a_plan_begins_with_a_word_on_what_it_is(name: str) -> None:
    assert Path(PLANS[name]).read_text(encoding="utf-8").startswith("# ")
