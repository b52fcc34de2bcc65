from conductor.sides import Side
from conductor.view.model import Face, SideFace


def test_a_phrase_leaves_out_what_is_not_there() -> None:
    side = SideFace(Side.LEFT, "left foot", "left foot forward", "◀ L")
    assert Face("plank").phrase == "plank"
    assert Face("lunge", side=side, detail="arms up").phrase == "lunge, arms up, left foot forward"
