"""What holds for every test: the same examples each time, nothing of this machine's settings."""

import os
from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import settings

# Time is not measured in the suite. The examples are the same at every run, so that a red test is
# red for everybody; HYPOTHESIS_PROFILE=search looks at new ones.
settings.register_profile("suite", deadline=None, derandomize=True)
settings.register_profile("search", deadline=None)
settings.load_profile(os.environ.get("HYPOTHESIS_PROFILE", "suite"))

LEAKING = ("NO_COLOR", "TEXTUAL_THEME", "TEXTUAL_ANIMATIONS", "COLUMNS", "LINES", "FORCE_COLOR")


@pytest.fixture(autouse=True, scope="session")
def nothing_of_this_machine(tmp_path_factory: pytest.TempPathFactory) -> Iterator[None]:
    """Keep settings, caches and journals of whoever runs the tests out of them, and safe."""
    home: Path = tmp_path_factory.mktemp("home")
    with pytest.MonkeyPatch.context() as patch:
        for name in LEAKING:
            patch.delenv(name, raising=False)
        for name in ("XDG_CONFIG_HOME", "XDG_CACHE_HOME", "XDG_STATE_HOME"):
            patch.setenv(name, str(home / name.lower()))
        yield
