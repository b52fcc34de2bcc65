"""What may vary beside stays: rounds, breath, shares, and passages that are left out."""

import pytest

from conductor.plan.amounts import breath_bounds, percent, round_bounds
from conductor.plan.model import Block, Plan
from conductor.plan.reader import read
from tests.plan.conftest import Steps, Told

ROUNDS = "- rounds: 3\n  {}\n  steps:\n    - in: arms overhead\n    - out: mountain"


@pytest.mark.parametrize(
    ("text", "bounds"),
    [
        ("7 to 10 s", (7000, 10_000)),
        ("7.5 s to 9 s", (7500, 9000)),
        ("6 to 8 a minute", (7500, 10_000)),
        ("8 a minute to 6 a minute", (7500, 10_000)),
        ("3 to 8 breaths", None),
        ("8 s", None),
        ("fast to slow", None),
    ],
)
def test_bounds_of_a_breath(text: str, bounds: tuple[int, int] | None) -> None:
    assert breath_bounds(text) == bounds


@pytest.mark.parametrize(
    ("text", "bounds"),
    [("2 to 4", (2, 4)), ("two to four rounds", (2, 4)), ("2-4", (2, 4)), ("3", None), ("", None)],
)
def test_bounds_of_rounds(text: str, bounds: tuple[int, int] | None) -> None:
    assert round_bounds(text) == bounds


@pytest.mark.parametrize(
    ("text", "hundredths"),
    [("20 %", 2000), ("12.5%", 1250), ("20 percent", 2000), ("20", None), ("0.001 %", None)],
)
def test_a_share(text: str, hundredths: int | None) -> None:
    assert percent(text) == hundredths


def test_rounds_may_repeat(steps: Steps) -> None:
    (block,) = steps(ROUNDS.format("may repeat: 2 to 5"))
    assert isinstance(block, Block)
    assert (block.rounds, block.least_rounds, block.most_rounds) == (3, 2, 5)


@pytest.mark.parametrize(
    ("line", "rule"),
    [
        ("may repeat: often", "amount"),
        ("may repeat: 4 to 6", "bounds"),
        ("may repeat: 5 to 2", "bounds"),
        ("may repeat: 2 to 500", "limit"),
        ("may repeat: 2 to 4\n  least: 1", "misplaced-key"),
        ("breath may stretch: 7 to 9 s", "misplaced-key"),
        ("breath: 4 s in, 4 s out\n  breath may stretch: 4 to 6 s", "bounds"),
        ("breath: 4 s in, 4 s out\n  breath may stretch: 9 to 7 s", "bounds"),
        ("breath: 4 s in, 4 s out\n  breath may stretch: a little", "amount"),
        ("breath: 4 s in, 4 s out\n  breath may stretch: 0.2 to 9 s", "limit"),
        ("may drop: gone", "known-word"),
        ("share: 20 %", "unknown-key"),
    ],
)
def test_what_cannot_vary_so_is_told_with_a_hint(told: Told, line: str, rule: str) -> None:
    (finding,) = told(ROUNDS.format(line))
    assert finding.rule == rule
    assert finding.hint


def test_may_repeat_needs_rounds(told: Told) -> None:
    (finding,) = told("- may repeat: 2 to 5\n  steps:\n    - in: arms overhead")
    assert finding.rule == "misplaced-key"


def test_four_to_six_seconds_is_told_from_the_whole_breath_it_bounds(told: Told) -> None:
    line = "breath: 4 s in, 4 s out\n  breath may stretch: 4 to 6 s"
    (finding,) = told(ROUNDS.format(line))
    assert finding.words == "the breath as written takes 8 s, in and out together"
    assert "7.2 to 9.6 s" in finding.hint


def shared(*shares: str, more: str = "") -> str:
    text = "plan: 1\nlength: 20 min\n" + more + "parts:\n"
    for number, share in enumerate(shares):
        text += f"  - part: P{number}\n"
        text += f"    {share}\n" if share else ""
        text += "    steps:\n      - come to: mountain\n"
    return text


@pytest.mark.parametrize(
    ("shares", "words"),
    [
        (("share: 60 %", "share: 50 %", ""), "make 110 %, not 100 %"),
        (("share: 60 %", "share: 30 %"), "make 90 %, not 100 %"),
        (("share: 60 %", "share: 40 %", ""), "nothing is left for the parts that have none"),
        (("share: 0 %", ""), "is no share of the class"),
        (("share: 120 %", ""), "a share goes from 0.01 to 100 %"),
        (("share: a lot", ""), "is no share of the class"),
        (("share: 20 %\n    length: 5 min", ""), "a length as well as a share"),
    ],
)
def test_contradictory_shares_are_told(shares: tuple[str, ...], words: str) -> None:
    findings = read(shared(*shares), "p.yaml")[1]
    assert words in findings[0].words
    assert findings[0].hint
    assert findings[0].span


def test_shares_and_limits_of_the_head() -> None:
    head = "breath: 4 s in, 4 s out\nbreath may stretch: 7 to 9 s\n"
    plan, findings = read(shared("share: 60 %", "share: 40 %", more=head), "p.yaml")
    assert isinstance(plan, Plan)
    assert findings == ()
    assert [part.share.of for part in plan.parts if part.share] == [6000, 4000]
    assert plan.breath
    assert (plan.breath.least, plan.breath.most) == (7000, 9000)
