"""What is seen of a plan while it is written, in a terminal of 80 by 24 and otherwise."""

from conductor.figure.text import Page
from conductor.findings import Finding, Weight
from conductor.report.watching import Seen, Watch, begun, block, screen
from conductor.spans import Span
from tests.support import findings_of, plan_of, score_of

STEPS = "- come to: mountain\n- in: arms overhead\n- out: mountain\n- stay: {breaths} breaths\n"


def seen(text: str, at: str = "18:00:00", extra: tuple[Finding, ...] = ()) -> Seen:
    found = (*findings_of(text), *extra)
    broken = any(one.weight is Weight.ERROR for one in found)
    score = None if broken else score_of(text)
    return Seen("plan.yaml", at, text, score, findings=found, sources={"plan.yaml": text})


def plan(breaths: int = 4, steps: str = STEPS) -> str:
    return plan_of(steps.format(breaths=breaths))


def many(count: int) -> tuple[Finding, ...]:
    words = "here stands something about which there is a good deal to say, more than fits on one"
    return tuple(
        Finding("rule", Weight.REMARK, f"{words} {n}", Span("plan.yaml", n, 3), "write it so")
        for n in range(1, count + 1)
    )


def test_the_length_stands_first_and_the_timeline_beneath() -> None:
    lines = screen(begun(seen(plan())), Page(80), 24)
    assert len(lines) == 24
    assert lines[0] == "Test  0:48"
    assert lines[1] == "plan.yaml: nothing to say"
    assert any(line.startswith("parts    │One") for line in lines)
    assert any(line.startswith("sides  R") for line in lines)
    assert lines[-1] == "ctrl-c ends; checked at 18:00:00"


def test_a_save_says_what_it_changed_and_how_it_will_be_led() -> None:
    watch = begun(seen(plan(4))).then(seen(plan(6), "18:00:09", many(1)))
    lines = screen(watch, Page(100), 40)
    assert lines[0] == "Test  1:04 (+16 s)"
    assert lines[1] == "plan.yaml: 1 remark (1 new)"
    assert any("stay 6 breaths" in line and "mountain" in line for line in lines)
    again = watch.then(seen(plan(6)))
    assert screen(again, Page(100), 40)[1] == "plan.yaml: nothing to say (1 mended)"


def test_a_broken_plan_keeps_the_last_length_and_timeline() -> None:
    broken = plan(steps=STEPS.replace("arms overhead", "arms overhed") + "- out: nowhere at all\n")
    watch = begun(seen(plan())).then(seen(broken, "18:00:30"))
    lines = screen(watch, Page(80), 24)
    assert lines[0] == "Test  0:48 as of 18:00:00"
    assert any("new error: no shape is called" in line for line in lines)
    assert any(line.startswith("parts    │One") for line in lines)
    assert screen(begun(seen(broken)), Page(80), 24)[0] == "plan.yaml  no length yet"


def test_findings_come_before_the_timeline_and_what_is_left_is_counted() -> None:
    error = Finding("worse", Weight.ERROR, "this comes first", Span("plan.yaml", 99, 1))
    lines = screen(begun(seen(plan(), extra=(*many(30), error))), Page(80), 24)
    assert len(lines) == 24
    assert "   99:1 error: this comes first [worse]" in lines
    assert lines.index("   99:1 error: this comes first [worse]") == 3
    more = [line for line in lines if line.startswith("... and ")]
    assert more == ["... and 24 more: conductor check plan.yaml"]
    assert not any(line.startswith("parts") for line in lines)
    assert max(map(len, lines)) <= 80


def test_with_some_findings_there_is_room_for_some_lanes() -> None:
    lines = screen(begun(seen(plan(), extra=many(4))), Page(80), 24)
    assert any(line.startswith("parts") for line in lines)
    assert any(line.startswith("sides") for line in lines)


def test_a_small_or_narrow_terminal_still_says_the_length() -> None:
    for columns, rows in ((80, 6), (40, 24), (30, 4)):
        lines = screen(begun(seen(plan(), extra=many(3))), Page(columns), rows)
        assert lines[0] == "Test  0:48"
        assert len(lines) <= max(rows, 5)
        assert max(map(len, lines)) <= columns


def test_a_high_terminal_shows_the_class_in_several_rows() -> None:
    long = plan(breaths=60)
    lines = screen(begun(seen(long)), Page(120), 60)
    assert sum(line.startswith("parts ") for line in lines) > 1


def test_a_file_that_is_gone_is_told() -> None:
    gone = Seen("plan.yaml", "18:01:00", trouble="the file is gone; it is watched for")
    lines = screen(begun(seen(plan())).then(gone), Page(80), 24)
    assert lines[0] == "Test  0:48 as of 18:00:00"
    assert lines[1] == "plan.yaml: the file is gone; it is watched for"


def test_plain_lines_have_every_finding_in_full() -> None:
    watch = begun(seen(plan(4))).then(seen(plan(5), "18:00:09", many(12)))
    text = block(watch, Page(80))
    assert text.startswith("== 18:00:09 ==\nTest  0:56 (+8 s)\n")
    assert text.count("[rule]") == 12
    assert "What was just written:\n    0:16  stay 5 breaths" in text
    assert text.endswith("\nWaiting for the next save; ctrl-c ends.\n")


def test_a_plan_steers_no_terminal() -> None:
    evil = Finding("rule", Weight.REMARK, "a\x1b[2Jb\x07", Span("p", 1, 1), "\x1b]0;c\x07")
    for lines in (
        screen(begun(seen(plan(), extra=(evil,))), Page(80), 24),
        block(begun(seen(plan(), extra=(evil,))), Page(80)).splitlines(),
    ):
        assert not any("\x1b" in line or "\x07" in line for line in lines)


def test_moments_of_many_changed_lines_are_counted() -> None:
    text = plan_of("- come to: mountain\n" + "- in: arms overhead\n- out: mountain\n" * 8)
    watch = Watch(seen(text), seen(plan()), seen(text))
    assert any("more such moments" in line for line in block(watch, Page(80)).splitlines())
