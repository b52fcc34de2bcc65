"""The text of a draft: plain YAML whatever the words hold, comments no wider than a page."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from conductor.draft.draft import command, drafted
from conductor.draft.text import quoted
from conductor.draft.wish import Focus, Wish, title_of
from conductor.plan.reader import read
from tests.draft.drawing import draft, score_of


@settings(max_examples=40)
@given(st.text(min_size=1, max_size=30).map(title_of).filter(bool))
def test_any_title_is_read_back_as_it_was_given(title: str) -> None:
    plan, findings = read(
        f"plan: 1\ntitle: {quoted(title)}\nparts:\n  - part: One\n    steps:\n"
        "      - come to: mountain\n",
        "x.yaml",
    )
    assert plan is not None, findings
    assert plan.title.value == title


def test_plain_words_stay_bare_and_others_get_quotes() -> None:
    assert quoted("Let the breath come, slowly.") == "Let the breath come, slowly."
    assert quoted("Tuesday: hips #2") == '"Tuesday: hips #2"'
    assert quoted('say "now"') == '"say \\"now\\""'


def test_a_title_of_ones_own_stands_in_the_plan() -> None:
    assert 'title: "Tuesday: hips #2"' in drafted(Wish(20, title="Tuesday: hips #2")).text


@pytest.mark.parametrize("focus", list(Focus))
def test_comments_say_what_the_peak_is_why_parts_stand_where_they_do_and_fit_the_page(
    focus: Focus,
) -> None:
    text = draft(45, focus, 3).text
    assert "# The peak is " in text
    assert "conductor new --length 45min" in text
    comments = [line for line in text.splitlines() if line.lstrip().startswith("#")]
    assert len(comments) > 20
    assert all(len(line) <= 100 for line in comments if "conductor new" not in line)


def test_the_command_in_the_plan_holds_all_that_was_asked() -> None:
    told = command(Wish(30, Focus.SLOW, "those who can't kneel", title="Low & slow", seed=9))
    assert "--length 30min --focus slow" in told
    assert "--title 'Low & slow' --seed 9" in told


def test_each_part_stands_in_the_order_of_an_arc() -> None:
    # Stephens, Yoga Sequencing (2012): an arc of five parts; rest and close are common practice
    names = [part.name for part in score_of(60, Focus.HIPS, 1).parts]
    assert names == [
        *("Arrive", "Warm up", "Salutes", "Stand", "Peak", "Cool down", "Rest", "Close")
    ]
