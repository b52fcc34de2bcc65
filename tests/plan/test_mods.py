from collections.abc import Callable

import pytest

from conductor.findings import Finding
from conductor.plan.model import Move, Say, Stay, Step
from conductor.spans import Span

Steps = Callable[..., tuple[Step, ...]]
Told = Callable[..., tuple[Finding, ...]]


def test_all_modifiers_of_a_movement(steps: Steps) -> None:
    (move,) = steps(
        "- out: warrior two\n  say: Open.\n  short: Open\n  say again: Again.\n  side: other\n"
        "  with: arms wide\n  through: [half lift, plank]\n  turn: Long Side\n  over: 2 breaths\n"
        "  ease: back knee down\n  note: slow\n  breath: 6 a minute\n"
        "  speak: full, then short, then breath\n  may drop: yes\n  only: round 2"
    )
    assert isinstance(move, Move)
    mods = move.mods
    assert mods.say[0].text.value == "Open."
    assert mods.short
    assert mods.short.value == "Open"
    assert mods.say_again
    assert mods.say_again.value == "Again."
    assert mods.side
    assert mods.side.value == "other"
    assert mods.with_
    assert mods.with_.value == "arms wide"
    assert [text.value for text in mods.through] == ["half lift", "plank"]
    assert mods.turn
    assert mods.turn.value == "long side"
    assert mods.over
    assert mods.over.halves == 4
    level, ease = mods.ways[0]
    assert level == "ease"
    assert ease.text
    assert ease.text.value == "back knee down"
    assert mods.note
    assert mods.note.value == "slow"
    assert mods.breath
    assert (mods.breath.inhale, mods.breath.exhale) == (5000, 5000)
    assert mods.speak == ("full", "short", "breath")
    assert mods.may_drop
    assert mods.only
    assert (mods.only.what, mods.only.number) == ("round", 2)


def test_lines_of_a_stay_are_anchored_or_one_a_breath(steps: Steps) -> None:
    (stay,) = steps(
        "- stay: 5 breaths\n  say:\n    - first: Sink.\n    - Lift the ribs.\n    - last: Last one."
    )
    assert isinstance(stay, Stay)
    assert [(line.anchor, line.text.value) for line in stay.mods.say] == [
        ("first", "Sink."), ("", "Lift the ribs."), ("last", "Last one."),
    ]  # fmt: skip


def test_anchored_lines_may_be_one_mapping(steps: Steps) -> None:
    (say,) = steps("- say: {first: Sink., last: Rise.}")
    assert isinstance(say, Say)
    assert [line.anchor for line in say.lines] == ["first", "last"]


def test_other_ways_are_words_a_shape_or_steps(steps: Steps) -> None:
    (move,) = steps(
        "- in: crow\n  ease: toes down\n  more: {shape: handstand, say: Float.}\n"
        "  or:\n    steps:\n      - in: squat"
    )
    assert isinstance(move, Move)
    (_, ease), (_, more), (_, other) = move.mods.ways
    assert ease.text
    assert ease.text.value == "toes down"
    assert more.shape
    assert more.say
    assert (more.shape.value, more.say.value) == ("handstand", "Float.")
    assert isinstance(other.steps[0], Move)


def test_ways_may_have_names_of_their_own(steps: Steps) -> None:
    (move,) = steps(
        "- in: tree\n  ease: hand on the wall\n"
        "  variants: {Gentle: toes on the floor, full: {shape: eagle}}"
    )
    assert isinstance(move, Move)
    assert [name for name, _ in move.mods.ways] == ["ease", "gentle", "full"]
    assert move.mods.ways[2][1].shape is not None


@pytest.mark.parametrize(
    ("variants", "words"),
    [
        ("{as written: toes down}", "'as written' cannot be the name of a way"),
        ("{2: toes down}", "'2' cannot be the name of a way"),
        ("{}", "nothing stands after 'variants'"),
        ("toes down", "names with their ways are asked for here"),
        ("{ease: toes down}\n  ease: toes up", "there are two ways called ease here"),
    ],
)
def test_names_that_no_way_can_have(told: Told, variants: str, words: str) -> None:
    (finding,) = told(f"- in: tree\n  variants: {variants}")
    assert finding.words == words
    assert finding.span is not None
    assert finding.span.line == 6


def test_may_stretch_no_keeps_the_stay_as_written(steps: Steps) -> None:
    fixed, free, bounded = steps(
        "- stay: 5 breaths\n  may stretch: no\n- stay: 5 breaths\n  may stretch: yes\n"
        "- stay: 10 min\n  may stretch: 5 to 15 min"
    )
    assert isinstance(fixed, Stay)
    assert fixed.mods.may_stretch
    assert fixed.mods.may_stretch.never
    assert fixed.mods.may_stretch.least == fixed.mods.may_stretch.most == fixed.amount
    assert isinstance(free, Stay)
    assert free.mods.may_stretch
    assert (free.mods.may_stretch.least, free.mods.may_stretch.most) == (None, None)
    assert isinstance(bounded, Stay)
    assert bounded.mods.may_stretch
    assert bounded.mods.may_stretch.most
    assert bounded.mods.may_stretch.most.ms == 900_000


def test_may_drop_no_is_as_if_it_were_not_there(steps: Steps) -> None:
    (move,) = steps("- in: crow\n  may drop: no")
    assert isinstance(move, Move)
    assert move.mods.may_drop is None


def test_several_lines_need_the_time_for_them(told: Told) -> None:
    (finding,) = told("- in: plank\n  say:\n    - One.\n    - Two.")
    assert (finding.rule, finding.span) == ("form", Span("p.yaml", 7, 11, 12))
    assert "stay" in finding.hint


def test_a_colon_in_a_list_of_lines_is_told_with_the_line_in_quotes(told: Told) -> None:
    (finding,) = told("- stay: 2 breaths\n  say:\n    - Reach: long arms")
    assert finding.rule == "quotes"
    assert finding.span == Span("p.yaml", 7, 13, 18)
    assert '"Reach: long arms"' in finding.hint


@pytest.mark.parametrize(
    ("line", "rule", "column"),
    [
        ("side: up", "known-word", 15),
        ("turn: around", "known-word", 15),
        ("over: 8 s", "amount", 15),
        ("breath: 0.1 in, 4 out", "limit", 17),
        ("breath: slow", "amount", 17),
        ("speak: loud", "known-word", 16),
        ("only: round 0", "known-word", 15),
        ("only: sometimes", "known-word", 15),
        ("may drop: perhaps", "known-word", 19),
        ("ease: {}", "missing", 9),
        ("short:", "missing", 9),
        ("say: []", "form", 14),
    ],
)
def test_values_are_told_in_their_place(told: Told, line: str, rule: str, column: int) -> None:
    (finding,) = told(f"- in: plank\n  {line}")
    assert (finding.rule, finding.span and finding.span.column) == (rule, column)
    assert finding.span
    assert finding.span.line == 6


def test_a_hash_that_eats_words_is_told_and_quotes_keep_it(told: Told) -> None:
    (finding,) = told('- say: Wall #3 now\n- say: "Wall #3 now"')
    assert finding.span == Span("p.yaml", 5, 19, 25)
    assert '- say: "Wall #3 now"' in finding.hint


def test_a_comment_after_a_value_that_is_not_spoken_is_fine(told: Told) -> None:
    assert told("- stay: 5 breaths   # or so\n  may stretch: yes # to the minute") == ()
