"""What there is to say about the size of letters, for a class in this window at this distance."""

from conductor.score.model import Score
from conductor.screens.board import stage_rows
from conductor.screens.stage import scale_of
from conductor.settings import Settings
from conductor.view.faces import face
from conductor.view.legible import advice

LARGE_INK = 3.5  # rows of a capital of the large font
MANY = 3  # names said before the rest is counted


def letters_told(score: Score, settings: Settings, voiced: bool, width: int, height: int) -> str:
    """What font would do, and which names stand in smaller letters in a flow; "" when all is well.

    A name is small where the large font would not fit beside what else is shown.
    """
    small = _small(score, voiced, width, height)
    lines = [advice(settings.cell_mm, settings.view_distance_m, LARGE_INK)]
    if small:
        more = f" and {len(small) - MANY} more" if len(small) > MANY else ""
        names = f"{', '.join(small[:MANY])}{more}"
        lines.append(
            f"In this window of {width} x {height}, smaller letters for: {names}. "
            "A window of more columns shows them larger."
        )
    return "\n".join(line for line in lines if line)


def _small(score: Score, voiced: bool, width: int, height: int) -> list[str]:
    """Names of shapes that are moved into and drawn in less than the large font."""
    rows = stage_rows(height, not voiced) // 2 - 1
    faces = [face(score, at) for at, one in enumerate(score.moments) if one.arriving]
    return list(dict.fromkeys(one.name for one in faces if not scale_of(one, width, rows)))
