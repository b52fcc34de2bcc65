"""The Common Yoga Protocol's order and minutes, led from a plan.

Source of every figure: Ministry of AYUSH, "Common Yoga Protocol (CYP), Duration: Forty Five
Minutes", government circular of 52 pages (seen); the minutes again on its two-page sheet of 2016
(seen). The list of postures grew between editions; this one has nineteen.
"""

import unicodedata
from pathlib import Path

import pytest

from conductor.score.model import Moment, Score
from conductor.stance import Base, Foot
from tests.support import findings_of, score_of

TEXT = (Path(__file__).parent / "common-protocol.yaml").read_text(encoding="utf-8")
BREATH_MS = 10_000

# The circular's contents page (seen): section and minutes.
MINUTES = {
    "I Prayer": 2,
    "II Loosening": 6,
    "III Yogasana": 18,
    "IV Kapalabhati": 3,
    "V Pranayama": 6,
    "VI Dhyana": 8,
    "VII Sankalpa": 2,
}

# The same contents page (seen): the postures by group, in order. Where it gives two names for one
# place ("Marichyasana or Vakrasana"), the first that the catalogue knows is led.
POSTURES = {
    "standing": (
        *("Tāḍāsana", "Vṛkṣāsana", "Pādahastāsana", "Ardha Cakrāsana"),
        "Trikoṇāsana",
    ),
    "sitting": (
        *("Baddha Koṇāsana", "Vajrāsana", "Uṣṭrāsana", "Śaśāṅkāsana"),
        *("Uttāna Maṇḍūkāsana", "Marīcyāsana"),
    ),
    "prone": ("Makarāsana", "Bhujaṅgāsana", "Śalabhāsana"),
    "supine": (
        *("Setubandha", "Uttānapādāsana", "Ardha Halāsana"),
        *("Pavanamuktāsana", "Śavāsana"),
    ),
}


@pytest.fixture(scope="module")
def score() -> Score:
    return score_of(TEXT)


def part(score: Score, name: str) -> tuple[Moment, ...]:
    found = next(part for part in score.parts if part.name == name)
    return score.moments[found.first : found.last]


def postures(score: Score) -> list[Moment]:
    """The moments that reach a posture of the list, once for both sides."""
    found: dict[str, Moment] = {}
    for moment in part(score, "III Yogasana"):
        if moment.arriving and moment.note:
            found.setdefault(moment.note, moment)
    return list(found.values())


def plain(name: str) -> str:
    letters = unicodedata.normalize("NFKD", name.lower())
    return "".join(letter for letter in letters if letter.isalpha() and letter.isascii())


def test_the_protocol_compiles_with_nothing_to_say() -> None:
    assert findings_of(TEXT) == ()


def test_the_seven_sections_last_their_minutes_and_forty_five_together(score: Score) -> None:
    lengths = {
        part.name: sum(moment.length for moment in score.moments[part.first : part.last])
        for part in score.parts
    }
    assert lengths == {name: minutes * 60_000 for name, minutes in MINUTES.items()}
    assert score.length == 45 * 60_000


def test_the_minutes_of_the_sections_are_met_by_the_plan_itself_and_not_by_stretching(
    score: Score,
) -> None:
    assert not [hold.id for hold in score.holds.values() if hold.stretchable]


def test_nineteen_postures_stand_in_the_four_groups_in_order(score: Score) -> None:
    groups = [moment.note.split()[0] for moment in postures(score)]
    assert {name: groups.count(name) for name in dict.fromkeys(groups)} == {
        "standing": 5,
        "sitting": 6,
        "prone": 3,
        "supine": 5,
    }
    assert len(groups) == 19
    assert groups == sorted(groups, key=list(POSTURES).index)


def test_each_posture_is_the_one_named_in_the_circular(score: Score) -> None:
    named = [(group, name) for group, names in POSTURES.items() for name in names]
    for (_, name), moment in zip(named, postures(score), strict=True):
        sanskrit = score.shapes[moment.shape].sanskrit
        assert plain(name) in plain(sanskrit), f"{name} is led as {sanskrit}"


# The groups are named by what carries the body.
def test_each_group_is_carried_by_what_it_is_named_after(score: Score) -> None:
    carried = {
        "standing": {Base.FEET, Base.FOOT},
        "sitting": {Base.SEAT, Base.SHINS, Base.KNEES},
        "prone": {Base.BELLY},
        "supine": {Base.BACK, Base.BACK_FEET},
    }
    for moment in postures(score):
        assert moment.stance.base in carried[moment.note.split()[0]], moment.note


# Ministry of AYUSH, "Yoga Practices for Diabetics" (2016, seen): exhale to fold in Padahastasana,
# inhale to bend back in Ardha Cakrasana; held 10 to 30 s both, as is Tadasana on raised heels for
# 10 to 15 s.
def test_postures_with_a_printed_breath_and_stay_keep_to_them(score: Score) -> None:
    moments = part(score, "III Yogasana")
    bounds = {
        "tiptoe-stand": ("in", 10, 15),
        "hand-under-foot-fold": ("out", 10, 30),
        "standing-half-wheel": ("in", 10, 30),
    }
    for shape, (breath, least, most) in bounds.items():
        entered = next(moment for moment in moments if moment.shape == shape and moment.arriving)
        held = sum(moment.length for moment in moments if moment.shape == shape and moment.hold)
        assert entered.breath == breath
        assert least * 1000 <= held <= most * 1000, shape


def test_sided_postures_last_as_long_on_both_sides(score: Score) -> None:
    sums: dict[tuple[str, str], int] = {}
    for moment in part(score, "III Yogasana"):
        if moment.side:
            key = (moment.shape, str(moment.side))
            sums[key] = sums.get(key, 0) + moment.length
    shapes = {shape for shape, _ in sums}
    assert shapes == {"tree", "triangle", "marichis-twist", "wind-relieving"}
    for shape in shapes:
        assert sums[shape, "right"] == sums[shape, "left"], shape


def test_kapalabhati_is_three_cycles_of_forty_strokes_and_deep_breaths_after_each(
    score: Score,
) -> None:
    moments = part(score, "IV Kapalabhati")
    cycles = [moment for moment in moments if moment.note == "40 strokes"]
    assert [moment.round for moment in cycles] == [(1, 3), (2, 3), (3, 3)]
    after = [moment for moment in moments if moment.note != "40 strokes"]
    assert [moment.round[0] for moment in after if moment.breath == "in"] == [1, 1, 2, 2, 3, 3]


def test_each_way_of_breathing_is_led_for_five_rounds(score: Score) -> None:
    rounds: dict[str, set[int]] = {}
    for moment in part(score, "V Pranayama"):
        if moment.note:
            rounds.setdefault(moment.note, set()).add(moment.round[0])
    named = ["Nadi Sodhana", "Sitali", "Bhramari"]
    assert list(rounds) == named
    assert all(rounds[name] == {1, 2, 3, 4, 5} for name in named)


def test_the_body_sits_still_through_breathing_and_meditation(score: Score) -> None:
    for name in ("IV Kapalabhati", "V Pranayama", "VI Dhyana", "VII Sankalpa"):
        for moment in part(score, name):
            assert moment.stance.base is Base.SEAT
            assert Foot.TOP not in {moment.stance.right, moment.stance.left}
