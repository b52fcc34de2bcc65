from conductor.score.model import Score
from conductor.settings import Settings
from conductor.timing.cues import cues
from conductor.timing.holds import resized
from tests.support import plan_of, rules_of, score_of

FLOW = """
- come to: plank
- {key}:
    steps:
      - out: knees down plank
      - in: cobra
      - out: downward dog
  steps:
    - out: low plank
    - in: upward dog
    - out: downward dog
"""


def test_another_way_of_a_passage_rides_in_its_moments() -> None:
    score = score_of(plan_of(FLOW.format(key="ease")))
    ridden = [(m.shape, m.variants[0].level, m.variants[0].shape) for m in score.moments[1:]]
    assert ridden == [
        ("low-plank", "ease", "knees-down-plank"),
        ("upward-dog", "ease", "cobra"),
        ("downward-dog", "ease", "downward-dog"),
    ]
    assert score.moments[2].variants[0].words.full
    assert set(score.shapes) >= {"knees-down-plank", "cobra"}


def test_another_way_with_other_half_breaths_is_an_error() -> None:
    steps = """
    - come to: plank
    - ease:
        steps:
          - out: downward dog
      steps:
        - out: low plank
        - in: upward dog
        - out: downward dog
    """
    assert rules_of(plan_of(steps)) == ["variant-length"]


def test_another_way_that_ends_elsewhere_is_an_error() -> None:
    steps = """
    - come to: downward dog
    - in: three-legged dog
      or:
        shape: warrior one
    - out: downward dog
    - in: same
    """
    assert "variant-end" in rules_of(plan_of(steps))


def test_words_alone_ride_in_the_moment_they_stand_beside() -> None:
    steps = "- come to: mountain\n- in: tree\n  side: right\n  ease: toes on the floor\n"
    moment = score_of(plan_of(steps)).moments[1]
    assert [(one.level, one.text, one.shape) for one in moment.variants] == [
        ("ease", "toes on the floor", "")
    ]


def test_words_beside_a_movement_are_read_for_the_side_too() -> None:
    steps = """
    - come to: downward dog
    - each side: yes
      steps:
        - in: three-legged dog
          with: right heel high
          note: watch the right hip
          ease: the <side> knee stays bent
          more: {say: Lift the right heel higher.}
        - out: downward dog
    """
    left = score_of(plan_of(steps)).moments[3]
    assert (left.with_, left.note) == ("left heel high", "watch the left hip")
    ease, more = left.variants
    assert ease.text == "the left knee stays bent"
    assert ease.words.full.endswith(", the left knee stays bent")
    assert more.words.full == "Lift the left heel higher."


def test_arms_stay_as_they_were_put_while_the_class_stays() -> None:
    steps = "- come to: mountain\n  with: palms together\n- stay: 2 breaths\n- in: arms overhead\n"
    withs = [moment.with_ for moment in score_of(plan_of(steps)).moments]
    assert withs == ["palms together"] * 5 + [""]


def test_a_gentler_shape_lasts_as_long_as_the_class_stays() -> None:
    steps = (
        "- come to: low plank\n- in: upward dog\n  ease: cobra\n- stay: 2 breaths\n"
        "- out: downward dog\n"
    )
    moments = score_of(plan_of(steps)).moments
    assert [[one.shape for one in m.variants] for m in moments[1:]] == [["cobra"]] * 5 + [[]]
    assert [m.variants[0].words.full != "" for m in moments[1:6]] == [True] + [False] * 4


def test_ways_of_a_passage_ride_on_both_its_sides_and_in_all_its_rounds() -> None:
    block = "\n".join(f"    {line}" for line in FLOW.strip().splitlines()[1:])
    text = FLOW.format(key="ease").replace("- ease:", "- rounds: 2\n  ease:")
    assert block
    score = score_of(plan_of(text))
    assert [len(moment.variants) for moment in score.moments[1:]] == [1] * 6


def test_a_settled_movement_may_have_a_gentler_shape() -> None:
    steps = """
    - come to: plank
    - settle: 1 breath
      steps:
        - in: upward dog
          ease: cobra
        - out: downward dog
    """
    assert rules_of(plan_of(steps)) == []


def test_a_way_of_both_sides_leaves_what_stands_between_them_alone() -> None:
    steps = """
    - come to: downward dog
    - each side: yes
      ease:
        say: Stay in the dog.
        steps:
          - in: same
          - out: same
      steps:
        - in: three-legged dog
          say: Lift your <side> leg.
        - out: downward dog
      between:
        - in: plank
        - out: downward dog
    """
    moments = score_of(plan_of(steps)).moments
    assert [len(moment.variants) for moment in moments] == [0, 1, 1, 0, 0, 1, 1]
    first, second = moments[1].variants[0].words, moments[2].variants[0].words
    assert first.full == "Stay in the dog."
    assert (second.full or "soften", second.breath) == ("soften", "Exhale")


STAYS = """
- come to: mountain
- variants:
    gentle:
      steps:
        - in: chair
        - stay: 3 breaths
          say: [Heels heavy., {last: Look up.}]
  steps:
    - in: chair
    - stay: 3 breaths
      may stretch: 2 to 6 breaths
      say: [Sink., Sink more., {last: Last breath.}]
- in: mountain
"""


def lines_at(score: Score, level: str) -> list[str]:
    those, _ = cues(score, {}, Settings(), level)
    return [cue.saying.text for cue in those if cue.slot.startswith("line")]


def test_the_words_of_a_stay_in_a_named_way_are_said_in_place_of_the_others() -> None:
    score = score_of(plan_of(STAYS))
    assert lines_at(score, "") == ["Sink.", "Sink more.", "Last breath."]
    assert lines_at(score, "gentle") == ["Heels heavy.", "Look up."]


def test_they_follow_the_stay_when_it_is_stretched() -> None:
    score = score_of(plan_of(STAYS))
    name = next(key for key, hold in score.holds.items() if hold.ways)
    long = resized(score, {name: 6})
    said = [
        (moment.of_stay[0], way.lines[0].saying.text)
        for moment in long.moments
        for way in moment.variants
        if way.lines
    ]
    assert said == [(1, "Heels heavy."), (6, "Look up.")]
    assert lines_at(resized(long, {name: 3}), "gentle") == ["Heels heavy.", "Look up."]


def test_all_words_of_all_ways_are_rendered_before_class() -> None:
    _, wanted = cues(score_of(plan_of(STAYS)), {}, Settings())
    assert {"Sink more.", "Heels heavy.", "Look up."} <= {saying.text for saying in wanted}
