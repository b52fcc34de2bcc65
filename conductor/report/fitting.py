"""A fitted plan in words: what changes line by line, what a length would need, why it cannot be."""

import textwrap
from collections.abc import Sequence

from conductor.fit.model import Change, Fitting
from conductor.view.clean import clean
from conductor.view.spell import count, span

COSTLY = 4  # parts named where a class is too long
FEW = 2  # blocks whose rounds are named in the table
WIDTH = 96  # columns of a sentence
_WHAT = 44  # columns for what a change is about


def head(title: str, written: int, wanted: int) -> str:
    """The plan, how long its steps are as written, and the length it asks for (ms, 0: none)."""
    words = f"{clean(title)}: its steps as written take {span(written)}"
    if wanted and wanted != written:
        words += f"; it asks for {span(wanted)}"
    return f"{words}."


def summary(fitting: Fitting) -> str:
    """In a sentence whether the length is met, and how well."""
    if not fitting.met:
        return reason(fitting)
    wanted = span(fitting.target)
    if not fitting.misses:
        return f"Fitted to {wanted}: it ends exactly then."
    off = f"{_seconds(abs(fitting.misses))} {'late' if fitting.misses > 0 else 'early'}"
    words = f"Fitted to {wanted}: it ends {off}, as near as whole breaths allow. A stay in minutes "
    words += "that may stretch, such as a final rest, would take up what is left over."
    return textwrap.fill(words, WIDTH)


def reason(fitting: Fitting) -> str:
    """Why a length cannot be met, and what would help."""
    long = fitting.least > fitting.target
    ends = span(fitting.least if long else fitting.most)
    if fitting.score is None:
        return f"It cannot be fitted to {span(fitting.target)}."
    others = [one for one in fitting.changes if one.kind != "stay"]
    with_ = [f"every stay at its {'least' if long else 'most'}"] if fitting.stretchable else []
    with_ += [_brief(one) for one in others]
    even = f"even with {_listed(with_)}" if with_ else "no stay may stretch, so"
    words = f"It cannot last {span(fitting.target)}: {even} the class is {ends}"
    if long:
        costly = sorted(fitting.parts, key=lambda part: -part.least)[:COSTLY]
        named = ", ".join(f"{clean(part.name)} {_clock(part.least)}" for part in costly)
        words += f"; parts that cost most: {named}"
        words += f". It can be fitted to {_clock(_up(fitting.least))} and more"
        hint = "Let stays be shorter (may stretch), passages go (may drop), rounds be fewer (may "
        hint += "repeat) or the breath quicker (breath may stretch)."
    else:
        words += f". It can be fitted to {_clock(fitting.most // 1000 * 1000)} and less"
        hint = (
            "Let stays be longer (may stretch), rounds be more (may repeat) or the breath slower "
        )
        hint += "(breath may stretch), or write more."
    return textwrap.fill(f"{words}. {hint}", WIDTH)


def rows(fitting: Fitting) -> str:
    """Everything that changes, one to a line: where, what, from what to what, by how much time."""
    if not fitting.changes:
        return "  Nothing but the length changes.\n"
    table = [
        (
            str(one.span.line),
            _within(one),
            _unit(one, one.before),
            _unit(one, one.after),
            _signed(one.ms),
        )
        for one in fitting.changes
    ]
    widths = [max(len(row[k]) for row in table) for k in range(5)]
    lines = [
        f"  line {row[0]:>{widths[0]}}  {row[1]:<{widths[1]}}  {row[2]:>{widths[2]}} -> "
        f"{row[3]:<{widths[3]}}  {row[4]:>{widths[4]}}".rstrip()
        for row in table
    ]
    if fitting.polished:
        some = count(fitting.polished, "stay")
        lines.append(f"  and {some} besides, to end on time: a line that is led several times has")
        lines.append("  but one amount to write, and the plan's length does the rest by itself")
    return "".join(f"{line}\n" for line in lines)


def parts(fitting: Fitting) -> str:
    """How long each part is as written and fitted, and what it wished for."""
    width = max(len(clean(part.name)) for part in fitting.parts)
    lines = []
    for part in fitting.parts:
        after = _clock(part.after) if part.after else "left out"
        line = f"  {clean(part.name):<{width}}  {_clock(part.before):>7} -> {after}"
        if part.wish:
            line += f"  (wishes for {_clock(part.wish)})"
        lines.append(f"{line}\n")
    return "".join(lines)


def table(fittings: Sequence[Fitting]) -> str:
    """What each of several lengths would need, one to a line; below it what cannot be."""
    found: list[tuple[str, ...]]
    found = [("length", "ends", "stays", "rounds", "breath", "left out", "final rest")]
    found += [_needs(one) for one in fittings]
    widths = [max(len(row[k]) for row in found) for k in range(7)]
    lines = [
        "  ".join(cell.ljust(width) for cell, width in zip(row, widths, strict=True)).rstrip()
        for row in found
    ]
    below = [f"\n{reason(one)}" for one in fittings if not one.met]
    return "\n".join([*lines, *below]) + "\n"


def _needs(fitting: Fitting) -> tuple[str, ...]:
    wanted = span(fitting.target)
    if not fitting.met:
        return (wanted, "not", "", "", "", "", "")
    kinds = {
        kind: [one for one in fitting.changes if one.kind == kind]
        for kind in ("stay", "rounds", "breath", "passage")
    }
    off = _signed(fitting.misses) if fitting.misses else "on time"
    return (
        wanted,
        off,
        _how_many(kinds["stay"]),
        _rounds(kinds["rounds"]),
        ", ".join(dict.fromkeys(one.after for one in kinds["breath"])) or "as written",
        str(len(kinds["passage"])) if kinds["passage"] else "nothing",
        _clock(fitting.rest) if fitting.rest else "none",
    )


def _rounds(changes: Sequence[Change]) -> str:
    """Each block's rounds where there are few blocks, else how many fewer or more in all."""
    if len(changes) <= FEW:
        return ", ".join(f"{one.before} -> {one.after}" for one in changes) or "as written"
    more = sum(int(one.after) - int(one.before) for one in changes)
    return f"{abs(more)} {'more' if more > 0 else 'fewer'} in {len(changes)} places"


def _how_many(changes: Sequence[Change]) -> str:
    longer = sum(one.ms > 0 for one in changes)
    shorter = len(changes) - longer
    words = [f"{longer} longer" if longer else "", f"{shorter} shorter" if shorter else ""]
    return ", ".join(filter(None, words)) or "as written"


def as_values(fitting: Fitting) -> dict[str, object]:
    """A fitting as the JSON has it."""
    return {
        "length_ms": fitting.target,
        "met": fitting.met,
        "ends_ms": fitting.score.length if fitting.score else None,
        "misses_ms": fitting.misses,
        "shortest_ms": fitting.least,
        "longest_ms": fitting.most,
        "reason": "" if fitting.met else reason(fitting),
        "changes": [
            {
                "kind": one.kind,
                "line": one.span.line,
                "column": one.span.column,
                "what": one.what,
                "parts": one.parts,
                "before": one.before,
                "after": one.after,
                "times": one.times,
                "ms": one.ms,
            }
            for one in fitting.changes
        ],
        "parts": [
            {
                "name": part.name,
                "before_ms": part.before,
                "after_ms": part.after,
                "least_ms": part.least,
                "wish_ms": part.wish,
            }
            for part in fitting.parts
        ],
        "text": fitting.text if fitting.met else None,
    }


def _within(one: Change) -> str:
    times = f", {one.times} times" if one.times > 1 else ""
    what = clean(one.what)
    if len(what) > _WHAT:
        what = f"{what[: _WHAT - 1]}…"
    if not one.parts:
        return f"{what}{times}"
    return f"{clean(', '.join(one.parts))}: {what}{times}"


def _listed(words: Sequence[str]) -> str:
    return " and ".join(filter(None, (", ".join(words[:-1]), words[-1])))


def _brief(one: Change) -> str:
    """A change in the reason why a length cannot be met."""
    if one.kind == "rounds":
        return f"{count(int(one.after), 'round')} instead of {one.before} (line {one.span.line})"
    if one.kind == "breath":
        return f"a breath of {one.after}"
    return f"{clean(one.what)} left out (line {one.span.line})"


def _unit(one: Change, value: str) -> str:
    return count(int(value), "round") if one.kind == "rounds" else clean(value)


def _signed(ms: int) -> str:
    return f"{'-' if ms < 0 else '+'}{_clock(abs(ms))}"


def _clock(ms: int) -> str:
    seconds = round(ms / 1000)
    return f"{seconds // 60}:{seconds % 60:02}"


def _up(ms: int) -> int:
    """To the next whole second."""
    return -(-ms // 1000) * 1000


def _seconds(ms: int) -> str:
    return span(ms) if ms >= 1000 else f"{ms} ms"
