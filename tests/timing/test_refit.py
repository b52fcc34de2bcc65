from itertools import product

from hypothesis import given, settings
from hypothesis import strategies as st

from conductor.score.model import Hold, Score
from conductor.spans import Span
from conductor.timing.model import Refit
from conductor.timing.problem import NEAR_MS
from conductor.timing.refit import fit, refit
from conductor.values import replace
from tests.timing.building import hold, moment, score_of, stay


def amounts(fit: Refit) -> dict[str, int]:
    return {key: one.amount for key, one in fit.score.holds.items()}


def rest(amount: int, least: int, most: int) -> Hold:
    return hold("rest", amount, least, most, timed=True, rest=True, keep=True)


def two_sides(amount: int = 5, least: int = 3, most: int = 8) -> tuple[Hold, Hold]:
    right = hold("right", amount, least, most, mates=("left",))
    return right, replace(right, id="left", mates=("right",))


def test_nothing_to_do_gives_the_same_score() -> None:
    score = score_of(moment("a"), *two_sides(), rest(60_000, 60_000, 90_000))
    fit = refit(score, 0, score.length, 0)
    assert fit == Refit(score, (), 0)


def test_less_than_a_breath_goes_to_the_final_rest() -> None:
    score = score_of(moment("a"), *two_sides(), rest(60_000, 50_000, 90_000))
    longer = refit(score, 0, score.length + 3000, 0)
    shorter = refit(score, 0, score.length - 3000, 0)
    assert amounts(longer) == {"right": 5, "left": 5, "rest": 63_000}
    assert amounts(shorter) == {"right": 5, "left": 5, "rest": 57_000}
    assert (longer.misses_by_ms, shorter.misses_by_ms) == (0, 0)


def test_time_to_spare_goes_to_few_stays_and_what_they_cannot_take_to_the_rest() -> None:
    score = score_of(
        hold("a", 4, 2, 6), hold("b", 4, 2, 8), moment("m"), rest(60_000, 60_000, 108_000)
    )
    assert amounts(refit(score, 0, score.length + 32_000, 0)) == {"a": 4, "b": 8, "rest": 60_000}
    assert amounts(refit(score, 0, score.length + 72_000, 0)) == {"a": 6, "b": 8, "rest": 84_000}


def test_a_plan_is_fitted_in_proportion_by_all_that_may_stretch() -> None:
    score = score_of(
        hold("a", 4, 2, 6), hold("b", 4, 2, 8), moment("m"), rest(64_000, 60_000, 128_000)
    )
    longer, shorter = fit(score, score.length + 48_000), fit(score, score.length - 30_000)
    assert amounts(longer) == {"a": 6, "b": 5, "rest": 88_000}
    assert amounts(shorter) == {"a": 2, "b": 2, "rest": 66_000}


def test_a_stretch_of_time_that_is_no_rest_takes_what_is_over_and_counts_as_a_change() -> None:
    still = hold("still", 60_000, 20_000, 90_000, timed=True)
    score = score_of(hold("a", 6, 2, 8), still)
    assert amounts(refit(score, 0, score.length - 12_000, 0)) == {"a": 5, "still": 56_000}
    assert amounts(refit(score, 0, score.length - 40_000, 0)) == {"a": 6, "still": 20_000}


def test_shrinking_takes_from_the_final_rest_last_and_never_below_its_least() -> None:
    score = score_of(*two_sides(), rest(60_000, 50_000, 90_000))
    assert amounts(refit(score, 0, score.length - 32_000, 0)) == {
        "right": 3,
        "left": 3,
        "rest": 60_000,
    }
    fit = refit(score, 0, score.length - 60_000, 0)
    assert amounts(fit) == {"right": 3, "left": 3, "rest": 50_000}
    assert fit.misses_by_ms == 18_000


def test_too_short_by_more_than_may_be_given_says_so() -> None:
    score = score_of(*two_sides(), rest(60_000, 50_000, 90_000))
    fit = refit(score, 0, score.length + 100_000, 0)
    assert fit.misses_by_ms == 48_000 + 30_000 - 100_000
    assert fit.score.length == score.length + 78_000


def test_a_stay_whose_mate_is_led_keeps_its_length() -> None:
    score = score_of(*two_sides(), hold("c", 4, 2, 8), rest(60_000, 50_000, 90_000))
    fit = refit(score, 11, score.length - 11 * 4000 + 16_000, 0)
    assert (amounts(fit)["right"], amounts(fit)["left"]) == (5, 5)
    assert fit.misses_by_ms == 0


def test_a_stay_under_way_changes_with_its_mate_and_not_below_what_is_led() -> None:
    score = score_of(*two_sides(), rest(60_000, 60_000, 60_000))
    fit = refit(score, 7, score.length - 28_000 - 2000 - 16_000, 2000)
    assert amounts(fit)["right"] == amounts(fit)["left"] == 4
    assert fit.score.moments[:7] == score.moments[:7]
    assert amounts(refit(score, 7, 0, 0))["right"] == 4
    assert amounts(refit(score, 8, 0, 0))["right"] == 5  # the half that begins now is led


def test_time_under_way_may_change_but_not_below_what_is_led() -> None:
    score = score_of(moment("a"), rest(60_000, 10_000, 90_000))
    assert amounts(refit(score, 1, 30_000, 20_000)) == {"rest": 50_000}
    fit = refit(score, 1, -5000, 20_000)
    assert (amounts(fit), fit.misses_by_ms) == ({"rest": 20_000}, 5000)


def test_what_may_be_dropped_goes_once_no_stay_can_give_more_the_last_one_first() -> None:
    one, two = hold("one", 2), hold("two", 2)
    score = score_of(
        hold("a", 2), stay(one, drop="x"), stay(two, drop="y"), rest(60_000, 30_000, 90_000)
    )
    score = replace(score, holds={**score.holds, "one": one, "two": two})
    assert amounts(refit(score, 0, score.length - 12_000, 0))["rest"] == 48_000
    gone = refit(score, 0, score.length - 42_000, 0)
    assert [change.hold for change in gone.changes] == ["y", "rest"]
    assert amounts(gone) == {"a": 2, "rest": 34_000, "one": 2}
    stay_all = refit(score, 0, score.length - 42_000, 0, passages=False)
    assert (amounts(stay_all)["two"], stay_all.misses_by_ms) == (2, 12_000)
    led = refit(score, 9, 72_000 - 42_000, 0)
    assert amounts(led) == {"a": 2, "one": 2, "two": 2, "rest": 30_000}


def test_for_less_than_a_second_no_passage_goes() -> None:
    one = hold("one", 2)
    score = score_of(hold("a", 2), stay(one, drop="x"), rest(60_000, 60_000, 90_000))
    score = replace(score, holds={**score.holds, "one": one})
    near = refit(score, 0, score.length - 999, 0)
    assert (near.score, near.misses_by_ms) == (score, 999)
    assert [one.hold for one in refit(score, 0, score.length - 1000, 0).changes] == ["x", "rest"]


def test_what_the_veto_has_something_against_is_not_done() -> None:
    one = hold("one", 2)
    score = score_of(hold("a", 6, 2, 8), stay(one, drop="x"), rest(60_000, 60_000, 90_000))
    places = {name: Span("plan.yaml", line, 1) for line, name in enumerate(("a", "one", "rest"), 1)}
    moments = tuple(replace(item, origin=places[item.hold]) for item in score.moments)
    score = replace(score, moments=moments, holds={**score.holds, "one": one})

    def veto(_before: Score, after: Score) -> frozenset[Span]:
        short = {places["a"]} if after.holds["a"].amount < 5 else set()
        return frozenset(short if "one" in after.holds else {*short, places["rest"]})

    held_back = refit(score, 0, score.length - 32_000, 0, veto=veto)
    assert amounts(held_back) == {"a": 5, "rest": 60_000, "one": 2}
    assert held_back.misses_by_ms == 24_000
    assert amounts(refit(score, 0, score.length - 32_000, 0))["a"] == 2


def test_a_passage_whose_other_side_stays_is_not_dropped() -> None:
    right, left = two_sides(2, 2, 2)
    score = score_of(stay(right), stay(left, drop="x"), rest(60_000, 30_000, 90_000))
    score = replace(score, holds={**score.holds, "right": right, "left": left})
    fit = refit(score, 0, score.length - 12_000, 0)
    assert amounts(fit) == {"right": 2, "left": 2, "rest": 48_000}


def test_with_no_time_that_stretches_it_comes_as_near_as_a_breath() -> None:
    score = score_of(hold("a", 4, 2, 8))
    fit = refit(score, 0, score.length + 6000, 0)
    assert (amounts(fit), fit.misses_by_ms) == ({"a": 5}, 2000)
    fit = refit(score, 0, score.length - 6000, 0)
    assert (amounts(fit), fit.misses_by_ms) == ({"a": 3}, -2000)


@st.composite
def scores(draw: st.DrawFn) -> tuple[Score, list[tuple[str, ...]]]:
    """A small score with single stays, stays with mates and a rest; groups of mates beside it."""
    pieces: list[Hold] = []
    groups: list[tuple[str, ...]] = []
    for k in range(draw(st.integers(1, 3))):
        amount = draw(st.integers(1, 4))
        least, most = draw(st.integers(1, amount)), draw(st.integers(amount, 6))
        inhale = draw(st.sampled_from([2000, 3001, 4000]))
        names = tuple(f"h{k}{side}" for side in "RL"[: draw(st.integers(1, 2))])
        half = draw(st.booleans())
        pieces += [
            hold(
                name,
                amount,
                least,
                most,
                unit=8000,
                inhale=inhale,
                half=half,
                mates=tuple(other for other in names if other != name),
            )
            for name in names
        ]
        groups.append(names)
    low, high = draw(st.sampled_from([(20_000, 20_000), (5000, 30_000), (20_000, 60_000)]))
    pieces.append(rest(20_000, low, high))
    groups.append(("rest",))
    return score_of(moment("a"), *pieces, moment("b")), groups


@settings(max_examples=200)
@given(scores(), st.integers(-60_000, 90_000), st.integers(0, 10), st.integers(0, 3000))
def test_a_fit_is_exact_or_says_by_how_much_and_keeps_every_law(
    case: tuple[Score, list[tuple[str, ...]]], by: int, at: int, done: int
) -> None:
    score, groups = case
    led = sum(one.length for one in score.moments[:at])
    left = score.length - led - done + by
    fit = refit(score, at, left, done)
    assert fit.score.length == led + done + left + fit.misses_by_ms
    assert fit.score.moments[:at] == score.moments[:at]
    assert all(one.length > 0 for one in fit.score.moments)
    assert [one.start for one in fit.score.moments[1:]] == [
        one.end for one in fit.score.moments[:-1]
    ]
    for names in groups:
        assert len({fit.score.holds[name].amount for name in names}) == 1
    for key, one in fit.score.holds.items():
        assert one.least <= one.amount <= one.most
        ids = [item.id for item in fit.score.moments if item.hold == key]
        assert ids == [f"{key}.{k}" for k in range(len(ids))]
        assert len(ids) == (1 if one.timed else 2 * one.amount + one.half)
    assert refit(score, at, left, done) == fit


def reachable(score: Score, groups: list[tuple[str, ...]]) -> tuple[int, int, set[int]]:
    """The slow way: every length that whole breaths alone can give, and the rest's bounds."""
    steps = [(score.holds[names[0]], len(names)) for names in groups if names != ("rest",)]
    fixed = score.length - sum(one.amount * one.unit * n for one, n in steps) - 20_000
    ranges = [[a * one.unit * n for a in range(one.least, one.most + 1)] for one, n in steps]
    one = score.holds["rest"]
    return one.least, one.most, {fixed + sum(combination) for combination in product(*ranges)}


@settings(max_examples=200)
@given(scores(), st.integers(-60_000, 90_000))
def test_against_every_combination(case: tuple[Score, list[tuple[str, ...]]], by: int) -> None:
    score, groups = case
    target = score.length + by
    low, high, lengths = reachable(score, groups)
    possible = any(low <= target - length <= high for length in lengths)
    fit = refit(score, 0, target, 0)
    if abs(fit.misses_by_ms) < NEAR_MS:
        assert possible or fit.misses_by_ms
    elif high - low >= 16_000:  # the rest bridges the largest step, so all between can be met
        assert not possible
        nearest = min(lengths) + low if by < 0 else max(lengths) + high
        assert fit.score.length == nearest
    else:
        ends = min(lengths) + low, max(lengths) + high
        within = min(max(target, ends[0]), ends[1])
        assert abs(fit.score.length - within) < 16_000


@given(scores(), st.integers(0, 60_000))
def test_the_rest_gives_less_than_a_breath_while_others_can(
    case: tuple[Score, list[tuple[str, ...]]], by: int
) -> None:
    score, _ = case
    fit = refit(score, 0, score.length - by, 0)
    taken = 20_000 - fit.score.holds["rest"].amount
    others = [one for key, one in fit.score.holds.items() if key != "rest"]
    assert taken < 16_000 or all(one.amount == one.least for one in others)
