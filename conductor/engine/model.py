"""What goes into the leader and what comes out: states, commands, replies, happenings, snapshot."""

from enum import StrEnum

from conductor.score.model import Score
from conductor.sides import Breath, Side
from conductor.values import Struct, field


class State(StrEnum):
    """The states of a class as it is led."""

    READY = "ready"
    ARRIVING = "arriving"  # a run-in before a moment is entered: real time, not score time
    LEADING = "leading"
    HOLDING = "holding"  # breath goes on and is counted, the class waits in the shape
    STOPPED = "stopped"  # everything waits
    FINISHED = "finished"


class Do(StrEnum):
    """The commands."""

    BEGIN = "begin"
    HOLD = "hold"
    GO_ON = "go on"
    STOP = "stop"
    SILENCE = "silence"
    NEXT = "next"
    BACK = "back"
    NEXT_PART = "next part"
    PREVIOUS_PART = "previous part"
    AGAIN = "again"
    GO_TO = "go to"
    SWAP = "swap sides"
    MORE = "one breath more"
    FEWER = "one breath fewer"
    SLOWER = "slower"
    FASTER = "faster"
    LAND = "land on time"
    KEEP = "keep to the clock"
    REST = "rest now"
    QUIET = "quiet"
    VOICE_LOUDER = "voice louder"
    VOICE_SOFTER = "voice softer"
    BELLS_LOUDER = "bells louder"
    BELLS_SOFTER = "bells softer"
    LEVEL = "level"
    MARK = "mark"
    SLEPT = "slept"
    END = "end"


class Command(Struct, frozen=True):
    """A command; `ms` is the gap of SLEPT or the time left of LAND.

    `word` is the level of LEVEL and the id of the moment of GO_TO. `press` names the key it came
    from, where a second press within a moment counts once.
    """

    do: Do
    ms: int = 0
    word: str = ""
    press: str = ""


class Reply(Struct, frozen=True):
    """What became of a command: `words` say what was done, or why nothing was.

    `costs` say what that does to the end of the class, and which side it leaves owing.
    """

    done: bool
    words: str
    costs: str = ""

    @property
    def told(self) -> str:
        """All of it, as it is shown."""
        return f"{self.words} {self.costs}".strip()


class Owed(Struct, frozen=True):
    """A side that has been led for so much less time (score ms) than the other."""

    side: Side
    ms: int


class Position(Struct, frozen=True):
    """Where a class broke off, from its journal: what it takes to go on with it.

    `now`, `begun` and `planned_end` are ms of the now it goes on in, so `begun` may be negative.
    `pos` (score ms) is where it stood within moment `index`, if that is known.
    """

    index: int
    now: int
    begun: int
    planned_end: int
    pos: int = 0
    pace: int = 1000
    pass_no: int = 0
    level: str = ""
    quiet: bool = False
    swapped: bool = False


class Happening(Struct, frozen=True):
    """Something that happened at `now`: for the journal and the plain front end.

    `kind`: state, moment, part, cue, bell, dropped, command, refused, slept, offer, kept (to the
    clock), finished, held (half a breath counted while holding), or mark (a place the person
    marked).
    """

    now: int
    kind: str
    moment: str = ""
    words: str = ""
    data: tuple[tuple[str, str | int], ...] = ()


class Snapshot(Struct, frozen=True):
    """One immutable picture of the class at `now`; the screen draws from it alone.

    `score` is the score as led (a refit replaces it). While leading, moment `index` runs from
    `entered` to `leaves` in `now` ms. While arriving, it will be entered at `entered`. While
    holding, `held` half breaths have been counted and the present one runs from `entered` to
    `leaves`. While stopped `leaves` is None. `ends_at` and `planned_end` are in `now` ms: where the
    class will end as it stands, and where it should. `offers` are the commands accepted now.
    `breath` is the half being breathed, held ones too. While holding, `resumes_at` is when a go on
    already given takes effect (`now` ms), None when none was given. `takes_back` is the command
    that back would take back now, "" where it means the shape before. `keeps` says that the class
    is kept to the clock; `begin_now` what beginning now would change, before a class with an end.
    `owed` are the sides led for less time than the other, with nothing more of them to come.
    """

    state: State
    now: int
    score: Score
    index: int
    entered: int
    leaves: int | None
    pace: int  # per mille: 1000 as written, 1100 a tenth slower
    pass_no: int
    held: int
    ends_at: int
    planned_end: int
    offers: frozenset[Do]
    reply: Reply | None = None
    quiet: bool = False
    silenced: bool = False
    swapped: bool = False
    level: str = ""
    voice_db: int = 0  # how much louder than as rendered the voice is
    bells_db: int = 0
    offer: str = ""  # a resting shape offered while holding in a shape that loads
    saying: str = ""  # the words being said, or to be said by the teacher, now
    begun: int = 0  # `now` of begin
    data: tuple[tuple[str, str], ...] = field(default_factory=tuple)
    breath: Breath | None = None
    resumes_at: int | None = None
    takes_back: str = ""
    keeps: bool = False
    begin_now: str = ""
    owed: tuple[Owed, ...] = ()
