"""Completion as real shells ask for it, and real shells where they are installed."""

import fcntl
import json
import os
import pty
import shutil
import subprocess
import sys
import termios
import threading
from pathlib import Path

import pytest
from click.testing import CliRunner

from conductor import places, store
from conductor.cli import _VERBS, cli
from conductor.cli.completion import INSTALL
from conductor.cli.rulebook import RULES
from conductor.shapes.catalogue import load

BIN = Path(sys.executable).parent
PATIENCE_S = 40
BASH_SAYS = """\
eval "$(conductor completion bash)"
COMP_WORDS=(%s)
COMP_CWORD=%d
_conductor_completion conductor 2>/dev/null
printf '%%s\\n' "${COMPREPLY[@]}"
"""


def offered(*words: str) -> list[str]:
    """What a shell is told when the tab key is pressed behind the last of these words."""
    env = {
        "COMP_WORDS": " ".join(("conductor", *words)),
        "COMP_CWORD": str(len(words)),
        "_CONDUCTOR_COMPLETE": "bash_complete",
    }
    done = CliRunner().invoke(cli, [], prog_name="conductor", env=env)
    return done.output.splitlines()


def plain(*words: str) -> list[str]:
    return [line.removeprefix("plain,") for line in offered(*words) if line]


def test_verbs_are_offered_without_loading_any() -> None:
    assert plain("") == [*_VERBS]
    assert plain("sco") == ["score"]
    code = (
        "import os, sys\n"
        "os.environ.update(COMP_WORDS='conductor sc', COMP_CWORD='1',"
        " _CONDUCTOR_COMPLETE='bash_complete')\n"
        "from conductor.cli import cli\n"
        "try: cli([], prog_name='conductor')\n"
        "except SystemExit: pass\n"
        "print(sorted(name for name in sys.modules if name.startswith('conductor.cli.')))\n"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.splitlines()[-1] == "['conductor.cli.completing']"


def test_plans_are_those_that_ship_and_those_in_the_folder(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    for name in ("mine.yaml", "other.yml", "two words.yaml", "notes.txt"):
        (tmp_path / name).write_text("plan: 1\n")
    shipped = [path.stem for path in places.shipped_plans()]
    for verb in ("lead", "check", "score", "picture", "watch", "audio", "compare"):
        assert plain(verb, "") == ["mine.yaml", "other.yml", *shipped], verb
    assert plain("lead", "sal") == ["salutation-a", "salutation-b", "salutation-twelve"]
    assert plain("compare", "short-tide", "mi") == ["mine.yaml"]
    assert offered("lead", "some/folder/") == ["file,some/folder/"]


def test_shapes_rules_and_areas() -> None:
    ids = plain("shape", "warrior-t")
    assert ids == ["warrior-three", "warrior-two"]
    catalogue = load()
    for one in plain("shape", ""):
        assert catalogue.find(one) is not None
    assert plain("rule", "") == [rule.name for rule in RULES]
    assert plain("shapes", "should") == ["shoulders"]


def test_options_and_their_values(tmp_path: Path) -> None:
    assert plain("lead", "--th") == ["--theme"]
    assert plain("lead", "--theme", "") == ["dark", "light", "contrast"]
    assert plain("picture", "short-tide", "--row", "1") == ["10min", "15min"]
    assert plain("compare", "short-tide", "--length", "4") == ["45min"]
    assert plain("new", "--focus", "b") == ["backbend", "balance"]
    assert plain("new", "--first-side", "l") == ["left"]
    assert plain("new", "--length", "4") == ["45min"]
    assert plain("completion", "") == ["bash", "zsh", "fish"]
    assert offered("picture", "short-tide", "-o", "a") == ["file,a"]


def test_ways_that_a_plan_names_are_offered_with_it(tmp_path: Path) -> None:
    plan = tmp_path / "p.yaml"
    plan.write_text(
        "plan: 1\nkind: piece\nparts:\n  - part: A\n    steps:\n      - come to: mountain\n"
        "      - in: tree\n        side: right\n        variants: {floating: foot off the floor}\n"
    )
    assert plain("lead", str(plan), "--level", "") == ["ease", "more", "or", "floating"]
    assert plain("lead", str(tmp_path / "no.yaml"), "--level", "m") == ["more"]


def test_days_on_which_classes_were_led(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path))
    for number, day in enumerate(("2026-11-24", "2026-11-25", "2026-11-25")):
        opened = {"kind": "opened", "title": f"T{number}", "wall": f"{day}T18:00:0{number}+01:00"}
        (store.journals() / f"{number}.jsonl").write_text(json.dumps(opened) + "\n")
    assert plain("review", "") == ["2026-11-25", "2026-11-24"]
    assert plain("review", "2026-11-24") == ["2026-11-24"]


@pytest.mark.slow
def test_voices_are_those_of_the_engine() -> None:
    assert all(one.startswith("gmw/en") for one in plain("lead", "--voice", "gmw/en"))
    assert plain("lead", "--voice", "no such voice") == []


@pytest.mark.parametrize("shell", INSTALL)
def test_the_script_says_first_how_to_install_it(shell: str) -> None:
    done = CliRunner().invoke(cli, ["completion", shell])
    first, *script = done.output.splitlines()
    assert first == f"# Install: {INSTALL[shell]}"
    assert any(f"_CONDUCTOR_COMPLETE={shell}_complete" in line for line in script)


def env_for_shells() -> dict[str, str]:
    return {**os.environ, "PATH": f"{BIN}:{os.environ['PATH']}", "PS1": "$ ", "TERM": "dumb"}


@pytest.mark.skipif(shutil.which("bash") is None, reason="no bash on this machine")
@pytest.mark.slow
@pytest.mark.parametrize(
    ("words", "at", "expected"),
    [
        ("conductor wat", 1, ["watch"]),
        ("conductor lead light", 2, ["lighthouse-morning"]),
        ("conductor shape warrior-tw", 2, ["warrior-two"]),
        ("conductor lead --room ''", 3, ["known", "new"]),
    ],
)
def test_bash_itself_runs_the_script(words: str, at: int, expected: list[str]) -> None:
    done = subprocess.run(
        ["bash", "--norc", "-c", BASH_SAYS % (words, at)],
        capture_output=True, text=True, check=True, env=env_for_shells(),
    )  # fmt: skip
    assert done.stdout.splitlines() == expected


SHELLS = {
    "bash": (["bash", "--norc", "-i"], 'eval "$(conductor completion bash)"'),
    "zsh": (
        ["zsh", "-f", "-i"],
        'autoload -U compinit; compinit -D -u; eval "$(conductor completion zsh)"',
    ),
    "fish": (["fish", "--no-config", "-i"], "conductor completion fish | source"),
}


@pytest.mark.parametrize("shell", SHELLS)
@pytest.mark.slow
def test_the_tab_key_in_a_shell_that_runs(shell: str, tmp_path: Path) -> None:
    """Type the beginning of a plan's name, press the tab key, and wait for the rest of it."""
    if shutil.which(shell) is None:
        pytest.skip(f"no {shell} on this machine")
    command, setup = SHELLS[shell]
    parent, child = pty.openpty()
    process = subprocess.Popen(
        command,
        stdin=child,
        stdout=child,
        stderr=child,
        env={**env_for_shells(), "TERM": "xterm", "HOME": str(tmp_path)},
        start_new_session=True,
        preexec_fn=_with_a_terminal,  # noqa: PLW1509 -- a shell wants a terminal of its own
    )
    os.close(child)
    timer = threading.Timer(PATIENCE_S, process.kill)
    timer.start()
    try:
        os.write(parent, f"{setup}; echo rea''dy\n".encode())
        _until(parent, b"ready")
        os.write(parent, b"conductor lead short-t\t")
        _until(parent, b"short-tide")
    finally:
        timer.cancel()
        process.kill()
        process.wait()
        os.close(parent)


def _with_a_terminal() -> None:
    fcntl.ioctl(0, termios.TIOCSCTTY, 0)


def _until(terminal: int, words: bytes) -> None:
    shown = b""
    while words not in shown:
        shown += os.read(terminal, 4096)
