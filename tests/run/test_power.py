from types import SimpleNamespace

import psutil
import pytest

from conductor.run.power import Power, power


@pytest.mark.parametrize(
    ("told", "found"),
    [
        (None, None),
        (SimpleNamespace(percent=83.6, secsleft=5400, power_plugged=False), Power(False, 84, 5400)),
        (
            SimpleNamespace(percent=50, secsleft=psutil.POWER_TIME_UNKNOWN, power_plugged=None),
            Power(True, 50),
        ),
        (
            SimpleNamespace(percent=99, secsleft=psutil.POWER_TIME_UNLIMITED, power_plugged=True),
            Power(True, 99),
        ),
    ],
)
def test_the_battery_is_read_as_far_as_it_tells(
    monkeypatch: pytest.MonkeyPatch, told: object, found: Power | None
) -> None:
    monkeypatch.setattr(psutil, "sensors_battery", lambda: told, raising=False)
    assert power() == found


def test_a_machine_that_cannot_be_asked_has_none(monkeypatch: pytest.MonkeyPatch) -> None:
    def refused() -> None:
        raise OSError("no such place")

    monkeypatch.setattr(psutil, "sensors_battery", refused, raising=False)
    assert power() is None
