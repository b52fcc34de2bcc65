"""Opening a plan: from a name on the command line to a score with its cues and findings."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from pathlib import Path

import click

from conductor import places
from conductor.checks.check import check
from conductor.compiler.compile import compiled
from conductor.findings import Finding, Weight, in_order, worst
from conductor.plan.reader import read, read_shapes
from conductor.rules import Rule
from conductor.score.model import Lengths, Score
from conductor.settings import Settings
from conductor.shapes.catalogue import Catalogue, load
from conductor.spans import Span
from conductor.timing.cues import cues
from conductor.timing.model import Cue

OPENING: tuple[Rule, ...] = (
    Rule(
        "not-text",
        Weight.ERROR,
        "file",
        "A plan is UTF-8 text.",
        "Other encodings turn letters into others without a word.",
    ),
    Rule(
        "shapes-file",
        Weight.ERROR,
        "file",
        "A file of shapes lies in the plan's folder and can be read.",
        "A plan must mean the same wherever its folder is carried.",
        bad="shapes from: ../elsewhere.yaml",
        good="shapes from: my-shapes.yaml",
    ),
)

LARGEST = 1_000_000  # bytes; the reader refuses more than that in any case


@dataclass(frozen=True, slots=True)
class Opened:
    """A plan as opened: its score is None when it cannot be led."""

    path: Path
    score: Score | None
    cues: tuple[Cue, ...] = ()
    findings: tuple[Finding, ...] = ()
    sources: Mapping[str, str] = field(default_factory=dict)
    catalogue: Catalogue | None = None

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


def opened(path: Path, lengths: Lengths | None = None, settings: Settings | None = None) -> Opened:
    """Open a plan: read, compile, time and check it; nothing is raised for a bad plan."""
    settings = settings or Settings()
    text, findings = text_of(path)
    sources = {str(path): text}
    if findings:
        return Opened(path, None, (), findings, sources)
    plan, findings = read(text, str(path))
    if plan is None:
        return Opened(path, None, (), in_order(findings), sources)
    named = plan.options.get("shapes from")
    if named:
        try:
            file = places.inside(path, named.value)
            other, more = text_of(file)
        except (OSError, places.OutsideError) as error:
            words = f"the file of shapes cannot be read: {error}"
            trouble = Finding("shapes-file", Weight.ERROR, words, named.span)
            return Opened(path, None, (), in_order((*findings, trouble)), sources)
        sources[str(file)] = other
        shapes, troubles = read_shapes(other, str(file))
        findings += (*more, *troubles)
        plan = replace(plan, shapes={**shapes, **plan.shapes})
    catalogue = load()
    done = compiled(plan, catalogue)
    score = done.score
    findings += done.findings
    if score is None:
        return Opened(path, None, (), in_order(findings), sources, catalogue)
    spoken, _ = cues(score, lengths or {}, settings)
    findings += check(score, spoken, done.shapes)
    return Opened(path, score, spoken, in_order(findings), sources, catalogue)
