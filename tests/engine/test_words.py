from tests.engine.make import Class


def test_words_of_a_moment_are_fit_to_print() -> None:
    led = Class()
    led.begin()
    led.to("h right.3")
    lines = [one.words for one in led.told if one.kind == "moment"]
    assert lines[0] == "At your own breath: mountain"
    assert lines[-1] == "Exhale: warrior two (right), breath 2 of 3"
