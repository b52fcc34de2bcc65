import itertools
import sys
import tempfile
from collections.abc import Callable
from pathlib import Path

import pytest

from conductor.voice.manner import VoiceError
from conductor.voice.pool import Bench, Done, Job, NoVoiceError, Pool

FAKE = (sys.executable, str(Path(__file__).with_name("fake_child.py")))
START = {"engine": "espeak"}
PATIENCE_S = 20.0


def bench(folder: Path, command: tuple[str, ...] = FAKE, engine: str = "espeak") -> Bench:
    numbers = itertools.count()
    where = Path(tempfile.mkdtemp(dir=folder))
    part: Callable[[], Path] = lambda: where / f"{next(numbers)}.part"  # noqa: E731
    return Bench({"engine": engine}, part, PATIENCE_S, (*command, str(folder)))


def work(folder: Path, texts: list[str], children: int = 1) -> dict[str, Done]:
    done: dict[str, Done] = {}
    benches = [bench(folder) for _ in range(children)]
    jobs = [Job(text, text) for text in texts]
    Pool(benches).work(jobs, lambda one: done.__setitem__(one.job.text, one))
    for one in benches:
        one.close()
    return done


def pids(folder: Path) -> set[str]:
    return {line.split()[0] for line in (folder / "log").read_text().splitlines()}


@pytest.mark.parametrize("children", [1, 2])
def test_all_jobs_are_done(tmp_path: Path, children: int) -> None:
    texts = [f"cue {number}" for number in range(12)]
    done = work(tmp_path, texts, children)
    assert set(done) == set(texts)
    assert all(one.part is not None and one.part.is_file() for one in done.values())


@pytest.mark.parametrize("fault", ["die once", "odd once"])
def test_a_fault_is_tried_again_in_a_fresh_process(tmp_path: Path, fault: str) -> None:
    done = work(tmp_path, ["before", fault, "after"])
    assert all(one.part is not None for one in done.values())
    assert len(pids(tmp_path)) == 2


@pytest.mark.parametrize("fault", ["die always", "odd always"])
def test_a_fault_that_stays_costs_one_cue(tmp_path: Path, fault: str) -> None:
    done = work(tmp_path, ["before", fault, "after"])
    assert done["before"].part
    assert done["after"].part
    assert done[fault].part is None
    assert done[fault].trouble
    assert len(list(tmp_path.rglob("*.part"))) == 2


def test_five_failures_in_a_row_end_it(tmp_path: Path) -> None:
    with pytest.raises(NoVoiceError, match="keeps failing"):
        work(tmp_path, [f"odd always {number}" for number in range(20)])
    assert len((tmp_path / "log").read_text().splitlines()) < 30


def test_a_full_disk_is_not_tried_again(tmp_path: Path) -> None:
    done = work(tmp_path, ["full"])
    assert done["full"].full
    assert len(pids(tmp_path)) == 1


def test_what_the_listener_raises_stops_the_work_and_leaves_no_parts(tmp_path: Path) -> None:
    def stop(_: Done) -> None:
        raise KeyboardInterrupt

    benches = [bench(tmp_path), bench(tmp_path)]
    with pytest.raises(KeyboardInterrupt):
        Pool(benches).work([Job(str(n), str(n)) for n in range(2000)], stop)
    assert all(one._child is None for one in benches)
    assert len(list(tmp_path.rglob("*.part"))) <= 1  # the one that the listener had in hand


def test_a_child_that_dies_while_it_starts_is_started_again(tmp_path: Path) -> None:
    code = (
        "import os, sys\n"
        "flag = sys.argv[1] + '/started'\n"
        "os.path.exists(flag) or (open(flag, 'w').close(), os.kill(os.getpid(), 9))\n"
        "input(); print('{\"ok\": true}', flush=True)\n"
        'input(); print(\'{"ok": true, "voices": []}\', flush=True)\n'
    )
    one = bench(tmp_path, (sys.executable, "-c", code))
    assert one.ask(do="voices")["ok"]
    one.close()


def test_an_engine_that_cannot_start_ends_it_at_once(tmp_path: Path) -> None:
    mute = bench(tmp_path, (sys.executable, "-c", "pass"))
    with pytest.raises(NoVoiceError, match="does not start"):
        Pool([mute]).work([Job("a", "a"), Job("b", "b")], lambda _: None)
    with pytest.raises(NoVoiceError, match="cannot be started"):
        bench(tmp_path, ("/nowhere",)).ask(do="voices")


def test_an_engine_asked_for_by_name_is_refused_by_name(tmp_path: Path) -> None:
    refusal = 'input(); print(\'{"ok": false, "kind": "no engine", "words": "not installed."}\')'
    with pytest.raises(VoiceError, match="not installed"):
        bench(tmp_path, (sys.executable, "-c", refusal), "natural").ask(do="voices")
    with pytest.raises(NoVoiceError, match="not installed"):
        bench(tmp_path, (sys.executable, "-c", refusal)).ask(do="voices")
