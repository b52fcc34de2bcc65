from conductor.sides import Breath, Side
from tests.support import findings_of, plan_of, rules_of, score_of


def led(text: str) -> list[tuple[str, str]]:
    return [(moment.breath.value, moment.shape) for moment in score_of(text).moments]


STAND = "- come to: mountain\n"


def test_rounds_and_flows_are_led_in_order() -> None:
    flows = "rise:\n  - in: arms overhead\n  - out: standing fold\n"
    text = plan_of(STAND + "- flow: rise\n  rounds: 2\n", flows=flows)
    pair = [("in", "arms-overhead"), ("out", "standing-fold")]
    assert led(text) == [("free", "mountain"), *pair, *pair]
    assert [moment.round for moment in score_of(text).moments[1:]] == [(1, 2)] * 2 + [(2, 2)] * 2


EACH = """
- come to: downward dog
- each side: yes
  steps:
    - in: three-legged dog
    - out: downward dog
  between:
    - in: same
    - out: same
"""


def test_both_sides_are_led_the_right_first_with_what_stands_between() -> None:
    moments = score_of(plan_of(EACH)).moments
    assert [m.side for m in moments] == [None, Side.RIGHT, None, None, None, Side.LEFT, None]
    assert [m.pass_side for m in moments if m.pass_key] == [Side.RIGHT] * 2 + [Side.LEFT] * 2


def test_mates_name_each_other() -> None:
    moments = {moment.id: moment for moment in score_of(plan_of(EACH)).moments}
    mated = [moment for moment in moments.values() if moment.mate]
    assert len(mated) == 4
    for moment in mated:
        mate = moments[moment.mate]
        assert mate.mate == moment.id
        assert mate.shape == moment.shape
        assert mate.pass_side is not moment.pass_side


def test_first_side_left_leads_the_mirror_first() -> None:
    right = score_of(plan_of(EACH)).moments
    left = score_of(plan_of(EACH, head="first side: left\n")).moments
    assert [m.side and m.side.other for m in left] == [m.side for m in right]
    assert [m.stance.mirrored() for m in left] == [m.stance for m in right]


def test_alternate_changes_the_side_each_round() -> None:
    steps = """
    - come to: downward dog
    - rounds: 4
      alternate: yes
      steps:
        - in: three-legged dog
        - out: downward dog
    """
    moments = score_of(plan_of(steps)).moments
    sides = [moment.side for moment in moments if moment.side]
    assert sides == [Side.RIGHT, Side.LEFT, Side.RIGHT, Side.LEFT]
    assert moments[1].mate == moments[3].id
    assert moments[3].mate == moments[1].id


def test_sides_within_a_mirrored_passage_are_mirrored_in_order_too() -> None:
    steps = """
    - come to: downward dog
    - each side: yes
      steps:
        - each side: yes
          steps:
            - in: three-legged dog
            - out: downward dog
    """
    sides = [m.side for m in score_of(plan_of(steps)).moments if m.side]
    assert sides == [Side.RIGHT, Side.LEFT, Side.LEFT, Side.RIGHT]


def test_a_flow_called_on_the_left_is_mirrored() -> None:
    flows = "lift:\n  - in: three-legged dog\n  - out: downward dog\n"
    steps = "- come to: downward dog\n- flow: lift\n- flow: lift\n  side: left\n"
    sides = [m.side for m in score_of(plan_of(steps, flows=flows)).moments if m.side]
    assert sides == [Side.RIGHT, Side.LEFT]


def test_only_leaves_out_other_rounds_and_sides() -> None:
    steps = """
    - come to: mountain
    - rounds: 3
      steps:
        - in: arms overhead
        - out: mountain
        - stay: 1 breath
          only: last round
        - in: arms overhead
          only: round 1
        - out: mountain
          only: round 1
    """
    moments = score_of(plan_of(steps)).moments
    rounds = [moment.round[0] for moment in moments[1:]]
    assert rounds == [1, 1, 1, 1, 2, 2, 3, 3, 3, 3]


def test_only_outside_rounds_is_an_error_at_its_place() -> None:
    text = plan_of(STAND + "- in: arms overhead\n  only: round 1\n")
    (finding,) = findings_of(text)
    assert finding.rule == "only-where"
    assert finding.span is not None
    assert text.splitlines()[finding.span.line - 1].strip() == "only: round 1"


def test_settle_gives_a_breath_after_each_movement() -> None:
    steps = """
    - come to: mountain
    - settle: 1 breath
      steps:
        - in: arms overhead
        - out: mountain
    """
    assert [m.breath for m in score_of(plan_of(steps)).moments] == [
        Breath.FREE,
        Breath.IN, Breath.OUT, Breath.IN,
        Breath.OUT, Breath.IN, Breath.OUT,
    ]  # fmt: skip


def test_a_class_beyond_the_limit_is_an_error_and_no_hang() -> None:
    steps = "- come to: mountain\n"
    nest = "- rounds: 150\n  steps:\n"
    inner = "- in: arms overhead\n- out: mountain\n"
    for _ in range(4):
        inner = nest + "".join(f"    {line}\n" for line in inner.splitlines())
    assert {"limit", "too-long"} & set(rules_of(plan_of(steps + inner)))


def test_long_movements_count_toward_the_limit() -> None:
    steps = """
    - come to: mountain
    - rounds: 200
      steps:
        - in: arms overhead
          over: 100 breaths
        - in: same
    """
    assert {"limit", "too-long"} & set(rules_of(plan_of(steps)))


def test_unknown_shapes_are_each_named_once_with_the_nearest() -> None:
    text = plan_of("- come to: mountain\n- rounds: 5\n  steps:\n    - in: wrrior twoo\n")
    (finding,) = findings_of(text)
    assert finding.rule == "unknown-shape"
    assert "warrior two" in finding.hint


def test_a_side_written_twice_must_agree() -> None:
    text = plan_of("- come to: downward dog\n- in: right three-legged dog\n  side: left\n")
    assert rules_of(text) == ["two-sides"]


def test_a_bell_at_the_end_rings_out_in_a_moment_of_its_own() -> None:
    moments = score_of(plan_of(STAND + "- stay: 1 breath\n- bell: 2\n")).moments
    assert moments[-1].bells == 2
    assert moments[-1].length == 8000


def test_a_bell_between_steps_rings_as_the_next_begins() -> None:
    moments = score_of(plan_of(STAND + "- bell: 1\n- in: arms overhead\n")).moments
    assert [moment.bells for moment in moments] == [0, 1]


def test_an_empty_class_is_an_error() -> None:
    assert "nothing-to-lead" in rules_of(plan_of("- say: Hello.\n"))


def test_turn_to_a_named_end_is_refused_in_a_passage_with_two_sides() -> None:
    steps = """
    - come to: mountain
    - each side: yes
      steps:
        - in: arms overhead
          turn: back
        - out: mountain
    """
    assert "turn-in-pass" in rules_of(plan_of(steps))


def test_a_round_that_there_is_not_is_told() -> None:
    steps = """
    - come to: mountain
    - rounds: 3
      steps:
        - in: arms overhead
        - out: mountain
        - in: same
          only: round 5
    """
    assert "only-where" in rules_of(plan_of(steps))
