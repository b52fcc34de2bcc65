import gc

import pytest

from conductor.uncollected import uncollected


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
