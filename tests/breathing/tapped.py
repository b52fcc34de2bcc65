"""Simulated tapping with a known truth: breaths that vary, taps that are missed or doubled."""

import random

from conductor.breathing.model import Tap
from conductor.sides import Breath


def tapped(
    seed: int,
    inhale: float,
    exhale: float,
    seconds: int,
    *,
    jitter: float = 0.1,
    missed: float = 0.05,
    doubled: float = 0.05,
    drift: float = 0.0,
    labels: bool = True,
) -> tuple[list[Tap], dict[Breath, list[int]]]:
    """Taps (ms), and how long each half really was.

    Each half is up to `jitter` longer or shorter than the truth, evenly spread; `drift` is the
    share by which it grows a minute. The person begins and ends with a tap.
    """
    chance = random.Random(seed)  # noqa: S311 -- a simulation that must repeat itself
    truth = {Breath.IN: inhale, Breath.OUT: exhale}
    real: dict[Breath, list[int]] = {Breath.IN: [], Breath.OUT: []}
    taps: list[Tap] = []
    at, breath = 1000.0, Breath.IN
    while at < 1000 + seconds * 1000:
        length = truth[breath] * (1 + drift * (at - 1000) / 60_000)
        length *= 1 + chance.uniform(-jitter, jitter)
        label = breath if labels else None
        if not taps or chance.random() >= missed:
            taps.append(Tap(round(at), label))
            if chance.random() < doubled:
                taps.append(Tap(round(at + chance.uniform(130, 700)), label))
        real[breath].append(round(length))
        at += length
        breath = breath.other
    taps.append(Tap(round(at), breath if labels else None))
    return taps, real
