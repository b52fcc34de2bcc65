"""Flows by name: unknown ones, ones that call themselves, unused ones, and the size unfolded."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from conductor.plan import limits, rules
from conductor.plan.keys import nearest
from conductor.plan.model import Block, Flow, Free, Move, Plan, Stay, Step, Text
from conductor.plan.reading import Reading, quoted
from conductor.values import replace


def resolve(reading: Reading, plan: Plan) -> Plan:
    """The plan with each call under the flow's own spelling; what cannot be called is told."""
    calls = {name: tuple(_calls(flow.steps)) for name, flow in plan.flows.items()}
    called = [call for part in plan.parts for call in _calls(part.steps)]
    spelled = {_plain(name): name for name in plan.flows}
    everywhere = (*called, *(call for inner in calls.values() for call in inner))
    other = [call for call in everywhere if call.value not in plan.flows]
    unknown = [call for call in other if _plain(call.value) not in spelled]
    meant = {_tell_unknown(reading, plan, call) for call in unknown}
    graph = {name: _known(inner, spelled) for name, inner in calls.items()}
    sound = _walk(reading, graph)
    if plan.parts:
        used = meant | {name for name, _ in _known(called, spelled)}
        _tell_unused(reading, plan, used & plan.flows.keys(), graph)
    if sound:
        _Size(reading, plan, spelled).tell()
    return _respelled(plan, spelled) if other else plan


def _plain(name: str) -> str:
    return name.casefold()


def _calls(steps: Iterable[Step]) -> Iterator[Text]:
    for step in steps:
        if type(step) is Block:
            if step.flow:
                yield step.flow
            yield from _calls(step.steps)
            yield from _calls(step.between)
        mods = getattr(step, "mods", None)
        for _, way in mods.ways if mods else ():
            yield from _calls(way.steps)


def _known(calls: Iterable[Text], spelled: dict[str, str]) -> list[tuple[str, Text]]:
    return [(spelled[_plain(call.value)], call) for call in calls if _plain(call.value) in spelled]


def _tell_unknown(reading: Reading, plan: Plan, call: Text) -> str:
    """Tell of a call of nothing; gives the flow that was probably meant, or ""."""
    near = "" if reading.full else nearest(call.value, plan.flows)
    names = ", ".join(list(plan.flows)[:20])
    hint = f"Write '{near}'. " if near else ""
    hint += f"There are: {names}." if names else "Write it under 'flows:' at the top of the plan."
    reading.tell(rules.FLOW, f"there is no flow named {quoted(call.value)}", call.span, hint)
    return near


Graph = dict[str, list[tuple[str, Text]]]


def _walk(reading: Reading, graph: Graph) -> bool:
    """Tell each circle of calls at the call that closes it; gives whether all calls are sound.

    It does not recurse, so no plan is too deep for it.
    """
    done: set[str] = set()
    sound = True
    for start in graph:
        path: list[str] = []
        on_path: set[str] = set()
        todo: list[tuple[str, Text | None]] = [(start, None)]
        while todo:
            name, call = todo.pop()
            if call is None and path and path[-1] == name and name in on_path:
                on_path.discard(path.pop())
                done.add(name)
            elif name in on_path and call is not None:
                _tell_cycle(reading, path[path.index(name) :], call)
                sound = False
            elif name not in done and name not in on_path:
                path.append(name)
                on_path.add(name)
                todo.append((name, None))
                todo += reversed(graph[name])
    return sound and _shallow(reading, graph)


def _shallow(reading: Reading, graph: Graph) -> bool:
    """Tell of the first call that goes down too many flows; there are no circles here."""
    level = list(graph)
    for _ in range(limits.FLOW_DEPTH):
        level = list({name for flow in level for name, _ in graph[flow]})
    for flow in level:
        for _, call in graph[flow]:
            words = f"flows call each other more than {limits.FLOW_DEPTH} deep"
            reading.tell(rules.SIZE, words, call.span, "Write some of them out in one flow.")
            return False
    return True


def _tell_cycle(reading: Reading, names: list[str], call: Text) -> None:
    way = " > ".join((*names, names[0]))
    hint = "Take this call out; to lead a flow several times write 'rounds'."
    reading.tell(rules.CYCLE, f"this flow leads back into itself: {way}", call.span, hint)


def _tell_unused(reading: Reading, plan: Plan, called: set[str], graph: Graph) -> None:
    used, todo = set(called), list(called)
    while todo:
        for name, _ in graph[todo.pop()]:
            if name not in used:
                used.add(name)
                todo.append(name)
    for name, flow in plan.flows.items():
        if name not in used:
            words = f"the flow {quoted(name)} is never called"
            hint = f"Call it with '- flow: {name}', or delete it."
            reading.tell(rules.UNUSED, words, flow.name.span, hint)


class _Size:
    """How many half breaths the plan has, written out; counted, never unfolded."""

    def __init__(self, reading: Reading, plan: Plan, spelled: dict[str, str]) -> None:
        self.reading = reading
        self.plan = plan
        self.spelled = spelled
        self.flows: dict[str, int] = {}

    def tell(self) -> None:
        """Tell at the first step of a part with which the plan grows too long."""
        total = 0
        for part in self.plan.parts:
            for step in part.steps:
                total += self.of(step)
                if total > limits.HALF_BREATHS:
                    words = f"with this step the plan is {total} half breaths long, written out"
                    hint = f"{limits.HALF_BREATHS} can be led; take fewer rounds or shorter stays."
                    self.reading.tell(rules.LIMIT, words, step.span, hint)
                    return

    def of(self, step: Step) -> int:
        """Half breaths of one step."""
        if type(step) is Block:
            once = self.flow(step.flow) if step.flow else 0
            once += sum(map(self.of, step.steps))
            sides = 2 if step.each_side else 1
            return (
                max(step.rounds, step.most_rounds)
                * (sides * once + sum(map(self.of, step.between)))
                + 1
            )
        if type(step) is Stay or type(step) is Free:
            return step.amount.halves or step.amount.ms // limits.HALF_BREATH_MS[0] // 4 or 1
        if type(step) is Move:
            return step.mods.over.halves if step.mods.over else 1
        return 1

    def flow(self, call: Text) -> int:
        """Half breaths of a flow, counted once; calls go down without circles here."""
        name = self.spelled.get(_plain(call.value))
        if name is None:
            return 0
        if name not in self.flows:
            self.flows[name] = sum(map(self.of, self.plan.flows[name].steps))
        return self.flows[name]


def _respelled(plan: Plan, spelled: dict[str, str]) -> Plan:
    """Each call as the flow itself is spelled, so that it is found by its name."""

    def again(steps: tuple[Step, ...]) -> tuple[Step, ...]:
        return tuple(one(step) for step in steps)

    def one(step: Step) -> Step:
        if type(step) is not Block:
            return step
        flow = step.flow
        if flow and (name := spelled.get(_plain(flow.value))):
            flow = Text(name, flow.span)
        return replace(step, flow=flow, steps=again(step.steps), between=again(step.between))

    flows = {
        name: Flow(flow.name, again(flow.steps), flow.mods) for name, flow in plan.flows.items()
    }
    parts = tuple(replace(part, steps=again(part.steps)) for part in plan.parts)
    return replace(plan, parts=parts, flows=flows)
