import subprocess
import sys

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from conductor.findings import Weight
from conductor.plan.reader import read, read_shapes
from conductor.plan.rules import LANGUAGE
from conductor.plan.show import show
from conductor.spans import Span

GOOD = """\
plan: 1
title: Lighthouse Morning
kind: class                  # or: piece (a fragment; no arrival or rest is expected of it)
for: mixed level
length: 30 min               # the class ends on this minute; left out = as long as it turns out
breath: 4 s in, 4 s out      # or: 6 a minute
first side: right
flows:
  link:                      # the passage between standing sequences
    - in: plank
    - out: low plank
    - in: upward dog
    - out: downward dog
parts:
  - part: Arrive
    breath: 5 s in, 5 s out
    steps:
      - come to: mountain
        say: Stand tall. Let the breath arrive.
      - stay: 4 breaths
  - part: Salutes
    speak: full, then short, then breath     # by round
    steps:
      - rounds: 3
        steps:
          - in: arms overhead
          - out: standing fold
          - in: half lift
          - out: standing fold
          - flow: link
          - stay: 5 breaths
          - in: half lift
            say: Step to the top of the mat, half lift.
          - out: standing fold
          - in: arms overhead
          - out: mountain
  - part: Stand
    steps:
      - in: arms overhead
      - out: standing fold
      - in: half lift
      - out: downward dog
      - each side: yes                       # written for the right, always
        steps:
          - in: three-legged dog
          - out: low lunge
            say: Step your <side> foot between your palms.
          - in: crescent lunge
            ease: back knee down
          - out: warrior two
            turn: long side
          - stay: 5 breaths
            may stretch: 3 to 8 breaths      # between these, to meet the length
            say:
              - first: Sink the hips, reach through both hands.
              - last: Last breath.
          - flow: link
          - stay: 1 breath
        between:
          - in: same
            say: And now the other side.
          - out: same
  - part: Rest
    steps:
      - in: same
      - out: child's pose
      - stay: 6 breaths
      - free: 40 s
        to: final rest
        say: Take your time to lie down on your back.
      - stay: 5 min
        may stretch: 5 to 15 min
        speak: nothing
      - bell: 1
shapes:
  lighthouse: {like: warrior three, with: arms wide, say it: lighthouse}
  keel: {like: boat, side means: leg that is raised}
"""

LINES = GOOD.splitlines()
RULES = {rule.name for rule in LANGUAGE}
LETTERS = "\t :-#'\"{}[]&*!|>%@`,?\\\x00\x1b\x85\u2028\u202e\ud800é下\n\r"
WORDS = (
    *("  ", "- ", ": ", "---\n", "...\n", "say: ", "stay: ", "flow: link", "<<: ", "steps:\n"),
    *("rounds: 9999999999", "1000000000 breaths", "each side: ", "\n\n"),
)
SIGNS = st.sampled_from((*LETTERS, *WORDS))


@st.composite
def spoilt(draw: st.DrawFn) -> str:
    """The good plan after some slips of the hand."""
    lines = list(LINES)
    for _ in range(draw(st.integers(1, 5))):
        at = draw(st.integers(0, len(lines) - 1))
        line = lines[at]
        cut = draw(st.integers(0, len(line)))
        what = draw(st.sampled_from(["insert", "cut", "drop", "twice", "swap", "indent", "join"]))
        if what == "insert":
            lines[at] = line[:cut] + draw(SIGNS) + line[cut:]
        elif what == "cut":
            lines[at] = line[:cut]
        elif what == "drop" and len(lines) > 1:
            del lines[at]
        elif what == "twice":
            lines.insert(at, line)
        elif what == "swap":
            other = draw(st.integers(0, len(lines) - 1))
            lines[at], lines[other] = lines[other], lines[at]
        elif what == "indent":
            lines[at] = " " * draw(st.integers(1, 3)) + line
        elif what == "join" and at + 1 < len(lines):
            lines[at] += lines.pop(at + 1)
    return "\n".join(lines)


def assert_sound(text: str, pure: bool) -> None:
    plan, findings = read(text, "p.yaml", pure=pure)
    rows = text.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n").split("\n")
    for finding in findings:
        assert finding.rule in RULES
        for span in (finding.span, *(place for place, _ in finding.also)):
            assert span is not None
            assert span.file == "p.yaml"
            assert 1 <= span.line <= len(rows)
            assert 1 <= span.column <= span.end <= len(rows[span.line - 1]) + 1
    assert (plan is None) == any(finding.weight is Weight.ERROR for finding in findings)
    places = [finding.span for finding in findings]
    assert places == sorted(places)  # type: ignore[type-var]
    assert "\x1b" not in show(findings, {"p.yaml": text})


def test_the_plan_of_the_documents_is_read_without_findings() -> None:
    plan, findings = read(GOOD, "p.yaml")
    assert findings == ()
    assert plan is not None
    assert [part.name.value for part in plan.parts] == ["Arrive", "Salutes", "Stand", "Rest"]
    assert list(plan.flows) == ["link"]
    assert list(plan.shapes) == ["lighthouse", "keel"]


def test_both_parsers_read_the_same() -> None:
    assert read(GOOD, "p.yaml") == read(GOOD, "p.yaml", pure=True)


@settings(max_examples=150, deadline=2000)
@given(spoilt())
def test_no_slip_raises_or_leaves_the_file(text: str) -> None:
    assert_sound(text, pure=False)


@settings(max_examples=40, deadline=4000)
@given(spoilt())
def test_nor_with_the_parser_in_python(text: str) -> None:
    assert_sound(text, pure=True)


@settings(max_examples=100, deadline=2000)
@given(st.text(max_size=200))
def test_any_text_at_all_is_answered(text: str) -> None:
    assert_sound(text, pure=False)


@settings(max_examples=60, deadline=2000)
@given(st.integers(0, len(GOOD)))
def test_a_plan_cut_short_anywhere_is_answered(at: int) -> None:
    assert_sound(GOOD[:at], pure=False)


def test_all_faults_are_listed_at_once_though_the_yaml_breaks_off() -> None:
    text = GOOD.replace("stay: 4 breaths", "stay: 4").replace("      - bell: 1", "     - bell: 1")
    plan, findings = read(text, "p.yaml")
    assert plan is None
    assert [finding.rule for finding in findings] == ["amount", "layout"]


def test_warnings_and_remarks_do_not_keep_a_plan_from_being_led() -> None:
    plan, findings = read(GOOD.replace("Last breath.", "Last #1 breath"), "p.yaml")
    assert plan is not None
    assert [finding.weight for finding in findings] == [Weight.WARNING]


@pytest.mark.parametrize("text", ["shapes:\n  keel: {like: boat}\n", "keel: {like: boat}\n"])
def test_a_file_of_shapes(text: str) -> None:
    shapes, findings = read_shapes(text, "mine.yaml")
    assert findings == ()
    assert shapes["keel"].fields["like"].value == "boat"
    assert shapes["keel"].fields["like"].span.file == "mine.yaml"


@pytest.mark.parametrize("text", ["", "- a\n", "keel\n", "plan: 1\n"])
def test_a_file_of_shapes_without_any(text: str) -> None:
    shapes, findings = read_shapes(text, "mine.yaml")
    assert not shapes
    assert [finding.rule for finding in findings] == ["missing"]
    assert findings[0].span == Span(
        "mine.yaml", 1, 1, findings[0].span.end if findings[0].span else 0
    )


def test_reading_loads_neither_screen_nor_sound() -> None:
    code = (
        "import sys, conductor.plan.reader\n"
        "assert not {'textual', 'rich', 'miniaudio', 'pyttsx3', 'asyncio'} & set(sys.modules)"
    )
    subprocess.run([sys.executable, "-c", code], check=True)
