"""A journal's lines told as stretches of time: led, held, stopped, away, coming in."""

from collections.abc import Iterable, Mapping

from conductor.engine.course import TIMED_MS
from conductor.engine.landing import AGAIN
from conductor.engine.led import PACES
from conductor.engine.model import Do
from conductor.run.review.model import Doing, Ending, Stretch
from conductor.score.model import Moment, Score
from conductor.sides import Breath, Side
from conductor.values import Struct, replace

Line = Mapping[str, object]

_DOING = {
    "arriving": Doing.COMING,
    "leading": Doing.LED,
    "holding": Doing.HELD,
    "stopped": Doing.STOPPED,
}
_PACED: dict[str, int] = {Do.SLOWER: PACES.step, Do.FASTER: -PACES.step}
UNDONE = "Undone: "  # so begins the reply of back where it took a command back
TAKEN_BACK = "taken back"
KEPT = "kept to the clock"  # nobody asked: stays were changed to end on time


class Asked(Struct, frozen=True):
    """A command that was obeyed, ms after the first moment began."""

    at: int
    do: str


class Story(Struct, frozen=True):
    """What happened, ms from the first moment on; `began` is its `now`."""

    began: int
    stretches: tuple[Stretch, ...]
    asked: tuple[Asked, ...]
    ending: Ending


def number(line: Line, key: str, otherwise: int = 0) -> int:
    """A whole number of a line, or what stands for one that is missing or of another kind."""
    value = line.get(key)
    return value if isinstance(value, int) and not isinstance(value, bool) else otherwise


def text(line: Line, key: str) -> str:
    """A text of a line, "" where there is none."""
    value = line.get(key)
    return value if isinstance(value, str) else ""


def _taken_back(words: str) -> str:
    """The command that a reply says was taken back, "" where it says nothing of the kind."""
    if not words.startswith(UNDONE):
        return ""
    named = words.removeprefix(UNDONE).split(".")[0]
    if named.startswith("voice "):
        return Do.QUIET
    return Do.LEVEL if named.startswith("led ") else named


def story(told: Iterable[Line], score: Score) -> Story:
    """Follow the lines in order; kinds and fields that are not known are passed over."""
    teller = _Teller(score)
    for line in told:
        teller.hear(line)
        if teller.over:
            break
    return teller.end()


class _Teller:
    """Follows a class line by line; `now` never goes back, whatever a line says."""

    def __init__(self, score: Score) -> None:
        self._moments: dict[str, Moment] = {one.id: one for one in score.moments}
        self._began: int | None = None
        self._now = 0
        self._here = Stretch(0, 0, Doing.COMING, "", "", "", 0, "")
        self._done: list[Stretch] = []
        self._asked: list[Asked] = []
        self._part = 0
        self._leaves = 0  # when the moment ends by itself
        self._held_from: int | None = None
        self._ending = Ending.BROKE_OFF
        self.over = False

    def hear(self, line: Line) -> None:
        """Take in one line."""
        self._now = max(self._now, number(line, "now"))
        self._ripen()
        match text(line, "kind"):
            case "part":
                self._part = number(line, "part", self._part)
            case "moment":
                self._moment(line)
            case "state":
                self._state(text(line, "state"))
            case "command" if not text(line, "words").endswith(AGAIN):
                self._command(text(line, "do"), _taken_back(text(line, "words")))
            case "kept":
                self._asked.append(Asked(self._now, KEPT))
            case "slept":
                self._slept(number(line, "ms"))
            case "finished":
                last = self._asked[-1] if self._asked else None
                by_hand = last is not None and (last.do, last.at) == (Do.END, self._now)
                self._ending = Ending.ENDED if by_hand else Ending.FINISHED
                self.over = True

    def _moment(self, line: Line) -> None:
        name = text(line, "moment")
        known = self._moments.get(name)
        if self._began is None:
            self._began = self._now
        if known is not None:
            self._part = known.part
        new = Stretch(
            start=self._now,
            end=self._now,
            doing=Doing.LED,
            moment=name,
            shape=text(line, "shape") or (known.shape if known else ""),
            side=text(line, "side") or (str(known.side or "") if known else ""),
            part=self._part,
            hold=text(line, "hold") or (known.hold if known else ""),
            pace=max(number(line, "pace", 1000), 1),
        )
        length = number(line, "length", known.length if known else 0)
        breath = text(line, "breath") or (known.breath if known else "")
        timed = length > TIMED_MS or breath == Breath.FREE
        self._leaves = self._now + (0 if timed else length * new.pace // 1000)
        self._turn(self._now, new)

    def _state(self, state: str) -> None:
        doing = _DOING.get(state)
        if doing is Doing.HELD and self._here.doing is Doing.LED and self._leaves > self._now:
            self._held_from = self._leaves  # the half breath that runs is led to its end
        elif doing is not None and (doing is not self._here.doing or self._held_from is not None):
            self._turn(self._now, replace(self._here, doing=doing))

    def _ripen(self) -> None:
        """A hold begins with the half breath after the one in which it was asked for."""
        if self._held_from is not None and self._held_from <= self._now:
            self._turn(self._held_from, replace(self._here, doing=Doing.HELD))

    def _command(self, do: str, undid: str) -> None:
        if undid:
            self._forget(undid)
        self._asked.append(Asked(self._now, TAKEN_BACK if undid else do))
        by = _PACED.get(do, 0) - _PACED.get(undid, 0)
        if by:
            held_from = self._held_from
            self._turn(self._now, replace(self._here, pace=max(self._here.pace + by, 1)))
            self._held_from = held_from
        if Do.SWAP in (do, undid):
            self._swap()

    def _forget(self, do: str) -> None:
        """A command that was taken back was not obeyed after all."""
        for at in range(len(self._asked) - 1, -1, -1):
            if self._asked[at].do == do:
                del self._asked[at]
                return

    def _slept(self, gap: int) -> None:
        """The gap is time away; after it the class is stopped, if it was not so before."""
        since = max(self._now - gap, self._here.start)
        self._turn(since, replace(self._here, doing=Doing.AWAY))
        self._turn(self._now, replace(self._here, doing=Doing.STOPPED))

    def _swap(self) -> None:
        """The room has been on the other side since this pass began."""
        known = self._moments.get(self._here.moment)
        if known is None or not known.pass_key:
            return
        self._here = self._other(self._here)
        for at in range(len(self._done) - 1, -1, -1):
            before = self._moments.get(self._done[at].moment)
            if before is None or before.pass_key != known.pass_key:
                return
            self._done[at] = self._other(self._done[at])

    def _other(self, stretch: Stretch) -> Stretch:
        moment = self._moments[stretch.moment]
        mate = self._moments.get(moment.mate)
        side = str(Side(stretch.side).other) if stretch.side in [*Side] else stretch.side
        hold = mate.hold if mate else stretch.hold
        return replace(stretch, moment=mate.id if mate else stretch.moment, side=side, hold=hold)

    def _turn(self, now: int, new: Stretch) -> None:
        """Something else begins; what lasted no time is forgotten."""
        self._held_from = None
        if now > self._here.start and self._began is not None:
            self._done.append(replace(self._here, end=now))
        self._here = replace(new, start=now, end=now)

    def end(self) -> Story:
        """The story, its times counted from the first moment."""
        self._turn(self._now, self._here)
        began = self._began or 0
        kept = [one for one in self._done if one.end > began]
        return Story(
            began=began,
            stretches=tuple(
                replace(one, start=max(one.start, began) - began, end=one.end - began)
                for one in kept
            ),
            asked=tuple(replace(one, at=one.at - began) for one in self._asked),
            ending=self._ending,
        )
