from conductor.engine.course import Course, course
from conductor.settings import Settings
from conductor.sides import Breath, Side
from tests.engine.make import breaths, cue_all, move, passage, score, small, stay


def made() -> Course:
    given = small()
    return course(given, cue_all(given, {}, Settings())[0])


def test_a_stay_is_one_group_and_a_movement_one_of_its_own() -> None:
    where = made()
    at = where.index_of
    assert where.first[at["h right.4"]] == at["h right.0"]
    assert where.last[at["h right.0"]] == at["h right.5"]
    assert where.first[at["plank right"]] == where.last[at["plank right"]] == at["plank right"]


def test_the_last_landing_is_found_from_everywhere() -> None:
    where = made()
    at = where.index_of
    assert where.landing[at["warrior right"]] == at["dog"]
    assert where.landing[at["stand"]] == at["stand"]


def test_breath_in_force_is_that_of_the_stay_or_of_the_moments_around() -> None:
    slow = breaths("slow", 2, unit=11_000, inhale=5000)
    given = score(
        [("All", [move("a", "in", "dog", 3000), move("b", "free", "dog", 40_000),
                  *stay(slow, "in", "dog"), move("c", "out", "dog", 4500)])],
        [slow],
    )  # fmt: skip
    where = course(given, ())
    assert where.breaths[1] == (3000, 4000)
    assert where.breaths[2] == (5000, 6000)
    assert where.breaths[-1] == (5000, 4500)


def test_nested_passes_belong_to_the_pass_around_them() -> None:
    inner = [
        move(name, "in", "dog", pass_key=key)
        for name, key in (("a", "p:right"), ("b", "p:right/2:left"), ("c", "p:right"))
    ]
    where = course(score([("All", inner)], []), ())
    assert where.passes == {"p:right": (0, 1, 2), "p:right/2:left": (1,)}


def test_the_mate_of_a_moment_may_be_a_moment_or_a_pass() -> None:
    where = made()
    assert where.mate(where.index_of["leg right"]) == "p:left"
    keys = (("a", "x", "y"), ("b", "y", ""))
    by_key = [move(name, "in", "dog", pass_key=key, mate=mate) for name, key, mate in keys]
    assert course(score([("All", by_key)], []), ()).mate(0) == "y"


def test_the_closing_is_the_part_of_the_final_rest_or_the_last() -> None:
    where = made()
    assert where.closing == where.index_of["knees"]
    plain = score([("One", [move("a", "in", "dog")]), ("Two", [move("b", "out", "dog")])], [])
    assert course(plain, ()).closing == 1


def test_long_moments_and_free_ones_are_stretches_of_time() -> None:
    given = score(
        [("All", [move("a", "free", "dog", 5000), move("b", "out", "dog", 13_000),
                  *passage(Side.RIGHT, breaths("h", 1))])],
        [breaths("h", 1)],
    )  # fmt: skip
    where = course(given, ())
    assert [where.timed(i) for i in range(3)] == [True, True, False]
    assert given.moments[1].breath is Breath.OUT
