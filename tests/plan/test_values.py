from collections.abc import Callable

import pytest

from conductor.findings import Finding
from conductor.plan import limits
from conductor.plan.model import Free, Move, Stay, Step
from conductor.spans import Span

Steps = Callable[..., tuple[Step, ...]]
Told = Callable[..., tuple[Finding, ...]]
HOURS = limits.TIME_MS // 3_600_000


def test_what_just_fits_the_limits_is_read(steps: Steps) -> None:
    breaths, time = steps(f"- stay: {limits.BREATHS} breaths\n- stay: {HOURS} h")
    assert isinstance(breaths, Stay)
    assert isinstance(time, Stay)
    assert (breaths.amount.halves, time.amount.ms) == (2 * limits.BREATHS, limits.TIME_MS)


@pytest.mark.parametrize("amount", [f"{limits.BREATHS}.5 breaths", f"{HOURS} h 1 s"])
def test_what_is_just_beyond_them_is_not(told: Told, amount: str) -> None:
    (finding,) = told(f"- stay: {amount}")
    assert (finding.rule, finding.span) == ("limit", Span("p.yaml", 5, 15, 15 + len(amount)))


@pytest.mark.parametrize("bounds", ["1 to 501 breaths", "1 min to 4 h"])
def test_bounds_are_limited_too(told: Told, bounds: str) -> None:
    amount = "5 breaths" if "breaths" in bounds else "5 min"
    (finding,) = told(f"- stay: {amount}\n  may stretch: {bounds}")
    assert finding.rule == "limit"


def test_a_list_of_words_is_limited(told: Told) -> None:
    many = ", ".join(["cat"] * (limits.LIST_ITEMS + 1))
    (finding,) = told(f"- free: 1 min\n  of: [{many}]")
    assert finding.rule == "limit"


def test_a_list_may_be_one_word_or_words_with_commas(steps: Steps) -> None:
    one, two = steps("- out: cobra\n  through: plank\n- out: cobra\n  through: half lift, plank,")
    assert isinstance(one, Move)
    assert isinstance(two, Move)
    assert [text.value for text in one.mods.through] == ["plank"]
    assert [text.value for text in two.mods.through] == ["half lift", "plank"]
    assert [text.span for text in two.mods.through] == [
        Span("p.yaml", 8, 18, 27), Span("p.yaml", 8, 29, 34),
    ]  # fmt: skip


def test_words_with_commas_in_quotes_keep_their_places(steps: Steps) -> None:
    (free,) = steps('- free: 1 min\n  of: "cow, cat"')
    assert isinstance(free, Free)
    assert [text.span.column for text in free.of] == [14, 19]


def test_a_word_that_is_not_known_gets_the_nearest(told: Told) -> None:
    (finding,) = told("- in: plank\n  side: rigth")
    assert finding.hint == "Write 'right'. It takes: right, left, other."


@pytest.mark.parametrize("yes", ["yes", "true", "Yes", "TRUE"])
def test_yes_in_every_dress(steps: Steps, yes: str) -> None:
    (move,) = steps(f"- in: plank\n  may drop: {yes}")
    assert isinstance(move, Move)
    assert move.mods.may_drop


def test_an_odd_millisecond_goes_to_the_exhale(steps: Steps) -> None:
    (move,) = steps("- in: plank\n  breath: 7 a minute")
    assert isinstance(move, Move)
    assert move.mods.breath
    assert (move.mods.breath.inhale, move.mods.breath.exhale) == (4285, 4286)


def test_speak_takes_then_commas_and_a_list(steps: Steps) -> None:
    text = "".join(
        f"- in: plank\n  speak: {how}\n"
        for how in ("full, then short, then breath", "full then short then breath",
                    "[full, short, breath]")
    )  # fmt: skip
    for move in steps(text):
        assert isinstance(move, Move)
        assert move.mods.speak == ("full", "short", "breath")
