"""Places marked in a rehearsal, told by line of the plan, so that each can be mended."""

from collections.abc import Mapping, Sequence
from itertools import groupby

from conductor.engine.model import Happening, Snapshot
from conductor.spans import Span
from conductor.values import Struct
from conductor.view.clean import clean
from conductor.view.faces import face, part_of, place_of
from conductor.view.spell import clock, count


class Mark(Struct, frozen=True):
    """One marked place: when (ms of the class since it began), what was led there, and its line."""

    at: int
    span: Span
    moment: str
    shape: str
    part: str
    side: str = ""
    where: str = ""

    @property
    def words(self) -> str:
        """What was led there, in one line."""
        return ", ".join(word for word in (self.shape, self.side, self.part, self.where) if word)


def mark_of(happening: Happening, snapshot: Snapshot) -> Mark | None:
    """The mark a happening tells of; None where it tells of none."""
    if happening.kind != "mark":
        return None
    score = snapshot.score
    index = next((n for n, one in enumerate(score.moments) if one.id == happening.moment), None)
    if index is None:
        return None
    moment, shown = score.moments[index], face(score, index, snapshot.level)
    return Mark(
        at=happening.now - snapshot.begun,
        span=moment.origin,
        moment=moment.id,
        shape=shown.name,
        part=part_of(score, index),
        side=shown.side.phrase if shown.side else "",
        where=place_of(moment),
    )


def _by_line(marks: Sequence[Mark]) -> list[tuple[Span, list[Mark]]]:
    """The marks of each line together, in the order of the plan."""

    def line(mark: Mark) -> tuple[str, int]:
        return mark.span.file, mark.span.line

    grouped = groupby(sorted(marks, key=lambda mark: (*line(mark), mark.at)), line)
    return [(those[0].span, those) for those in (list(group) for _, group in grouped)]


def lines(marks: Sequence[Mark], sources: Mapping[str, str]) -> tuple[str, ...]:
    """All marks by plan line: the place, what was led there and when, and the line itself."""
    if not marks:
        return ("No place was marked.",)
    grouped = _by_line(marks)
    total = f"{count(len(marks), 'mark')} on {count(len(grouped), 'line')} of the plan:"
    told = [total]
    for span, those in grouped:
        told += [f"{clean(str(span))}: {words}" for words in _told(those)]
        written = source_line(span, sources).strip()
        told += [f"    {clean(written)}"] if written else []
    return tuple(told)


def _told(those: Sequence[Mark]) -> list[str]:
    """What was led on one line, each once with the times of its marks."""
    times: dict[str, list[str]] = {}
    for mark in those:
        times.setdefault(mark.words, []).append(clock(mark.at))
    return [f"{words}, at {' and '.join(ats)}" for words, ats in times.items()]


def source_line(span: Span, sources: Mapping[str, str]) -> str:
    """The line of the plan itself, "" where its text is not at hand."""
    rows = sources.get(span.file, "").splitlines()
    return rows[span.line - 1] if 0 < span.line <= len(rows) else ""


def as_data(marks: Sequence[Mark], sources: Mapping[str, str]) -> list[dict[str, object]]:
    """The same for programs, in the order in which they were marked."""
    return [
        {
            "file": mark.span.file,
            "line": mark.span.line,
            "column": mark.span.column,
            "text": source_line(mark.span, sources),
            "at_ms": mark.at,
            "moment": mark.moment,
            "shape": mark.shape,
            "side": mark.side,
            "part": mark.part,
            "where": mark.where,
        }
        for mark in marks
    ]
