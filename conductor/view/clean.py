"""Text made safe to draw: no control characters and no direction marks, whatever a plan holds."""

import re

# C0, DEL, C1; marks that turn the direction of writing; zero width and line separators
UNSAFE = re.compile("[\x00-\x1f\x7f-\x9f\u061c\u200b\u200e\u200f\u2028-\u202e\u2060-\u2069\ufeff]")


def clean(text: str) -> str:
    """The text with each unsafe character taken out; a line end or tab becomes a space."""
    return UNSAFE.sub(lambda found: " " if found.group() in "\n\r\t" else "", text)
