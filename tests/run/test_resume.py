import json
import subprocess
import sys
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from conductor.engine.engine import Engine
from conductor.engine.model import Command, Do, State
from conductor.run.journal import FileJournal
from conductor.run.resume import (
    BeingLedError,
    Broken,
    NothingToResumeError,
    latest,
    leave,
    resumed,
    taken_over,
)
from conductor.run.runner import line_of
from conductor.score.form import to_json
from conductor.score.model import Moment, Score
from conductor.settings import Settings
from tests.support import plan_of, score_of

STEPS = """
- come to: mountain
- rounds: 6
  steps:
    - in: arms overhead
    - out: standing fold
    - in: half lift
    - out: plank
    - in: upward dog
    - out: downward dog
    - stay: 3 breaths
    - in: half lift
    - out: standing fold
    - in: arms overhead
    - out: mountain
"""
SCORE = score_of(plan_of(STEPS))
WALL = datetime(2026, 1, 5, 18, 0, tzinfo=UTC)


def broken_off(
    folder: Path, commands: dict[int, Do], until: int, version: str = "1", score: Score = SCORE
) -> Engine:
    """Lead a class with a journal, and let it break off."""
    engine = Engine(score, {}, Settings())
    told: list[dict[str, object]] = [
        {
            "kind": "opened",
            "version": version,
            "must_end": None,
            "speed": 1,
            "wall": WALL.isoformat(),
        }
    ]
    for now in range(0, until + 1, 50):
        if now in commands:
            engine.command(Command(commands[now]), now)
        told += [line_of(one) for one in engine.advance(now)]
    (folder / "a.jsonl").write_text("\n".join(map(json.dumps, told)) + '\n{"now": 99', "utf-8")
    (folder / "a.score.json").write_text(to_json(score), "utf-8")
    return engine


def test_a_class_is_led_again_to_where_it_broke_off_and_taken_up_at_a_landing(
    tmp_path: Path,
) -> None:
    commands = {0: Do.BEGIN, 9_000: Do.SLOWER, 20_000: Do.NEXT, 30_000: Do.FASTER}
    before = broken_off(tmp_path, commands, 60_000).snapshot(60_000)
    broken = latest(tmp_path)
    engine = resumed(broken, {}, Settings(), "1", broken.last)
    stopped = engine.snapshot(broken.last)
    assert stopped.state is State.STOPPED
    assert stopped.score == before.score
    assert stopped.index == before.index
    assert stopped.pace == before.pace
    engine.command(Command(Do.GO_ON), broken.last + 100)
    taken_up = engine.snapshot(broken.last + 100)
    assert taken_up.state is State.ARRIVING
    assert taken_up.index <= before.index
    assert SCORE.shapes[SCORE.moments[taken_up.index].shape].landing


def test_what_was_taken_back_is_taken_back_when_the_class_is_led_again(tmp_path: Path) -> None:
    commands = {
        0: Do.BEGIN,
        20_000: Do.NEXT,
        24_000: Do.BACK,
        36_000: Do.MORE,
        37_000: Do.SLOWER,
        38_000: Do.NEXT_PART,
        39_000: Do.BACK,
        40_000: Do.BACK,
    }
    before = broken_off(tmp_path, commands, 60_000).snapshot(60_000)
    broken = latest(tmp_path)
    after = resumed(broken, {}, Settings(), "1", broken.last).snapshot(broken.last)
    assert (after.score, after.index, after.pace) == (before.score, before.index, before.pace)


def test_with_another_version_the_last_position_is_trusted(tmp_path: Path) -> None:
    before = broken_off(tmp_path, {0: Do.BEGIN}, 60_000).snapshot(60_000)
    engine = resumed(latest(tmp_path), {}, Settings(), "2", 60_000)
    assert engine.snapshot(60_000).index == before.index
    assert engine.snapshot(60_000).state is State.STOPPED


def test_a_class_that_ended_or_never_began_is_not_resumed(tmp_path: Path) -> None:
    with pytest.raises(NothingToResumeError, match="no class broke off"):
        latest(tmp_path)
    broken_off(tmp_path, {0: Do.BEGIN}, SCORE.length + 10_000)
    with pytest.raises(NothingToResumeError, match="came to its end"):
        latest(tmp_path)
    broken_off(tmp_path, {}, 1_000)
    with pytest.raises(NothingToResumeError, match="no class broke off"):
        latest(tmp_path)


def test_a_score_that_cannot_be_read_is_told(tmp_path: Path) -> None:
    broken_off(tmp_path, {0: Do.BEGIN}, 30_000)
    (tmp_path / "a.score.json").write_text("{}", "utf-8")
    with pytest.raises(NothingToResumeError, match="cannot be read"):
        latest(tmp_path)


def test_the_last_now_is_of_the_last_whole_line(tmp_path: Path) -> None:
    broken_off(tmp_path, {0: Do.BEGIN}, 30_000)
    broken = latest(tmp_path)
    assert isinstance(broken, Broken)
    assert 0 < broken.last <= 30_000


def test_time_goes_on_while_nobody_leads_as_in_a_sleep(tmp_path: Path) -> None:
    broken_off(tmp_path, {0: Do.BEGIN}, 30_000)
    broken = latest(tmp_path)
    now = broken.now(WALL + timedelta(minutes=5))
    assert now == 300_000
    engine = resumed(broken, {}, Settings(), "1", now)
    stopped = engine.snapshot(now)
    assert stopped.state is State.STOPPED
    assert stopped.ends_at - now > SCORE.length - 30_000 - 5_000


def test_a_class_resumed_twice_is_taken_up_where_it_was(tmp_path: Path) -> None:
    broken_off(tmp_path, {0: Do.BEGIN}, 60_000)
    broken = latest(tmp_path)
    first = resumed(broken, {}, Settings(), "1", 90_000)
    told = [line_of(one) for one in first.advance(90_000)]
    first.command(Command(Do.GO_ON), 91_000)
    told += [line_of(one) for now in range(91_000, 99_000, 50) for one in first.advance(now)]
    with (tmp_path / "a.jsonl").open("a", encoding="utf-8") as journal:
        journal.write("\n" + "\n".join(map(json.dumps, told)) + "\n")
    again = latest(tmp_path)
    second = resumed(again, {}, Settings(), "1", again.last)
    assert second.snapshot(again.last).index == first.snapshot(again.last).index


def test_a_rehearsal_hides_no_class_that_broke_off(tmp_path: Path) -> None:
    broken_off(tmp_path, {0: Do.BEGIN}, 30_000)
    rehearsal = {"kind": "opened", "rehearsal": True, "wall": WALL.isoformat()}
    (tmp_path / "b.jsonl").write_text(json.dumps(rehearsal) + "\n", "utf-8")
    assert latest(tmp_path).path.name == "a.jsonl"


def test_a_moment_that_a_refit_had_made_is_found_by_its_time(tmp_path: Path) -> None:
    broken_off(tmp_path, {0: Do.BEGIN}, 60_000)
    text = (tmp_path / "a.jsonl").read_text("utf-8").replace('"moment": "1/2', '"moment": "9/9')
    (tmp_path / "a.jsonl").write_text(text, "utf-8")
    broken = latest(tmp_path)
    engine = resumed(broken, {}, Settings(), "1", broken.last)
    assert engine.snapshot(broken.last).state is State.STOPPED


def test_a_class_that_was_left_is_not_gone_on_with(tmp_path: Path) -> None:
    broken_off(tmp_path, {0: Do.BEGIN}, 60_000)
    leave(latest(tmp_path))
    with pytest.raises(NothingToResumeError, match="came to its end"):
        latest(tmp_path)


def test_a_class_that_another_program_leads_is_told_with_its_process(tmp_path: Path) -> None:
    broken_off(tmp_path, {0: Do.BEGIN}, 60_000)
    journal = FileJournal(tmp_path / "a.jsonl")
    journal.write({"now": 60_000, "kind": "taken up", "pid": 12_345})
    with pytest.raises(BeingLedError) as led:
        latest(tmp_path)
    assert led.value.pid == 12_345
    journal.close()
    assert latest(tmp_path).last == 60_000


LEADER = """
import sys, time
from pathlib import Path
from conductor.run.journal import FileJournal
journal = FileJournal(Path(sys.argv[1]))
print("led", flush=True)
sys.stdin.read()
"""


@pytest.mark.slow
def test_a_class_is_taken_over_from_a_program_that_leads_it(tmp_path: Path) -> None:
    broken_off(tmp_path, {0: Do.BEGIN}, 60_000)
    with subprocess.Popen(
        [sys.executable, "-c", LEADER, str(tmp_path / "a.jsonl")],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        text=True,
    ) as leader:
        assert leader.stdout
        assert leader.stdout.readline() == "led\n"
        assert taken_over(BeingLedError(tmp_path / "a.jsonl", {}, leader.pid))
        assert leader.wait(10) != 0
    assert latest(tmp_path).last == 59_000


def test_a_class_that_is_over_is_not_led_though_its_page_is_still_read(tmp_path: Path) -> None:
    broken_off(tmp_path, {0: Do.BEGIN, 50_000: Do.END}, 60_000)
    journal = FileJournal(tmp_path / "a.jsonl")
    with pytest.raises(NothingToResumeError, match="came to its end") as told:
        latest(tmp_path)
    assert not isinstance(told.value, BeingLedError)
    journal.close()


def test_nothing_is_taken_over_where_no_process_is_known(tmp_path: Path) -> None:
    broken_off(tmp_path, {0: Do.BEGIN}, 60_000)
    journal = FileJournal(tmp_path / "a.jsonl")
    assert not taken_over(BeingLedError(journal.path, {}, 0))
    journal.close()


SIDES = score_of(
    plan_of(
        """
- come to: downward dog
- each side: yes
  steps:
    - in: three-legged dog
    - out: low lunge
    - in: crescent lunge
    - stay: 5 breaths
    - out: plank
    - in: upward dog
    - out: downward dog
"""
    )
)


@pytest.mark.parametrize(
    "commands",
    [
        {0: Do.BEGIN, 20_000: Do.NEXT, 20_200: Do.AGAIN},
        {0: Do.BEGIN, 18_000: Do.SWAP},
        {0: Do.BEGIN, 40_000: Do.STOP, 41_000: Do.SWAP},
        {0: Do.BEGIN, 40_000: Do.STOP, 41_000: Do.NEXT},
    ],
    ids=["again while coming in", "swapped", "swapped while stopped", "next while stopped"],
)
def test_a_command_just_before_the_break_is_not_lost(
    tmp_path: Path, commands: dict[int, Do]
) -> None:
    until = max(commands) + 100
    before = broken_off(tmp_path, commands, until, score=SIDES).snapshot(until)
    after = resumed(latest(tmp_path), {}, Settings(), "1", until).snapshot(until)
    assert after.score == before.score
    assert (after.index, after.swapped) == (before.index, before.swapped)


def other_speech(folder: Path) -> Broken:
    """The class that broke off, its last moment told as if it had begun earlier than it does."""
    opened, *told = map(json.loads, (folder / "a.jsonl").read_text("utf-8").splitlines()[:-1])
    moments = [line for line in told if line["kind"] == "moment"]
    later = SIDES.moments[SIDES.moments.index(_moment(moments[-1]["moment"])) + 1]
    told.append({**moments[-1], "moment": later.id, "start": later.start, "now": told[-1]["now"]})
    (folder / "a.jsonl").write_text("\n".join(map(json.dumps, [opened, *told])) + "\n", "utf-8")
    return latest(folder)


def _moment(name: str) -> Moment:
    return next(moment for moment in SIDES.moments if moment.id == name)


def test_where_the_position_is_trusted_what_was_asked_for_holds(tmp_path: Path) -> None:
    commands = {0: Do.BEGIN, 12_000: Do.MORE, 30_000: Do.QUIET, 31_000: Do.VOICE_SOFTER}
    before = broken_off(tmp_path, commands, 32_000, score=SIDES).snapshot(32_000)
    broken = other_speech(tmp_path)
    after = resumed(broken, {}, Settings(level="ease"), "1", broken.last).snapshot(broken.last)
    assert after.score.moments[after.index].id == broken.last_moment["moment"]
    assert after.index == before.index + 1
    assert after.score.length == before.score.length
    assert (after.quiet, after.voice_db, after.level) == (True, before.voice_db, "ease")


def test_where_the_position_is_trusted_a_way_and_a_muted_voice_hold(tmp_path: Path) -> None:
    broken_off(tmp_path, {0: Do.BEGIN}, 30_000, "another")
    with_ = Settings(level="ease", speak=False)
    after = resumed(latest(tmp_path), {}, with_, "1", 30_000).snapshot(30_000)
    assert (after.quiet, after.level) == (True, "ease")


def test_where_the_position_is_trusted_a_stop_is_not_taken_for_time_led(tmp_path: Path) -> None:
    rest = score_of(plan_of("- come to: mountain\n- stay: 3 min"))
    commands = {0: Do.BEGIN, 60_000: Do.STOP, 890_000: Do.SLOWER}
    broken_off(tmp_path, commands, 900_000, "another", rest)
    after = resumed(latest(tmp_path), {}, Settings(), "1", 900_000).snapshot(900_000)
    assert after.ends_at - 900_000 > 120_000


def test_a_class_that_broke_off_late_in_a_rest_goes_on_from_there(tmp_path: Path) -> None:
    rest = score_of(plan_of("- come to: mountain\n- free: 20 s\n  to: final rest\n- stay: 5 min\n"))
    broken_off(tmp_path, {0: Do.BEGIN}, 200_000, score=rest)
    journal = FileJournal(tmp_path / "a.jsonl")
    journal.write({"now": 200_000, "kind": "going on"})
    journal.close()
    engine = resumed(latest(tmp_path), {}, Settings(), "1", 203_000)
    engine.command(Command(Do.GO_ON), 203_000)
    coming = engine.snapshot(203_000)
    left = engine.snapshot(coming.entered).ends_at - coming.entered
    assert abs(left - (3_000 + rest.length - 200_000)) <= 1_000
