from types import ModuleType

from conductor.engine.model import Happening
from conductor.spans import Span
from conductor.view.marks import Mark, as_data, lines, mark_of, source_line

TEXT = "plan: 1\nparts:\n  - part: Stand\n    steps:\n      - out: warrior\x1b[2Jtwo\n"
HERE = Span("a.yaml", 5, 9)
ONE = Mark(61_000, HERE, "m1", "warrior two", "Stand", "right foot forward", "round 1 of 2")


def test_marks_are_told_by_line_in_the_order_of_the_plan_with_the_line_itself() -> None:
    other = Mark(5_000, Span("a.yaml", 9, 1), "m2", "plank", "Stand")
    again = Mark(122_000, HERE, "m1", "warrior two", "Stand", "right foot forward", "round 1 of 2")
    assert lines([other, ONE, again], {"a.yaml": TEXT}) == (
        "3 marks on 2 lines of the plan:",
        "a.yaml:5:9: warrior two, right foot forward, Stand, round 1 of 2, at 01:01 and 02:02",
        "    - out: warrior[2Jtwo",
        "a.yaml:9:1: plank, Stand, at 00:05",
    )


def test_no_marks_are_told_too() -> None:
    assert lines([], {}) == ("No place was marked.",)


def test_for_programs_they_stand_in_the_order_of_time() -> None:
    (one,) = as_data([ONE], {"a.yaml": TEXT})
    assert one["line"] == 5
    assert one["at_ms"] == 61_000
    assert one["text"] == "      - out: warrior\x1b[2Jtwo"
    assert source_line(HERE, {}) == ""


def test_a_mark_is_made_of_what_was_led_there(scene: ModuleType) -> None:
    snapshot = scene.snap(9, 1000)
    moment = snapshot.score.moments[9]
    told = Happening(snapshot.begun + 7000, "mark", moment.id)
    mark = mark_of(told, snapshot)
    assert mark is not None
    assert (mark.at, mark.span, mark.shape) == (7000, moment.origin, "warrior two")
    assert mark_of(Happening(0, "moment", moment.id), snapshot) is None
    assert mark_of(Happening(0, "mark", "gone since"), snapshot) is None
