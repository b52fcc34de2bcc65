import gc
import weakref

import pytest

from conductor.uncollected import settled, uncollected


def test_garbage_is_looked_for_again_after_the_work_and_after_its_failure() -> None:
    assert gc.isenabled()
    with uncollected():
        assert not gc.isenabled()
        with uncollected():
            pass
        assert not gc.isenabled()
    assert gc.isenabled()
    with pytest.raises(KeyError), uncollected():
        raise KeyError
    assert gc.isenabled()


class _Circle:
    def __init__(self) -> None:
        self.me = self


def test_what_has_settled_is_no_more_looked_through_and_garbage_before_it_is_gone() -> None:
    kept, gone = _Circle(), weakref.ref(_Circle())
    try:
        settled()
        assert gone() is None
        assert not any(kept is one for one in gc.get_objects())
        held = weakref.ref(kept)
        del kept
        settled()
        assert held() is None, "what one class leaves behind stays for ever"
    finally:
        gc.unfreeze()
