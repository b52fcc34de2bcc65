"""Checking many plans: which files they are, one after the other or in parallel processes."""

import gc
import os
import re
from collections import deque
from collections.abc import Iterator, Sequence
from itertools import islice
from pathlib import Path
from typing import TYPE_CHECKING

import click

from conductor import places
from conductor.cli.opening import Opened, find, opened
from conductor.cli.tell import coloured
from conductor.findings import Finding, Weight
from conductor.patterns import pattern
from conductor.plan.show import plain
from conductor.report.findings import Counts, count, file_line, file_text, json_row
from conductor.rules import Rule
from conductor.uncollected import uncollected
from conductor.values import Struct, replace

if TYPE_CHECKING:
    from concurrent.futures import Executor, Future

CHECKING: tuple[Rule, ...] = (
    Rule(
        "unreadable-file",
        Weight.ERROR,
        "file",
        "A plan is a file that can be read.",
        "A file that cannot be opened before class cannot be opened in it.",
    ),
    Rule(
        "check-broke",
        Weight.ERROR,
        "file",
        "The check comes to its end.",
        "A fault of this program, not of the plan: the other plans are still checked, and nothing "
        "is said of this one that is not known.",
    ),
)

FEW = 8  # up to so many plans are checked in this process: starting others takes longer
_CHUNK = 16
_AHEAD = 4  # chunks under way for each process, so that memory stays bounded
_PLAN = pattern(r"^\ufeff?(plan|title|parts|flows)[ \t]*:", re.MULTILINE)
_HEAD_BYTES = 65_536


class How(Struct, frozen=True):
    """What is wanted of each plan: JSON or text, in colour or not, errors alone or all."""

    as_json: bool = False
    colour: bool = False
    errors_only: bool = False
    brief: bool = False  # no line about plans of which there is nothing to say


class Checked(Struct, frozen=True):
    """What is to be printed of a plan, and how many findings it has."""

    counts: Counts
    text: str = ""
    rows: tuple[str, ...] = ()


class Wanted(Struct, frozen=True):
    """The plans to check, in order, and the files in their folders that are none."""

    plans: tuple[Path, ...]
    passed_over: tuple[Path, ...] = ()


def wanted(names: Sequence[str]) -> Wanted:
    """Find the plans: files and shipped plans as named, and all below a folder; each once."""
    plans: dict[Path, None] = {}
    others: dict[Path, None] = {}
    for name in names:
        path = Path(name)
        if path.is_dir():
            below = sorted(_below(path))
            if not below:
                raise click.UsageError(f"there is no plan (*.yaml, *.yml) in the folder {name}")
            for file in below:
                (plans if _may_be_plan(file) else others)[file] = None
        else:
            plans[_near(find(name))] = None
    return Wanted(tuple(plans), tuple(file for file in others if file not in plans))


def _below(folder: Path) -> Iterator[Path]:
    """Every YAML file below a folder, but for what is hidden."""
    for where, folders, files in os.walk(folder):
        folders[:] = [name for name in folders if not name.startswith(".")]
        for name in files:
            if name.endswith(places.SUFFIXES) and not name.startswith("."):
                yield Path(where) / name


def _may_be_plan(file: Path) -> bool:
    """Whether it has a key of a plan; what cannot be read is checked, so that it is told."""
    try:
        with file.open("rb") as stream:
            head = stream.read(_HEAD_BYTES)
    except OSError:
        return True
    text = head.decode("utf-8", "replace")
    return _PLAN.search(text) is not None or "\ufffd" in text


def _near(path: Path) -> Path:
    """The path as seen from here, where that is shorter."""
    here = Path.cwd()
    return path.relative_to(here) if path.is_absolute() and path.is_relative_to(here) else path


def look(path: Path, how: How) -> Checked:
    """Check one plan; whatever goes wrong is a finding of its own, so that nothing is lost."""
    try:
        with uncollected():
            return told(opened(path), how)
    except OSError as error:
        words = f"the file cannot be read: {error.strerror or error}"
        return trouble(path, "unreadable-file", words, how)
    except Exception as error:  # noqa: BLE001 -- one plan must not hide what is said of the others
        words = f"the check broke on this plan: {type(error).__name__}: {error}"
        return trouble(path, "check-broke", words, how)


def trouble(path: Path, rule: str, words: str, how: How) -> Checked:
    """What there is to say of a plan that could not be checked."""
    finding = Finding(rule, Weight.ERROR, words, None)
    return told(Opened(path, None, (), (finding,)), how)


def told(found: Opened, how: How) -> Checked:
    """Turn an opened plan into what is printed of it."""
    name = str(found.path)
    counts = count(found.findings)
    findings = found.findings
    if how.errors_only:
        findings = tuple(one for one in findings if one.weight is Weight.ERROR)
    if how.as_json:
        return Checked(counts, rows=tuple(json_row(one, name) for one in findings))
    if how.brief and not found.findings:
        return Checked(counts)
    paint = coloured if how.colour else plain
    placed = tuple(_named(one, name) for one in findings)
    text = file_text(placed, found.sources, paint)
    line = file_line(name, counts, paint)
    return Checked(counts, f"{text}{line}\n" + ("\n" if findings else ""))


def _named(finding: Finding, name: str) -> Finding:
    """A finding about a plan as a whole names it, as the others do by their place."""
    return finding if finding.span else replace(finding, words=f"{name}: {finding.words}")


def looked(paths: Sequence[Path], how: How, processes: int | None = None) -> Iterator[Checked]:
    """Check all plans, in their order; many of them in as many processes as there are cores."""
    processes = processes or os.cpu_count() or 1
    if len(paths) > FEW:
        gc.enable()  # what each plan leaves behind in circles adds up
    if len(paths) <= FEW or processes == 1:
        for path in paths:
            yield look(path, how)
    else:
        yield from _in_parallel(paths, how, processes)


def _chunk(paths: Sequence[Path], how: How) -> list[Checked]:
    return [look(path, how) for path in paths]


def _quiet_worker() -> None:
    """Leave an interrupt to the parent, which ends its workers."""
    import signal  # noqa: PLC0415 -- only for many plans

    signal.signal(signal.SIGINT, signal.SIG_IGN)


def _pool(processes: int) -> "Executor":
    from concurrent.futures import ProcessPoolExecutor  # noqa: PLC0415 -- only for many plans

    return ProcessPoolExecutor(processes, initializer=_quiet_worker)


def _in_parallel(paths: Sequence[Path], how: How, processes: int) -> Iterator[Checked]:
    """Chunks in order, only a few ahead of what was printed; a chunk lost is checked singly."""
    from concurrent.futures.process import BrokenProcessPool  # noqa: PLC0415 -- as above

    left = iter(paths)
    chunks = iter(lambda: tuple(islice(left, _CHUNK)), ())
    under_way: deque[tuple[tuple[Path, ...], Future[list[Checked]]]] = deque()
    pool = _pool(processes)
    try:
        while True:
            while len(under_way) < processes * _AHEAD and (chunk := next(chunks, None)):
                under_way.append((chunk, pool.submit(_chunk, chunk, how)))
            if not under_way:
                break
            chunk, future = under_way.popleft()
            try:
                yield from future.result()
            except BrokenProcessPool:
                yield from _one_by_one(chunk, how)
                pool.shutdown(wait=False)
                pool = _pool(processes)
                under_way = deque((c, pool.submit(_chunk, c, how)) for c, _ in under_way)
    finally:
        pool.shutdown(wait=False, cancel_futures=True)


def _one_by_one(paths: Sequence[Path], how: How) -> Iterator[Checked]:
    """Check plans each in a process of its own: one of them brings its process down."""
    from concurrent.futures.process import BrokenProcessPool  # noqa: PLC0415 -- as above

    for path in paths:
        with _pool(1) as pool:
            try:
                yield pool.submit(look, path, how).result()
            except BrokenProcessPool:
                words = "the process that checked this plan came to a sudden end"
                yield trouble(path, "check-broke", words, how)
