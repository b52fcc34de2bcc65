"""Steps: a list of mappings, each with one verb, becomes typed steps with their places."""

from __future__ import annotations

from conductor.plan import keys, limits, rules, values
from conductor.plan.model import (
    Amount,
    Bell,
    Block,
    Free,
    Mods,
    Move,
    Say,
    Stay,
    Step,
    Stretch,
)
from conductor.plan.mods import NONE, Pairs, modifiers, say
from conductor.plan.reading import Items, Node, Reading, Scalar, Table, quoted
from conductor.values import replace

_HINT = "Write steps as a list: each on its own line, with '- ' before it."


def steps(reading: Reading, key: Scalar, node: Node) -> tuple[Step, ...]:
    """The steps under a key; what is no step is told and left out."""
    if type(node) is Items and node.items:
        read = (step(reading, item) for item in node.items)
        return tuple(found for found in read if found is not None)
    if type(node) is Table:
        words = f"a mapping stands under {quoted(key.value)} where a list of steps is asked for"
        reading.tell(rules.FORM, words, reading.span(node), _HINT)
    elif type(node) is Scalar and node.value:
        words = f"{quoted(node.value)} stands where a list of steps is asked for"
        reading.tell(rules.FORM, words, reading.span(node), _HINT)
    else:
        span = reading.span(key)
        reading.tell(rules.MISSING, f"there are no steps under {quoted(key.value)}", span, _HINT)
    return ()


def step(reading: Reading, node: Node) -> Step | None:
    """One step, or None with the fault told."""
    if type(node) is not Table:
        _tell_no_step(reading, node)
        return None
    pairs = keys.known(reading, node, keys.ANY)
    verbs = [name for name in pairs if name in keys.VERBS]
    if not verbs:
        if "say" in pairs:
            return _say(reading, node, pairs)
        _tell_no_verb(reading, node, pairs)
        return None
    verb = verbs[0]
    if len(verbs) > 1 and not _one_verb(reading, pairs, verbs):
        return None
    if verb in _READERS:
        return _READERS[verb](reading, node, pairs)
    return _block(reading, node, pairs)


def _tell_no_step(reading: Reading, node: Node) -> None:
    if type(node) is Items:
        words, hint = "a list stands where a step is asked for", "Take away one of the dashes."
    elif type(node) is Scalar and node.value:
        words = f"{quoted(node.value)} is no step: a step begins with a verb and a colon"
        hint = _as_step(node.value)
    else:
        words, hint = "an empty step stands here", "Write a step after the dash, or delete it."
    rule = rules.MISSING if words.startswith("an empty") else rules.FORM
    reading.tell(rule, words, reading.span(node), hint)


def _as_step(value: str) -> str:
    """The step that was probably meant by a text."""
    for verb in sorted(keys.VERBS | {"say"}, key=len, reverse=True):
        for sign in (" ", ":"):
            if value.lower().startswith(verb + sign):
                return f"Write: {verb}: {value[len(verb) + 1 :].strip()}"
    return f"Write it like: in: {value}, or: say: {value}"


def _tell_no_verb(reading: Reading, node: Table, pairs: Pairs) -> None:
    first = next(iter(pairs), "")
    words = f"this step has no verb, only {quoted(first)}" if first else "this step has no verb"
    also = "come to, in, out, stay, free, flow, rounds, each side, steps, say, bell"
    hint = f"Begin it with one of: {also}. A modifier is indented under its step, with no dash."
    if not reading.findings or reading.findings[-1].span != reading.span(node) or first:
        reading.tell(rules.VERB, words, reading.span(node), hint)


def _one_verb(reading: Reading, pairs: Pairs, verbs: list[str]) -> bool:
    """Whether several verbs may stand together: flow, rounds and each side may."""
    blocks = [verb for verb in verbs if verb in keys.BLOCKS]
    if len(blocks) == len(verbs) and not ("flow" in blocks and "steps" in blocks):
        return True
    first, second = verbs[0], verbs[1]
    if len(blocks) == len(verbs):
        first, second = sorted(("flow", "steps"), key=verbs.index)
    span, other = (reading.step_span(*pairs[verb]) for verb in (second, first))
    reading.tell(
        rules.VERB,
        f"this step has two verbs, '{first}' and '{second}'",
        span,
        _two_hint(first, second),
        ((other, "the first one"),),
    )
    return False


def _two_hint(first: str, second: str) -> str:
    if {first, second} == {"flow", "steps"}:
        return "Call the flow or write the steps; for both, make two steps of it."
    if second == "steps":
        return "Put it into the list under 'steps', or make a step of each."
    if second in {"rounds", "each side"}:
        return f"Put '{first}' into the 'steps' of a block with '{second}'."
    return f"Begin a new step: write '- ' before '{second}'."


def _checked(reading: Reading, node: Table, pairs: Pairs, place: keys.Place) -> Pairs:
    """The pairs that may stand at this kind of step; quick when all of them may."""
    if pairs.keys() <= place.keys:
        return pairs
    if pairs is node.pairs:
        return keys.known(reading, node, place)
    again = Table(node.start)
    again.pairs = dict(pairs)
    return keys.known(reading, again, place)


def _mods(reading: Reading, pairs: Pairs, place: keys.Place) -> Mods:
    return NONE if len(pairs) == 1 else modifiers(reading, pairs, place, steps)


def _move(reading: Reading, node: Table, pairs: Pairs) -> Move | None:
    pairs = _checked(reading, node, pairs, keys.MOVE)
    verb = next(name for name in pairs if name in keys.MOVES)
    key, value = pairs[verb]
    shape = values.text(reading, key, value, f"Write a shape: {verb}: mountain.")
    mods = _mods(reading, pairs, keys.MOVE)
    if shape is None:
        return None
    if shape.value.lower() == "same":
        if verb == "come to":
            hint = "Name the shape; for half a breath in place write 'in: same' or 'out: same'."
            reading.tell(rules.WORD, "'come to' leads into a shape", shape.span, hint)
        shape = None
    return Move(verb, shape, reading.step_span(key, value), mods)


def _stay(reading: Reading, node: Table, pairs: Pairs) -> Stay | None:
    pairs = _checked(reading, node, pairs, keys.STAY)
    key, value = pairs["stay"]
    amount = values.amount(reading, key, value)
    mods = _mods(reading, pairs, keys.STAY)
    if amount is None:
        return None
    if mods.may_stretch:
        mods = replace(mods, may_stretch=_bounded(reading, amount, mods.may_stretch))
    return Stay(amount, reading.step_span(key, value), mods)


def _bounded(reading: Reading, amount: Amount, stretch: Stretch) -> Stretch:
    """The stretch, with its bounds held against the amount written."""
    least, most = stretch.least, stretch.most
    if stretch.never:
        return replace(stretch, least=amount, most=amount)
    if least is None or most is None:
        return stretch
    if bool(least.halves) != bool(amount.halves):
        unit = "breaths" if amount.halves else "time"
        words, hint = "the bounds are in another unit than the stay", f"Write both in {unit}."
    elif not least.halves + least.ms <= amount.halves + amount.ms <= most.halves + most.ms:
        words = "what is written lies outside the bounds it may stretch between"
        hint = "Widen the bounds, or change the stay."
    else:
        return stretch
    reading.tell(rules.BOUNDS, words, stretch.span, hint, ((amount.span, "the stay"),))
    return stretch


def _free(reading: Reading, node: Table, pairs: Pairs) -> Free | None:
    pairs = _checked(reading, node, pairs, keys.FREE)
    key, value = pairs["free"]
    amount = values.duration(reading, key, value)
    mods = _mods(reading, pairs, keys.FREE)
    cycle = values.texts(reading, *pairs["of"]) if "of" in pairs else ()
    to = values.text(reading, *pairs["to"]) if "to" in pairs else None
    if amount is None:
        return None
    if mods.may_stretch:
        mods = replace(mods, may_stretch=_bounded(reading, amount, mods.may_stretch))
    return Free(amount, reading.step_span(key, value), cycle, to, mods)


def _say(reading: Reading, node: Table, pairs: Pairs) -> Say | None:
    pairs = _checked(reading, node, pairs, keys.SAY)
    key, value = pairs["say"]
    lines = say(reading, key, value)
    rest = {name: pair for name, pair in pairs.items() if name != "say"}
    mods = modifiers(reading, rest, keys.SAY, steps) if rest else NONE
    return Say(lines, reading.step_span(key, value), mods) if lines else None


def _bell(reading: Reading, node: Table, pairs: Pairs) -> Step | None:
    pairs = _checked(reading, node, pairs, keys.BELL)
    key, value = pairs["bell"]
    strokes = values.count(reading, key, value, limits.STROKES)
    mods = _mods(reading, pairs, keys.BELL)
    if strokes is None:
        return None
    span = reading.step_span(key, value)
    bell = Bell(strokes, span)
    return bell if mods is NONE else Block(span, (bell,), mods=mods)


def _block(reading: Reading, node: Table, pairs: Pairs) -> Block | None:
    pairs = _checked(reading, node, pairs, keys.BLOCK)
    verb = next(name for name in pairs if name in keys.BLOCKS)
    span = reading.step_span(*pairs[verb])
    flow = values.text(reading, *pairs["flow"]) if "flow" in pairs else None
    rounds, least, most = _rounds(reading, pairs)
    each = _flag(reading, pairs, "each side")
    inner = steps(reading, *pairs["steps"]) if "steps" in pairs else ()
    between = steps(reading, *pairs["between"]) if "between" in pairs else ()
    alternate = _flag(reading, pairs, "alternate")
    rest = {name: pair for name, pair in pairs.items() if name != "least"}
    mods = modifiers(reading, rest, keys.BLOCK, steps) if len(rest) > 1 else NONE
    _tell_misplaced(reading, pairs)
    if "flow" not in pairs and "steps" not in pairs:
        words = f"there are no steps under '{verb}'"
        hint = "Write 'steps:' with a list under it, or 'flow:' with a flow's name."
        reading.tell(rules.MISSING, words, span, hint)
    if flow is None and not inner:
        return None
    return Block(span, inner, flow, rounds, least, most, each, alternate, between, mods)


def _flag(reading: Reading, pairs: Pairs, name: str) -> bool:
    if name not in pairs:
        return False
    key, node = pairs[name]
    if type(node) is Items and name == "each side":
        hint = "Write 'each side: yes', and the list under 'steps:'."
        reading.tell(rules.FORM, "'each side' takes yes or no", reading.span(key), hint)
        return True
    return bool(values.flag(reading, key, node))


def _rounds(reading: Reading, pairs: Pairs) -> tuple[int, int, int]:
    """How many rounds, and how few and how many they may become (0: no fewer, no more)."""
    rounds, least, most = 1, 0, 0
    if "rounds" in pairs:
        key, node = pairs["rounds"]
        if type(node) is Items:
            hint = "Write 'rounds: 3', and the list under 'steps:'."
            reading.tell(rules.FORM, "'rounds' takes a number", reading.span(key), hint)
        else:
            rounds = values.count(reading, key, node, limits.ROUNDS) or 1
    if "least" in pairs and "rounds" in pairs:
        least = values.count(reading, *pairs["least"], most=rounds) or 0
    if "may repeat" in pairs and "rounds" in pairs:
        least, most = values.rounds(reading, *pairs["may repeat"], written=rounds)
    return rounds, least, most


def _tell_misplaced(reading: Reading, pairs: Pairs) -> None:
    for name, needs in _NEEDS:
        if name in pairs and needs not in pairs:
            span = reading.span(pairs[name][0])
            words = f"'{name}' takes no effect without '{needs}'"
            hint = f"Add '{needs}', or delete '{name}'."
            reading.tell(rules.MISPLACED, words, span, hint)
    if "least" in pairs and "may repeat" in pairs:
        words = "'may repeat' says already how few rounds there may be"
        reading.tell(rules.MISPLACED, words, reading.span(pairs["least"][0]), "Delete 'least'.")


_NEEDS = (
    ("between", "each side"),
    ("alternate", "rounds"),
    ("least", "rounds"),
    ("may repeat", "rounds"),
)
_READERS = {
    "come to": _move,
    "in": _move,
    "out": _move,
    "stay": _stay,
    "free": _free,
    "bell": _bell,
}


def block_mods(reading: Reading, pairs: Pairs, place: keys.Place) -> Mods:
    """The modifiers of a part or a flow, which hold for all its steps."""
    return modifiers(reading, pairs, place, steps)
