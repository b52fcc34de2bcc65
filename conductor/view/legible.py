"""How large letters look from the mat, and how far two colours stand apart."""

import math

GOAL = 22.0  # minutes of arc: d/155, ISO 9241-303 through ASR A6 6.1.3 (seen)
CONTRAST = 7.0  # WCAG 2.2, 1.4.6, level AAA (seen)


def arc_minutes(cell_mm: float, distance_m: float, ink_rows: float) -> float:
    """Minutes of arc of a letter `ink_rows` rows tall, from h = 2 d tan(angle / 2)."""
    height_m = cell_mm * ink_rows / 1000
    return math.degrees(2 * math.atan(height_m / (2 * distance_m))) * 60


def letter_mm(distance_m: float, goal: float = GOAL) -> float:
    """How tall a letter must be, in mm, to stand at so many minutes of arc."""
    return 2 * distance_m * math.tan(math.radians(goal / 60) / 2) * 1000


def ink_needed(cell_mm: float, distance_m: float, goal: float = GOAL) -> float:
    """The same in rows of the terminal: the height of a capital that reads well from there."""
    return letter_mm(distance_m, goal) / cell_mm


def farthest(cell_mm: float, ink_rows: float, goal: float = GOAL) -> float:
    """From how many metres such a letter still stands at the goal."""
    return cell_mm * ink_rows / letter_mm(1.0, goal)


def contrast(one: str, other: str) -> float:
    """The contrast ratio of two colours written #rrggbb, by WCAG 2.2."""
    lighter, darker = sorted((_luminance(one), _luminance(other)), reverse=True)
    return (lighter + 0.05) / (darker + 0.05)


def _luminance(colour: str) -> float:
    red, green, blue = (_linear(int(colour[i : i + 2], 16) / 255) for i in (1, 3, 5))
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def _linear(channel: float) -> float:
    return channel / 12.92 if channel <= 0.04045 else ((channel + 0.055) / 1.055) ** 2.4
