import json
from pathlib import Path

import pytest

from conductor.run.journal import FileJournal
from conductor.run.review.kept import BadJournalError, earlier, glance, heads, load
from conductor.run.review.model import Ending
from tests.run.review.virtual import STAY, TIDE, Room, opened, write


def test_a_class_is_read_back_as_it_was_counted(tmp_path: Path) -> None:
    room = Room().out()
    assert load(room.keep(tmp_path, "2026-01-05T18-00-00-a")) == room.reviewed()


def test_a_torn_last_line_costs_only_itself(tmp_path: Path) -> None:
    room = Room()
    room.to("1/6:left/2")
    path = room.keep(tmp_path, "a")
    with path.open("a", encoding="utf-8") as file:
        file.write('{"now":60000,"kind":"mom')
    assert load(path).review == room.review


def test_a_class_taken_up_after_a_torn_line_keeps_its_next_one(tmp_path: Path) -> None:
    room = Room()
    room.to("1/6:left/2")
    path = room.keep(tmp_path, "a")
    with path.open("a", encoding="utf-8") as file:
        file.write('{"now":60000,"kind":"mom')
    journal = FileJournal(path)
    journal.write({"now": room.now + 9_000, "kind": "slept", "ms": 9_000, "do": "slept"})
    journal.close()
    assert load(path).review.account["away"] == 9_000


@pytest.mark.parametrize(
    ("lines", "score", "words"),
    [
        ([], True, "is no journal of a class"),
        ([{"kind": "moment"}], True, "is no journal of a class"),
        ([opened(TIDE)], False, "its score, a.score.json, is gone"),
        ([opened(TIDE)], None, "its score cannot be read"),
    ],
)
def test_what_no_class_can_be_made_of_is_told(
    tmp_path: Path, lines: list[dict[str, object]], score: bool | None, words: str
) -> None:
    path = Room().keep(tmp_path, "a")
    write(path, lines)
    beside = path.with_suffix(".score.json")
    if score is None:
        beside.write_text('{"score": 1, "moments": 5}', "utf-8")
    elif not score:
        beside.unlink()
    with pytest.raises(BadJournalError, match=words):
        load(path)


def test_no_text_whatever_in_a_journal_is_an_error(tmp_path: Path) -> None:
    path = Room().keep(tmp_path, "a")
    odd: list[object] = [opened(TIDE), 5, [], {"kind": ["moment"]}, {"kind": "moment", "now": 1e9}]
    path.write_text("\n".join(map(json.dumps, odd)) + "\n\x00\xff", "latin-1")
    assert load(path).review.led == 0


def test_classes_are_the_newest_first_and_what_is_no_journal_is_none(tmp_path: Path) -> None:
    Room().keep(tmp_path, "2026-01-05T18-00-00-a")
    Room().keep(tmp_path, "2026-01-06T18-00-00-a", rehearsal=True, speed=20)
    (tmp_path / "2026-01-07T18-00-00-a.jsonl").write_text("shopping", "utf-8")
    assert [(head.path.name[:10], head.rehearsal) for head in heads(tmp_path)] == [
        ("2026-01-06", True),
        ("2026-01-05", False),
    ]


def test_earlier_classes_are_of_the_same_plan_and_no_rehearsals(tmp_path: Path) -> None:
    wall = "2026-01-0{}T18:00:00+01:00"
    kinds: list[dict[str, object]] = [
        {},
        {"plan": "/plans/other.yaml"},
        {"rehearsal": True},
        {"plan": ""},  # an older journal: its title tells
        {"plan": "", "title": "Other"},
    ]
    for day, more in enumerate(kinds, start=1):
        room = Room()
        room.out().keep(tmp_path, f"2026-01-0{day}T18-00-00-a", wall=wall.format(day), **more)
    write(tmp_path / "2026-01-06T18-00-00-a.jsonl", [opened(TIDE, wall=wall.format(6))])
    now = Room().out().reviewed(wall=wall.format(8)).review
    found = earlier(tmp_path, now, most=9)
    assert [one.review.wall[:10] for one in found] == ["2026-01-04", "2026-01-01"]


def test_a_glance_tells_length_and_end_as_the_whole_does(tmp_path: Path) -> None:
    whole, torn = Room().out(), Room()
    torn.to(f"{STAY['left']}.2")
    whole.keep(tmp_path, "2026-01-02T18-00-00-a")
    torn.keep(tmp_path, "2026-01-01T18-00-00-a")
    found = [(glance(head), load(head.path).review) for head in heads(tmp_path)]
    assert [seen for seen, _ in found] == [(one.led, one.ending) for _, one in found]
    write(tmp_path / "2026-01-02T18-00-00-a.jsonl", [opened(TIDE)])
    assert glance(next(heads(tmp_path))) is None


def test_a_class_that_broke_off_is_going_on_while_it_is_led(tmp_path: Path) -> None:
    room = Room()
    room.to(f"{STAY['left']}.2")
    path = room.keep(tmp_path, "a")
    assert load(path).review.ending is Ending.BROKE_OFF
    journal = FileJournal(path)
    assert load(path).review.ending is Ending.GOING_ON
    journal.close()
