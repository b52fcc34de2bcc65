"""The solver against looking at every choice, and against an optimiser made by others."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import Bounds, LinearConstraint, milp

from conductor.timing.problem import GRID_MS, Order, Passage, Price, Problem, Stay, reach
from conductor.timing.search import search
from conductor.timing.solve import solve
from tests.timing.posing import breaths, priced, problems, reckoned, rest, slowly, taking


def test_nothing_to_do_changes_nothing() -> None:
    fit = solve(Problem((breaths("a", 4, 2, 6), rest(60_000, 30_000, 90_000)), 1000, 1000, 8000))
    assert fit.amounts == {"a": 4, "rest": 60_000}
    assert fit.price == Price(0, 0, 0, 0, 0, 0)


def test_with_nothing_that_stretches_it_says_by_how_much_it_misses() -> None:
    fit = solve(Problem((), 100_000, 90_000, 8000))
    assert (fit.amounts, fit.misses) == ({}, 10_000)
    assert reach(Problem((), 100_000, 90_000, 8000)).shortest == 100_000


def test_reach_is_what_stays_alone_can_do_and_less_without_a_passage() -> None:
    stays = (breaths("a", 4, 2, 6), breaths("b", 4, 2, 6), rest(60_000, 30_000, 90_000))
    problem = Problem(stays, 400_000, 0, 8000, passages=(Passage("p", 100_000, frozenset({"b"})),))
    whole, less = reach(problem), reach(problem, frozenset({"p"}))
    assert (whole.shortest, whole.longest) == (338_000, 462_000)
    assert (less.shortest, less.longest) == (254_000, 346_000)


def test_under_way_few_stays_change_and_in_a_plan_all_of_them_do() -> None:
    stays = tuple(breaths(name, 5, 2, 8) for name in "abc")
    lead = solve(Problem(stays, 400_000, 376_000, 8000, Order.UNDER_WAY))
    plan = solve(Problem(stays, 400_000, 376_000, 8000, Order.PLAN))
    assert sorted(lead.amounts.values()) == [2, 5, 5]
    assert sorted(plan.amounts.values()) == [4, 4, 4]


def test_breaths_of_odd_lengths_are_put_together_to_the_grid() -> None:
    stays = (breaths("a", 9, 1, 9, 8571), breaths("b", 9, 1, 9, 7001))
    fit = solve(Problem(stays, 400_000, 400_000 - 3 * 8571 - 4 * 7001, 8000))
    assert abs(fit.misses) < GRID_MS


def test_the_fewest_passages_go_and_of_those_the_ones_that_leave_least_to_change() -> None:
    passages = tuple(Passage(f"p{k}", ms) for k, ms in enumerate((20_000, 60_000, 44_000)))
    problem = Problem((breaths("a", 4, 2, 6),), 400_000, 356_000, 8000, Order.UNDER_WAY, passages)
    assert search(problem).gone == ("p2",)
    fit = search(Problem(problem.stays, 400_000, 332_000, 8000, Order.UNDER_WAY, passages))
    assert (fit.gone, fit.amounts) == (("p1",), {"a": 3})


def test_many_passages_that_cannot_meet_the_time_take_no_for_ever() -> None:
    passages = tuple(Passage(f"p{k}", 20_000 + 1000 * k) for k in range(40))
    fit = search(Problem((), 2_000_000, 1_000_000, 8000, passages=passages))
    assert fit.price.far < 20_000


@pytest.mark.slow
@settings(max_examples=300)
@given(problems(odd=False))
def test_a_fit_is_as_good_as_the_best_of_every_choice(problem: Problem) -> None:
    fit = search(problem)
    assert fit.price == slowly(problem)
    assert reckoned(problem, dict(fit.amounts), fit.gone) == fit.price
    assert search(problem) == fit


@pytest.mark.slow
@settings(max_examples=150)
@given(problems())
def test_with_breaths_of_odd_lengths_it_misses_by_no_more_than_the_grid(problem: Problem) -> None:
    fit = search(problem)
    best = slowly(problem)
    assert fit.price.gone >= best.gone or best.far < fit.price.far < best.far + 2 * GRID_MS
    assert fit.price.missed <= best.missed + 2 * GRID_MS or fit.price.gone < best.gone
    assert reckoned(problem, dict(fit.amounts), fit.gone) == fit.price


def by_highs(problem: Problem) -> Price:
    """The best of stays alone by HiGHS, one preference after the other (Highs via scipy).

    One yes or no for each amount of each stay; the taker is whole steps of its own.
    """
    up = problem.target > problem.length
    sign, taker = (1 if up else -1), taking(problem)
    columns = [
        (k, sign * change)
        for k, stay in enumerate(problem.stays)
        if k != taker
        for change in (0, *stay.options(up))
    ]
    if taker is not None:
        raise AssertionError("the oracle is for problems of whole breaths")
    counted = len(columns)
    choose = np.zeros((len(problem.stays), counted + 2))
    time, many, distance = (np.zeros(counted + 2) for _ in range(3))
    for column, (k, change) in enumerate(columns):
        stay = problem.stays[k]
        choose[k, column] = 1
        time[column] = stay.step * change
        many[column] = bool(change) and problem.order is Order.UNDER_WAY
        distance[column] = stay.cost(change)
    time[counted:] = 1, -1
    missed = np.zeros(counted + 2)
    missed[counted:] = 1
    need = problem.target - problem.length
    limits = [LinearConstraint(choose, 1, 1), LinearConstraint(time, need, need)]
    kinds = np.array([1] * counted + [0, 0])
    bounds = Bounds(np.zeros(counted + 2), np.array([1.0] * counted + [np.inf] * 2))
    chosen = np.zeros(counted + 2)
    for goal in (missed, many, distance):
        found = milp(goal, constraints=limits, integrality=kinds, bounds=bounds)
        assert found.success, found.message
        chosen = found.x
        limits.append(LinearConstraint(goal, -np.inf, round(found.fun) + 0.5))
    changes = [0] * len(problem.stays)
    for column, (k, change) in enumerate(columns):
        if chosen[column] > 0.5:
            changes[k] = change
    return priced(problem, 0, tuple(changes), None)


@st.composite
def larger(draw: st.DrawFn) -> Problem:
    """Fifteen stays of whole breaths: too many to look at every choice."""
    those = []
    for k in range(15):
        amount = draw(st.integers(2, 9))
        step = draw(st.sampled_from([8000, 10_000, 16_000, 20_000, 9000]))
        least, most = draw(st.integers(1, amount)), draw(st.integers(amount, 12))
        those.append(Stay((f"s{k}",), amount, least, most, step))
    order = draw(st.sampled_from(list(Order)))
    target = 1_800_000 + 1000 * draw(st.integers(-500, 500))
    return Problem(tuple(those), 1_800_000, target, 8000, order)


@pytest.mark.slow
@settings(max_examples=25, deadline=None)
@given(larger())
def test_highs_finds_nothing_better(problem: Problem) -> None:
    assert solve(problem).price == by_highs(problem)
