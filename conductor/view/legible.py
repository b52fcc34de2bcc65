"""How large letters look from the mat, and how far two colours stand apart."""

import math

GOAL = 22.0  # minutes of arc: d/155, ISO 9241-303 through ASR A6 6.1.3 (seen)
CONTRAST = 7.0  # WCAG 2.2, 1.4.6, level AAA (seen)
LINE = 1.17  # height of a line in em, of usual terminal fonts (measured from font files)
POINT_MM = 25.4 / 72


def arc_minutes(cell_mm: float, distance_m: float, ink_rows: float) -> float:
    """Minutes of arc of a letter `ink_rows` rows tall, from h = 2 d tan(angle / 2)."""
    height_m = cell_mm * ink_rows / 1000
    return math.degrees(2 * math.atan(height_m / (2 * distance_m))) * 60


def cell_needed(distance_m: float, ink_rows: float, goal: float = GOAL) -> float:
    """Height of a row in mm at which such a letter reaches the goal."""
    height_m = 2 * distance_m * math.tan(math.radians(goal / 60) / 2)
    return height_m * 1000 / ink_rows


def advice(cell_mm: float, distance_m: float, ink_rows: float) -> str:
    """What font size would do, or "" when the letters are large enough."""
    now = arc_minutes(cell_mm, distance_m, ink_rows)
    if round(now, 1) >= GOAL:
        return ""
    needed = cell_needed(distance_m, ink_rows)
    points = needed / LINE / POINT_MM
    return (
        f"At {distance_m:g} m these letters are {now:.0f} minutes of arc tall; "
        f"{GOAL:.0f} read well. "
        f"Set the terminal's font {needed / cell_mm:.1f} times as large "
        f"(rows of {needed:.1f} mm, about {math.ceil(points)} pt in true size)."
    )


def contrast(one: str, other: str) -> float:
    """The contrast ratio of two colours written #rrggbb, by WCAG 2.2."""
    lighter, darker = sorted((_luminance(one), _luminance(other)), reverse=True)
    return (lighter + 0.05) / (darker + 0.05)


def _luminance(colour: str) -> float:
    red, green, blue = (_linear(int(colour[i : i + 2], 16) / 255) for i in (1, 3, 5))
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def _linear(channel: float) -> float:
    return channel / 12.92 if channel <= 0.04045 else ((channel + 0.055) / 1.055) ** 2.4
