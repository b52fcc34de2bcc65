"""Unfold: flows, rounds and sides become one flat list that remembers where each line came from."""

from conductor.compiler.around import Here
from conductor.compiler.marks import Mark, attached
from conductor.compiler.model import Bit, Run, Unfolded
from conductor.compiler.resolve import Names
from conductor.compiler.rounds import stretches
from conductor.compiler.rules import found
from conductor.findings import Finding
from conductor.plan.model import (
    LEFT_OUT,
    Bell,
    Block,
    Free,
    Line,
    Mods,
    Move,
    Plan,
    Say,
    Stay,
    Step,
    Text,
    Way,
)
from conductor.sides import Breath, Side
from conductor.spans import Span
from conductor.values import replace

MOST_MOMENTS = 20_000
MOST_VISITS = 200_000  # steps looked at, moments or not: nested rounds of nothing end too

_BLANK = Bit("", "", Breath.FREE, Span("", 0, 0), 0)


class _TooLongError(Exception):
    """The class grew past the limit; carries where."""

    def __init__(self, span: Span) -> None:
        super().__init__(str(span))
        self.span = span


class _Unfolder:
    def __init__(self, plan: Plan, names: Names, without: frozenset[str]) -> None:
        self.plan = plan
        self.names = names
        self.without = without
        self.drops: dict[str, Span] = {}
        self.out: list[Bit | Mark] = []
        self.runs: list[Run] = []
        self.findings: dict[tuple[str, Span | None], Finding] = {}
        self.used: dict[tuple[int, Side | None], int] = {}
        self.templates: dict[int, Bit] = {}
        self.count = 0
        self.aside = False  # within another way
        self.visits = 0
        self.first_side = Side(plan.first_side.value) if plan.first_side else Side.RIGHT

    def say(self, finding: Finding) -> None:
        """Keep one finding for one fault, however often its line is led."""
        self.findings.setdefault((finding.rule, finding.span), finding)

    # -- steps ---------------------------------------------------------------------------------

    def steps(self, steps: tuple[Step, ...], here: Here) -> None:
        for index, step in enumerate(steps):
            self.visits += 1
            if self.visits > MOST_VISITS:
                raise _TooLongError(step.span)
            if self._led(step, here):
                self.step(step, here.down(str(index + 1)))

    def step(self, step: Step, here: Here) -> None:
        if isinstance(step, Block):
            self.block(step, here)
        elif isinstance(step, Say):
            self.out.append(Mark(lines=step.lines, span=step.span))
        elif isinstance(step, Bell):
            self.out.append(Mark(strokes=step.strokes, span=step.span, part=here.part))
        else:
            self.timed(step, here)

    def _led(self, step: Step, here: Here) -> bool:
        only = None if isinstance(step, Bell) else step.mods.only
        if only is None:
            return True
        if only.what in {"round", "last round"}:
            if not here.in_rounds:
                self.say(found("only-where", "there are no rounds around this step", only.span))
            last = only.what == "last round"
            most = max(here.round[1], here.most_rounds)
            missing = here.in_rounds and not last and only.number > most
            if missing and not self.without:  # some are left out then, which was no slip
                words = f"there are only {here.round[1]} rounds"
                self.say(found("only-where", words, only.span))
            return here.round[0] == (here.round[1] if last else only.number)
        if not here.pass_no:
            self.say(found("only-where", "there are no two sides around this step", only.span))
        return here.pass_no == (1 if only.what == "first side" else 2)

    # -- blocks --------------------------------------------------------------------------------

    def block(self, block: Block, here: Here) -> None:
        here = here.under(block.mods)
        steps = block.steps
        if block.flow:
            flow = self.plan.flows[block.flow.value]
            here = here.under(flow.mods)
            here = here.down(flow.name.value.replace("/", " "))
            steps = flow.steps
            self._may_drop(here.drop, flow.mods)
            if self._left_out(flow.mods):
                return
        self._may_drop(here.drop, block.mods)
        if here.drop in self.without or self._left_out(block.mods):
            return
        self._opening(block.mods)
        for around, inner in stretches(block, steps, here, self.first_side, self.without):
            start = len(self.out)
            self.steps(inner, around)
            if inner is not block.between:
                self._block_ways(block, start, around)

    def _may_drop(self, key: str, mods: Mods) -> None:
        if mods.may_drop:
            self.drops.setdefault(key, mods.may_drop.span)

    def _left_out(self, mods: Mods) -> bool:
        """Whether the plan itself says that it is left out."""
        if not mods.may_drop or mods.may_drop.value != LEFT_OUT:
            return False
        words = "this passage is left out, as is written here"
        self.say(found("left-out", words, mods.may_drop.span, "`may drop: yes` takes it in again"))
        return True

    def _opening(self, mods: Mods) -> None:
        if mods.say:
            self.out.append(Mark(lines=mods.say, span=mods.say[0].text.span))

    # -- movements and stays -------------------------------------------------------------------

    def timed(self, step: Move | Stay | Free, here: Here) -> None:
        known = self.templates.get(id(step))
        if known is None:
            known = self.templates[id(step)] = self._template(step)
        mods = step.mods
        drop = here.drop or (here.twin if mods.may_drop else "")
        self._may_drop(drop, mods)
        if drop in self.without or self._left_out(mods):
            return
        if mods.turn:
            self._turn(mods.turn, here)
        key = (id(step), here.pass_side)
        used = self.used[key] = self.used.get(key, 0) + 1
        bit = replace(
            known,
            path=here.path,
            twin=here.twin,
            part=here.part,
            inhale=known.inhale or here.inhale,
            exhale=known.exhale or here.exhale,
            tempo=None if known.inhale else here.tempo,
            round=here.round,
            pass_side=here.pass_side,
            pass_key=here.pass_key,
            mate_key=here.mate_key,
            mirrored=here.mirrored,
            form=self._form(mods, here, used),
            drop=drop,
            used=used,
        )
        if bit.verb == "come to":
            bit = _taking_time(bit)
        elif bit.verb == "stay" and bit.stretch is None and here.stretch:
            bit = replace(bit, stretch=here.stretch)
        self._emit(bit)
        count = 1
        if here.settle and isinstance(step, Move) and step.verb != "come to":
            self._settle(here, step)
            count = 2
        if mods.ways:
            self._step_ways(bit, count, here)

    def _template(self, step: Move | Stay | Free) -> Bit:
        """Make what a step is wherever it is led; a flow's steps are led many times."""
        mods = step.mods
        bit = replace(
            _BLANK,
            span=step.span,
            mods=mods,
            inhale=mods.breath.inhale if mods.breath else 0,
            exhale=mods.breath.exhale if mods.breath else 0,
            with_=mods.with_.value if mods.with_ else "",
            turn=mods.turn.value if mods.turn else "",
            through=tuple(self.names.shapes(mods.through)),
        )
        if isinstance(step, Move):
            return self._movement(bit, step)
        bit = replace(bit, halves=step.amount.halves, ms=step.amount.ms, stretch=mods.may_stretch)
        if isinstance(step, Stay):
            return replace(bit, verb="stay")
        to = self._named(bit, step.to) if step.to else bit
        return replace(to, verb="free", cycle=tuple(self.names.shapes(step.of)))

    def _movement(self, bit: Bit, move: Move) -> Bit:
        bit = self._named(bit, move.shape) if move.shape else bit
        over = move.mods.over
        ms = over.ms if over else 0
        if move.verb == "come to":
            return replace(bit, verb=move.verb, ms=ms, halves=over.halves if over else 2)
        halves = over.halves if over else 1
        return replace(bit, verb=move.verb, breath=Breath(move.verb), halves=halves, ms=ms)

    def _named(self, bit: Bit, text: Text) -> Bit:
        named = self.names.find(text)
        written = bit.mods.side
        if named is None:
            return bit
        side, other = named.side, False
        if written:
            if side and written.value in {"right", "left"} and written.value != side:
                self.say(
                    found(
                        "two-sides",
                        f"`side: {written.value}`, yet the name says {side}",
                        written.span,
                    )
                )
            other = written.value == "other"
            side = None if other else Side(written.value)
        if (side or other) and not named.shape.sided:
            where = written.span if written else bit.span
            self.say(found("no-sides", f"{named.shape.name} has no left and right", where))
            side, other = None, False
        return replace(bit, shape=named.shape, side_text=side, side_other=other)

    def _turn(self, turn: Text, here: Here) -> None:
        if turn.value in {"front", "back"} and here.pass_no:
            words = f"`turn: {turn.value}` stands in a passage that is led on both sides"
            self.say(found("turn-in-pass", words, turn.span, "turn: other end"))

    def _form(self, mods: Mods, here: Here, used: int) -> str:
        """Choose how much is said: as written by round; else full, then short (common practice)."""
        forms = mods.speak or here.speak
        if not forms:
            return "full" if used == 1 else "short"
        number = here.round[0] if here.in_rounds else used
        return forms[min(number, len(forms)) - 1]

    def _settle(self, here: Here, step: Move) -> None:
        here = here.down("settled")
        assert here.settle is not None  # noqa: S101 -- the caller asked only where it is set
        self._emit(
            Bit(
                path=here.path,
                twin=here.twin,
                verb="stay",
                breath=Breath.FREE,
                span=step.span,
                part=here.part,
                halves=here.settle.halves,
                ms=here.settle.ms,
                inhale=here.inhale,
                exhale=here.exhale,
                tempo=here.tempo,
                round=here.round,
                pass_side=here.pass_side,
                pass_key=here.pass_key,
                mate_key=here.mate_key,
                mirrored=here.mirrored,
                form="full",
                drop=here.drop,
            )
        )

    def _emit(self, bit: Bit) -> None:
        self.count += max(1, bit.halves)
        if self.count > MOST_MOMENTS:
            raise _TooLongError(bit.span)
        self.out.append(bit)

    # -- other ways ----------------------------------------------------------------------------

    def _block_ways(self, block: Block, start: int, here: Here) -> None:
        for level, way in self._ways(block.mods):
            main = [bit for bit in self.out[start:] if isinstance(bit, Bit)]
            if way.steps and main:
                self.runs.append(
                    Run(level, main[0].path, len(main), self._aside(way, here), way.span)
                )
            elif main:
                self._one_way(level, way, main[0])

    def _aside(self, way: Way, here: Here) -> tuple[Bit, ...]:
        kept, self.out, self.aside = self.out, [], True
        self.steps(way.steps, here.down(f"way{way.span.line}"))
        bits = attached(self.out)
        self.out, self.aside = kept, False
        if way.say and bits and not bits[0].mods.say:  # its words begin the way
            mods = replace(bits[0].mods, say=(Line("", way.say),))
            bits = (replace(bits[0], mods=mods), *bits[1:])
        return bits

    def _ways(self, mods: Mods) -> tuple[tuple[str, Way], ...]:
        """Give the other ways of a step; in one of them there are no more."""
        if not self.aside:
            return mods.ways
        for level, way in mods.ways:
            self.say(found("way-in-way", f"`{level}` stands within another way", way.span))
        return ()

    def _step_ways(self, bit: Bit, count: int, here: Here) -> None:
        for level, way in self._ways(bit.mods):
            if way.steps:
                self.runs.append(Run(level, bit.path, count, self._aside(way, here), way.span))
            else:
                self._one_way(level, way, bit)

    def _one_way(self, level: str, way: Way, bit: Bit) -> None:
        """Another way of a single step: a shape where the text names one, else words."""
        shape = way.shape or (way.text if way.text and self.names.known(way.text.value) else None)
        text = way.text or way.say or way.shape
        if shape is None:
            said = way.text is None and way.say is not None
            self.runs.append(Run(level, bit.path, 1, (), way.span, text, said))
            return
        say = (Line("", way.say),) if way.say else ()
        mods = replace(bit.mods, say=say, short=None, say_again=None, side=None)
        aside = self._named(replace(bit, mods=mods, path=f"{bit.path}/{level}"), shape)
        self.runs.append(Run(level, bit.path, 1, (aside,), way.span))


def _taking_time(bit: Bit) -> Bit:
    """Give a shape that is come to its time: what is written, else one breath."""
    breath = bit.inhale + bit.exhale
    ms = bit.ms or (bit.halves // 2) * breath + (bit.halves % 2) * bit.inhale
    return replace(bit, ms=ms, halves=0)


def unfold(
    plan: Plan,
    names: Names,
    without: frozenset[str] = frozenset(),
    parts: frozenset[int] | None = None,
) -> Unfolded:
    """Make the class one flat list, as it will be led; every problem is kept, once a line.

    Passages and rounds that may be dropped are left out when `without` has their key (`Bit.drop`).
    `parts` asks for the parts of these numbers alone.
    """
    unfolder = _Unfolder(plan, names, without)
    try:
        for number, part in enumerate(plan.parts):
            if parts is not None and number not in parts:
                continue
            here = Here(
                path=str(number + 1),
                twin=str(number + 1),
                part=number,
                inhale=4000,
                exhale=4000,
                speak=plan.speak,
            )
            here = here.breathing(plan.breath) if plan.breath else here
            here = here.under(part.mods)
            unfolder._may_drop(here.drop, part.mods)
            if here.drop not in without and not unfolder._left_out(part.mods):
                unfolder._opening(part.mods)
                unfolder.steps(part.steps, here)
    except _TooLongError as error:
        words = f"the class grows past {MOST_MOMENTS:,} moments here"
        unfolder.say(found("too-long", words, error.span, "fewer rounds, or a shorter stay"))
    return Unfolded(
        attached(unfolder.out),
        tuple(unfolder.runs),
        (*unfolder.findings.values(), *names.findings()),
        unfolder.drops,
    )
