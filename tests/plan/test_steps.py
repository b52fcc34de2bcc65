from collections.abc import Callable

import pytest

from conductor.findings import Finding
from conductor.plan.model import Bell, Block, Free, Move, Say, Stay, Step
from conductor.spans import Span

Steps = Callable[..., tuple[Step, ...]]
Told = Callable[..., tuple[Finding, ...]]


def test_movements_know_their_verb_shape_and_place(steps: Steps) -> None:
    come, rise, fold, same = steps(
        "- come to: mountain\n- in: arms overhead\n- out: standing fold\n- in: Same"
    )
    assert isinstance(come, Move)
    assert (come.verb, come.shape and come.shape.value) == ("come to", "mountain")
    assert come.span == Span("p.yaml", 5, 9, 26)
    assert come.shape
    assert come.shape.span == Span("p.yaml", 5, 18, 26)
    assert isinstance(rise, Move)
    assert isinstance(fold, Move)
    assert (rise.verb, fold.verb) == ("in", "out")
    assert isinstance(same, Move)
    assert same.shape is None


def test_stays_are_breaths_or_time(steps: Steps) -> None:
    breaths, time = steps("- stay: 5 breaths\n- stay: 1:30")
    assert isinstance(breaths, Stay)
    assert isinstance(time, Stay)
    assert (breaths.amount.halves, breaths.amount.ms) == (10, 0)
    assert (time.amount.halves, time.amount.ms) == (0, 90_000)


def test_free_time_cycles_and_arrives(steps: Steps) -> None:
    cycle, arrive = steps("- free: 1 min\n  of: [cow, cat]\n- free: 40 s\n  to: final rest")
    assert isinstance(cycle, Free)
    assert isinstance(arrive, Free)
    assert [text.value for text in cycle.of] == ["cow", "cat"]
    assert arrive.to
    assert arrive.to.value == "final rest"


def test_a_cycle_in_commas_keeps_the_place_of_each_shape(steps: Steps) -> None:
    (cycle,) = steps("- free: 1 min\n  of: cow, cat")
    assert isinstance(cycle, Free)
    assert [text.span.column for text in cycle.of] == [13, 18]


def test_say_is_a_verb_only_where_there_is_no_other(steps: Steps) -> None:
    alone, beside = steps("- say: Look up.\n- in: plank\n  say: Look down.")
    assert isinstance(alone, Say)
    assert alone.lines[0].text.value == "Look up."
    assert isinstance(beside, Move)
    assert beside.mods.say[0].text.value == "Look down."


def test_a_bell_with_a_condition_is_a_block_around_a_bell(steps: Steps) -> None:
    bell, once = steps("- bell: 3\n- bell: 1\n  only: last round")
    assert isinstance(bell, Bell)
    assert bell.strokes == 3
    assert isinstance(once, Block)
    assert isinstance(once.steps[0], Bell)
    assert once.mods.only
    assert once.mods.only.what == "last round"


def test_blocks(steps: Steps) -> None:
    (block,) = steps(
        "- rounds: 4\n  least: 2\n  each side: yes\n  alternate: no\n  settle: 1 breath\n"
        "  between:\n    - in: same\n  steps:\n    - in: plank\n    - out: low plank"
    )
    assert isinstance(block, Block)
    assert (block.rounds, block.least_rounds) == (4, 2)
    assert (block.each_side, block.alternate) == (True, False)
    assert (len(block.steps), len(block.between)) == (2, 1)
    assert block.mods.settle
    assert block.mods.settle.halves == 2
    assert block.mods.least is None


def test_a_flow_may_be_led_in_rounds_and_on_each_side(steps: Steps) -> None:
    (call,) = steps(
        "- flow: link\n  rounds: 2\n  each side: true", "flows:\n  link:\n    - in: plank\n"
    )
    assert isinstance(call, Block)
    assert call.flow
    assert call.flow.value == "link"
    assert (call.rounds, call.each_side, call.steps) == (2, True, ())


def test_a_plain_block_shares_its_modifiers(steps: Steps) -> None:
    (block,) = steps("- steps:\n    - in: plank\n  breath: 3 in, 3 out")
    assert isinstance(block, Block)
    assert block.mods.breath
    assert block.mods.breath.inhale == 3000


@pytest.mark.parametrize(
    ("text", "rule", "line", "column", "part_of_hint"),
    [
        ("- in: plank\n  out: cobra", "one-verb", 6, 9, "'- ' before 'out'"),
        ("- in: plank\n  rounds: 3\n  steps:\n    - in: x", "one-verb", 6, 9, "'rounds'"),
        ("- flow: x\n  steps:\n    - in: x", "one-verb", 6, 9, "make two steps"),
        ("- side: left", "one-verb", 5, 9, "come to, in, out, stay"),
        ("- in plank", "form", 5, 9, "Write: in: plank"),
        ("- in:plank", "form", 5, 9, "Write: in: plank"),
        ("- plank", "form", 5, 9, "in: plank"),
        ("- - in: x", "form", 5, 9, "dashes"),
        ("-", "missing", 5, 8, "after the dash"),
        ("- rounds: 3", "missing", 5, 9, "steps"),
        ("- rounds: 3\n  steps: []", "missing", 6, 9, "list"),
        ("- rounds: 3\n  steps:\n    in: plank", "form", 7, 11, "'- ' before it"),
        ("- each side:\n    - in: plank", "form", 5, 9, "each side: yes"),
        ("- rounds:\n    - in: plank", "form", 5, 9, "rounds: 3"),
        ("- come to: same", "known-word", 5, 18, "in: same"),
        ("- in:", "missing", 5, 9, "in: mountain"),
        ("- bell: 99", "limit", 5, 15, "bell: 3"),
        ("- rounds: 1000\n  steps:\n    - in: x", "limit", 5, 17, "rounds: 3"),
        ("- stay: 1000000000 breaths", "limit", 5, 15, "less"),
        ("- stay: 11 h", "limit", 5, 15, "less"),
        ("- stay: 5", "amount", 5, 15, "stay: 5 breaths"),
        ("- free: 4 breaths", "amount", 5, 15, "40 s"),
        ("- free: 30", "amount", 5, 15, "free: 30 s"),
        ("- stay: 5 breaths\n  may stretch: 6 to 8 breaths", "bounds", 6, 22, "Widen"),
        ("- stay: 5 breaths\n  may stretch: 1 to 2 min", "bounds", 6, 22, "breaths"),
        ("- stay: 5 breaths\n  turn: front", "misplaced-key", 6, 9, "movement"),
        ("- in: x\n  may stretch: yes", "misplaced-key", 6, 9, "stay"),
        ("- rounds: 2\n  steps:\n    - in: x\n  between:\n    - in: same",
         "misplaced-key", 8, 9, "each side"),
        ("- steps:\n    - in: x\n  alternate: yes", "misplaced-key", 7, 9, "rounds"),
        ("- bell: 1\n  say: x", "misplaced-key", 6, 9, "bell"),
    ],
)  # fmt: skip
def test_slips_are_told_in_their_place(
    told: Told, text: str, rule: str, line: int, column: int, part_of_hint: str
) -> None:
    finding = told(text)[0]
    assert (finding.rule, finding.span and finding.span.line) == (rule, line)
    assert finding.span
    assert finding.span.column == column
    assert part_of_hint in finding.hint


def test_two_verbs_show_both_places(told: Told) -> None:
    (finding,) = told("- in: plank\n  out: cobra")
    assert finding.span == Span("p.yaml", 6, 9, 19)
    assert finding.also == ((Span("p.yaml", 5, 9, 18), "the first one"),)


def test_the_other_words_for_a_verb_are_recognised(told: Told) -> None:
    findings = told(
        "- inhale: plank\n- exhale: cobra\n- hold: 5 breaths\n"
        "- both sides: yes\n  steps:\n    - In: plank\n- repeat: 2\n  moves:\n    - in: plank"
    )
    assert {finding.rule for finding in findings} == {"unknown-key"}
    hints = [finding.hint.split("'")[1] for finding in findings]
    assert hints == ["in", "out", "stay", "each side", "in", "rounds", "steps"]


def test_every_fault_is_told_at_once_and_in_order(told: Told) -> None:
    findings = told("- stay: 5\n- inn: plank\n- bell: 0\n- in: x\n  side: up\n- rounds: 2")
    assert [finding.rule for finding in findings] == [
        "amount", "unknown-key", "limit", "known-word", "missing",
    ]  # fmt: skip
