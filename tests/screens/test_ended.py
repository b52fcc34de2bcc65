from conductor.screens.ended import Ended
from conductor.view.after import Went


def test_it_holds_the_lines_and_a_clean_title() -> None:
    screen = Ended("Tide\x07 Table", Went("Led 5 min.", ("Every moment was led.",), ()))
    assert screen._title == "Tide Table"
    assert screen._went.lines == ("Led 5 min.", "Every moment was led.")
