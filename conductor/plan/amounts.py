"""Amounts in a teacher's words: breaths, times, tempo, bounds. Text in, numbers or None out."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import TYPE_CHECKING

from conductor.patterns import pattern

if TYPE_CHECKING:
    from fractions import Fraction

_NUMBER = r"(\d{1,12}(?:[.,]\d{1,6})?)"
_DIGITS = 12  # of a number, at most
WORDS = {
    "a": "1", "an": "1", "one": "1", "two": "2", "three": "3", "four": "4", "five": "5",
    "six": "6", "seven": "7", "eight": "8", "nine": "9", "ten": "10", "twelve": "12",
}  # fmt: skip
_WORD = pattern(r"\b(" + "|".join(WORDS) + r")\b")
_BREATHS = pattern(_NUMBER + r"(?: (and a half|1/2))? (half )?(?:breaths?)", 0, "breath")
_HALF = pattern(r"(?:half (?:1 )?breath|1 half breath|1 breath and a half)", 0, "half")
_CLOCK = pattern(r"(?:(\d{1,3}):)?(\d{1,12}):([0-5]\d)", 0, ":")
_UNIT_MS = {"h": 3_600_000, "min": 60_000, "s": 1_000, "ms": 1}
UNITS = {
    "h": "h", "hr": "h", "hrs": "h", "hour": "h", "hours": "h",
    "m": "min", "min": "min", "mins": "min", "minute": "min", "minutes": "min", "min.": "min",
    "s": "s", "sec": "s", "secs": "s", "second": "s", "seconds": "s", "s.": "s", "sec.": "s",
    "ms": "ms",
}  # fmt: skip
_TIME = pattern(_NUMBER + r" ?([a-z]+\.?)(?:,? and |, | |$)")
_SPLIT = pattern(r"\s+to\s+|\s*[–—]\s*|\s+-\s+|(?<=\d)-(?=\d)")
_INHALE = pattern(_NUMBER + r" ?(?:s|sec|seconds?|counts?)? (?:in|inhale)")
_EXHALE = pattern(_NUMBER + r" ?(?:s|sec|seconds?|counts?)? (?:out|exhale)")
_PERCENT = pattern(_NUMBER + r" ?(?:%|percent|per cent)")
_RATE = pattern(_NUMBER + r" (?:breaths? )?(?:1|per|/) ?min(?:ute)?|" + _NUMBER + "/min", 0, "min")


def number(text: str) -> Fraction | int:
    """An exact number from digits with a point or a comma."""
    if text.isdecimal():
        return int(text)
    from fractions import Fraction  # noqa: PLC0415 -- most numbers are whole

    return Fraction(text.replace(",", "."))


@lru_cache(maxsize=256)
def amount(text: str) -> tuple[int, int] | None:
    """Half breaths and milliseconds, one of them 0; None when the text is no amount.

    Half breaths are whole: a third of a breath is none that can be led.
    """
    plain = _plain(text)
    if (halves := _halves(plain)) is not None:
        return halves, 0
    ms = _ms(plain)
    return None if ms is None else (0, ms)


def _plain(text: str) -> str:
    """Lower case, number words as digits: 'Half a breath' becomes 'half 1 breath'."""
    lower = text.lower()
    if lower[:1].isdigit() and " a" not in lower:
        return lower
    return _WORD.sub(lambda word: WORDS[word.group()], lower).replace("and 1 half", "and a half")


def _halves(text: str) -> int | None:
    found = _BREATHS.fullmatch(text)
    if found:
        halves = number(found[1]) * (1 if found[3] else 2) + (1 if found[2] else 0)
        return int(halves) if halves.denominator == 1 and halves > 0 else None
    if _HALF.fullmatch(text):
        return 3 if "and" in text else 1
    return None


def _ms(text: str) -> int | None:
    if text in {"half 1 minute", "half 1 min"}:
        return 30_000
    if clock := _CLOCK.fullmatch(text):
        hours, minutes, seconds = (int(part or 0) for part in clock.groups())
        return ((hours * 60 + minutes) * 60 + seconds) * 1000 or None
    total: Fraction | int = 0
    at = 0
    while at < len(text):
        found = _TIME.match(text, at)
        unit = UNITS.get(found[2]) if found else None
        if not found or unit is None:
            return None
        total += number(found[1]) * _UNIT_MS[unit]
        at = found.end()
    return int(total) or None


def bounds(text: str) -> tuple[tuple[int, int], tuple[int, int]] | None:
    """Two amounts: '3 to 8 breaths', '30 s to 2 min'; the first may leave its unit out."""
    sides = _SPLIT.split(text)
    if len(sides) != 2:
        return None
    most = amount(sides[1])
    least = amount(sides[0])
    if least is None:
        unit = re.sub(r"^[\d.,:]+\s*", "", sides[1])
        least = amount(f"{sides[0]} {unit}")
    return (least, most) if least and most else None


def tempo(text: str) -> tuple[int, int] | None:
    """Milliseconds of the inhale and of the exhale: '4 s in, 6 s out', '6 a minute'.

    An odd millisecond goes to the exhale, which is the half that may be longer.
    """
    plain = _plain(text)
    if rate := _RATE.fullmatch(plain):
        each = number(rate[1] or rate[2])
        breath = round(60_000 / each) if each else 0
        return breath // 2, breath - breath // 2
    if "," in plain:
        plain = re.sub(r",(?!\d)", " , ", plain)
    return _two_sides(" ".join(plain.replace(" and ", " , ").split()))


def _two_sides(text: str) -> tuple[int, int] | None:
    inhale = _INHALE.match(text)
    exhale = _EXHALE.fullmatch(text[inhale.end() :].lstrip(" ,")) if inhale else None
    if not inhale or not exhale:
        return None
    return round(number(inhale[1]) * 1000), round(number(exhale[1]) * 1000)


def breath_bounds(text: str) -> tuple[int, int] | None:
    """The shortest and the longest breath in ms: '7 to 10 s', '6 to 8 a minute'."""
    sides = _SPLIT.split(_plain(text))
    if len(sides) != 2:
        return None
    if _RATE.fullmatch(sides[1]) is None:
        read = bounds(text)
        return (read[0][1], read[1][1]) if read and read[0][1] and read[1][1] else None
    ways = [tempo(side) or tempo(f"{side} a minute") for side in sides]
    least, most = sorted(sum(way) for way in ways if way) if all(ways) else (0, 0)
    return (least, most) if least else None


def percent(text: str) -> int | None:
    """Hundredths of a percent: '20 %', '12.5 percent'; None when it is no share."""
    found = _PERCENT.fullmatch(_plain(text))
    hundredths = number(found[1]) * 100 if found else 0
    return int(hundredths) if hundredths and hundredths.denominator == 1 else None


def round_bounds(text: str) -> tuple[int, int] | None:
    """The fewest and the most rounds: '2 to 4', 'two to four rounds'."""
    sides = _SPLIT.split(text)
    least, most = (count(side) for side in sides) if len(sides) == 2 else (None, None)
    return (least, most) if least and most else None


def yes(text: str) -> bool | None:
    """Yes or no, None when the text is neither."""
    return {"yes": True, "true": True, "no": False, "false": False}.get(text.lower())


def count(text: str) -> int | None:
    """A whole number, also 'three' or '3 rounds'; None when it is none."""
    plain = _plain(text)
    if plain.isdecimal() and len(plain) <= _DIGITS:
        return int(plain)
    found = re.fullmatch(r"(\d{1,12})(?: (?:rounds?|times|strokes?|x))?", plain)
    return int(found[1]) if found else None


def written(halves: int, ms: int = 0, *, clock: bool = False) -> str:
    """An amount as a person writes it; `amount` reads it again as exactly the same.

    `clock` asks for 1:30, where it is whole seconds.
    """
    if halves:
        return _breaths(halves)
    seconds, rest = divmod(ms, 1000)
    minutes, seconds = divmod(seconds, 60)
    if clock and not rest:
        return f"{minutes}:{seconds:02}"
    small = f"{seconds}.{rest:03}".rstrip("0") if rest else str(seconds)
    parts = [f"{minutes} min"] if minutes else []
    parts += [f"{small} s"] if seconds or rest else []
    return " ".join(parts)


def _breaths(halves: int) -> str:
    whole, half = divmod(halves, 2)
    if half:
        return f"{whole} and a half breaths" if whole else "half a breath"
    return "1 breath" if whole == 1 else f"{whole} breaths"
