from collections.abc import Iterator

import pytest

from tests.sound import pulse


@pytest.fixture
def sound_server() -> Iterator[pulse.Server]:
    """A private sound server that this process's streams go to."""
    if why := pulse.missing():
        pytest.skip(why)
    with pulse.running() as server:
        yield server
