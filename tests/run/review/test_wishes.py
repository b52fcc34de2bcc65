import pytest

from conductor.engine.model import Do
from conductor.run.review.propose import wish_words
from conductor.run.review.wishes import Reviewed, aligned, wishes
from tests.run.review.virtual import PLAN, STAY, TIDE, Room
from tests.support import score_of

RIGHT, LEFT = STAY["right"], STAY["left"]


def more(times: int = 1, do: Do = Do.MORE) -> Room:
    """A class in which the stay is made longer on both sides."""
    room = Room()
    room.to(f"{RIGHT}.1", 100)
    for _ in range(times):
        room.do(do)
    return room.out()


def led(*rooms: Room) -> tuple[Reviewed, ...]:
    return tuple(room.reviewed() for room in rooms)


def test_a_breath_more_in_each_of_three_classes_is_a_wish() -> None:
    (wish,) = wishes(TIDE, led(more(), more(), more()))
    assert (wish.shape, wish.planned, wish.wanted, wish.led) == ("warrior two", 5, 6, (6, 6, 6))
    assert set(wish.holds) == {RIGHT, LEFT}
    assert PLAN.split("\n")[wish.place.line - 1].strip() == "- stay: 5 breaths   # both sides"
    assert wish_words(wish) == (
        "Write 6 breaths instead of 5 for warrior two: "
        "you added one in each of the last three classes."
    )


def test_two_classes_are_no_habit_unless_asked() -> None:
    assert wishes(TIDE, led(more(), more())) == ()
    (wish,) = wishes(TIDE, led(more(), more()), least=1)
    assert wish.by == 1


def test_the_middle_one_of_the_classes_is_taken() -> None:
    assert wishes(TIDE, led(more(), Room().out(), Room().out())) == ()
    (wish,) = wishes(TIDE, led(more(3), more(1), more(2)))
    assert wish.by == 2
    assert wish_words(wish).endswith(
        "it was led 8 breaths, 6 breaths, 7 breaths in the last three classes."
    )


def test_only_the_newest_classes_count() -> None:
    assert wishes(TIDE, led(*[Room().out()] * 3, *[more()] * 3)) == ()


def test_a_stay_made_longer_on_one_side_alone_is_an_accident() -> None:
    room = Room()
    room.to(f"{LEFT}.1", 100)
    room.do(Do.MORE)
    assert wishes(TIDE, led(*[room.out()] * 3)) == ()


def test_no_stay_becomes_more_than_twice_or_less_than_half_as_long() -> None:
    (longer,) = wishes(TIDE, led(*[more(9)] * 3))
    assert longer.wanted == 10
    (shorter,) = wishes(TIDE, led(*[more(4, Do.FEWER)] * 3))
    assert shorter.wanted == 3


def test_the_plans_own_bounds_hold() -> None:
    score = score_of(PLAN.replace("# both sides", "\n            may stretch: 4 to 7 breaths"))
    room = Room(score)
    room.to(f"{RIGHT}.1", 100)
    for _ in range(5):
        room.do(Do.MORE)
    (wish,) = wishes(score, led(*[room.out()] * 3))
    assert wish.wanted == 7


@pytest.mark.parametrize("into", [30_000, 100_000])
def test_a_rest_cut_short_is_no_wish(into: int) -> None:
    room = Room()
    room.to("2/5.0", into)
    room.do(Do.END)
    assert wishes(TIDE, led(*[room] * 3)) == ()


def test_a_rest_held_longer_is_one_in_steps_that_can_be_written() -> None:
    room = Room()
    room.to("2/5.0", 30_000)
    room.do(Do.HOLD)
    room.wait(33_000)
    room.do(Do.GO_ON)
    (wish,) = wishes(TIDE, led(*[room.out()] * 3))
    assert (wish.planned, wish.wanted, wish.timed) == (120_000, 150_000, True)


def test_a_class_fitted_by_the_clock_tells_nothing_of_what_came_after() -> None:
    room = Room()
    room.to("1/3", 100)
    room.do(Do.HOLD)
    room.wait(60_000)
    room.do(Do.GO_ON)
    room.do(Do.LAND)
    assert wishes(TIDE, led(*[room.out()] * 3)) == ()


def test_a_class_kept_to_the_clock_tells_nothing_of_what_came_after() -> None:
    room = Room()
    room.do(Do.KEEP)
    room.to("1/3", 100)
    room.do(Do.HOLD)
    room.wait(60_000)
    room.do(Do.GO_ON)
    assert wishes(TIDE, led(*[room.out()] * 3)) == ()


def test_a_plan_edited_since_knows_its_stays_again() -> None:
    other = PLAN.replace("      - in: plank\n      - out: downward dog\n", "", 1).replace(
        "      - come to: mountain\n", "      - come to: mountain\n      - stay: 2 breaths\n"
    )
    new = score_of(other)
    assert set(aligned(TIDE, new)) == set(TIDE.holds)
    (wish,) = wishes(new, led(*[more()] * 3))
    assert other.split("\n")[wish.place.line - 1].strip() == "- stay: 5 breaths   # both sides"


def test_what_has_been_written_since_is_not_wished_again() -> None:
    written = score_of(PLAN.replace("stay: 5 breaths", "stay: 6 breaths"))
    assert wishes(written, led(*[more()] * 3)) == ()
    assert wishes(written, (Room(written).out().reviewed(), *led(more(), more()))) == ()
