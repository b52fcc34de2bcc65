"""A plan as it is being written: its length, findings and timeline, fitted to a terminal."""

from collections.abc import Iterable, Mapping

from conductor.figure.cells import drawable, fit, wrapped
from conductor.figure.model import Figure
from conductor.figure.text import LEAST_COLUMNS, Page, pictured
from conductor.figure.timeline import timeline
from conductor.figure.windows import MINUTE_MS
from conductor.findings import Finding, Weight
from conductor.plan.show import show
from conductor.report.findings import count
from conductor.report.score import clock, row
from conductor.score.model import Score
from conductor.shapes.model import Shape
from conductor.timing.model import Cue
from conductor.values import Struct, field, replace
from conductor.view.spell import span

_LANES = ("parts", "sides", "effort", "shapes", "voice", "wrists", "weight", "facing", "breath")
_ROWS_OF_SCORE = 8  # of the lines just written, at most
_ROWS_AT_MOST = 4  # of the timeline, where the terminal is high
_ORDER = tuple(Weight)
_ENDLESS = 10_000  # columns of a line that is not cut
_FOOT = "ctrl-c ends"
_WAITING = "Waiting for the next save; ctrl-c ends."


class Seen(Struct, frozen=True):
    """A plan as it was found at a time of day; its score is None while it cannot be compiled.

    `trouble` says why it could not even be read, in a person's words.
    """

    name: str
    at: str
    text: str = ""
    score: Score | None = None
    cues: tuple[Cue, ...] = ()
    shapes: Mapping[str, Shape] = field(default_factory=dict)
    findings: tuple[Finding, ...] = ()
    sources: Mapping[str, str] = field(default_factory=dict)
    trouble: str = ""


class Watch(Struct, frozen=True):
    """What is seen now, what was seen before it, and the last that had a score."""

    now: Seen
    before: Seen | None = None
    good: Seen | None = None

    def then(self, seen: Seen) -> "Watch":
        """The same a save later."""
        return Watch(seen, self.now, seen if seen.score else self.good)


def begun(seen: Seen) -> Watch:
    """The first look at a plan."""
    return Watch(seen, None, seen if seen.score else None)


def screen(watch: Watch, page: Page, rows: int) -> list[str]:
    """A whole screen: length first, then findings, then what there is room for beneath."""
    head = _head(watch, page)
    room = max(rows - len(head) - 1, 1)
    told = _told(watch, page, room)
    below = _below(watch, page, room - len(told))
    lines = [*head, *told, *(below if told else below[1:])]
    foot = _line(f"{_FOOT}; checked at {watch.now.at}", "hint", page)
    return [*lines, *[""] * (rows - len(lines) - 1), foot]


def block(watch: Watch, page: Page) -> str:
    """The same as plain lines, for a pipe or a screen reader: all findings in full."""
    lines = [f"== {watch.now.at} ==", *_head(watch, replace(page, columns=_ENDLESS))]
    if watch.now.findings:
        lines += [show(watch.now.findings, watch.now.sources, page.paint)]
    written = _written(watch)
    lines += ["What was just written:", *written, ""] if written else []
    return "\n".join([*lines, _WAITING, ""])


def _line(text: str, what: str, page: Page) -> str:
    """One line, cut to the width, painted as a whole."""
    return page.paint(fit(drawable(text, page.ascii_only), page.columns).rstrip(), what)


def _head(watch: Watch, page: Page) -> list[str]:
    """Title, length and what the last save changed in it, and how many findings there are."""
    now, good = watch.now, watch.good
    length = _length(watch)
    title = good.score.meta.title if good and good.score else now.name
    name = fit(drawable(title, page.ascii_only), max(page.columns - len(length) - 2, 8)).rstrip()
    counted = f"{now.name}: {now.trouble or str(count(now.findings)) + _changed(watch)}"
    weight = "error" if now.trouble or now.score is None else _worst(now)
    first = f"{page.paint(name, 'place')}  {length}"
    return [first, *(_line(one, weight, page) for one in wrapped(counted, page.columns, 2)), ""]


def _worst(seen: Seen) -> str:
    weights = [one.weight for one in seen.findings]
    return min(weights, key=_ORDER.index).value if weights else ""


def _length(watch: Watch) -> str:
    now, good = watch.now, watch.good
    if good is None or good.score is None:
        return "no length yet"
    score = good.score
    words = clock(score.length)
    if score.meta.length and score.meta.length != score.length:
        words += f", asked for {clock(score.meta.length)}"
    if now.score is None:
        return f"{words} as of {good.at}"
    before = watch.before.score if watch.before else None
    more = score.length - before.length if before else 0
    return f"{words} ({'+' if more > 0 else '-'}{span(abs(more))})" if more else words


def _changed(watch: Watch) -> str:
    """How many findings are new since the last save, and how many are mended."""
    if watch.before is None:
        return ""
    now, was = _keys(watch.now.findings), _keys(watch.before.findings)
    apart = ((now - was, "new"), (was - now, "mended"))
    words = [f"{len(some)} {word}" for some, word in apart if some]
    return f" ({', '.join(words)})" if words else ""


def _keys(findings: Iterable[Finding]) -> set[tuple[str, str]]:
    """Findings without their lines, which move when something is written above them."""
    return {(one.rule, one.words) for one in findings}


def _told(watch: Watch, page: Page, room: int) -> list[str]:
    """As many findings as there is room for, heaviest first, and how many are left."""
    findings = sorted(watch.now.findings, key=lambda one: _ORDER.index(one.weight))
    was = _keys(watch.before.findings) if watch.before else None
    lines: list[str] = []
    for number, one in enumerate(findings):
        new = was is not None and (one.rule, one.words) not in was
        told = _finding(one, page, new=new)
        left = len(findings) - number
        if len(lines) + len(told) + (left > 1) > room:
            more = _line(f"... and {left} more: conductor check {watch.now.name}", "hint", page)
            return [*lines, more][:room]
        lines += told
    return lines


def _finding(one: Finding, page: Page, *, new: bool) -> list[str]:
    """A finding with its place and what can be typed, wrapped."""
    place = f"{one.span.line}:{one.span.column}" if one.span else ""
    times = f" ({one.times} times)" if one.times > 1 else ""
    mark = "new " if new else ""
    head = f"{place:>7} {mark}{one.weight.value}: "
    lines = wrapped(f"{head}{one.words}{times} [{one.rule}]", page.columns, 8)
    first, *rest = (_line(line, "", page) for line in lines)
    hint = wrapped(f"= {one.hint}", page.columns - 8) if one.hint else []
    return [
        page.paint(first[: len(head)], one.weight.value) + first[len(head) :],
        *rest,
        *(_line(f"{'':8}{line}", "hint", page) for line in hint),
    ]


def _below(watch: Watch, page: Page, room: int) -> list[str]:
    """What was just written as it will be led, then the timeline, as far as there is room."""
    drawn = _drawn(watch, page, room - 1)
    room -= len(drawn) + 1
    written = [_line(line, "", page) for line in _written(watch)]
    if written and len(written) + 1 <= room:
        return ["", *written, "", *drawn]
    return ["", *drawn] if drawn else []


def _drawn(watch: Watch, page: Page, room: int) -> list[str]:
    """As many lanes as there is room for, the most telling ones first."""
    good = watch.good
    if good is None or good.score is None or page.columns < LEAST_COLUMNS:
        return []
    figure = Figure("", (timeline(good.score, good.cues, good.shapes),))
    for rows in range(_ROWS_AT_MOST, 1, -1):
        row_ms = -(-figure.length // (rows * MINUTE_MS)) * MINUTE_MS
        if row_ms < figure.length and len(lines := _pictured(figure, page, row_ms)) <= room:
            return lines
    for lanes in range(len(_LANES), 0, -1):
        if len(lines := _pictured(figure, page, 0, _LANES[:lanes])) <= room:
            return lines
    return []


def _pictured(figure: Figure, page: Page, row_ms: int, lanes: tuple[str, ...] = ()) -> list[str]:
    return pictured(figure, replace(page, row_ms=row_ms), lanes)[:-1]


def _written(watch: Watch) -> list[str]:
    """The score of the lines that the last save changed."""
    now, before = watch.now, watch.before
    if now.score is None or before is None or not before.text:
        return []
    lines = _new_lines(before.text, now.text)
    rows: list[str] = []
    for moment in now.score.moments:
        first = not moment.hold or moment.id.endswith(".0")
        if first and moment.origin.line in lines and moment.origin.file == now.name:
            rows.append(row(now.score, moment))
    if len(rows) > _ROWS_OF_SCORE:
        more = len(rows) - _ROWS_OF_SCORE + 1
        rows = [*rows[: _ROWS_OF_SCORE - 1], f"{'':10}and {more} more such moments"]
    return rows


def _new_lines(before: str, now: str) -> set[int]:
    """The numbers of lines that are new or other than they were."""
    from difflib import SequenceMatcher  # noqa: PLC0415 -- only while a plan is written

    old, new = before.splitlines(), now.splitlines()
    found: set[int] = set()
    for what, _, _, first, last in SequenceMatcher(None, old, new, autojunk=False).get_opcodes():
        if what in {"replace", "insert"}:
            found.update(range(first + 1, last + 1))
    return found
