import io
import threading
from collections.abc import Sequence
from types import ModuleType

import pytest

from conductor.engine.engine import Engine
from conductor.engine.model import Command, Do, Happening, Snapshot, State
from conductor.plain import Listener, Teller, help_lines, lead_plain, lines, status_line
from conductor.settings import Settings
from conductor.values import replace
from conductor.view.after import After
from conductor.view.glass import MIRRORS
from conductor.view.own_keys import keyed


class Script:
    """A class that tells its news in portions and is over after the last one."""

    def __init__(self, snapshot: Snapshot, *portions: Sequence[Happening]) -> None:
        self._snapshot = snapshot
        self._portions = list(portions)
        self.posted: list[Command] = []
        self.troubles: list[str] = []
        self.interrupts = 0
        self.unkept = ""
        self.time = snapshot.now
        self.begun = threading.Event()

    def snapshot(self) -> Snapshot:
        over = not self._portions
        return replace(self._snapshot, state=State.FINISHED) if over else self._snapshot

    def now(self) -> int:
        return self.time

    def post(self, command: Command) -> None:
        self.posted.append(command)
        self.begun.set()

    def trouble(self) -> str:
        return self.troubles.pop(0) if self.troubles else ""

    def after(self) -> After:
        if self.unkept:
            raise OSError(self.unkept)
        return After("Tide", (("Where the time went", "Led 8 min.\nEvery moment was led."),))

    def news(self, seconds: float) -> Sequence[Happening]:
        if self.interrupts:
            self.interrupts -= 1
            raise KeyboardInterrupt
        return self._portions.pop(0) if self._portions else ()


def moment(snapshot: Snapshot, index: int) -> Happening:
    one = snapshot.score.moments[index]
    return Happening(1000 + one.start, "moment", one.id)


def test_a_movement_tells_breath_shape_side_and_what_comes(scene: ModuleType) -> None:
    snapshot = scene.snap(5)
    assert lines([moment(snapshot, 5)], snapshot) == [
        (
            "[00:24] Inhale: crescent lunge, right foot forward. "
            "Next: warrior two, arms wide, right foot forward, turn to the long side."
        )
    ]


def test_a_stay_tells_one_line_a_breath(scene: ModuleType) -> None:
    snapshot = scene.snap(6)
    told = lines([moment(snapshot, index) for index in range(6, 11)], snapshot)
    assert told == [
        (
            "[00:28] Exhale: warrior two, arms wide, right foot forward, turn to the long side. "
            "Stay 5 breaths. Next: plank."
        ),
        "[00:32] Breath 1 of 5.",
        "[00:40] Breath 2 of 5.",
    ]


def test_the_last_shape_has_nothing_after_it(scene: ModuleType) -> None:
    snapshot = scene.snap(35)
    told = lines([moment(snapshot, 35), moment(snapshot, 36)], snapshot)
    assert told == ["[03:04] Own breath: final rest. Stay 5 min 20 s."]


@pytest.mark.parametrize(
    ("kind", "words", "line"),
    [
        ("state", "Stopped.", '[00:09] Stopped. Type "go on".'),
        ("state", "Leading.", None),
        ("part", "Stand", "[00:09] Part: Stand."),
        ("cue", "Sink the hips.", "[00:09] Say: Sink the hips."),
        ("bell", "", "[00:09] Bell."),
        ("refused", "there is no next part", "[00:09] Not done: there is no next part"),
        ("command", "One breath more.", "[00:09] One breath more."),
        ("offer", "Rest in child's pose if you like.", "[00:09] Rest in child's pose if you like."),
        ("slept", "The machine slept.", "[00:09] The machine slept."),
        ("command", "Silence.", '[00:09] Silence. Type "go on".'),
        ("finished", "", "[00:09] The class is over."),
        ("dropped", "an old cue", None),
        ("cue", "Look\x1b[2J up", "[00:09] Say: Look[2J up"),
    ],
)
def test_every_other_happening_has_its_line(
    scene: ModuleType, kind: str, words: str, line: str | None
) -> None:
    told = lines([Happening(10_000, kind, words=words)], scene.snap(5))
    assert told == ([line] if line else [])


def test_a_moment_a_refit_took_away_is_told_in_its_own_words(scene: ModuleType) -> None:
    gone = Happening(10_000, "moment", "gone", "Inhale: plank")
    assert lines([gone], scene.snap(5)) == ["[00:09] Inhale: plank"]


def test_what_a_command_did_is_told_once(scene: ModuleType) -> None:
    news = [
        Happening(10_000, "command", words="Stopped."),
        Happening(10_000, "state", words="Stopped."),
    ]
    assert lines(news, scene.snap(5)) == ['[00:09] Stopped. Type "go on".']


def test_held_breaths_are_told_one_line_a_breath(scene: ModuleType) -> None:
    news = [
        Happening(10_000 + held * 4000, "held", words=f"held breath {held // 2 + 1}", data=(half,))
        for held, half in enumerate((("breath", "out"), ("breath", "in"), ("breath", "out")))
    ]
    assert lines(news, scene.snap(5)) == ["[00:13] held breath 1"]


def test_a_class_led_by_the_engine_reads_as_a_transcript(scene: ModuleType) -> None:
    engine = Engine(scene.build(), {}, Settings())
    told: list[str] = []
    for now, do in ((0, Do.BEGIN), (45_000, Do.HOLD), (60_000, Do.GO_ON), (70_000, Do.END)):
        told += lines(engine.advance(now), engine.snapshot(now))
        engine.command(Command(do), now)
    told += lines(engine.advance(70_000), engine.snapshot(70_000))
    spoken = [line for line in told if "Say:" not in line]
    assert spoken[0] == "[00:00] The class begins."
    assert "[00:31] Exhale: warrior two, arms wide, right foot forward, turn to the long side." in (
        "\n".join(spoken)
    )
    assert "[00:45] Holding in warrior two." in spoken
    assert "[01:00] Going on. Held 2 breaths; the class ends 16 s late." in spoken
    assert spoken[-2:] == ["[01:10] The class has ended.", "[01:10] The class is over."]


def test_status_says_where_and_how_long(scene: ModuleType) -> None:
    snapshot = scene.snap(5)
    assert status_line(snapshot, snapshot.now) == (
        "leading: Stand, on the right, crescent lunge, right foot forward. "
        "8 min to the end, on time."
    )


def heard(scene: ModuleType, *typed: str) -> tuple[list[Command], list[str]]:
    script = Script(scene.snap(5), ())
    told: list[str] = []
    listener = Listener(script, told.append)
    for line in typed:
        listener.hear(line)
    return script.posted, told


def test_typed_lines_are_commands(scene: ModuleType) -> None:
    assert heard(scene, "stop\n", "n\n", "\n") == ([Command(Do.STOP), Command(Do.NEXT)], [])


def test_ending_needs_a_second_word(scene: ModuleType) -> None:
    assert heard(scene, "end", "no")[0] == []
    assert heard(scene, "end", "yes")[0] == [Command(Do.END)]
    assert heard(scene, "q", "")[1][-1] == "The class goes on."


def test_unknown_words_help_and_where_are_answered(scene: ModuleType) -> None:
    posted, told = heard(scene, "dance", "where", "help")
    assert posted == []
    assert told[0] == 'No command is called "dance"; type help for all of them.'
    assert told[1].startswith("leading: Stand, on the right, crescent lunge")
    assert told[2:] == help_lines()


def test_the_class_is_told_to_its_end(scene: ModuleType) -> None:
    snapshot = scene.snap(36, 300_000)
    script = Script(snapshot, [moment(snapshot, 1)], [Happening(505_000, "finished")])
    script.troubles = ["the sound is gone", ""]
    out = io.StringIO()
    assert lead_plain(script, out)
    assert out.getvalue().splitlines() == [
        "[00:08] Inhale: arms overhead. Next: standing fold.",
        "the sound is gone",
        "[08:24] The class is over.",
        "All is well again.",
        "Where the time went: Led 8 min. Every moment was led.",
        "`conductor review` tells all of it.",
    ]


def test_a_class_that_cannot_be_told_of_was_led_all_the_same(scene: ModuleType) -> None:
    script = Script(scene.snap(36, 300_000), [Happening(505_000, "finished")])
    script.unkept = "the disk is gone"
    out = io.StringIO()
    assert lead_plain(script, out)
    assert out.getvalue().splitlines()[-1] == (
        "How it went cannot be told: OSError: the disk is gone"
    )


def test_a_reader_who_leaves_does_not_end_the_class(scene: ModuleType) -> None:
    class Gone(io.StringIO):
        def write(self, _text: str) -> int:
            raise BrokenPipeError

    snapshot = scene.snap(5)
    script = Script(snapshot, [moment(snapshot, 5)], [moment(snapshot, 6)])
    assert not lead_plain(script, Gone())
    assert script.posted == []
    assert script.snapshot().state is State.FINISHED


def test_a_closed_stream_is_like_a_reader_who_left() -> None:
    out = io.StringIO()
    tell = Teller(out)
    out.close()
    tell("one")
    tell("two")
    assert tell.broken


def test_the_first_interrupt_asks_and_a_second_one_ends(scene: ModuleType) -> None:
    script = Script(scene.snap(5), ())
    script.interrupts = 2
    out = io.StringIO()
    lead_plain(script, out)
    assert script.posted == [Command(Do.END)]
    assert "Ctrl+C again within ten seconds ends the class" in out.getvalue()


def test_commands_are_read_while_the_class_is_told(scene: ModuleType) -> None:
    class Waiting(Script):
        def news(self, seconds: float) -> Sequence[Happening]:
            assert self.begun.wait(5)
            return super().news(seconds)

    script = Waiting(scene.snap(5), ())
    lead_plain(script, io.StringIO(), io.StringIO("hold\n"))
    assert script.posted == [Command(Do.HOLD)]


def test_own_keys_are_told_and_can_be_typed(scene: ModuleType) -> None:
    script, told = Script(scene.snap(9), ()), list[str]()
    mine = keyed({"hold": "j", "next": "J", "swap": []}).actions
    listener = Listener(script, told.append, mine)
    for line in ("j", "J", "help"):
        listener.hear(line)
    assert [one.do for one in script.posted] == [Do.HOLD, Do.NEXT]
    assert (
        "hold (j): Wait in this shape while breath goes on and is counted; again to go on." in told
    )
    assert any(line.startswith("swap: We are on") for line in told)


def test_a_mirrored_class_is_told_with_whose_side_it_is(scene: ModuleType) -> None:
    snapshot = scene.snap(6)
    cue = Happening(0, "cue", "", "Step the right foot back.")
    news = [moment(snapshot, 6), cue]
    seen = {name: " ".join(lines(news, snapshot, MIRRORS[name])) for name in MIRRORS}
    assert "arms wide, right foot forward, turn to the long side. Stay" in seen["off"]
    assert "left foot forward, turn to the long side [you: L · class: R]. Stay" in seen["screen"]
    assert "Say: Step the right foot back." in seen["screen"]
    assert "right foot forward, turn to the long side [class: R · cues: L]" in seen["cues"]
    assert "Say: Step the left foot back." in seen["both"]


def test_the_mirror_is_turned_by_typing(scene: ModuleType) -> None:
    script, told = Script(scene.snap(9), ()), list[str]()
    listener = Listener(script, told.append)
    for line in ("mirror", "where", "o", "where"):
        listener.hear(line)
    assert told[0] == "Mirrored: your side."
    assert "on the left, warrior two, arms wide, left foot forward [you: L · class: R]" in told[1]
    assert told[2] == "The class's side is told."
    assert "left" not in told[3]
    assert script.posted == []
