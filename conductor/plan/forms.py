"""The forms that values may take, as patterns for editors: what the reader reads, and no less.

They are written in the dialect that JSON Schema and every editor share. Bounds (not more than 500
breaths) are the reader's alone.
"""

from collections.abc import Iterable
from functools import cache

from conductor.plan.amounts import UNITS, WORDS
from conductor.plan.choices import FIRST_SIDES, FORMS, KINDS, ONLY, SIDES, TURNS
from conductor.plan.model import LEFT_OUT

_DIGITS = r"[0-9]{1,12}(?:[.,][0-9]{1,6})?"
_ONE = "(?:a|an|one|1)"
_SEPARATOR = " ?[–—] ?| - | to |-"


def _any(choices: Iterable[str]) -> str:
    return "(?:" + "|".join(word.replace(".", r"\.") for word in choices) + ")"


_NUMBER = f"(?:{_DIGITS}|{_any(WORDS)})"
_COUNT = f"(?:[0-9]{{1,12}}|{_any(WORDS)})"
_BREATHS = (
    f"(?:{_NUMBER}(?: (?:and {_ONE} half|1/2))? (?:half )?breaths?"
    f"|half (?:{_ONE} )?breath|{_ONE} half breath|{_ONE} breath and {_ONE} half)"
)
_ONE_TIME = f"{_NUMBER} ?{_any(UNITS)}"
_CLOCK = "(?:[0-9]{1,3}:)?[0-9]{1,12}:[0-5][0-9]"
_TIME = f"(?:{_CLOCK}|half {_ONE} min(?:ute)?|{_ONE_TIME}(?:(?:,? and |, | ){_ONE_TIME})*)"
_AMOUNT = f"(?:{_BREATHS}|{_TIME})"
_IN_SECONDS = r"(?: ?(?:s|sec|seconds?|counts?))?"
_RATE = f"(?:{_NUMBER} (?:breaths? )?(?:{_ONE}|per|/) ?min(?:ute)?|{_NUMBER}/min)"
_TEMPO = (
    f"(?:{_NUMBER}{_IN_SECONDS} (?:in|inhale)(?: ?,| and)* ?{_NUMBER}{_IN_SECONDS} (?:out|exhale)"
    f"|{_RATE})"
)
_SPOKEN = _any(FORMS)
_ROUNDS = f"(?:{_COUNT} (?:rounds?|times|strokes?|x)|{_COUNT})"
_YES = "(?:yes|no|true|false)"


def _between(least: str, most: str) -> str:
    """Two bounds, of which the first may leave its unit out."""
    return f"(?:{least}|{_NUMBER})(?:{_SEPARATOR}){most}"


PATTERNS = {
    "yes or no": _YES,
    "yes, no or left out": f"(?:{_YES}|{LEFT_OUT})",
    "breaths or a time": _AMOUNT,
    "breaths": _BREATHS,
    "a time": _TIME,
    "a tempo": _TEMPO,
    "bounds": f"(?:{_YES}|{_between(_AMOUNT, _AMOUNT)})",
    "bounds of a breath": f"(?:{_between(_TIME, _TIME)}|{_between(_TEMPO, _RATE)})",
    "a count": _ROUNDS,
    "bounds of a count": f"{_ROUNDS}(?:{_SEPARATOR}){_ROUNDS}",
    "a share": f"{_NUMBER} ?(?:%|percent|per cent)",
    "how much is said": f"(?:then )?{_SPOKEN}(?:(?: ?, ?(?:then )?| then ){_SPOKEN})*",
    "when it is led": f"(?:{_any(ONLY[1:])}|first round|round {_COUNT})",
}
CHOICES = {"kind": KINDS, "first side": FIRST_SIDES, "side": SIDES, "turn": TURNS}


@cache
def pattern(name: str) -> str:
    """A form as a whole pattern, large or small letters, with blanks as people write them."""
    return f"^ *{spaced(any_case(PATTERNS[name]))} *$"


def words(choices: tuple[str, ...]) -> str:
    """A few words as a pattern, in capitals and small letters."""
    return f"^ *{spaced(any_case(_any(choices)))} *$"


def spaced(text: str) -> str:
    """A pattern whose single blanks stand for any number of them."""
    return text.replace(" ?", "\0").replace(" ", " +").replace("\0", " *")


def any_case(text: str) -> str:
    """A pattern that takes each letter large or small; the shared dialect has no sign for it.

    Letters after a backslash and in brackets stay as they are.
    """
    made, at = "", 0
    while at < len(text):
        sign = text[at]
        if sign == "\\":
            made, at = made + text[at : at + 2], at + 2
            continue
        if sign == "[":
            end = text.index("]", at) + 1
            made, at = made + text[at:end], end
            continue
        made += f"[{sign.lower()}{sign.upper()}]" if sign.isascii() and sign.isalpha() else sign
        at += 1
    return made
