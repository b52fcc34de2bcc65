"""When garbage in circles is looked for: not in short work, and not in the middle of a class."""

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


def settled() -> None:
    """Look for circles now and leave what there is out of every later search.

    One search through a class that is open holds the interpreter for 35 ms, or 110 ms on a busy
    machine (measured): half of what the sound's buffer rides out.
    """
    gc.unfreeze()
    gc.collect()
    gc.freeze()
