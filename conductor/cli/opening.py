"""Opening a plan: from a name on the command line to a score with its cues and findings."""

from collections.abc import Mapping
from pathlib import Path

import click

from conductor import places
from conductor.checks.check import allowed, check
from conductor.compiler.compile import compiled
from conductor.compiler.place import PLACE
from conductor.compiler.rules import COMPILER
from conductor.findings import Finding, Weight, in_order, worst
from conductor.fit.veto import watched
from conductor.plan.model import Amount, Plan, Text
from conductor.plan.reader import read, read_shapes
from conductor.plan.rules import LANGUAGE
from conductor.rules import Rule
from conductor.score.model import Lengths, Score
from conductor.settings import Settings
from conductor.shapes.catalogue import load
from conductor.shapes.model import Shape
from conductor.spans import Span
from conductor.timing.cues import cues
from conductor.timing.model import Cue
from conductor.values import Struct, field, replace

OPENING: tuple[Rule, ...] = (
    Rule(
        "not-text",
        Weight.ERROR,
        "file",
        "A plan is UTF-8 text.",
        "Other encodings turn letters into others without a word.",
    ),
    Rule(
        "beside-the-plan",
        Weight.ERROR,
        "file",
        "A file of shapes and a folder of recordings lie in the plan's folder and can be read.",
        "A plan must mean the same wherever its folder is carried.",
        bad="shapes from: ../elsewhere.yaml",
        good="shapes from: my-shapes.yaml",
    ),
)

LARGEST = 1_000_000  # bytes; the reader refuses more than that in any case


class Opened(Struct, frozen=True):
    """A plan as opened: its score is None when it cannot be led."""

    path: Path
    score: Score | None
    cues: tuple[Cue, ...] = ()
    findings: tuple[Finding, ...] = ()
    sources: Mapping[str, str] = field(default_factory=dict)
    shapes: Mapping[str, Shape] = field(default_factory=dict)

    @property
    def leadable(self) -> bool:
        """Whether a class can be led from it."""
        return self.score is not None and worst(self.findings) is not Weight.ERROR


def find(name: str) -> Path:
    """Find the plan of that name, or tell what there is."""
    try:
        return places.plan(name)
    except FileNotFoundError:
        known = ", ".join(path.stem for path in places.shipped_plans())
        raise click.UsageError(
            f"there is no plan {name!r}: give a file, or one of the shipped plans: {known}"
        ) from None


def text_of(path: Path) -> tuple[str, tuple[Finding, ...]]:
    """Read a file as UTF-8; what cannot be read becomes a finding with its place."""
    raw = path.read_bytes()[: LARGEST + 1]
    try:
        return raw.decode("utf-8-sig"), ()
    except UnicodeDecodeError as error:
        line = raw.count(b"\n", 0, error.start) + 1
        column = error.start - (raw.rfind(b"\n", 0, error.start) + 1) + 1
        span = Span(str(path), line, column)
        words = "this is not UTF-8 text"
        finding = Finding("not-text", Weight.ERROR, words, span, "save the file as UTF-8")
        return "", (finding,)


def opened(
    path: Path,
    lengths: Lengths | None = None,
    settings: Settings | None = None,
    length_ms: int = 0,
) -> Opened:
    """Open a plan: read, compile, time and check it; nothing is raised for a bad plan.

    `length_ms` asks for another length than the plan does.
    """
    text, findings = text_of(path)
    if findings:
        return Opened(path, None, (), findings, {str(path): text})
    return opened_text(path, text, lengths, settings, length_ms)


def opened_text(
    path: Path,
    text: str,
    lengths: Lengths | None = None,
    settings: Settings | None = None,
    length_ms: int = 0,
) -> Opened:
    """Open a text as if it stood in that file."""
    plan, findings, sources = planned(path, text)
    if plan is None:
        return Opened(path, None, (), in_order(findings), sources)
    if length_ms:
        span = plan.length.span if plan.length else plan.title.span
        plan = replace(plan, length=Amount(span, ms=length_ms))
    return _compiled(plan, findings, Opened(path, None, sources=sources), lengths, settings)


def planned(path: Path, text: str) -> tuple[Plan | None, tuple[Finding, ...], dict[str, str]]:
    """Read a plan's text with what it names beside itself; None with an error.

    The last of the three are the texts of all files read, by name.
    """
    sources = {str(path): text}
    plan, findings = read(text, str(path))
    if plan is not None:
        plan, troubles = _with_files(plan, path, sources)
        findings += troubles
    return None if worst(findings) is Weight.ERROR else plan, findings, sources


def _compiled(
    plan: Plan,
    findings: tuple[Finding, ...],
    bare: Opened,
    lengths: Lengths | None,
    settings: Settings | None,
) -> Opened:
    done = compiled(plan, load(), watched)
    findings += done.findings
    options = {name: text.value for name, text in plan.options.items()}
    if done.score is None:
        return replace(bare, findings=in_order(allowed(findings, options)))
    spoken, _ = cues(done.score, lengths or {}, settings or Settings())
    spans = {name: text.span for name, text in plan.options.items()}
    elsewhere = (rule.name for rule in (*OPENING, *LANGUAGE, *COMPILER, *PLACE))
    findings = allowed(findings, options) + check(done.score, spoken, done.shapes, spans, elsewhere)
    return replace(
        bare, score=done.score, cues=spoken, findings=in_order(findings), shapes=done.shapes
    )


def _with_files(
    plan: Plan, path: Path, sources: dict[str, str]
) -> tuple[Plan, tuple[Finding, ...]]:
    """Take in what the plan names beside itself: a file of shapes, a folder of recordings."""
    findings: tuple[Finding, ...] = ()
    recordings = plan.options.get("voice.recordings")
    if recordings:
        findings += _reachable(path, recordings, "the folder of recordings")[1]
    named = plan.options.get("shapes from")
    if named is None:
        return plan, findings
    file, troubles = _reachable(path, named, "the file of shapes")
    if file is None:
        sources.setdefault(str(path.parent / named.value), "")  # where it is looked for
        return plan, findings + troubles
    other, more = text_of(file)
    sources[str(file)] = other
    shapes, told = read_shapes(other, str(file))
    return replace(plan, shapes={**shapes, **plan.shapes}), (*findings, *more, *told)


def _reachable(path: Path, named: Text, what: str) -> tuple[Path | None, tuple[Finding, ...]]:
    try:
        found = places.inside(path, named.value)
        if not found.exists():
            raise FileNotFoundError(2, "there is no such file", str(found))
    except (OSError, places.OutsideError) as error:
        words = f"{what} cannot be read: {getattr(error, 'strerror', None) or error}"
        return None, (Finding("beside-the-plan", Weight.ERROR, words, named.span),)
    return found, ()
