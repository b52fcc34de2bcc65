"""The one table of actions: keys, help, palette, typed words and the README all come from it."""

from collections.abc import Iterable, Mapping

from conductor.engine.model import Command, Do, Snapshot, State
from conductor.values import Struct, field, replace
from conductor.view.keys import shown
from conductor.view.whereto import found

SILENCED = "silenced"


class Action(Struct, frozen=True):
    """Something a person can ask for while a class is led.

    `instead` names what is done in a given state (or when silenced), so that one key can stop and
    go on. `asks` is the question put first; `picks` asks for a place of the class first. `remote`
    keys are those of a presenter remote. `word` goes with the command. With no `do` it is the front
    end's own affair, and the class has no part in it. One that `repeats` does so as often as its
    key is pressed; else a second press within a moment counts once.
    """

    id: str
    label: str
    help: str
    do: Do | None
    keys: tuple[str, ...] = ()
    remote: tuple[str, ...] = ()
    instead: Mapping[str, Do] = field(default_factory=dict)
    asks: str = ""
    word: str = ""
    repeats: bool = False
    picks: bool = False


ACTIONS: tuple[Action, ...] = (
    Action(
        "stop",
        "Stop, go on",
        "Begin the class; stop it where it is, and everything waits; go on.",
        Do.STOP,
        ("space",),
        instead={
            State.READY: Do.BEGIN,
            State.HOLDING: Do.GO_ON,
            State.STOPPED: Do.GO_ON,
            SILENCED: Do.GO_ON,
        },
    ),
    Action(
        "silence",
        "Silence",
        "All sound ceases at once and only STOPPED and the clock are shown, until the key of stop "
        "or of next goes on, or another moves in the class.",
        Do.SILENCE,
        ("full_stop",),
        ("full_stop",),
        repeats=True,
    ),
    Action(
        "hold",
        "Hold, go on",
        "Wait in this shape while breath goes on and is counted; again to go on.",
        Do.HOLD,
        ("h",),
        ("escape", "f5"),
        instead={State.HOLDING: Do.GO_ON, State.STOPPED: Do.GO_ON, SILENCED: Do.GO_ON},
    ),
    Action(
        "next",
        "Next shape",
        "Leave this shape or stay for the next; before the class, begin; after silence, go on.",
        Do.NEXT,
        ("right", "n"),
        ("pagedown",),
        instead={State.READY: Do.BEGIN, SILENCED: Do.GO_ON},
    ),
    Action(
        "back",
        "Back",
        "Take back the last command, within 10 seconds of it; else return to the shape before.",
        Do.BACK,
        ("left", "b"),
        ("pageup",),
    ),
    Action(
        "next part", "Next part", "Leave for the next part of the class.", Do.NEXT_PART, ("down",)
    ),
    Action(
        "previous part",
        "Previous part",
        "Return to the part before.",
        Do.PREVIOUS_PART,
        ("up",),
    ),
    Action("again", "Again", "Lead this side, or this round, once more.", Do.AGAIN, ("a",)),
    Action(
        "go to",
        "Go to",
        "Go to any part or shape of the class, picked from a list or by its name.",
        Do.GO_TO,
        ("slash",),
        picks=True,
    ),
    Action(
        "swap",
        "Swap sides",
        "We are on the other side: this pass and its mate exchange.",
        Do.SWAP,
        ("x",),
    ),
    Action(
        "more",
        "One breath more",
        "Stay one breath longer, on both sides.",
        Do.MORE,
        ("plus", "equals_sign"),
        repeats=True,
    ),
    Action(
        "fewer",
        "One breath fewer",
        "Stay one breath less, on both sides.",
        Do.FEWER,
        ("minus",),
        repeats=True,
    ),
    Action(
        "slower",
        "Slower",
        "Every breath from here on a little longer.",
        Do.SLOWER,
        ("s",),
        repeats=True,
    ),
    Action(
        "faster",
        "Faster",
        "Every breath from here on a little shorter.",
        Do.FASTER,
        ("f",),
        repeats=True,
    ),
    Action(
        "land",
        "Land on time",
        "Say what it takes to end on the minute; again within 10 seconds does it.",
        Do.LAND,
        ("l",),
    ),
    Action(
        "keep",
        "Keep to the clock",
        "Stays ahead give and take by themselves so that the class ends on the minute.",
        Do.KEEP,
        ("k",),
    ),
    Action(
        "rest",
        "Rest now",
        "Take the shortest way down to the closing rest.",
        Do.REST,
        ("r",),
    ),
    Action("quiet", "Voice off, on", "The voice falls quiet, or speaks again.", Do.QUIET, ("v",)),
    Action(
        "voice louder",
        "Voice louder",
        "The voice a little louder, in the midst of a word too.",
        Do.VOICE_LOUDER,
        ("e",),
        repeats=True,
    ),
    Action(
        "voice softer",
        "Voice softer",
        "The voice a little softer.",
        Do.VOICE_SOFTER,
        ("d",),
        repeats=True,
    ),
    Action(
        "bells louder",
        "Bells louder",
        "The bells a little louder.",
        Do.BELLS_LOUDER,
        ("t",),
        repeats=True,
    ),
    Action(
        "bells softer",
        "Bells softer",
        "The bells a little softer.",
        Do.BELLS_SOFTER,
        ("g",),
        repeats=True,
    ),
    Action("as written", "Ways: as written", "Show each shape as written.", Do.LEVEL, ("1",)),
    Action(
        "gentler",
        "Ways: gentler",
        "Show and say the gentler way where the plan has one.",
        Do.LEVEL,
        ("2",),
        word="ease",
    ),
    Action(
        "fuller",
        "Ways: fuller",
        "Show and say the fuller way where the plan has one.",
        Do.LEVEL,
        ("3",),
        word="more",
    ),
    Action(
        "other way",
        "Ways: other",
        "Show and say the other way where the plan has one.",
        Do.LEVEL,
        ("4",),
        word="or",
    ),
    Action(
        "ways",
        "Ways: the next",
        "Go on to the next of the ways that this plan has, by the names it gives them.",
        Do.LEVEL,
        ("w",),
        word=">",
    ),
    Action(
        "mark",
        "Mark this place",
        "Mark where somebody stumbled; the places are listed after a rehearsal.",
        Do.MARK,
        ("m",),
    ),
    Action(
        "end",
        "End the class",
        "End the class here, after a question.",
        Do.END,
        ("q", "ctrl+q", "ctrl+c"),
        asks="End the class here?",
    ),
)

OWN: tuple[Action, ...] = (
    Action(
        "mirror",
        "Mirror on, off",
        "Tell your own side as you face the class, or the class's; a mark says which.",
        None,
        ("o",),
    ),
    Action(
        "colours", "Colours", "Dark, light or high contrast, one after the other.", None, ("c",)
    ),
    Action("help", "Help", "All keys and what they do.", None, ("question_mark", "i", "f1")),
)
"""What is asked of the front end itself; the class goes on as it was."""

EVERY: tuple[Action, ...] = (*ACTIONS, *OWN)

BY_ID: Mapping[str, Action] = {action.id: action for action in EVERY}


def command(action: Action, snapshot: Snapshot) -> Command:
    """What an action that is the class's affair means as the class stands."""
    assert action.do is not None  # noqa: S101 -- the front ends keep their own to themselves
    mode = str(snapshot.state)
    if snapshot.silenced and snapshot.state is State.STOPPED:
        mode = SILENCED
    if snapshot.state is State.HOLDING and snapshot.resumes_at is not None:
        mode = ""  # it goes on already: hold means hold on, stop means stop
    return Command(action.instead.get(mode, action.do), word=action.word)


def pressed(action: Action, snapshot: Snapshot) -> Command:
    """What the action's key means as the class stands; the engine hears which key it was."""
    asked = command(action, snapshot)
    return asked if action.repeats else replace(asked, press=action.id)


def offered(snapshot: Snapshot, actions: Iterable[Action] = ACTIONS) -> tuple[Action, ...]:
    """The actions that the class would accept now."""
    return tuple(one for one in actions if one.do and command(one, snapshot).do in snapshot.offers)


def keys_of(action: Action) -> str:
    """All keys of an action as people read them, those of a remote included."""
    return ", ".join(dict.fromkeys(shown(key) for key in (*action.keys, *action.remote)))


def table(actions: Iterable[Action] = EVERY) -> tuple[tuple[str, str, str], ...]:
    """Rows of keys, label and help, for help, README and the plain front end."""
    return tuple((keys_of(action), action.label, action.help) for action in actions)


def typed(line: str, snapshot: Snapshot, actions: Iterable[Action] = ACTIONS) -> Command | None:
    """The command of a typed line: a command's name, an action's id, label, key or start.

    A name such as "land on time" means just that; a key such as "h" does what the key does. The
    name of a way of the plan leads that way. After "go to" comes a shape or a part: the next one
    of that name, or else the first.
    """
    words = " ".join(line.lower().split())
    if words.startswith("go to "):
        place = found(snapshot.score, words.removeprefix("go to "), snapshot.index)
        return Command(Do.GO_TO, word=place.moment if place else words)
    if words in {"stop", "hold", "silence"}:
        return command(BY_ID[words], snapshot)  # a second time goes on, as the key does
    if words in SPOKEN:
        return Command(SPOKEN[words])
    action = named(line, tuple(one for one in actions if one.do))
    if action:
        return command(action, snapshot)
    way = words.removeprefix("way ")
    return Command(Do.LEVEL, word=way) if way in named_ways(snapshot) else None


def named_ways(snapshot: Snapshot) -> tuple[str, ...]:
    """The ways that have names of the plan's own, which no action of the table is for."""
    fixed = {action.word for action in ACTIONS if action.do is Do.LEVEL}
    return tuple(level for level in snapshot.score.levels if level not in fixed)


SPOKEN: Mapping[str, Do] = {
    **{str(do): do for do in Do if do not in (Do.LEVEL, Do.SLEPT, Do.GO_TO)},
    **dict.fromkeys(("go", "continue", "resume", "start"), Do.GO_ON),
    **dict.fromkeys(("quit", "exit"), Do.END),
}


def named(line: str, actions: tuple[Action, ...]) -> Action | None:
    """The action of an id, a label, a key, or of the first letters that only one id has."""
    words = " ".join(line.split())
    lower = words.lower()
    for action in actions:
        keys = {key for one in (*action.keys, *action.remote) for key in (one, shown(one))}
        if words and (words in keys or lower in (action.id, action.label.lower())):
            return action
    for action in actions:  # a key such as Space, typed as a word
        if lower and lower in {shown(one).lower() for one in action.keys}:
            return action
    found = [action for action in actions if lower and action.id.startswith(lower)]
    return found[0] if len(found) == 1 else None
