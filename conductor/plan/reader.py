"""From text to a typed plan, with every problem of the file collected and in its place."""

from __future__ import annotations

from conductor.findings import Finding, Weight, in_order, worst
from conductor.plan import heads, limits, names, rules
from conductor.plan.model import OwnShape, Plan
from conductor.plan.nodes import read_nodes
from conductor.plan.reading import Reading, Scalar, Table

_CUT = frozenset(
    rule.name for rule in (rules.MISSING, rules.VERB, rules.VERSION, rules.FLOW, rules.UNUSED)
)
"""Rules that cannot be judged when the file's YAML breaks off before its end."""


def read(text: str, name: str, *, pure: bool = False) -> tuple[Plan | None, tuple[Finding, ...]]:
    """The plan, or None when an error means that it cannot be led, and all findings in order.

    `name` is only for the places; no file is opened. `pure` asks for yaml's parser in Python.
    """
    reading = Reading(text[: limits.FILE_CHARS], name)
    if _too_long(reading, text):
        return None, tuple(reading.findings)
    root, broke = read_nodes(reading, pure)
    before = len(reading.findings)
    plan = heads.plan(reading, root) if root is not None or broke < 0 else None
    if plan is not None:
        plan = names.resolve(reading, plan)
    if broke >= 0:
        _forget_after(reading, before, broke)
    return _done(reading, plan)


def read_shapes(
    text: str, name: str, *, pure: bool = False
) -> tuple[dict[str, OwnShape], tuple[Finding, ...]]:
    """A file of own shapes: `shapes:` with names under it, or the names alone."""
    reading = Reading(text[: limits.FILE_CHARS], name)
    if _too_long(reading, text):
        return {}, tuple(reading.findings)
    root, broke = read_nodes(reading, pure)
    found: dict[str, OwnShape] = {}
    if type(root) is Table:
        pairs = {key: pair for key, pair in root.pairs.items() if key != "plan"}
        if "shapes" in pairs:
            found = heads.shapes(reading, *pairs["shapes"])
        elif pairs:
            root.pairs = pairs
            key = Scalar("shapes", root.start, root.start, False)
            found = heads.shapes(reading, key, root)
    if not found and not reading.findings and broke < 0:
        words = "this file holds no shapes"
        hint = "Write each shape's name, and under it fields: keel: {like: boat}."
        reading.tell(rules.MISSING, words, reading.at(0, 0), hint)
    reading.tell_unlisted()
    return found, in_order(reading.findings)


def _too_long(reading: Reading, text: str) -> bool:
    if len(text) <= limits.FILE_CHARS:
        return False
    words = f"this file has {len(text)} characters; a plan has {limits.FILE_CHARS} at most"
    reading.findings.clear()
    reading.tell(rules.SIZE, words, reading.at(0, 0), "Make several plans of it.")
    return True


def _forget_after(reading: Reading, before: int, line: int) -> None:
    """Keep what was found above the place where the YAML broke off."""
    kept = [
        finding
        for finding in reading.findings[before:]
        if finding.span and finding.span.line <= line and finding.rule not in _CUT
    ]
    reading.findings[before:] = kept


def _done(reading: Reading, plan: Plan | None) -> tuple[Plan | None, tuple[Finding, ...]]:
    if worst(reading.findings) is Weight.ERROR:
        plan = None
    reading.tell_unlisted()
    return plan, in_order(reading.findings)
