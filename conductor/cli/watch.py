"""`conductor watch`: a plan is checked whenever it is saved, and its length is always seen."""

import contextlib
import os
import shutil
import sys
from collections.abc import Iterable, Iterator
from datetime import datetime
from pathlib import Path

import click

from conductor.cli.drawing import inked, page_for
from conductor.cli.opening import find, opened
from conductor.cli.saves import Saves, Wake, woken
from conductor.cli.tell import coloured
from conductor.report.watching import Seen, Watch, begun, block, screen

_ENTER = "\x1b[?1049h\x1b[?25l"  # another screen, without a cursor
_HOME, _CLEAR = "\x1b[H", "\x1b[K"  # drawn over what was there, so that nothing flickers
_LEAVE = "\x1b[?25h\x1b[?1049l"


@click.command()
@click.argument("plan")
@click.option("--plain", is_flag=True, help="Print a block of lines at each save; no screen.")
@click.option(
    "--ascii", "ascii_only", is_flag=True, help="Plain letters, where blocks are not drawn."
)
def watch(plan: str, plain: bool, ascii_only: bool) -> None:
    """Check PLAN whenever it is saved: length, findings, what was just written, the timeline.

    Write in your own editor beside it. The file of shapes that a plan names is watched too.
    """
    path = find(plan)
    with contextlib.suppress(KeyboardInterrupt):
        if plain or not sys.stdout.isatty() or os.environ.get("TERM") == "dumb":
            for seen in looks(path):
                if seen is not None:
                    click.echo(block(seen, page_for(0, 0, ascii_only, _ink)), nl=False)
                    sys.stdout.flush()
        else:
            _shown(path, ascii_only=ascii_only)


def _shown(path: Path, *, ascii_only: bool) -> None:
    """Draw a screen of its own, anew when the plan or the size of the terminal has changed."""
    last: Watch | None = None
    size = shutil.get_terminal_size((80, 24))
    sys.stdout.write(_ENTER)
    try:
        for seen in looks(path):
            was, size = size, shutil.get_terminal_size((80, 24))
            last = seen or last
            if last is not None and (seen is not None or size != was):
                page = page_for(size.columns, 0, ascii_only, _ink)
                lines = screen(last, page, size.lines)[: size.lines]
                sys.stdout.write(_HOME + f"{_CLEAR}\n".join(lines) + _CLEAR)
                sys.stdout.flush()
    finally:
        sys.stdout.write(_LEAVE)
        sys.stdout.flush()


def looks(path: Path, wake: Wake = woken) -> Iterator[Watch | None]:
    """What is seen of a plan after each save of it; None at each look that finds nothing new."""
    saves = Saves((path,))
    seen, files = _seen(path, saves.files)
    saves.follow(files)
    now = begun(seen)
    yield now
    for changed in saves.wait(wake):
        if changed:
            seen, files = _seen(path, saves.files)
            saves.follow(files)
            now = now.then(seen)
        yield now if changed else None


def _seen(path: Path, before: Iterable[Path]) -> tuple[Seen, Iterable[Path]]:
    """The plan as it is now, and the files that it is made of."""
    at = datetime.now().astimezone().strftime("%H:%M:%S")
    try:
        found = opened(path)
    except FileNotFoundError:
        return Seen(str(path), at, trouble="the file is gone; it is watched for"), before
    except OSError as error:
        trouble = f"the file cannot be read: {error.strerror or error}"
        return Seen(str(path), at, trouble=trouble), before
    except Exception as error:  # noqa: BLE001 -- whoever writes goes on; the next save may do
        trouble = f"the check broke on this plan: {type(error).__name__}: {error}"
        return Seen(str(path), at, trouble=trouble), before
    seen = Seen(
        str(path),
        at,
        found.sources.get(str(path), ""),
        found.score,
        found.cues,
        found.shapes,
        found.findings,
        found.sources,
    )
    return seen, [Path(name) for name in found.sources]


def _ink(text: str, what: str) -> str:
    """Colour findings as the check does, and lanes as their picture does."""
    return coloured(inked(text, what), what)
