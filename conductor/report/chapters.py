"""Chapter marks of a class written as sound: a cue sheet that players read beside the file."""

from conductor.score.model import Score

FRAMES_A_SECOND = 75  # of a cue sheet's index, a compact disc's sectors


def cue_sheet(score: Score, file: str, lead_in_ms: int) -> str:
    """Name every part as a track; `lead_in_ms` is what is heard before the first moment."""
    kind = {"wav": "WAVE"}.get(file.rsplit(".", 1)[-1].lower(), "WAVE")
    lines = [f'TITLE "{_quoted(score.meta.title)}"', f'FILE "{_quoted(file)}" {kind}']
    for number, part in enumerate((one for one in score.parts if one.first < one.last), 1):
        start = 0 if number == 1 else lead_in_ms + score.moments[part.first].start
        lines += [
            f"  TRACK {number:02} AUDIO",
            f'    TITLE "{_quoted(part.name)}"',
            f"    INDEX 01 {_index(start)}",
        ]
    return "\r\n".join(lines) + "\r\n"


def _quoted(text: str) -> str:
    """A cue sheet has no way to write a quotation mark within quotation marks."""
    return text.replace('"', "'")


def _index(ms: int) -> str:
    frames = ms * FRAMES_A_SECOND // 1000
    seconds, frame = divmod(frames, FRAMES_A_SECOND)
    minutes, second = divmod(seconds, 60)
    return f"{minutes:02}:{second:02}:{frame:02}"
