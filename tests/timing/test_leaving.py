"""What may go from a class, and what is left of it, on plans as they are written."""

import pytest

from conductor.score.model import Score
from conductor.timing.holds import dropped, retimed
from conductor.timing.leaving import NOTHING_LEFT, OTHER_SIDE, Leaving, leads_worse, stuck
from conductor.timing.refit import refit
from conductor.values import replace
from tests.support import plan_of, score_of

PASSAGE = """
    - come to: mountain
    - in: arms overhead
    - out: standing fold
    - in: half lift
    - out: downward dog
    - steps:
        - in: three-legged dog
          side: right
        - out: low lunge
        - in: crescent lunge
        - out: {end}
      may drop: yes
    - in: {after}
      side: right
    - stay: 1 min
"""


def leaving_of(steps: str) -> Leaving:
    return Leaving(score_of(plan_of(steps)))


def test_a_passage_goes_where_the_class_can_go_on_without_it() -> None:
    leaving = leaving_of(PASSAGE.format(end="downward dog", after="three-legged dog"))
    assert leaving.keys == ("1/6",)
    assert not leaving.trouble({"1/6"})
    (passage,) = leaving.passages()
    assert (passage.key, passage.ms, passage.after) == ("1/6", 16_000, "")


def test_a_passage_stays_where_the_next_movement_could_not_be_made() -> None:
    leaving = leaving_of(PASSAGE.format(end="warrior two", after="warrior one"))
    assert not leaving.trouble({"1/6"})
    steps = PASSAGE.format(end="high lunge", after="warrior three")
    trouble = leaving_of(steps).trouble({"1/6"})
    assert "one foot has to land" in trouble
    assert stuck(score_of(plan_of(steps))) == {"1/6": trouble}


ROUNDS = """
    - come to: mountain
    - rounds: 4
      least: 1 round
      steps:
        - in: arms overhead
        - out: standing fold
        - in: half lift
        - out: standing fold
        {last}
    - in: arms overhead
    - out: mountain
    - stay: 40 s
"""
ENDING = """- in: half lift
          only: last round
        - out: standing fold
          only: last round"""


def test_rounds_go_from_the_last_on() -> None:
    score = score_of(plan_of(ROUNDS.format(last="")))
    chain = [(one.key, one.after) for one in Leaving(score).passages()]
    assert chain == [("1/2/r4", ""), ("1/2/r3", "1/2/r4"), ("1/2/r2", "1/2/r3")]
    assert not Leaving(score).trouble({"1/2/r4", "1/2/r3"})
    assert Leaving(score).trouble({"1/2/r3"}) == "the round after it stays"
    begun = next(k for k, one in enumerate(score.moments) if one.round == (3, 4)) + 1
    assert Leaving(score, begun).keys == ("1/2/r4",)


def test_in_class_a_last_round_with_an_ending_of_its_own_stays_and_those_before_it() -> None:
    score = score_of(plan_of(ROUNDS.format(last=ENDING)))
    own = "the last round has an ending of its own"
    assert Leaving(score).trouble({"1/2/r4"}) == own
    assert Leaving(score).trouble({"1/2/r4", "1/2/r3"}) == own
    assert not Leaving(score, anew=True).trouble({"1/2/r4", "1/2/r3", "1/2/r2"})


def test_rounds_that_are_left_are_told_as_so_many() -> None:
    score = score_of(plan_of(ROUNDS.format(last="")))
    at = next(k for k, one in enumerate(score.moments) if one.round == (2, 4))
    fit = refit(score, at, score.length - score.moments[at].start - 32_000, 0)
    assert not fit.misses_by_ms
    assert fit.score.moments[:at] == score.moments[:at]
    assert [one.round for one in fit.score.moments[at + 1 : at + 5]] == [(2, 2)] * 3 + [(1, 1)]


INNER = """
    - come to: mountain
    - rounds: 2
      steps:
        - rounds: 3
          least: 1 round
          steps:
            - in: arms overhead
            - out: mountain
        - in: arms overhead
        - out: mountain
    - stay: 40 s
"""


def test_rounds_around_rounds_keep_their_number() -> None:
    score = score_of(plan_of(INNER))
    left = dropped(score, {"1/2/r2/1/r3"})
    rounds = {one.id: one.round for one in left.moments}
    assert rounds["1/2/r1/1/r2/1"] == (2, 3)
    assert rounds["1/2/r2/1/r2/1"] == (2, 2)
    assert rounds["1/2/r2/2"] == (2, 2)
    assert rounds["1/2/r1/2"] == (1, 2)


def test_in_class_words_across_a_gap_name_the_shape_alone() -> None:
    score = score_of(plan_of(PASSAGE.format(end="warrior two", after="warrior one")))
    fit = refit(score, 0, score.length - 16_000, 0)
    words = {one.id: one.words.full for one in fit.score.moments}
    assert "1/6/1" not in words
    assert words["1/7"] == next(one.words.short for one in score.moments if one.id == "1/7")
    assert words["1/5"] == next(one.words.full for one in score.moments if one.id == "1/5")


ALL = """
    - come to: mountain
      may drop: yes
    - steps:
        - in: arms overhead
        - out: mountain
      may drop: yes
"""


def test_something_is_always_left() -> None:
    assert leaving_of(ALL).trouble({"1/1", "1/2"}) == NOTHING_LEFT
    assert not leaving_of(ALL).trouble({"1/2"})
    assert stuck(score_of(plan_of(ALL))) == {}


TWO_HALVES = """
    - come to: mountain
    - in: arms overhead
      may drop: yes
    - out: mountain
      may drop: yes
    - stay: 2 breaths
    - in: arms overhead
      may drop: yes
    - out: mountain
    - stay: 1 min
"""


def test_what_cannot_go_alone_goes_with_what_stands_beside_it() -> None:
    leaving = leaving_of(TWO_HALVES)
    assert leaving.trouble({"1/3"}) == "one inhale would follow on another"
    assert not leaving.trouble({"1/2", "1/3"})
    twice = {"1/5": "one exhale would follow on another"}
    assert stuck(score_of(plan_of(TWO_HALVES))) == twice


SIDES = """
    - come to: mountain
    - in: tree
      side: right
    - stay: 3 breaths
      may stretch: 2 to 4 breaths
    - out: mountain
    - stay: 1 min
"""


def test_a_side_goes_with_its_other_side_alone() -> None:
    score = score_of(plan_of(SIDES))
    (name,) = (key for key, hold in score.holds.items() if not hold.timed)
    hold = replace(score.holds[name], mates=("other",))
    other = replace(hold, id="other", mates=(name,))
    moments = [
        replace(one, drop="a", hold=one.hold) if one.hold == name else one for one in score.moments
    ]
    late = [replace(one, hold="other", drop="b", start=one.end) for one in moments if one.drop]
    twins = replace(
        score,
        moments=retimed((*moments[:-1], *late, moments[-1])),
        holds={**score.holds, name: hold, "other": other},
    )
    assert Leaving(twins).trouble({"a"}) == OTHER_SIDE
    assert Leaving(twins).trouble({"a", "b"}) != OTHER_SIDE
    assert stuck(twins).keys() == set()


@pytest.mark.parametrize("done", [0, 1000])
def test_the_moment_a_class_stands_at_is_never_taken_away(done: int) -> None:
    score: Score = score_of(plan_of(TWO_HALVES))
    for at, here in enumerate(score.moments):
        left = score.length - here.start - done - 8000
        fit = refit(score, at, left, done)
        assert fit.score.moments[at].id == here.id
        assert fit.score.moments[:at] == score.moments[:at]


def test_parts_keep_their_numbers_in_class() -> None:
    text = plan_of(TWO_HALVES) + (
        "  - part: Two\n    may drop: yes\n    steps:\n      - in: arms overhead\n"
        "      - out: mountain\n  - part: Three\n    steps:\n      - in: arms overhead\n"
        "      - out: mountain\n"
    )
    score = score_of(text)
    fit = refit(score, 3, score.length - score.moments[3].start - 8000, 0)
    assert [change.hold for change in fit.changes] == ["2"]
    two, three = fit.score.parts[1:]
    assert two.first == two.last == three.first
    assert {one.part for one in fit.score.moments} == {0, 2}


def test_a_score_leads_worse_where_a_movement_is_harder_or_a_breath_comes_twice() -> None:
    full = score_of(plan_of(PASSAGE.format(end="downward dog", after="three-legged dog")))
    assert not leads_worse(full, full)
    assert not leads_worse(dropped(full, {"1/6"}), full)
    for name, lost in (("effort", {"1/2", "1/3", "1/4"}), ("breath", {"1/3"})):
        moments = tuple(one for one in full.moments if one.id not in lost)
        assert leads_worse(replace(full, moments=moments), full), name


def test_a_score_leads_no_worse_for_what_was_written_so() -> None:
    full = score_of(plan_of("- come to: easy seat\n- in: arms overhead\n- in: same\n"))
    assert not leads_worse(full, full)
