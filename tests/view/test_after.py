from conductor.view.after import After

PAGE = After(
    "Tide",
    (("Where the time went", "Led 8 min.\nEvery moment was led."), ("The sides", "Alike.")),
    (("Parts", ("Arrive  1 min", "Rest  5 min")),),
)


def test_the_page_has_three_things_first_and_the_figures_below() -> None:
    assert PAGE.lines == (
        "Tide",
        "",
        "Where the time went",
        "  Led 8 min.",
        "  Every moment was led.",
        "",
        "The sides",
        "  Alike.",
        "",
        "Parts",
        "  Arrive  1 min",
        "  Rest  5 min",
    )


def test_in_plain_lines_only_what_comes_first_is_told_each_on_one() -> None:
    assert PAGE.told == (
        "Where the time went: Led 8 min. Every moment was led.",
        "The sides: Alike.",
        "`conductor review` tells all of it.",
    )


def test_a_class_without_a_journal_promises_no_second_look() -> None:
    assert After("Tide", kept=False, first=()).told == ()
