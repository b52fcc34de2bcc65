import pytest

from conductor.breathing.measure import measured
from conductor.breathing.published import SIX, SLOW, USUAL, standing
from conductor.breathing.words import as_data, lines, proposed
from conductor.plan.amounts import tempo
from tests.breathing.tapped import tapped


def test_the_proposal_is_what_a_plan_reads() -> None:
    reading = measured(tapped(1, 4000, 6000, 120)[0])
    found = tempo(proposed(reading))
    assert found is not None
    assert reading.inhale is not None
    assert reading.exhale is not None
    assert abs(found[0] - reading.inhale.ms) <= 50
    assert abs(found[1] - reading.exhale.ms) <= 50


def test_all_is_told_and_how_sure_it_is() -> None:
    told = "\n".join(lines(measured(tapped(1, 4000, 6000, 120)[0])))
    for words in ("19 times in 20", "a minute", "Breathe 2017", "another day differs", "breath: "):
        assert words in told
    assert "s of this sitting; another day differs.\n" in told


def test_with_trouble_nothing_is_proposed() -> None:
    reading = measured([])
    assert proposed(reading) == ""
    assert lines(reading) == ("No breath has been tapped yet.",)
    assert as_data(reading)["inhale"] is None


@pytest.mark.parametrize(
    ("low", "high", "one"),
    [  # the bounds as quoted from Russo et al. 2017; of Bernardi et al. 2001 six a minute is theirs
        (10, 20, USUAL),
        (4, 10, SLOW),
        (5.5, 6.5, SIX),
    ],
)
def test_the_published_ranges(low: float, high: float, one: object) -> None:
    assert (getattr(one, "low", 0), getattr(one, "high", 0)) == (low, high)


@pytest.mark.parametrize(
    ("rate", "words"),
    [
        (6, ("4 to 10 a minute", "close to six")),
        (8, ("4 to 10 a minute",)),
        (10, ("4 to 10 a minute", "10 to 20 a minute")),
        (15, ("10 to 20 a minute",)),
        (25, ("faster than the 10 to 20",)),
        (3, ("slower than the 4 to 10",)),
    ],
)
def test_where_a_breath_stands(rate: int, words: tuple[str, ...]) -> None:
    told = standing(60_000 // rate)
    assert len(told) == len(words)
    assert all(word in line for word, line in zip(words, told, strict=True))
