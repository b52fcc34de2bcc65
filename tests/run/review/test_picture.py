from conductor.engine.model import Do
from conductor.figure.model import Kind, Lane, Timeline
from conductor.figure.svg import svg
from conductor.figure.text import Page, text
from conductor.run.review.picture import figure
from tests.run.review.virtual import STAY, TIDE, Room

RIGHT = STAY["right"]


def lane(timeline: Timeline, name: str) -> Lane:
    return next(one for one in timeline.lanes if one.name == name)


def test_a_class_as_planned_is_drawn_alike_twice() -> None:
    planned, led = figure(Room().out().reviewed()).timelines
    assert (planned.name, led.name) == ("planned", "led")
    assert planned.length == led.length == TIDE.length
    for name in ("parts", "shapes", "sides"):
        assert lane(planned, name) == lane(led, name)
    assert lane(planned, "waited").words == "all of the plan was led"
    assert lane(led, "waited").words == "nobody waited"


def test_holds_stops_and_what_was_left_out_stand_where_they_were() -> None:
    room = Room()
    room.to(f"{RIGHT}.2", 500)
    room.do(Do.HOLD)
    room.wait(10_500)
    room.do(Do.GO_ON)
    room.to(f"{RIGHT}.4", 500)
    room.do(Do.MORE)
    room.to("1/6:right/8.1", 500)
    room.do(Do.NEXT_PART)
    planned, led = figure(room.out().reviewed()).timelines
    (left_out,) = lane(planned, "waited").stretches
    assert (left_out.kind, left_out.start) == (Kind.SKIPPED, 96_000)
    held, coming = lane(led, "waited").stretches
    assert (held.kind, held.length) == (Kind.HELD, 8_000)
    assert coming.kind is Kind.STOPPED
    right = [one for one in lane(led, "sides").stretches if one.kind is Kind.RIGHT]
    assert sum(one.length for one in right) == 56_000 + 8_000 + 8_000  # held, and a breath more


def test_it_is_drawn_as_text_and_as_a_picture_with_the_words_first() -> None:
    room = Room()
    room.to(f"{RIGHT}.2", 500)
    room.do(Do.STOP)
    room.wait(40_000)
    room.do(Do.END)
    drawn = figure(room.reviewed())
    told = text(drawn, Page(columns=80))
    assert "Where the time went: Led" in told
    assert "sides    planned R" in told
    assert "<svg" in svg(drawn)


def test_a_class_that_led_nothing_has_nothing_to_draw() -> None:
    _, led = figure(Room().reviewed()).timelines
    assert led.length == 0
    assert "planned" in text(figure(Room().reviewed()))
