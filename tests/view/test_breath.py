from conductor.breathing.session import Session
from conductor.breathing.words import CARE, SHORT_CARE
from conductor.sides import Breath
from conductor.view.breath import BEGIN, breath_view


def sat(breaths: int) -> Session:
    session = Session()
    for n in range(breaths):
        session.press(n * 10_000, Breath.IN)
        session.press(n * 10_000 + 4000, Breath.OUT)
    session.press(breaths * 10_000, Breath.IN)
    return session


def test_before_the_first_tap_it_says_what_to_do() -> None:
    view = breath_view(Session(), 0)
    assert view.told == (BEGIN, CARE)
    assert (view.phase, view.inhale, view.time) == ("", "-", "")


def test_while_it_settles_it_says_how_far_it_is() -> None:
    view = breath_view(sat(3), 31_000)
    assert view.told[0] == "3 breaths so far."
    assert view.phase == "INHALE"
    assert view.time == "00:31 of 02:00"


def test_after_two_minutes_it_says_that_it_is_enough_and_what_to_write() -> None:
    view = breath_view(sat(13), 131_000)
    assert view.told[0] == "Enough. For a plan: breath: 4 s in, 6 s out"
    assert (view.inhale, view.exhale) == ("4.0 s", "6.0 s")
    assert "Bernardi" in " ".join(view.told)
    assert view.told[1] == SHORT_CARE
