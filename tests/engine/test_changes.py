"""Changes to a class under way: landing, pace, voice and level."""

from conductor.engine.changes import NEXT_WAY
from conductor.engine.led import PACES
from conductor.engine.model import Do
from conductor.timing.cues import cues
from tests.engine.make import Class, entered, leading
from tests.support import plan_of, score_of


def test_slower_and_faster_go_by_steps_within_bounds() -> None:
    led = leading()
    led.do(Do.SLOWER)
    assert led.look().pace == 1050
    for _ in range(20):
        led.do(Do.FASTER)
    assert led.look().pace == PACES[0]
    assert not led.do(Do.FASTER).done
    assert Do.FASTER not in led.look().offers
    for _ in range(20):
        led.do(Do.SLOWER)
    assert led.look().pace == PACES[-1]
    assert not led.do(Do.SLOWER).done


def test_a_slower_pace_stretches_what_is_left_and_nothing_jumps() -> None:
    led = leading()
    left = led.look().ends_at - led.now
    led.do(Do.SLOWER)
    led.do(Do.SLOWER)
    assert led.look().ends_at == led.now + left * 1100 // 1000
    assert entered(led.wait(3299)) == []
    assert entered(led.wait(1)) == ["h left.3"]


def test_while_holding_a_slower_pace_counts_longer_breaths_from_the_next_half_on() -> None:
    led = leading()
    led.do(Do.HOLD)
    led.do(Do.SLOWER)
    led.wait(3000)
    assert led.look().leaves == led.now + 4200


def test_quiet_takes_away_the_voice_and_leaves_the_bells() -> None:
    led = leading()
    led.to("rest.0")
    led.wait(27_000)
    assert led.heard() == ["end", "bell"]
    assert led.do(Do.QUIET).words == "Voice off."
    assert led.heard() == ["bell"]
    assert led.do(Do.QUIET).words == "Voice on."
    assert led.heard() == ["end", "bell"]


def test_a_level_changes_the_words() -> None:
    led = leading()
    led.to("knees")
    led.do(Do.LEVEL, word="ease")
    assert "child ease" in led.heard()
    assert not led.do(Do.LEVEL, word="ease").done
    assert not led.do(Do.LEVEL, word="hard").done


WAYS = """
- come to: mountain
- in: tree
  side: right
  ease: hand on the wall
  variants: {gentle: toes on the floor, full: eyes closed}
- stay: 2 breaths
- out: mountain
"""


def test_the_next_of_the_ways_goes_round_those_the_plan_has() -> None:
    led = Class(score_of(plan_of(WAYS)), cueing=cues)
    told = [led.do(Do.LEVEL, word=NEXT_WAY).words for _ in range(4)]
    assert told == [
        "Led gentler.",
        "Led the way called gentle.",
        "Led the way called full.",
        "Led as written.",
    ]
    assert led.do(Do.LEVEL, word="hard").words == (
        "No way is called 'hard' here. The plan has: ease, gentle, full."
    )


def test_a_plan_without_other_ways_says_so() -> None:
    led = Class(score_of(plan_of("- come to: mountain\n- in: same")), cueing=cues)
    reply = led.do(Do.LEVEL, word=NEXT_WAY)
    assert (reply.done, reply.words) == (False, "The plan has no other ways.")


def test_a_way_chosen_in_class_leaves_time_and_place_as_they_are() -> None:
    led = Class(score_of(plan_of(WAYS)), cueing=cues)
    led.begin()
    led.wait(14_000)
    before = led.look()
    led.do(Do.LEVEL, word="full")
    after = led.look()
    assert (after.index, after.entered, after.leaves, after.ends_at) == (
        before.index,
        before.entered,
        before.leaves,
        before.ends_at,
    )
    assert after.level == "full"
