"""A class is never fitted at the cost of what the check would warn of."""

from pathlib import Path

import pytest

from conductor.checks.check import check
from conductor.compiler.compile import Compiled, compiled
from conductor.findings import Weight
from conductor.fit.veto import Checked, watched
from conductor.plan.reader import read
from conductor.score.model import Score
from conductor.settings import Settings
from conductor.shapes.catalogue import load
from conductor.timing.cues import cues
from conductor.timing.refit import refit

CAMEL = """
plan: 1
title: Camel
kind: class
breath: 4 s in, 4 s out
parts:
  - part: All
    steps:
      - come to: crocodile
      - stay: 4 breaths
      - steps:
          - in: cobra
          - out: crocodile
        may drop: yes
      - steps:
          - in: sphinx
          - out: crocodile
        may drop: yes
      - in: all fours
      - out: thunderbolt
      - in: camel
      - stay: 3 breaths
        may stretch: 2 to 4 breaths
      - steps:
          - out: child's pose
          - in: same
        may drop: yes
      - out: thunderbolt
      - rounds: 4
        steps:
          - in: same
          - out: same
      - free: 30 s
        to: final rest
      - stay: 5 min
"""


def made(text: str) -> Compiled:
    plan, findings = read(text, "plan.yaml")
    assert plan is not None, findings
    done = compiled(plan, load())
    assert done.score is not None, done.findings
    return done


def gone(done: Compiled, less: int, watched: bool = True) -> set[str]:
    assert done.score is not None
    fitting = Checked(done.shapes, {}, Settings()) if watched else refit
    result = fitting(done.score, 0, done.score.length - less, 0)
    return {one.drop for one in done.score.moments} - {one.drop for one in result.score.moments}


def test_what_undoes_a_backbend_stays_and_of_two_that_prepare_it_one_may_go() -> None:
    done = made(CAMEL)
    assert gone(done, 16_000, watched=False) == {"1/9"}
    assert len(gone(done, 16_000) & {"1/3", "1/4"}) == 1
    assert gone(done, 40_000, watched=False) == {"1/3", "1/4", "1/9"}
    assert len(gone(done, 40_000)) == 1
    assert "1/9" not in gone(done, 40_000)


@pytest.mark.parametrize(("less", "goes"), [(16, 1), (40, 1)])
def test_a_plan_with_a_length_leaves_out_no_more_than_that(less: int, goes: int) -> None:
    whole = made(CAMEL).score
    assert whole is not None
    text = CAMEL.replace("breath:", f"length: {whole.length // 1000 - less} s\nbreath:", 1)
    plan, _ = read(text, "plan.yaml")
    assert plan is not None
    done, free = compiled(plan, load(), watched), compiled(plan, load())
    assert done.score is not None
    assert free.score is not None
    drops = {one.drop for one in done.score.moments}
    assert len({"1/3", "1/4", "1/9"} - drops) == goes
    assert "1/9" in drops
    assert len({one.drop for one in free.score.moments}) <= len(drops)


def warned(score: Score, done: Compiled) -> set[tuple[str, object]]:
    said, _ = cues(score, {}, Settings())
    return {
        (one.rule, one.span)
        for one in check(score, said, done.shapes)
        if one.weight in {Weight.WARNING, Weight.ERROR}
    }


@pytest.mark.slow
@pytest.mark.parametrize("minutes", [-15, -9, -6, -4, -2, 3, 8])
@pytest.mark.parametrize("name", ["harbour-hour", "lighthouse-morning", "short-tide"])
def test_no_shipped_class_gets_a_new_warning_from_any_fit(name: str, minutes: int) -> None:
    done = made(Path(f"plans/{name}.yaml").read_text("utf-8"))
    score = done.score
    assert score is not None
    fitting = Checked(done.shapes, {}, Settings())
    for at in (0, len(score.moments) // 2):
        left = score.length - score.moments[at].start + 60_000 * minutes
        fitted = fitting(score, at, max(left, 1000), 0)
        assert warned(fitted.score, done) <= warned(score, done)


def test_shapes_that_are_not_known_keep_every_passage_and_let_stays_give() -> None:
    done = made(CAMEL)
    assert done.score is not None
    result = Checked({}, {}, Settings())(done.score, 0, done.score.length - 16_000, 0)
    assert {one.drop for one in result.score.moments} == {one.drop for one in done.score.moments}
    assert [one.after for one in result.changes] == [2]


LONG = """
plan: 1
title: Long
kind: class
breath: 4 s in, 4 s out
parts:
  - part: All
    steps:
      - come to: mountain
      - stay: 4 breaths
      - rounds: 60
        steps:
          - in: arms overhead
          - out: standing fold
          - in: half lift
          - out: standing fold
          - in: arms overhead
          - out: mountain
      - free: 30 s
        to: final rest
      - stay: 6 min
        may stretch: 1 to 8 min
"""


def test_the_final_rest_gives_only_as_far_as_the_check_lets_it() -> None:
    done = made(LONG)
    score = done.score
    assert score is not None
    known = warned(score, done)
    fitted = Checked(done.shapes, {}, Settings())(score, 0, score.length - 200_000, 0)
    bare = refit(score, 0, score.length - 200_000, 0)
    assert {rule for rule, _ in warned(bare.score, done) - known} == {"short-final-rest"}
    assert not warned(fitted.score, done) - known
    taken = score.length - fitted.score.length
    assert 0 < taken < 200_000
    assert fitted.misses_by_ms == 200_000 - taken


def test_a_class_known_before_it_begins_is_not_looked_at_again(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    done = made(CAMEL)
    assert done.score is not None
    one, looked = Checked(done.shapes, {}, Settings()), list[Score]()

    def looking(score: Score, *_: object) -> tuple[()]:
        looked.append(score)
        return ()

    monkeypatch.setattr("conductor.fit.veto.check", looking)
    one.know(done.score)
    one.veto(done.score, done.score)
    assert len(looked) == 2
    other = made(CAMEL).score
    assert other is not None
    one.veto(other, other)
    assert len(looked) == 4
