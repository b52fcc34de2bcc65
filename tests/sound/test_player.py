"""The player on a device that is played by the test: virtual time, no thread, no waiting."""

from array import array

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from conductor.score.model import Saying
from conductor.score.sounds import Bell
from conductor.settings import Settings
from conductor.sound.mix import FADE
from conductor.sound.player import NoOutputError, Player
from tests.sound.room import (
    BELL,
    LEVEL,
    LONG,
    PERIOD_MS,
    SOUNDS,
    WORD,
    Room,
    ready,
    said,
)


def test_cues_are_heard_when_they_should_be() -> None:
    room = ready(Room())
    room.sounds = [said(k) for k in (700, 1333, 4001, 9000)]
    room.go(10_000)
    assert room.starts() == pytest.approx([700, 1333, 4001, 9000], abs=2)


def test_before_the_stream_has_settled_the_status_says_so() -> None:
    room = Room()
    room.go(500)
    status = room.player.status
    assert not status.playing
    assert "opening" in status.words


@pytest.mark.parametrize("offset", [-300, 250])
def test_the_offset_moves_all_sound(offset: int) -> None:
    room = ready(Room(offset=offset))
    room.sounds = [said(2000), said(5000)]
    room.go(6000)
    assert room.starts() == pytest.approx([2000 + offset, 5000 + offset], abs=2)


def test_a_faster_class_has_its_sounds_sooner_and_as_long() -> None:
    room = ready(Room(speed=1.5))
    room.sounds = [said(3000), said(6000)]
    room.go(6000)
    assert room.starts() == pytest.approx([2000, 4000], abs=2)


def test_a_change_of_speed_moves_what_has_not_begun_and_lets_play_what_has() -> None:
    room = ready(Room())
    room.sounds = [said(2000), said(3500), said(6000)]
    room.go(2100)
    now = room.now
    room.run_at(1.5)
    assert room.now == now
    room.go(4000)
    real = [2000, 2100 + (3500 - now) / 1.5, 2100 + (6000 - now) / 1.5]
    assert [at + room.began for at in real] == pytest.approx(room.onset_times(), abs=3)


@settings(max_examples=10, deadline=None)
@given(delays=st.lists(st.integers(0, 30), min_size=4, max_size=4))
def test_late_calls_do_not_move_sounds_when_no_epoch_is_set(delays: list[int]) -> None:
    room = ready(Room())
    begun = room.clock.now()
    room.player.timed(None, 1.0)
    sounds = [said(6000)]
    for delay in (0, *delays):
        now = room.clock.now() - begun
        room.clock.forward(delay)
        room.player.want(sounds, now)
        room.player.tick()
        room.clock.forward((-room.clock.now()) % 10)
        room.go(1000)
    room.go(3000)
    assert [start - begun for start in room.starts()] == pytest.approx([6000], abs=2)


def test_a_class_set_anew_is_followed() -> None:
    room = ready(Room())
    room.player.timed(None, 1.0)
    room.player.want([], 0)
    room.go(1000)
    begun = room.clock.now()
    room.player.want([said(2000)], 0)
    room.player.tick()
    room.go(3000)
    assert [start - begun for start in room.starts()] == pytest.approx([2000], abs=2)


def test_a_stop_fades_what_sounds_within_two_buffers() -> None:
    room = ready(Room())
    room.sounds = [said(1000, LONG)]
    room.go(1500)
    stopped = room.now
    room.sounds = []
    room.player.want([], room.now)
    room.player.tick()
    room.go(2000)
    last = max(
        at + k / 44.1 - (room.player.epoch or 0)
        for at, block in room.heard
        for k, sample in enumerate(block)
        if sample
    )
    assert last <= stopped + 2 * PERIOD_MS + FADE / 44.1


def test_a_bell_is_not_made_louder_or_quieter_and_a_voice_leaves_room_for_it() -> None:
    room = ready(Room())
    room.sounds = [said(1000), said(3000, BELL)]
    room.go(4000)
    assert [level for _, level in room.onsets()] == pytest.approx([LEVEL * 0.7, 9000], abs=2)


def test_a_stale_sound_is_not_said() -> None:
    room = ready(Room())
    room.go(5000)
    room.sounds = [said(3000), said(4800), said(6000)]
    room.go(2000)
    assert len(room.starts()) == 2
    assert room.starts()[0] > 5000
    assert room.starts()[1] == pytest.approx(6000, abs=2)


def test_words_that_could_not_be_rendered_are_passed_over() -> None:
    room = ready(Room())
    room.sounds = [said(1000, Saying("never rendered")), said(2000)]
    room.go(3000)
    assert room.starts() == pytest.approx([2000], abs=2)


def test_words_whose_file_is_broken_are_told_and_do_not_silence_the_others() -> None:
    room = Room()

    def library(what: Saying | Bell) -> "array[int] | None":
        if what == Saying("broken"):
            raise OSError("the file is cut off")
        return SOUNDS.get(what)

    room.player = Player(library, room.clock, Settings(), room.open)
    ready(room)
    room.sounds = [said(1000, Saying("broken")), said(2000)]
    room.go(3000)
    assert room.starts() == pytest.approx([2000], abs=2)
    assert room.player.status.playing
    assert "the file is cut off" in room.player.status.words
    room.sounds = []
    room.go(500)
    assert room.player.status.words == ""


def test_a_lost_device_is_told_and_comes_back_without_old_cues() -> None:
    room = ready(Room())
    room.sounds = [said(k) for k in range(1000, 30_000, 1000)]
    room.go(5500)
    room.there = False
    room.go(2000)
    status = room.player.status
    assert (status.playing, status.lost) == (False, 1)
    assert status.words.startswith("No sound: the output device is gone.")
    assert room.outputs[0].closed
    room.go(8000)
    before = len(room.starts())
    room.there = True
    back = room.now
    room.go(3000)
    assert room.player.status.playing
    assert room.player.status.words == ""
    room.go(5000)
    later = room.starts()[before:]
    assert back < later[0] < back + 3000
    assert later[0] % 1000 < PERIOD_MS  # the first may be late by what was asked for already
    assert later[1:] == pytest.approx(
        [later[0] // 1000 * 1000 + k * 1000 for k in range(1, len(later))]
    )
    assert len(later) >= 5


def test_what_was_missed_is_not_said_however_long_it_would_keep() -> None:
    room = ready(Room())
    room.go(1000)
    room.there = False
    room.sounds = [said(4000, stale=60_000), said(15_000)]
    room.go(7000)
    room.there = True
    room.go(10_000)
    assert room.starts() == pytest.approx([15_000], abs=2)


def test_a_device_that_was_never_there_is_taken_up_when_it_comes() -> None:
    room = Room(there=False)
    room.begin()
    room.sounds = [said(k) for k in range(1000, 30_000, 1000)]
    room.go(4000)
    status = room.player.status
    assert (status.playing, status.lost) == (False, 0)
    assert "no output device was found" in status.words
    room.there = True
    room.go(6000)
    assert room.player.status.playing
    assert room.starts()[0] < 7000


def test_a_device_that_opens_and_never_asks_is_let_go() -> None:
    room = Room()
    room._device = lambda: None  # type: ignore[method-assign]
    room.go(12_000)
    assert not room.player.status.playing
    assert "does not start" in room.player.status.words
    assert len(room.outputs) > 1
    assert all(output.closed for output in room.outputs[:-1])


def test_without_a_library_nothing_is_tried_again() -> None:
    room = Room(there=False)
    room.trouble = NoOutputError("no sound library is installed", lasting=True)
    room.go(500)
    room.there = True
    room.go(5000)
    assert not room.outputs
    assert "no sound library is installed" in room.player.status.words


def test_a_sleep_of_the_machine_is_no_loss_of_the_device() -> None:
    room = ready(Room())
    room.clock.sleep(3_600_000)
    room.outputs[-1].dues = [due + 3_600_000 for due in room.outputs[-1].dues]
    room.go(3000)
    assert room.player.status.playing
    assert room.player.status.lost == 0


def test_a_machine_too_busy_for_anything_is_no_loss_of_the_device() -> None:
    room = ready(Room())
    room.clock.forward(1700)  # neither a callback nor a tick
    room.player.tick()
    room.go(1000)
    assert room.player.status.playing
    assert room.player.status.lost == 0


def test_an_error_in_the_callback_is_silence_and_the_stream_goes_on() -> None:
    room = ready(Room())
    link = room.player._link
    assert link is not None
    render = link.mixer.render

    def broken(frames: int) -> "array[int]":
        raise ZeroDivisionError(frames)

    link.mixer.render = broken  # type: ignore[method-assign]
    room.go(400)
    link.mixer.render = render  # type: ignore[method-assign]
    assert link.faults == 2
    room.sounds = [said(room.now + 2000)]
    room.go(3000)
    assert len(room.starts()) == 1


def test_a_bell_can_be_struck_before_class_as_often_as_wanted() -> None:
    room = Room()
    assert not room.player.test(BELL)
    room.go(3000)
    for _ in range(2):
        assert room.player.test(BELL)
        room.go(1000)
    assert not room.player.test(Bell("unknown"))
    assert len(room.onsets()) == 2


def test_underruns_are_counted_over_all_streams() -> None:
    room = ready(Room())
    room.go(4000)
    room.outputs[-1].dues = [due + 500 for due in room.outputs[-1].dues]
    room.go(3000)
    assert room.player.status.underruns == 1
    room.there = False
    room.go(2000)
    room.there = True
    room.go(4000)
    assert room.player.status.underruns == 1


def test_an_underrun_is_taken_out_of_silence_and_not_out_of_a_cue() -> None:
    room = ready(Room())
    room.go(4000)
    room.begin()
    room.sounds = [said(1000, LONG), said(6000)]
    room.go(1500)
    room.outputs[-1].dues = [due + 500 for due in room.outputs[-1].dues]
    room.go(6000)
    whole = [sample for _, block in room.heard for sample in block if sample]
    assert len(whole) == len(SOUNDS[LONG]) + len(SOUNDS[WORD])
    assert room.starts() == pytest.approx([1000, 6000], abs=2)
    assert room.player.status.underruns == 1


def test_finishing_lets_two_buffers_out() -> None:
    room = ready(Room())
    room.sounds = [said(1000, LONG)]
    room.go(2000)
    frame = room.player.finish()
    assert frame is not None
    assert not room.player.reached(frame)
    room.sounds = []
    room.go(2 * PERIOD_MS)
    assert room.player.reached(frame)
    room.player.close()
    assert room.outputs[-1].closed
    assert room.player.finish() is None


def test_many_losses_leave_nothing_behind() -> None:
    room = ready(Room())
    room.sounds = [said(2000)]
    for _ in range(10):
        room.there = False
        room.go(2000)
        room.there = True
        room.go(4000)
    assert room.player.status.lost == 10
    assert all(output.closed for output in room.outputs[:-1])
