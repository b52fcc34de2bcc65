import importlib.util
import os
from pathlib import Path
from types import ModuleType

import pytest

HERE = Path(__file__).parent


def load(name: str, path: Path) -> ModuleType:
    """A helper by path, since test folders are no packages."""
    spec = importlib.util.spec_from_file_location(name, path)
    assert spec
    assert spec.loader
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


@pytest.fixture(scope="session")
def scene() -> ModuleType:
    """The hand-made class and its snapshots."""
    return load("conductor_scene", HERE.parent / "view" / "scene.py")


@pytest.fixture(scope="session")
def hands() -> ModuleType:
    """Stand-ins for what the screens are handed, and the screen as text."""
    return load("conductor_hands", HERE / "hands.py")


@pytest.fixture(autouse=True)
def _own_look(monkeypatch: pytest.MonkeyPatch) -> None:
    """What would change the picture from outside is taken out of the environment."""
    for name in [one for one in os.environ if one == "NO_COLOR" or one.startswith("TEXTUAL")]:
        monkeypatch.delenv(name)
