import pytest

from conductor.checks.sight import faces_away
from conductor.sides import Side
from conductor.stance import Base, Foot, Frame, Stance
from tests.checks.examples import found, lines, marked, plan_around

DOG = (
    "- come to: downward dog\n- stay: 1 breath\n- in: three-legged dog\n  side: right\n"
    "- out: downward dog\n- stay: 1 breath\n- in: three-legged dog  # here\n  side: left\n"
    "- out: downward dog"
)
SILENT = "speak: nothing\n"


@pytest.mark.parametrize("head", [SILENT, "voice: {speak: no}\n", "voice: {off: yes}\n"])
def test_every_way_of_switching_the_voice_off_counts(head: str) -> None:
    text = plan_around(DOG, head=head)
    assert lines(found(text, "unseen-side-change")) == marked(text)


@pytest.mark.parametrize("head", ["", "voice: {off: no}\n", "speak: short\n"])
def test_with_the_voice_on_nothing_is_said(head: str) -> None:
    assert found(plan_around(DOG, head=head), "unseen-side-change") == ()


def test_a_glance_away_for_a_few_breaths_is_nothing() -> None:
    short = DOG.replace("- stay: 1 breath\n", "").replace("three-legged dog  # here", "low lunge")
    assert found(plan_around(short, head=SILENT), "unseen-side-change") == ()


TREES = (
    "- come to: mountain\n{turn}- stay: 3 breaths\n- each side: yes\n  steps:\n"
    "    - in: tree{here}\n    - stay: 1 breath\n    - out: mountain"
)
ROUND = "- in: arms overhead\n  turn: other end\n- out: mountain\n"


@pytest.mark.parametrize(
    ("screen", "turn", "seen"),
    [
        ("", "", True),
        ("", ROUND, False),
        ("front", ROUND, False),
        ("back", "", False),
        ("back", ROUND, True),
        ("left", ROUND, True),
        ("side", ROUND, True),
        ("nowhere", ROUND, True),
    ],
)
def test_where_the_screen_stands_decides_whether_it_is_seen(
    screen: str, turn: str, seen: bool
) -> None:
    head = SILENT + (f"view: {{screen: {screen}}}\n" if screen else "")
    text = plan_around(TREES.format(turn=turn, here="  # here"), head=head)
    assert lines(found(text, "unseen-side-change")) == ([] if seen else marked(text))


def test_the_back_is_to_a_screen_at_the_other_long_side() -> None:
    def at(wall: Side, frame: Frame = Frame.LONG) -> Stance:
        return Stance(Base.FEET, Foot.TOP, Foot.BACK, frame=frame, wall=wall)

    assert faces_away(at(Side.LEFT), "right")
    assert not faces_away(at(Side.LEFT), "left")
    assert not faces_away(at(Side.LEFT, Frame.END), "right")
    assert not faces_away(at(Side.LEFT), "front")
    assert faces_away(at(Side.LEFT), "back")
