"""The machine before a class: what it runs on, whether it stays awake, where sound goes."""

from functools import cache

from conductor.run.ports import OutputStatus
from conductor.run.power import power
from conductor.run.quiet import can_be_held
from conductor.view.machine import NO_BATTERY, Fact, power_told, sleep_told, sound_told

held = cache(can_be_held)  # a helper is started for it, and it does not change while one reads


def machine(status: OutputStatus, class_ms: int) -> tuple[Fact, ...]:
    """How each of them is; takes up to half a second the first time."""
    found = power()
    left_ms = None if found is None or found.left_s is None else found.left_s * 1000
    told = power_told(found.plugged, found.percent, left_ms, class_ms) if found else NO_BATTERY
    return (
        sound_told(status.playing, status.words, status.device),
        sleep_told(held()),
        told,
    )
