from itertools import pairwise, permutations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from conductor.body.ways import way
from conductor.engine.course import Course, course
from conductor.engine.descent import UNHURRIED_MS, easy, rest_of, resting, way_down, with_descent
from conductor.engine.engine import Engine
from conductor.engine.model import Command, Do
from conductor.engine.phrases import phrases
from conductor.score.model import Saying
from conductor.settings import Settings
from conductor.shapes.files import read
from conductor.sides import Breath, End, Side
from conductor.stance import Stance
from conductor.timing.cues import cues
from conductor.values import replace
from tests.support import plan_of, score_of

PLAN = """
- come to: {before}
- in: same
"""
CLOSING = """
  - part: Rest
    steps:
      - in: arms overhead
      - out: standing fold
{arrival}
      - stay: 3 min
        least: 1 min
"""
LYING = "      - free: 40 s\n        to: final rest"
SITTING = "      - in: half lift\n      - out: garland\n      - in: staff\n      - out: final rest"
SCORES = [
    score_of(plan_of(PLAN.format(before="headstand")) + CLOSING.format(arrival=arrival))
    for arrival in (LYING, SITTING)
]
STANCES = [
    shape.place.at(side, end) for shape in read() for side in Side for end in End
]  # every shape there is, on both sides, toward both ends


def plan(before: str, arrival: str) -> Course:
    score = score_of(plan_of(PLAN.format(before=before)) + CLOSING.format(arrival=arrival))
    return course(score, ())


def standing_in(which: int, stance: Stance) -> Course:
    """The class with its first moment in another stance."""
    given = SCORES[which]
    first = replace(given.moments[0], stance=stance)
    return course(replace(given, moments=(first, *given.moments[1:])), ())


@pytest.mark.parametrize(
    ("before", "arrival", "through", "lands"),
    [
        ("staff", LYING, [], "final-rest"),
        ("warrior two", LYING, [], "standing-fold"),
        ("headstand", LYING, ["childs-pose"], "final-rest"),
        ("staff", SITTING, [], "final-rest"),
        ("mountain", SITTING, [], "garland"),
        ("plank", SITTING, ["all-fours"], "staff"),
    ],
)
def test_the_way_down_passes_no_more_than_it_must(
    before: str, arrival: str, through: list[str], lands: str
) -> None:
    where = plan(before, arrival)
    down = way_down(where, 0)
    assert [shape.id for shape in down.through] == through
    assert where.moments[down.entry].shape == lands


@given(stance=st.sampled_from(STANCES), which=st.integers(0, 1))
@settings(max_examples=60, deadline=None)
def test_the_way_down_is_as_short_as_any_and_never_effortful(stance: Stance, which: int) -> None:
    where = standing_in(which, stance)
    down = way_down(where, 0)
    met = stance
    for shape in down.through:
        there = shape.place.at(Side.RIGHT, stance.heading)
        assert easy(met, there)
        met = there
    entry = where.moments[down.entry]
    free = entry.breath is Breath.FREE and entry.length >= UNHURRIED_MS
    assert easy(met, entry.stance) or (free and way(met, entry.stance).possible)
    assert cost(where, len(down.through), down.entry) == cheapest(where, stance)


def cost(where: Course, passed: int, entry: int) -> tuple[int, int]:
    rest = rest_of(where)
    moves = sum(one.arriving for one in where.moments[entry : rest + 1])
    breath = sum(where.breaths[0])
    return passed + moves, passed * breath + where.starts[rest] - where.starts[entry]


def cheapest(where: Course, stance: Stance) -> tuple[int, int]:
    """By trying all orders of up to four shapes, and every entry of the closing."""
    stances = [shape.place.at(Side.RIGHT, stance.heading) for shape in resting()]
    found = []
    for passed in range(5):
        for trail in permutations(stances, passed):
            steps = (stance, *trail)
            if all(easy(a, b) for a, b in pairwise(steps)):
                found += [cost(where, passed, at) for at in entries(where, steps[-1])]
        if found and min(found)[0] <= passed:
            break
    return min(found)


def entries(where: Course, stance: Stance) -> list[int]:
    closing = range(where.closing, rest_of(where) + 1)
    return [
        at
        for at in closing
        if where.moments[at].arriving
        and (
            easy(stance, where.moments[at].stance)
            or (
                where.moments[at].breath is Breath.FREE
                and where.moments[at].length >= UNHURRIED_MS
                and way(stance, where.moments[at].stance).possible
            )
        )
    ]


def test_what_is_passed_is_led_for_a_breath_each_and_nothing_else_moves() -> None:
    where = plan("headstand", LYING)
    down = way_down(where, 0)
    score = with_descent(where, 0, down, 1)
    ids = [moment.id for moment in where.moments]
    assert [one.id for one in score.moments if one.id in ids] == ids
    new = [one for one in score.moments if one.id not in ids]
    assert [one.length for one in new] == [sum(where.breaths[0])]
    assert {one.part for one in new} == {1}
    assert score.length == where.score.length + sum(one.length for one in new)
    for number, part in enumerate(score.parts):
        assert {one.part for one in score.moments[part.first : part.last]} == {number}
    assert all(one.shape in score.shapes for one in score.moments)


def led(late: int = 0) -> tuple[Engine, int]:
    """A class told to rest after its first breath, which must end `late` ms before its time."""
    engine = Engine(SCORES[0], {}, Settings())
    engine.command(Command(Do.BEGIN), 0)
    now = 12_000 + late
    engine.command(Command(Do.STOP), 12_000)
    engine.command(Command(Do.GO_ON), now)
    reply = engine.command(Command(Do.REST), now + 1)
    assert reply.words.startswith("Down to the closing by way of child's pose.")
    return engine, now + 1


def test_rest_now_is_said_with_phrases_rendered_before_class() -> None:
    engine, now = led()
    said = [one.what for one in engine.upcoming(now, 60_000)]
    assert said[0] == Saying("Come to child's pose.")
    assert said[0] in phrases(SCORES[0])
    assert len(phrases(SCORES[0])) < 25


def test_the_rest_keeps_its_length_where_there_is_time() -> None:
    engine, now = led()
    hold = next(one for one in engine.snapshot(now).score.holds.values() if one.rest)
    assert hold.amount == 180_000


def test_the_rest_gives_what_time_is_short_but_never_below_its_least() -> None:
    for late, amount in ((60_000, None), (400_000, 60_000)):
        engine, now = led(late)
        look = engine.snapshot(now)
        hold = next(one for one in look.score.holds.values() if one.rest)
        assert hold.amount == amount or 60_000 < hold.amount < 180_000
        if amount is None:
            assert abs(look.ends_at - look.planned_end) <= 1


def test_a_way_down_taken_back_leaves_the_score_as_it_was() -> None:
    engine, now = led()
    engine.command(Command(Do.BACK), now + 3000)
    assert engine.snapshot(now + 3000).score == SCORES[0]


def test_a_way_down_is_cued_like_any_movement() -> None:
    where = plan("headstand", LYING)
    score = with_descent(where, 0, way_down(where, 0), 1)
    found, wanted = cues(score, {}, Settings(), "")
    texts = [cue.saying.text for cue in found]
    assert "Come to child's pose." in texts
    assert Saying("Come to child's pose.") in wanted


@pytest.mark.parametrize(
    "to", [Command(Do.PREVIOUS_PART), Command(Do.GO_TO, word=SCORES[0].moments[0].id)]
)
def test_back_before_the_closing_there_is_no_way_down_and_the_rest_is_whole(to: Command) -> None:
    engine = Engine(SCORES[0], {}, Settings())
    engine.command(Command(Do.BEGIN), 0)
    engine.advance(4000)
    engine.command(Command(Do.HOLD), 4000)
    engine.command(Command(Do.REST), 100_000)
    down = engine.snapshot(100_000).score
    assert len(down.moments) > len(SCORES[0].moments)
    assert down.length < SCORES[0].length
    assert engine.command(to, 115_000).done
    assert engine.snapshot(115_000).score == SCORES[0]
