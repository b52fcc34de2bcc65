"""All transitions, complete: what each command does in each state, or why it does nothing.

`Takes.act` names what is done (`conductor.engine.commands` does it), `to` the states it may lead
to. Even where a command is taken it may find nothing to do (no next moment, no other side); it
then says why and changes nothing. `BY_TIME` are the transitions that need no command.
"""

from collections.abc import Mapping

from conductor.engine.model import Do, State
from conductor.values import Struct

READY, ARRIVING, LEADING = State.READY, State.ARRIVING, State.LEADING
HOLDING, STOPPED, FINISHED = State.HOLDING, State.STOPPED, State.FINISHED


class Takes(Struct, frozen=True):
    """The command is taken: what is done, and to which states it may lead."""

    act: str
    to: tuple[State, ...]


class Refuses(Struct, frozen=True):
    """The command is refused, and why."""

    why: str


Cell = Takes | Refuses


def _takes(act: str, *to: State) -> Takes:
    return Takes(act, to)


NOT_BEGUN = Refuses("The class has not begun; begin first.")
BEGUN = Refuses("The class has begun already.")
GOING = Refuses("The class is going on already.")
COMING = Refuses("The class is only coming in; hold once it is there, or stop.")
WAITING = Refuses("The class is stopped; go on first.")
STOPPED_ALREADY = Refuses("The class is stopped already: go on takes it up.")
OVER = Refuses("The class is over.")

_JUMPS = {
    Do.NEXT: _takes("next", ARRIVING),
    Do.NEXT_PART: _takes("next part", ARRIVING),
    Do.PREVIOUS_PART: _takes("previous part", ARRIVING),
    Do.AGAIN: _takes("again", ARRIVING),
    Do.GO_TO: _takes("go to", ARRIVING),
    Do.REST: _takes("rest", ARRIVING),
}
_ENDS = {
    Do.STOP: _takes("stop", STOPPED),
    Do.SILENCE: _takes("silence", STOPPED),
    Do.SLEPT: _takes("slept", STOPPED),
    Do.END: _takes("end", FINISHED),
}


def _changes(state: State) -> dict[Do, Cell]:
    """What changes the class under way without moving it."""
    return {
        Do.SWAP: _takes("swap", state),
        Do.MORE: _takes("more", state),
        Do.FEWER: _takes("fewer", state),
        Do.LAND: _takes("land", state),
        Do.MARK: _takes("mark", state),
        **_always(state),
    }


def _always(state: State) -> dict[Do, Cell]:
    return {
        Do.SLOWER: _takes("slower", state),
        Do.FASTER: _takes("faster", state),
        Do.QUIET: _takes("quiet", state),
        Do.KEEP: _takes("keep", state),
        Do.VOICE_LOUDER: _takes("voice louder", state),
        Do.VOICE_SOFTER: _takes("voice softer", state),
        Do.BELLS_LOUDER: _takes("bells louder", state),
        Do.BELLS_SOFTER: _takes("bells softer", state),
        Do.LEVEL: _takes("level", state),
    }


TABLE: Mapping[State, Mapping[Do, Cell]] = {
    READY: {
        **dict.fromkeys(Do, NOT_BEGUN),
        Do.BEGIN: _takes("begin", ARRIVING),
        Do.END: _takes("end", FINISHED),
        Do.BACK: _takes("take back", READY),
        **_always(READY),
    },
    ARRIVING: {
        Do.BEGIN: BEGUN,
        Do.HOLD: COMING,
        Do.GO_ON: GOING,
        **_JUMPS,
        Do.BACK: _takes("back", ARRIVING, STOPPED),
        **_changes(ARRIVING),
        **_ENDS,
    },
    LEADING: {
        Do.BEGIN: BEGUN,
        Do.HOLD: _takes("hold", HOLDING),
        Do.GO_ON: GOING,
        **_JUMPS,
        Do.BACK: _takes("back", LEADING, ARRIVING, STOPPED),
        **_changes(LEADING),
        **_ENDS,
    },
    HOLDING: {
        Do.BEGIN: BEGUN,
        Do.HOLD: _takes("hold on", HOLDING),
        Do.GO_ON: _takes("let go", HOLDING, LEADING),
        **_JUMPS,
        Do.BACK: _takes("back", HOLDING, ARRIVING),
        **_changes(HOLDING),
        **_ENDS,
    },
    STOPPED: {
        Do.BEGIN: BEGUN,
        Do.HOLD: WAITING,
        Do.GO_ON: _takes("take up", ARRIVING),
        **_JUMPS,
        Do.BACK: _takes("back", STOPPED, ARRIVING),
        **_changes(STOPPED),
        **_ENDS,
        Do.STOP: STOPPED_ALREADY,
    },
    FINISHED: dict.fromkeys(Do, OVER),
}

BY_TIME: tuple[tuple[State, str, State], ...] = (
    (ARRIVING, "the run-in ends", LEADING),
    (HOLDING, "the asked breath comes", LEADING),
    (HOLDING, "the asked breath comes after the last moment", FINISHED),
    (LEADING, "the last moment ends", FINISHED),
)
