"""Peaks: what a class may lead up to, and that something prepares each."""

import pytest

from conductor.draft.choice import homes, may
from conductor.draft.graph import shapes
from conductor.draft.peak import peaks, ready, walks
from conductor.draft.wish import Focus

WITH = [(focus, level) for focus in Focus for level in (1, 2, 3)]


@pytest.mark.parametrize(("focus", "level"), WITH)
def test_there_are_several_peaks_for_each_focus_and_level(focus: Focus, level: int) -> None:
    assert len(peaks(focus, level)) >= 2


@pytest.mark.parametrize(("focus", "level"), WITH)
def test_each_peak_may_be_led_is_reached_and_is_prepared(focus: Focus, level: int) -> None:
    for peak in peaks(focus, level):
        shape = shapes()[peak.shape]
        assert may(shape, level)
        assert walks(shape) if not peak.hub else peak.hub in homes(peak.shape)
        sure = {"childs-pose", "downward-dog"}  # every class leads them
        assert shape.level < 2 or ready(peak.shape, {*peak.prepared_by, *sure}), peak


def test_a_focus_has_the_peaks_a_teacher_would_name() -> None:
    names = {focus: {peak.shape for peak in peaks(focus, 2)} for focus in Focus}
    assert names[Focus.HIPS] >= {"pigeon", "lizard", "sleeping-pigeon"}
    assert names[Focus.BACKBEND] >= {"camel", "bow", "bridge"}
    assert names[Focus.BALANCE] >= {"tree", "half-moon", "warrior-three", "dancer"}
    assert names[Focus.SLOW] >= {"seated-fold", "puppy"}


def test_strong_peaks_are_for_those_who_know_them() -> None:
    assert "wheel" in {peak.shape for peak in peaks(Focus.BACKBEND, 3)}
    assert "wheel" not in {peak.shape for peak in peaks(Focus.BACKBEND, 2)}
    assert "crow" in {peak.shape for peak in peaks(Focus.BALANCE, 3)}
    assert all(shapes()[peak.shape].level == 1 for f in Focus for peak in peaks(f, 1))


def test_a_camel_is_prepared_on_the_floor_on_the_feet_and_on_the_knees() -> None:
    camel = next(one for one in peaks(Focus.BACKBEND, 2) if one.shape == "camel")
    assert camel.hub == "childs-pose"
    assert "low-lunge" in camel.walked
    assert "half-camel" in camel.near
    assert camel.warm
