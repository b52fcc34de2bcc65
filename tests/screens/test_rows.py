from conductor.screens.rows import Run, breath_role, centred, fill, padded, text_of


def test_rows_are_padded_to_their_width_and_set_in_the_middle() -> None:
    row = padded((Run("ab"),), 2, 8)
    assert text_of((row,)) == "  ab"
    assert sum(len(run.text) for run in row) == 8
    assert fill((row,), 4) == ((), row, (), ())
    assert fill((row,), 1) == (row,)


def test_a_line_is_centred_in_its_role() -> None:
    row = centred("stop", "alert", 10)
    assert [run.text for run in row] == ["   ", "stop", "   "]
    assert row[1].role == "alert"


def test_each_breath_has_a_role() -> None:
    assert [breath_role(one) for one in ("INHALE", "EXHALE", "OWN BREATH")] == [
        "rising",
        "falling",
        "text",
    ]
