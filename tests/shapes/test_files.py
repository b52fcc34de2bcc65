import re
from pathlib import Path

import pytest
from indic_transliteration import sanscript

from conductor.shapes import cautions, files
from conductor.shapes.model import Shape
from conductor.sides import End, Side
from conductor.stance import Base, Foot, Frame, Trunk

SHAPES = files.read()
BY_ID = {shape.id: shape for shape in SHAPES}
BY_IAST = {shape.iast: shape for shape in SHAPES if shape.iast}
NUMERAL = re.compile(r" (I{1,3}|IV)$")
AREAS = {
    "hamstrings", "hip flexors", "outer hips", "inner thighs", "quads", "knees", "ankles",
    "shoulders", "chest", "wrists", "neck", "core", "spine flexion", "spine extension",
    "spine rotation", "spine lateral", "balance",
}  # fmt: skip
SPINES = {"neutral", "axial extension", "flexion", "extension", "lateral", "rotation"}
RESTS = {"final-rest", "supported-final-rest", "side-lying-rest", "constructive-rest"}
ROWS = [
    [cell.strip() for cell in line.split("|")]
    for line in Path(__file__).with_name("trade_rows.txt").read_text(encoding="utf-8").splitlines()
    if not line.startswith("#")
]
each_shape = pytest.mark.parametrize("shape", SHAPES, ids=lambda shape: shape.id)


def test_there_are_at_least_120_shapes_with_an_id_of_their_own() -> None:
    assert len(BY_ID) == len(SHAPES) >= 120


@each_shape
def test_the_id_is_the_first_name(shape: Shape) -> None:
    assert shape.id == re.sub(r"[^a-z0-9]+", "-", shape.name.replace("'", "")).strip("-")


@each_shape
def test_every_field_is_filled_and_within_its_words(shape: Shape) -> None:
    assert shape.spine in SPINES
    assert shape.breath in {"in", "out", "either"}
    assert shape.level in {1, 2, 3}
    assert set(shape.asks) <= AREAS
    assert set(shape.asks.values()) <= {1, 2, 3}
    assert shape.asks or shape.id in RESTS | {"prayer-stand"}
    assert 0 < shape.hold[0] <= shape.hold[1] <= 900
    assert shape.cautions or shape.id in RESTS | {"seated-cow"}
    assert set(shape.cautions) <= set(cautions.table())
    assert shape.sources["*"] in {"handbook consensus, from memory", "common practice"}
    assert all(shape.sources.values())
    assert {key for key in shape.sources if key.isupper()} <= set(shape.cautions)
    assert {key for key in shape.sources if not key.isupper()} <= {"*", *Shape.__struct_fields__}


@each_shape
def test_every_shape_named_by_another_exists_and_is_another(shape: Shape) -> None:
    named = (*shape.prepares, *shape.undoes, *shape.before, *shape.after)
    named += (shape.gentler,) if shape.gentler else ()
    assert set(named) <= set(BY_ID)
    assert shape.id not in named


@each_shape
def test_what_is_gentler_is_not_of_a_higher_level(shape: Shape) -> None:
    if shape.gentler:
        assert BY_ID[shape.gentler].level <= shape.level


@each_shape
def test_a_deep_shape_has_what_prepares_and_what_undoes_it(shape: Shape) -> None:
    if shape.level == 3 or 3 in shape.asks.values():
        assert shape.prepares
        assert shape.undoes
        assert shape.gentler


@each_shape
def test_preparation_is_never_deeper_than_what_it_prepares(shape: Shape) -> None:
    assert all(BY_ID[name].level <= shape.level for name in shape.prepares)


@each_shape
def test_the_way_in_is_short_and_names_a_side_only_where_there_is_one(shape: Shape) -> None:
    assert len(shape.enter.split()) <= 6
    assert not re.search(r"\b(right|left|step)\b", shape.enter.replace("right angles", ""))
    if not shape.sided:
        assert "<" not in shape.enter
    assert not re.sub(r"<side>|<other>", "", shape.enter).count("<")


@each_shape
def test_the_part_of_the_body_is_one_of_those_its_convention_names(shape: Shape) -> None:
    assert shape.side_part in {"", "foot", "leg", "knee", "arm", "hand"}
    assert not shape.side_part or shape.side_part in shape.side_means


@each_shape
@pytest.mark.parametrize("end", list(End))
def test_left_is_right_in_a_mirror(shape: Shape, end: End) -> None:
    right, left = shape.place.at(Side.RIGHT, end), shape.place.at(Side.LEFT, end)
    assert left == right.mirrored()
    assert left.mirrored() == right
    if shape.sided and shape.place.own is not shape.place.other:
        assert left != right


@each_shape
def test_a_shape_without_sides_has_none_in_its_feet(shape: Shape) -> None:
    place = shape.place
    if not shape.sided:
        assert place.standing == ""
        assert len(place.knees) != 1
        # feet apart along the mat take their front foot from where the class comes from
        apart = (place.own, place.other) == (Foot.TOP, Foot.BACK) and place.frame is Frame.LONG
        assert place.own is place.other or apart


@each_shape
def test_one_bearing_limb_of_two_is_named(shape: Shape) -> None:
    one = {Base.FOOT, Base.FOOT_HAND, Base.HAND_FEET, Base.HANDS_FOOT, Base.HANDS_KNEE}
    assert bool(shape.place.standing) == (
        shape.place.base in one or shape.id == "one-legged-bridge"
    )
    limbs = {"own": shape.place.own, "other": shape.place.other}
    if shape.place.base in {Base.FOOT, Base.FOOT_HAND}:
        assert limbs[shape.place.standing] is Foot.TOP
        assert Foot.LIFTED in limbs.values()


@each_shape
def test_the_base_agrees_with_feet_and_knees(shape: Shape) -> None:
    place = shape.place
    if place.base is Base.FEET:
        assert {place.own, place.other} <= {Foot.TOP, Foot.BACK}
    if place.base in {Base.HANDS_KNEES, Base.KNEES, Base.SHINS}:
        assert len(place.knees) == 2
    if place.base in {Base.FOOT_KNEE, Base.HANDS_FOOT_KNEE} and shape.id != (
        "twisted-lunge-with-hand-down"
    ):
        assert place.knees == ("other",)
    if place.base is Base.BELLY:
        assert Foot.TOP not in {place.own, place.other}


@each_shape
def test_who_hangs_folds_or_lies_cannot_see_the_screen(shape: Shape) -> None:
    if shape.place.trunk is Trunk.INVERTED or shape.id in RESTS:
        assert shape.unseen


@each_shape
def test_a_class_is_taken_up_again_only_where_nothing_loads(shape: Shape) -> None:
    if shape.landing:
        assert shape.level == 1
        assert not shape.loads
        assert not shape.balance


@each_shape
def test_a_balance_loads_and_says_what_it_asks(shape: Shape) -> None:
    if shape.balance:
        assert shape.loads
        assert "balance" in shape.asks


@each_shape
def test_sanskrit_agrees_in_three_scripts(shape: Shape) -> None:
    assert bool(shape.iast) == bool(shape.deva) == bool(shape.ascii) == bool(shape.spoken_sanskrit)
    if not shape.iast:
        return
    number = NUMERAL.search(shape.iast)
    if number:
        assert shape.deva.endswith(number[0])
        assert shape.ascii.endswith(number[0])
    back = sanscript.transliterate(
        NUMERAL.sub("", shape.deva), sanscript.DEVANAGARI, sanscript.IAST
    )
    assert back == NUMERAL.sub("", shape.iast).lower()
    assert shape.ascii.isascii()


def test_ascii_follows_one_rule() -> None:
    assert BY_IAST["Caturaṅga Daṇḍāsana"].ascii == "Chaturanga Dandasana"
    assert BY_IAST["Ardha Candrāsana"].ascii == "Ardha Chandrasana"
    assert BY_IAST["Vṛkṣāsana"].ascii == "Vrksasana"


def test_every_row_of_the_trade_is_there() -> None:
    assert len(ROWS) == 98
    assert {row[0] for row in ROWS} <= set(BY_IAST)


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row[1])
def test_the_usual_values_of_the_trade(row: list[str]) -> None:
    """From memory of the handbooks, as trade_rows.txt says."""
    iast, plain, sided, breath, spine, codes = row
    shape = BY_IAST[iast]
    assert shape.ascii == plain
    assert shape.sided == (sided == "yes")
    assert shape.spine == spine
    assert set(shape.cautions) == set(codes.split())
    if breath.endswith("*"):
        assert shape.breath_note
    if shape.id == "low-lunge":  # flow steps in on the exhale, and raises the arms on the inhale
        assert shape.breath == "either"
        assert "xhale" in shape.breath_note
    else:
        assert shape.breath == breath.rstrip("*")


def test_shapes_that_raise_the_pressure_in_the_eye_warn_of_glaucoma() -> None:
    """Jasien et al., PLoS ONE 2015;10:e0144505: the four shapes measured."""
    for name in ("downward-dog", "standing-fold", "plow", "legs-up-the-wall"):
        assert "GL" in BY_ID[name].cautions
        assert "Jasien" in BY_ID[name].sources["GL"]


def test_inversions_and_head_down_shapes_warn_of_glaucoma_too() -> None:
    for shape in SHAPES:
        if shape.place.trunk is Trunk.INVERTED or shape.family == "inversion":
            assert "GL" in shape.cautions, shape.id


def test_fold_and_arch_follow_the_breath_of_the_spine() -> None:
    """Yoga Anatomy, 2nd ed. 2012, p.38: flexion is an exhalation, extension an inhalation."""
    assert BY_ID["cat"].breath == "out"
    assert BY_ID["cow"].breath == "in"
    assert BY_ID["cat"].spine == "flexion"
    assert BY_ID["cow"].spine == "extension"


def test_the_counter_pose_of_the_triangle() -> None:
    """Light on Yoga p.64: revolved triangle is a counter pose to extended triangle."""
    assert "revolved-triangle" in BY_ID["triangle"].undoes


@pytest.mark.parametrize(
    ("name", "hold"),
    [("triangle", (30, 60)), ("warrior-one", (20, 30)), ("warrior-three", (20, 30))],
)
def test_holds_of_light_on_yoga(name: str, hold: tuple[int, int]) -> None:
    """Light on Yoga pp. 64, 71 and 74."""
    assert BY_ID[name].hold == hold
    assert "Light on Yoga" in BY_ID[name].sources["hold"]


def test_conventions_that_differ_are_told() -> None:
    for name in ("tree", "eagle", "dancer", "standing-split", "equestrian", "head-to-knee"):
        assert "ight = " in BY_ID[name].note
        assert ";" in BY_ID[name].note
    assert "knees drop" in BY_ID["reclined-twist"].note
    assert "Bihar" in BY_ID["equestrian"].note


def test_own_and_other_are_where_the_convention_says() -> None:
    for name in ("tree", "dancer", "three-legged-dog", "standing-split", "hand-to-big-toe"):
        assert BY_ID[name].side_means == "raised leg"
        assert BY_ID[name].place.own is Foot.LIFTED
    for name in ("warrior-three", "half-moon", "eagle"):
        assert BY_ID[name].side_means == "standing leg"
        assert BY_ID[name].place.own is Foot.TOP
    for shape in SHAPES:
        if shape.side_means == "front foot":
            assert shape.place.own in {Foot.TOP, Foot.AHEAD}
            assert shape.place.other is Foot.BACK


def test_every_seated_or_standing_twist_says_which_hand_meets_the_knee() -> None:
    for name in ("revolved-side-angle", "crescent-twist", "seated-twist", "chair-twist"):
        assert BY_ID[name].hand == "opposite"
    assert {shape.hand for shape in SHAPES} == {"", "opposite"}


def test_the_files_stand_in_lines_people_can_read() -> None:
    for path in files.DATA.glob("*.json"):
        assert max(map(len, path.read_text(encoding="utf-8").splitlines())) < 500
