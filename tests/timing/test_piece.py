from collections.abc import Iterator
from itertools import pairwise
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from conductor import places
from conductor.cli.opening import opened
from conductor.engine.engine import Engine
from conductor.run.through import through
from conductor.score.model import Moment, Score
from conductor.settings import Settings
from conductor.sides import Breath, Side
from conductor.timing.piece import Named, NothingLeftError, Wanted, piece
from tests.support import plan_of, score_of

BOTH = score_of(
    plan_of(
        """
        - come to: mountain
        - in: arms overhead
        - out: standing fold
        - in: half lift
        - out: downward dog
        - each side: yes
          steps:
            - in: three-legged dog
            - out: low lunge
            - in: crescent lunge
            - out: warrior two
              turn: long side
            - stay: 3 breaths
            - in: plank
            - out: low plank
            - in: upward dog
            - out: downward dog
            - stay: 1 breath
        """
    )
)


def shapes(score: Score) -> list[str]:
    """The shapes in order, a row of the same one once."""
    found: list[str] = []
    for moment in score.moments:
        if not found or found[-1] != moment.shape:
            found.append(moment.shape)
    return found


def stands(moment: Moment) -> tuple[object, ...]:
    return moment.shape, moment.side, moment.stance, moment.with_


def test_from_the_middle_the_shape_before_is_taken_first_and_the_movement_is_the_classes_own() -> (
    None
):
    cut = piece(BOTH, Wanted(first=Named("warrior-two")))
    run_in, first = cut.moments[:2]
    assert (run_in.shape, run_in.breath, run_in.length) == ("crescent-lunge", Breath.FREE, 8000)
    assert run_in.words.full == "Come to crescent lunge, right foot."
    assert (first.shape, first.side) == ("warrior-two", Side.RIGHT)
    assert cut.moments[-1].id == BOTH.moments[-1].id
    assert shapes(cut)[-1] == "downward-dog"


def test_up_to_a_shape_its_stay_is_led_whole() -> None:
    cut = piece(BOTH, Wanted(first=Named("low-lunge"), last=Named("warrior-two")))
    assert shapes(cut) == ["three-legged-dog", "low-lunge", "crescent-lunge", "warrior-two"]
    assert sum(bool(moment.hold) for moment in cut.moments) == 6
    assert set(cut.holds) == {cut.moments[-1].hold}
    assert cut.holds[cut.moments[-1].hold].mates == ()


def test_a_side_alone_begins_from_the_shape_it_is_entered_from() -> None:
    cut = piece(BOTH, Wanted(side=Side.LEFT))
    assert shapes(cut)[:3] == ["downward-dog", "three-legged-dog", "low-lunge"]
    assert {moment.pass_side for moment in cut.moments[1:]} == {Side.LEFT}


def test_a_shape_on_one_side_is_found_there() -> None:
    cut = piece(BOTH, Wanted(first=Named("low-lunge", Side.LEFT)))
    assert {moment.side for moment in cut.moments if moment.shape == "low-lunge"} == {Side.LEFT}


def test_from_the_beginning_nothing_is_added() -> None:
    assert piece(BOTH, Wanted()).moments == BOTH.moments


@pytest.mark.parametrize(
    ("wanted", "words"),
    [
        (Wanted(first=Named("tree")), "there is no tree in what is to be rehearsed"),
        (
            Wanted(first=Named("plank", Side.LEFT)),
            "there is no plank on the left in what is to be rehearsed",
        ),
        (
            Wanted(first=Named("low-lunge"), last=Named("mountain")),
            "there is no mountain after that to end with",
        ),
    ],
)
def test_a_wish_that_finds_nothing_is_told(wanted: Wanted, words: str) -> None:
    with pytest.raises(NothingLeftError, match=words):
        piece(BOTH, wanted)


def test_where_nothing_has_a_side_that_is_told() -> None:
    score = score_of(plan_of("- come to: mountain\n- in: arms overhead\n- out: mountain\n"))
    with pytest.raises(NothingLeftError, match="nothing there is led on the left"):
        piece(score, Wanted(side=Side.LEFT))


PLANS = [path.stem for path in places.shipped_plans()]


def wishes(score: Score) -> st.SearchStrategy[Wanted]:
    used = sorted({moment.shape for moment in score.moments})
    named = st.builds(Named, st.sampled_from(used), st.sampled_from([None, *Side]))
    return st.builds(
        Wanted,
        st.frozensets(st.integers(0, len(score.parts) - 1), max_size=3),
        st.sampled_from([None, *Side]),
        st.none() | named,
        st.none() | named,
    )


def met(score: Score, data: st.DataObject) -> Iterator[Score]:
    try:
        yield piece(score, data.draw(wishes(score)))
    except NothingLeftError:
        return


@pytest.fixture(scope="module", params=PLANS)
def whole(request: pytest.FixtureRequest) -> Score:
    score = opened(Path(places.plan(request.param))).score
    assert score is not None
    return score


@pytest.mark.slow
@given(st.data())
def test_every_piece_is_a_score_whose_movements_are_made_as_in_class(
    whole: Score, data: st.DataObject
) -> None:
    place = {moment.id: index for index, moment in enumerate(whole.moments)}
    for cut in met(whole, data):
        assert [m.start for m in cut.moments[1:]] == [m.end for m in cut.moments[:-1]]
        assert cut.moments[0].start == 0
        assert len({moment.id for moment in cut.moments}) == len(cut.moments)
        for before, after in pairwise(cut.moments):
            if after.id in place:  # made from the stance it is made from in class
                assert stands(before) == stands(whole.moments[place[after.id] - 1])
        if cut.moments[0].id in place:
            assert place[cut.moments[0].id] == 0
        held = {moment.hold for moment in cut.moments} - {""}
        assert set(cut.holds) == held
        for hold in held:
            kept = [moment.id for moment in cut.moments if moment.hold == hold]
            assert kept == [moment.id for moment in whole.moments if moment.hold == hold]
        assert [p for p in cut.parts if p.first < p.last] == list(cut.parts)
        assert [p.last for p in cut.parts[:-1]] == [p.first for p in cut.parts[1:]]
        for number, part in enumerate(cut.parts):
            assert {m.part for m in cut.moments[part.first : part.last]} == {number}


@pytest.mark.slow
def test_every_part_of_every_shipped_plan_can_be_led_alone(whole: Score) -> None:
    for number in range(len(whole.parts)):
        cut = piece(whole, Wanted(parts=frozenset({number})))
        engine = Engine(cut, {}, Settings())
        told = [one for happened in through(engine) for one in happened]
        assert [one.moment for one in told if one.kind == "moment"] == [m.id for m in cut.moments]
