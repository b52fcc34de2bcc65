from conductor.screens.ended import Ended


def test_it_holds_a_clean_title() -> None:
    assert Ended("Tide\x07 Table")._title == "Tide Table"
