from conductor.cli.speech import with_plan
from conductor.settings import Settings


def test_a_plan_chooses_voice_pace_and_distance_where_a_person_has_not() -> None:
    options = {
        "voice.rate": "120",
        "voice.name": "en-us",
        "voice.fastest": "10 %",
        "view.distance": "3 m",
    }
    asked = with_plan(Settings(), options)
    assert (asked.rate, asked.voice, asked.fastest) == (120, "en-us", 10)
    assert asked.view_distance_m == 3.0
    own = with_plan(Settings(rate=170, voice="en"), options)
    assert (own.rate, own.voice) == (170, "en")
    asked_for = with_plan(Settings(rate=150), options, given={"rate"})
    assert asked_for.rate == 150


def test_a_plan_may_do_without_a_voice() -> None:
    assert with_plan(Settings(), {"voice.off": "yes"}).speak is False
    assert with_plan(Settings(), {"voice.off": "no"}).speak is True
