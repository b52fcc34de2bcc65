import shutil
import subprocess
from collections.abc import Sequence

import pytest

from conductor.run import quiet


def test_the_helper_ends_with_the_class(monkeypatch: pytest.MonkeyPatch) -> None:
    started: list[subprocess.Popen[bytes]] = []
    real = subprocess.Popen

    def kept(command: Sequence[str], **options: object) -> subprocess.Popen[bytes]:
        helper = real(command, **options)  # type: ignore[call-overload]
        started.append(helper)
        return helper  # type: ignore[no-any-return]

    monkeypatch.setattr(subprocess, "Popen", kept)
    monkeypatch.setattr(quiet, "_command", lambda: [str(shutil.which("cat"))])
    with quiet.Awake() as awake:
        assert awake.held
        assert started[0].poll() is None
    assert started[0].poll() is not None


def test_where_the_system_has_no_helper_the_class_goes_on(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(quiet, "_command", lambda: None)
    with quiet.Awake() as awake:
        assert not awake.held


def test_a_helper_that_cannot_start_is_no_trouble(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(quiet, "_command", lambda: ["/nonexistent/helper"])
    with quiet.Awake() as awake:
        assert not awake.held


@pytest.mark.parametrize(("helper", "holds"), [("cat", True), ("false", False)])
def test_a_helper_that_ends_at_once_holds_nothing_off(
    monkeypatch: pytest.MonkeyPatch, helper: str, holds: bool
) -> None:
    monkeypatch.setattr(quiet, "_command", lambda: [str(shutil.which(helper))])
    monkeypatch.setattr(quiet, "TRIED_S", 0.1 if holds else 10)
    assert quiet.can_be_held() is holds


def test_where_there_is_no_helper_nothing_can_be_held(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(quiet, "_command", lambda: None)
    assert not quiet.can_be_held()
