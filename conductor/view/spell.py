"""Times and numbers in the words that stand on a screen."""


def clock(ms: int) -> str:
    """Milliseconds as mm:ss, or h:mm:ss from an hour on."""
    seconds = max(ms, 0) // 1000
    hours, rest = divmod(seconds, 3600)
    minutes, seconds = divmod(rest, 60)
    return f"{hours}:{minutes:02}:{seconds:02}" if hours else f"{minutes:02}:{seconds:02}"


def left(ms: int) -> str:
    """Time left: the nearest whole minute, and seconds only in the last two minutes."""
    seconds = -(-max(ms, 0) // 1000)
    if seconds <= 120:
        return f"{seconds} s" if seconds < 60 else f"{seconds // 60}:{seconds % 60:02} min"
    return f"{(seconds + 30) // 60} min"


def against(over_ms: int) -> str:
    """Where the class stands against its plan; a difference under 20 s is on time."""
    seconds = round(abs(over_ms) / 1000)
    if seconds < 20:
        return "on time"
    amount = f"{seconds} s" if seconds < 60 else f"{round(seconds / 60)} min"
    return f"{amount} {'over' if over_ms > 0 else 'early'}"


def span(ms: int) -> str:
    """A length: seconds below a minute, else minutes with the odd seconds."""
    seconds = round(ms / 1000)
    minutes, rest = divmod(seconds, 60)
    if not minutes:
        return f"{rest} s"
    return f"{minutes} min" + (f" {rest} s" if rest else "")


def ago(days: int) -> str:
    """How long ago a day was."""
    if days < 2:
        return "yesterday" if days == 1 else "today"
    for least, each, one in ((60, 30, "month"), (14, 7, "week"), (2, 1, "day")):
        if days >= least:
            return f"{count(days // each, one)} ago"
    raise AssertionError(days)


def count(number: int, one: str, many: str = "") -> str:
    """A number with its word: 1 breath, 2 breaths."""
    return f"{number} {one if number == 1 else many or one + 's'}"


def breaths(number: int, half: bool = False) -> str:
    """Breaths, and half of one more: 5 breaths, half a breath, 1 and a half breaths."""
    if not half:
        return count(number, "breath")
    return f"{number} and a half breaths" if number else "half a breath"
