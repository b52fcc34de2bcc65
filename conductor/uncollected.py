"""Short work done without looking for garbage in circles, which would take a tenth of its time."""

import gc
from collections.abc import Iterator
from contextlib import contextmanager


@contextmanager
def uncollected() -> Iterator[None]:
    """Put off the search for circles; what is in none is freed as ever, so memory stays small."""
    before = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if before:
            gc.enable()
