"""The leader once more, slow and obvious: a list of moments and a hand that moves 50 ms at a time.

It knows the small class of `make` only, at the pace as written, with its cues' leads.
"""

from copy import copy
from dataclasses import dataclass, replace

from conductor.engine.model import Do
from tests.engine.make import SHAPES, small

STEP = 50
BREATH = 4000
JUMPS = {Do.NEXT, Do.NEXT_PART, Do.PREVIOUS_PART, Do.AGAIN, Do.GO_TO, Do.REST}
ALWAYS = {
    Do.QUIET, Do.VOICE_LOUDER, Do.VOICE_SOFTER, Do.BELLS_LOUDER, Do.BELLS_SOFTER
}  # fmt: skip
CHANGES = {Do.MORE, Do.FEWER, Do.SWAP} | ALWAYS


@dataclass(frozen=True)
class Bit:
    """One moment; `stay` is the stay it is in, `before` the stay it leads into."""

    name: str
    breath: str
    ms: int
    part: int
    side: str
    stay: str
    before: str
    lands: bool
    early: bool
    moves: bool
    words: tuple[int, ...]  # where in it words begin, if it is a stretch of time


def bits() -> list[Bit]:
    moments = small().moments
    found = []
    for moment, after in zip(moments, [*moments[1:], None], strict=True):
        leads = after is not None and not moment.hold and after.shape == moment.shape
        words = {"stand": (-400,), "rest.0": (300,)}.get(moment.id, ())
        found.append(
            Bit(
                name=moment.id,
                moves=moment.arriving,
                breath=str(moment.breath),
                ms=moment.length,
                part=moment.part,
                side=str(moment.pass_side or ""),
                stay=moment.hold,
                before=after.hold if leads and after else "",
                lands=SHAPES[moment.shape].landing,
                early=moment.early,
                words=words,
            )
        )
    return found


class Slow:
    """Obeys and answers True, or refuses and answers False."""

    def __init__(self) -> None:
        self.bits = bits()
        self.state = "ready"
        self.now = 0
        self.index = 0
        self.at = 0  # ms into the moment; below 0 while coming in to its start
        self.wait = 0  # ms of run-in left
        self.half = ""
        self.half_left = 0
        self.held = 0
        self.asked = False
        self.since = 0
        self.slept = False
        self.silent = False
        self.quiet = False
        self.voice = self.bells = 0
        self.goal = -1
        self.said: list[tuple[int, int]] = []
        self.sides = {"right": 0, "left": 0}  # ms led of each
        self.least = 20_000  # of the rest, ms
        self.planned = 0  # where the class should end
        self.owed = 0  # of the one, by which the other was led for longer
        self.log: list[str] = []  # names of all moments entered or jumped to
        self.above: tuple[list[Bit], int] | None = None  # bits and least before rest now
        self.undo: list[tuple[Do, Slow]] = []  # what was asked, and a copy from before that

    # -- time --------------------------------------------------------------------------------

    def pass_time(self, ms: int) -> None:
        for _ in range(ms // STEP):
            self.now += STEP
            if self.state == "arriving":
                self.arrive()
            elif self.state == "leading":
                self.lead()
            elif self.state == "holding":
                self.hold_on()

    def arrive(self) -> None:
        self.wait -= STEP
        if self.at <= 0:
            self.speak(self.at - self.wait)
        if self.wait == 0:
            self.state = "leading"
            self.speak(self.at)

    def lead(self) -> None:
        self.at += STEP
        self.speak(self.at)
        if self.at == self.bits[self.index].ms:
            self.enter_next()

    def enter_next(self) -> None:
        here = self.bits[self.index]
        if here.side:
            self.sides[here.side] += here.ms
        self.at = 0
        self.said = []
        self.state = "leading"
        if self.index + 1 == len(self.bits):
            self.state = "finished"
        else:
            self.index += 1
            self.log.append(self.bits[self.index].name)

    def hold_on(self) -> None:
        self.half_left -= STEP
        if self.half_left:
            return
        other = "in" if self.half == "out" else "out"
        last = self.index + 1 == len(self.bits)
        follows = last or self.bits[self.index + 1].breath in {other, "free"}
        if self.asked and (follows or self.held == 0):
            self.asked = False
            self.enter_next()
            return
        self.half, self.half_left, self.held = other, BREATH, self.held + 1

    def speak(self, at: int) -> None:
        """Words of a stretch of time last 900 ms, and are wanted for 1 s more."""
        if at in self.bits[self.index].words and at not in [word for word, _ in self.said]:
            self.said.append((at, self.now + 1900))

    # -- what is left ------------------------------------------------------------------------

    def left_here(self) -> int:
        return self.bits[self.index].ms - max(self.at, 0)

    def left_after(self) -> int:
        return sum(bit.ms for bit in self.bits[self.index + 1 :])

    def left_of_hold(self) -> int:
        """Until a go on given now takes effect, or one given already does."""
        here = self.bits[self.index]
        if here.breath == "free":
            return self.left_here()
        following = [bit.breath for bit in self.bits[self.index + 1 : self.index + 2]]
        again = self.held > 0 and following == [self.half]
        return self.half_left + (BREATH if again else 0)

    def owing(self) -> int:
        """By how much one side will have been led for longer than the other."""
        whole = dict(self.sides)
        for bit in self.bits[self.index :] if self.state != "finished" else []:
            if bit.side:
                whole[bit.side] += bit.ms
        over = abs(whole["right"] - whole["left"])
        return over if over >= 20_000 else 0

    # -- commands ----------------------------------------------------------------------------

    def do(self, what: Do, to: int = -1) -> bool:
        self.goal = to
        name = "do_" + what.name.lower()
        if self.state == "finished":
            return False
        if self.state == "ready" and what not in {Do.BEGIN, Do.END, Do.BACK} | ALWAYS:
            return False
        before, undo = copy(self), self.undo
        before.bits, before.log = list(self.bits), list(self.log)
        before.sides = dict(self.sides)
        done: bool = getattr(self, name)()
        if done:
            self.owed = self.owing()
        if done and what not in {Do.BACK, Do.MARK}:
            self.undo = [*undo, (what, before)][-8:] if what in JUMPS | CHANGES else []
        return done

    def jump(self, index: int, at: int = 0, wait: int | None = None) -> bool:
        if wait is None:
            wait = 3000 if self.bits[index].early and at == 0 else 400
        self.state, self.index, self.at, self.wait = "arriving", index, at, wait
        self.slept = self.silent = self.asked = False
        self.said = []
        self.held = 0
        self.log.append(self.bits[index].name)
        if at == 0:
            self.speak(-wait)
        return True

    def go(self, index: int) -> bool:
        """A jump asked for; before the closing the rest is again as it was before rest now."""
        if self.above and self.bits[index].part < 2:
            (was, self.least), self.above = self.above, None
            self.bits = list(was)
        return self.jump(index)

    def do_begin(self) -> bool:
        if self.state != "ready":
            return False
        self.planned = self.now + 3000 + sum(bit.ms for bit in self.bits)
        return self.jump(0, wait=3000)

    def do_end(self) -> bool:
        self.state = "finished"
        self.silent = False
        return True

    def do_hold(self) -> bool:
        if self.state == "holding" and self.asked:
            self.asked = False
            return True
        if self.state != "leading":
            return False
        self.state, self.held, self.asked = "holding", 0, False
        bit = self.bits[self.index]
        free = bit.breath == "free"
        self.half = "in" if free else bit.breath
        self.half_left = BREATH if free else bit.ms - self.at
        return True

    def do_go_on(self) -> bool:
        if self.state == "stopped":
            return self.take_up()
        if self.state != "holding" or self.asked:
            return False
        if self.bits[self.index].breath == "free":
            self.state = "leading"
        else:
            self.asked = True
        return True

    def take_up(self) -> bool:
        if not self.slept and self.now - self.since < 20_000:
            return self.jump(self.index, self.at)
        landing = [i for i in range(self.index + 1) if self.bits[i].lands]
        to = landing[-1] if landing else 0
        for bit in self.bits[to : self.index]:
            if bit.side:
                self.sides[bit.side] = max(self.sides[bit.side] - bit.ms, 0)
        return self.jump(to, self.at if to == self.index else 0, wait=8000)

    def do_stop(self) -> bool:
        if self.state == "stopped":
            return False
        if self.bits[self.index].breath != "free":
            self.at = 0
        elif self.state == "leading":
            cut = [at for at, ends in self.said if ends > self.now]
            self.at = max(min([self.at, *cut]), 0)
        self.state, self.since = "stopped", self.now
        self.asked = False
        return True

    def do_silence(self) -> bool:
        if self.silent:
            return False
        self.do_stop()
        self.silent = True
        return True

    def do_slept(self) -> bool:
        self.do_stop()
        self.slept = True
        return True

    def group(self, index: int) -> list[int]:
        stay = self.bits[index].stay
        return [i for i, bit in enumerate(self.bits) if stay and bit.stay == stay] or [index]

    def do_next(self) -> bool:
        after = self.group(self.index)[-1] + 1
        return after < len(self.bits) and self.jump(after)

    def do_quiet(self) -> bool:
        self.quiet = not self.quiet
        return True

    def do_voice_louder(self) -> bool:
        self.voice += 3
        return self.voice <= 3 or self.no(voice=3)

    def do_voice_softer(self) -> bool:
        self.voice -= 3
        return self.voice >= -24 or self.no(voice=-24)

    def do_bells_louder(self) -> bool:
        self.bells += 3
        return self.bells <= 0 or self.no(bells=0)

    def do_bells_softer(self) -> bool:
        self.bells -= 3
        return self.bells >= -24 or self.no(bells=-24)

    def no(self, **as_before: int) -> bool:
        vars(self).update(as_before)
        return False

    # -- taking back -------------------------------------------------------------------------

    def take_back(self) -> bool:
        """Whether the last command could be taken back, and was."""
        if not self.undo or self.now - self.undo[-1][1].now > 10_000:
            return False
        what, old = self.undo[-1]
        if what in JUMPS:
            self.undo.pop()
            self.jump_back(old)
            return True
        if not self.change_back(what, old):
            return False
        self.undo.pop()
        return True

    def jump_back(self, old: "Slow") -> None:
        self.bits, self.least, self.above = old.bits, old.least, old.above
        self.log = list(old.log)  # where it had jumped to was not led on the way here
        if old.state == "stopped":
            for name in ("state", "index", "at", "since", "slept", "silent"):
                setattr(self, name, getattr(old, name))
            self.log.append(self.bits[self.index].name)
            return
        at = max(old.at, 0)
        if self.bits[old.index].breath != "free":
            at = 0
        elif old.state == "leading":
            at = max(min([old.at, *(at for at, ends in old.said if ends > old.now)]), 0)
        self.jump(old.index, at)

    def change_back(self, what: Do, old: "Slow") -> bool:
        if what in ALWAYS:
            self.quiet, self.voice, self.bells = old.quiet, old.voice, old.bells
            return True
        if what is Do.SWAP:
            if self.bits[self.index].side:
                return self.do_swap()
            self.bits = old.bits
            self.sides = {"right": self.sides["left"], "left": self.sides["right"]}
            return True
        led = [old.bits[old.index].name, *self.log[len(old.log) :]]
        here = led[-1]
        names = [bit.name for bit in old.bits]
        if here not in names:
            after = max(names.index(name) for name in led if name in names) + 1
            self.log = [name for name in self.log if name in names]  # the rest was cut short
            self.bits = old.bits
            return self.jump(after)
        missing = [n for n in names[old.index : names.index(here)] if n not in led]
        if missing:
            again, known = names[names.index(missing[0]) :], len(old.log)
            since = [name for name in self.log[known:] if name not in again]  # those come once more
            self.log = [*self.log[:known], *since]
            self.bits = old.bits
            return self.jump(names.index(missing[0]))
        if any(name not in names for name in led):
            return False
        if self.at >= old.bits[names.index(here)].ms:  # of the rest, longer until now
            self.bits, self.least = old.bits, old.least
            return self.jump(names.index(here) + 1)
        self.bits, self.index, self.least = old.bits, names.index(here), old.least
        return True

    def do_back(self) -> bool:
        if self.take_back():
            return True
        if self.state == "ready":
            return False
        self.undo = []
        first = self.group(self.index)[0]
        spent = sum(bit.ms for bit in self.bits[first : self.index]) + self.at
        fresh = self.state == "arriving" or (self.state == "leading" and spent < 2000)
        if first and fresh:
            first = self.group(first - 1)[0]
        return self.go(first)

    def to_part(self, part: int) -> bool:
        there = [i for i, bit in enumerate(self.bits) if bit.part == part]
        return bool(there) and self.go(there[0])

    def do_next_part(self) -> bool:
        return self.to_part(self.bits[self.index].part + 1)

    def do_previous_part(self) -> bool:
        return self.to_part(self.bits[self.index].part - 1)

    def do_go_to(self) -> bool:
        return 0 <= self.goal < len(self.bits) and self.go(self.goal)

    def do_mark(self) -> bool:
        return True

    def do_rest(self) -> bool:
        """All stances here are alike, so the last movement before the rest is the way down."""
        resting = next(i for i, bit in enumerate(self.bits) if bit.stay == "rest")
        there = [i for i, bit in enumerate(self.bits[: resting + 1]) if bit.moves]
        if self.bits[self.index].part == 2:
            return False
        self.above = self.above or (list(self.bits), self.least)
        self.jump(there[-1])
        rest = self.bits[resting]
        late = self.now + self.wait + rest.ms + self.left_here() - self.planned
        late += sum(bit.ms for bit in self.bits[resting + 1 :])
        if late > 0:
            self.bits[resting] = replace(rest, ms=max(rest.ms - late, self.least))
        return True

    def do_again(self) -> bool:
        """The start of this side; between the sides and elsewhere, of what has no side here."""
        here = self.bits[self.index]
        first = self.index
        while first and (self.bits[first - 1].side, self.bits[first - 1].part) == (
            here.side,
            here.part,
        ):
            first -= 1
        return self.go(first)

    def do_swap(self) -> bool:
        side = self.bits[self.index].side
        if not side:
            return False
        first = [i for i, bit in enumerate(self.bits) if bit.side]
        one = self.bits[first[0]].side
        early = [i for i in first if self.bits[i].side == one]
        late = [i for i in first if self.bits[i].side != one]
        mine, theirs = (early, late) if side == one else (late, early)
        offset = min(mine.index(self.index), len(theirs) - 1)
        stretch = [self.bits[i] for i in range(early[0], late[-1] + 1)]
        a, b = len(early), len(stretch) - len(late)
        self.bits[early[0] : late[-1] + 1] = [*stretch[b:], *stretch[a:b], *stretch[:a]]
        start = early[0] if side == one else early[0] + len(late) + b - a
        self.index = start + offset
        self.sides = {"right": self.sides["left"], "left": self.sides["right"]}
        return True

    def do_more(self) -> bool:
        return self.resize(1)

    def do_fewer(self) -> bool:
        return self.resize(-1)

    def resize(self, by: int) -> bool:
        here = self.bits[self.index]
        stay = here.stay or here.before
        mine = [i for i, bit in enumerate(self.bits) if bit.stay == stay]
        if not stay:
            return False
        if stay == "rest":
            bit = self.bits[mine[0]]
            if by < 0 and bit.ms - max(self.at, 0) - 1 < 8000:
                return False
            self.bits[mine[0]] = replace(bit, ms=bit.ms + 8000 * by)
            self.least = bit.ms + 8000 * by
            return True
        kept = [i for i in mine if i <= self.index] or mine[:1]
        if by < 0 and len(mine) - len(kept) < 2:
            return False
        want = len(mine) + 2 * by
        mate = {"h right": "h left", "h left": "h right"}[stay]
        theirs = [i for i, bit in enumerate(self.bits) if bit.stay == mate]
        for name in [stay, mate] if theirs[0] > self.index else [stay]:
            self.grow(name, want)
        return True

    def grow(self, stay: str, want: int) -> None:
        mine = [i for i, bit in enumerate(self.bits) if bit.stay == stay]
        one = self.bits[mine[0]]
        new = [replace(one, name=f"{stay}.{n}", breath=("in", "out")[n % 2]) for n in range(want)]
        self.bits[mine[0] : mine[-1] + 1] = new
