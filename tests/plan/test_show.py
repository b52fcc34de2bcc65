from conductor.findings import Finding, Weight
from conductor.plan.reader import read
from conductor.plan.show import show
from conductor.spans import Span


def test_a_finding_is_shown_like_a_good_compiler_would() -> None:
    text = "plan: 1\nparts:\n  - part: A\n    steps:\n      - in: plank\n        out: cobra\n"
    _, findings = read(text, "tide.yaml")
    assert show(findings, {"tide.yaml": text}) == (
        "tide.yaml:6:9: error: this step has two verbs, 'in' and 'out' [one-verb]\n"
        "    6 |         out: cobra\n"
        "      |         ^^^^^^^^^^\n"
        "  = Begin a new step: write '- ' before 'out'.\n"
        "  tide.yaml:5:9: the first one\n"
        "    5 |       - in: plank\n"
        "      |         ^^^^^^^^^\n"
    )


def finding(span: Span | None, words: str = "words", times: int = 1) -> Finding:
    return Finding("some-rule", Weight.REMARK, words, span, times=times)


def test_findings_are_set_apart_and_none_is_nothing() -> None:
    assert show((finding(None), finding(None, times=3))) == (
        "remark: words [some-rule]\n\nremark: words (3 times) [some-rule]\n"
    )
    assert show(()) == ""


def test_a_line_that_is_not_at_hand_is_left_out() -> None:
    shown = show((finding(Span("gone.yaml", 3, 1, 2)),), {"other.yaml": "x"})
    assert shown == "gone.yaml:3:1: remark: words [some-rule]\n"
    shown = show((finding(Span("short.yaml", 3, 1, 2)),), {"short.yaml": "x"})
    assert shown == "short.yaml:3:1: remark: words [some-rule]\n"


def test_carets_stand_under_wide_letters_and_tabs() -> None:
    shown = show((finding(Span("p", 1, 4, 6)),), {"p": "下犬 ab"})
    assert shown.splitlines()[1:] == ["    1 | 下犬 ab", "      |      ^^"]
    shown = show((finding(Span("p", 1, 2, 4)),), {"p": "\tab"})
    assert shown.splitlines()[2] == "      | \t^^"


def test_a_long_line_is_shown_around_the_place() -> None:
    line = "x" * 500 + "HERE" + "y" * 500
    shown = show((finding(Span("p", 1, 501, 505)),), {"p": line}).splitlines()
    assert len(shown[1]) < 120
    assert shown[1].index("HERE") == shown[2].index("^^^^")
    assert shown[1].count("…") == 2


def test_nothing_that_steers_a_terminal_gets_out() -> None:
    shown = show(
        (finding(Span("p\x1b", 1, 1, 9), "a\x1b[2Jb\u202e\x9b"),),
        {"p\x1b": "in: \x1b]0;x\x07\x9b\ud800"},
    )
    assert not set(shown) & set("\x1b\x07\x9b\u202e\ud800")


def test_paint_is_told_what_it_paints() -> None:
    seen = []

    def paint(text: str, what: str) -> str:
        seen.append(what)
        return f"<{text}>"

    text = "plan: 2\nparts:\n  - part: A\n    steps:\n      - in: x\n"
    _, findings = read(text, "p")
    assert show(findings, {"p": text}, paint).startswith("<p:1:7>: <error>: ")
    assert set(seen) == {"place", "error", "caret", "hint"}
