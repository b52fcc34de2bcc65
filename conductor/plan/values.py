"""Values of keys: a node in, a typed value out, or None with the fault told."""

from __future__ import annotations

from collections.abc import Sequence

from conductor.plan import amounts, limits, rules
from conductor.plan.choices import FORMS, ONLY
from conductor.plan.keys import nearest
from conductor.plan.model import (
    LEFT_OUT,
    Amount,
    Limits,
    Only,
    Share,
    Stretch,
    Tempo,
    Text,
)
from conductor.plan.quoting import SPOKEN
from conductor.plan.reading import Items, Node, Reading, Scalar, quoted
from conductor.spans import Span
from conductor.values import replace

_AMOUNTS = "Write it like: 5 breaths, half a breath, 40 s, 1:30, 5 min."
_BREATHS = "Write how long a whole breath may be, like: 7 to 10 s, or 6 to 8 a minute."


def missing(reading: Reading, key: Scalar, hint: str = "") -> None:
    """Tell that a key has no value, and whether a '#' ate it."""
    line = reading.line_of(key.stop)
    rest = line[key.stop.column + 1 :].strip() if line else ""
    if rest.startswith("#") and key.value in SPOKEN:
        hint = f"YAML takes '#' for a comment; if these are words, write: {key.value}: \"{rest}\""
    words = f"nothing stands after {quoted(key.value)}"
    reading.tell(rules.MISSING, words, reading.span(key), hint or "Write a value, or delete it.")


def text(reading: Reading, key: Scalar, node: Node, hint: str = "") -> Text | None:
    """A text that is not empty."""
    if type(node) is not Scalar:
        words = f"{quoted(key.value)} takes a text, and here stands a list or a mapping"
        reading.tell(rules.FORM, words, reading.span(node), hint or "Write words on one line.")
        return None
    if not node.value:
        missing(reading, key, hint)
        return None
    return reading.text_of(node)


def spoken(reading: Reading, key: Scalar, node: Node) -> Text | None:
    """A text that is said or shown; what YAML took away from it as a comment is told."""
    found = text(reading, key, node)
    if found and type(node) is Scalar and node.plain:
        warn_eaten(reading, node)
    return found


def warn_eaten(reading: Reading, node: Scalar) -> None:
    """Tell when words after ' #' were taken for a comment."""
    line = reading.line_of(node.stop)
    rest = line[node.stop.column :].strip()
    if rest.startswith("#"):
        start = node.start.column if node.start.line == node.stop.line else 0
        whole = line[start:].strip().replace('"', "'")
        column = line.index("#", node.stop.column)
        head = line[:start].strip()
        reading.tell(
            rules.EATEN,
            "YAML takes the rest of this line for a comment; it is not said",
            reading.at(node.stop.line, column, len(line.rstrip()) - column),
            f'If these are words, write: {head} "{whole}"; if a comment, give it its own line.',
        )


def texts(reading: Reading, key: Scalar, node: Node) -> tuple[Text, ...]:
    """A list of texts, or one text with commas."""
    if type(node) is Scalar:
        return _comma_texts(reading, key, node)
    if type(node) is not Items:
        text(reading, key, node, "Write a list, [one, two], or words with commas.")
        return ()
    if not node.items:
        missing(reading, key, "Write what belongs there, or delete the key.")
    if len(node.items) > limits.LIST_ITEMS:
        words = f"{len(node.items)} things stand here; at most {limits.LIST_ITEMS} may"
        reading.tell(rules.LIMIT, words, reading.span(key), "Leave some out.")
    read = (text(reading, key, item) for item in node.items[: limits.LIST_ITEMS])
    return tuple(item for item in read if item)


def _comma_texts(reading: Reading, key: Scalar, node: Scalar) -> tuple[Text, ...]:
    if "," not in node.value:
        one = text(reading, key, node)
        return (one,) if one else ()
    whole = reading.span(node)
    line = reading.lines[whole.line - 1]
    found, at = [], whole.column - 1
    for word in filter(None, (part.strip() for part in node.value.split(","))):
        start = line.find(word, at)
        span = whole if start < 0 else reading.at(whole.line - 1, start, len(word))
        at = max(start + len(word), at)
        found.append(Text(word, span))
    if not found:
        missing(reading, key)
    return tuple(found[: limits.LIST_ITEMS])


def one_of(reading: Reading, key: Scalar, node: Node, words: Sequence[str]) -> Text | None:
    """A text that is one of a few words, in lower case."""
    found = text(reading, key, node, f"Write one of: {', '.join(words)}.")
    if found is None:
        return None
    lower = found.value.lower()
    if lower in words:
        return found if lower == found.value else Text(lower, found.span)
    unknown_word(reading, key, found, words)
    return None


def unknown_word(reading: Reading, key: Scalar, found: Text, words: Sequence[str]) -> None:
    """Tell that a value is none of the words allowed, and which is near."""
    near = "" if reading.full else nearest(found.value, words)
    reading.tell(
        rules.WORD,
        f"{quoted(found.value)} is no value of '{key.value}'",
        found.span,
        (f"Write '{near}'. " if near else "") + f"It takes: {', '.join(words)}.",
    )


def flag(reading: Reading, key: Scalar, node: Node) -> bool | None:
    """Yes or no; None when it is neither, which is told."""
    found = text(reading, key, node, f"Write '{key.value}: yes'.")
    if found is None:
        return None
    answer = amounts.yes(found.value)
    if answer is None:
        unknown_word(reading, key, found, ("yes", "no"))
    return answer


def may_drop(reading: Reading, key: Scalar, node: Node) -> Text | None:
    """Yes, or that it is left out already, as a text with its place; no is nothing."""
    if type(node) is Scalar and node.value.lower() == LEFT_OUT:
        return Text(LEFT_OUT, reading.span(node))
    return Text("yes", reading.span(node)) if flag(reading, key, node) else None


def amount(reading: Reading, key: Scalar, node: Node) -> Amount | None:
    """Breaths or a time, within the limits."""
    found = text(reading, key, node, _AMOUNTS)
    if found is None:
        return None
    read = amounts.amount(found.value)
    if read is None:
        reading.tell(
            rules.AMOUNT,
            f"{quoted(found.value)} is no amount that can be led",
            found.span,
            _amount_hint(key.value, found.value),
        )
        return None
    return _within(reading, found.span, *read)


def _amount_hint(key: str, value: str) -> str:
    if amounts.count(value) is not None and value.isdigit():
        unit = "min" if key == "length" else "s" if key == "free" else "breaths"
        return f"Say of what: {key}: {value} {unit}. {_AMOUNTS}"
    return _AMOUNTS


def _within(reading: Reading, span: Span, halves: int, ms: int) -> Amount | None:
    if halves > 2 * limits.BREATHS:
        words, most = f"{halves // 2} breaths", f"{limits.BREATHS} breaths"
    elif ms > limits.TIME_MS:
        words, most = f"{ms // 60_000} min", f"{limits.TIME_MS // 3_600_000} hours"
    else:
        return Amount(span, halves, ms)
    hint = "Write less; longer stretches can be shared among rounds."
    reading.tell(rules.LIMIT, f"{words} are more than can be led: {most} at most", span, hint)
    return None


def breaths(reading: Reading, key: Scalar, node: Node) -> Amount | None:
    """An amount that must be in breaths."""
    found = amount(reading, key, node)
    if found and not found.halves:
        hint = f"Write it like: {key.value}: 2 breaths."
        reading.tell(rules.AMOUNT, f"'{key.value}' is counted in breaths", found.span, hint)
        return None
    return found


def duration(reading: Reading, key: Scalar, node: Node) -> Amount | None:
    """An amount that must be a time."""
    found = amount(reading, key, node)
    if found and not found.ms:
        hint = f"Write it like: {key.value}: 40 s, 1:30 or 5 min."
        reading.tell(rules.AMOUNT, f"'{key.value}' is a time, not breaths", found.span, hint)
        return None
    return found


def stretch(reading: Reading, key: Scalar, node: Node) -> Stretch | None:
    """`may stretch`: yes, no, or two amounts in order."""
    hint = "Write it like: 3 to 8 breaths, 5 to 15 min, yes or no."
    found = text(reading, key, node, hint)
    if found is None:
        return None
    answer = amounts.yes(found.value)
    if answer is not None:
        return Stretch(found.span, never=not answer)
    read = amounts.bounds(found.value)
    if read is None:
        words = f"{quoted(found.value)} does not say between what this may stretch"
        reading.tell(rules.AMOUNT, words, found.span, hint)
        return None
    least, most = (_within(reading, found.span, *side) for side in read)
    if not least or not most:
        return None
    if bool(least.halves) != bool(most.halves) or (least.halves, least.ms) > (most.halves, most.ms):
        words = "the bounds are not in order, or not in the same unit"
        reading.tell(
            rules.BOUNDS, words, found.span, "Write the smaller one first, both in one unit."
        )
        return None
    return Stretch(found.span, least, most)


def limits_of_breath(reading: Reading, key: Scalar, node: Node) -> Limits | None:
    """`breath may stretch`: the shortest and the longest whole breath."""
    found = text(reading, key, node, _BREATHS)
    if found is None:
        return None
    read = amounts.breath_bounds(found.value)
    least, most = limits.HALF_BREATH_MS
    if read is None:
        words = f"{quoted(found.value)} does not say how short and how long a breath may be"
        reading.tell(rules.AMOUNT, words, found.span, _BREATHS)
    elif read[0] > read[1]:
        reading.tell(rules.BOUNDS, "the bounds are not in order", found.span, _BREATHS)
    elif not (2 * least <= read[0] and read[1] <= 2 * most):
        words = f"a breath takes from {2 * least / 1000:g} s to {2 * most // 1000} s"
        reading.tell(rules.LIMIT, words, found.span, _BREATHS)
    else:
        return Limits(found.span, *read)
    return None


def stretched(reading: Reading, breath: Tempo | None, bounds: Limits) -> Tempo | None:
    """A `breath` with its `breath may stretch`, which must hold what is written."""
    if breath is None:
        hint = "Write it beside a breath: breath: 4 s in, 4 s out."
        words = "'breath may stretch' takes no effect without a 'breath' in the same place"
        reading.tell(rules.MISPLACED, words, bounds.span, hint)
        return None
    whole = breath.inhale + breath.exhale
    if not bounds.least <= whole <= bounds.most:
        words = f"the breath as written takes {whole / 1000:g} s, in and out together"
        hint = f"Give bounds that hold it, such as {whole * 0.9 / 1000:.2g} to "
        hint += f"{whole * 1.2 / 1000:.2g} s, or change the breath."
        reading.tell(rules.BOUNDS, words, bounds.span, hint, ((breath.span, "the breath"),))
    return replace(breath, least=bounds.least, most=bounds.most)


def share(reading: Reading, key: Scalar, node: Node) -> Share | None:
    """`share`: how much of the class a part wishes for."""
    hint = "Write it like: share: 20 %."
    found = text(reading, key, node, hint)
    if found is None:
        return None
    read = amounts.percent(found.value)
    if read is None:
        words = f"{quoted(found.value)} is no share of the class"
        reading.tell(rules.AMOUNT, words, found.span, hint)
    elif not 1 <= read <= 10_000:
        reading.tell(rules.LIMIT, "a share goes from 0.01 to 100 %", found.span, hint)
    else:
        return Share(found.span, read)
    return None


def rounds(reading: Reading, key: Scalar, node: Node, written: int) -> tuple[int, int]:
    """`may repeat`: the fewest and the most rounds; what is written lies between them."""
    hint = f"Write it like: {key.value}: 2 to 4."
    found = text(reading, key, node, hint)
    if found is None:
        return 0, 0
    read = amounts.round_bounds(found.value)
    if read is None:
        words = f"{quoted(found.value)} does not say how few and how many rounds there may be"
        reading.tell(rules.AMOUNT, words, found.span, hint)
    elif read[1] > limits.ROUNDS:
        words = f"there may be at most {limits.ROUNDS} rounds"
        reading.tell(rules.LIMIT, words, found.span, hint)
    elif not read[0] <= written <= read[1]:
        words = f"the {written} rounds that are written do not lie between these bounds"
        reading.tell(rules.BOUNDS, words, found.span, hint)
    else:
        return read
    return 0, 0


def tempo(reading: Reading, key: Scalar, node: Node) -> Tempo | None:
    """`breath`: how long an inhale and an exhale take."""
    hint = "Write it like: 4 s in, 6 s out or 6 a minute."
    found = text(reading, key, node, hint)
    if found is None:
        return None
    read = amounts.tempo(found.value)
    least, most = limits.HALF_BREATH_MS
    if read is None:
        words = f"{quoted(found.value)} does not say how long a breath is"
        reading.tell(rules.AMOUNT, words, found.span, hint)
    elif not (least <= min(read) and max(read) <= most):
        words = f"half a breath takes from {least / 1000:g} s to {most // 1000} s"
        reading.tell(rules.LIMIT, words, found.span, hint)
    else:
        return Tempo(found.span, *read)
    return None


def count(reading: Reading, key: Scalar, node: Node, most: int) -> int | None:
    """A whole number from 1 to the most there may be."""
    found = text(reading, key, node, f"Write it like: {key.value}: 3.")
    if found is None:
        return None
    read = amounts.count(found.value)
    if read is None:
        words = f"{quoted(found.value)} is no whole number"
        reading.tell(rules.AMOUNT, words, found.span, f"Write it like: {key.value}: 3.")
    elif not 1 <= read <= most:
        words = f"'{key.value}' goes from 1 to {most}"
        reading.tell(rules.LIMIT, words, found.span, f"Write it like: {key.value}: 3.")
    else:
        return read
    return None


def forms(reading: Reading, key: Scalar, node: Node) -> tuple[str, ...]:
    """`speak`: forms by round, 'full, then short, then breath'."""
    found = []
    for item in texts(reading, key, node):
        for word in item.value.lower().replace(" then ", ", ").removeprefix("then ").split(", "):
            if word in FORMS:
                found.append(word)
            else:
                unknown_word(reading, key, Text(word, item.span), FORMS)
    return tuple(found)


def only(reading: Reading, key: Scalar, node: Node) -> Only | None:
    """`only`: the round or the side on which a step is led."""
    found = text(reading, key, node, f"Write it like: {', '.join(ONLY)}.")
    if found is None:
        return None
    value = found.value.lower().replace("first round", "round 1")
    if value in ONLY[1:]:
        return Only(found.span, value)
    number = amounts.count(value.removeprefix("round ")) if value.startswith("round ") else None
    if number and number <= limits.ROUNDS:
        return Only(found.span, "round", number)
    unknown_word(reading, key, found, ONLY)
    return None
