import importlib.util
from pathlib import Path
from types import ModuleType

import pytest


@pytest.fixture(scope="session")
def scene() -> ModuleType:
    """The hand-made class; loaded by path, since test folders are no packages."""
    path = Path(__file__).parent.parent / "view" / "scene.py"
    spec = importlib.util.spec_from_file_location("conductor_scene", path)
    assert spec
    assert spec.loader
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module
