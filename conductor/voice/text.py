"""What the voice gets to read: plain ASCII, since engines spell out every other letter."""

import re
import unicodedata
from collections.abc import Mapping
from functools import lru_cache

from conductor.score.model import Saying

# One sign for another before anything else; spaces keep words apart.
_SIGNS = {
    "‘": "'", "’": "'", "ʼ": "'", "`": "'", "“": "", "”": "", '"': "", "„": "", "«": "", "»": "",
    "…": "... ", "–": " - ", "—": " - ", "−": " - ", "‐": "-", "‑": "-", "­": "",
    "°": " degrees ", "×": " times ", "&": " and ", "½": " 1/2", "¼": " 1/4", "¾": " 3/4", "⁄": "/",
    "\u200b": "", "\u200c": "", "\u200d": "", "\ufeff": "",
    "ß": "ss", "æ": "ae", "Æ": "Ae", "œ": "oe", "Œ": "Oe", "ø": "o", "Ø": "O", "ł": "l", "Ł": "L",
    "đ": "d", "Đ": "D", "ð": "d", "þ": "th", "ı": "i",
}  # fmt: skip
_SIGN_TABLE = str.maketrans(_SIGNS)

# A word that has one of these is read as Sanskrit in IAST; any other accent is merely dropped.
_IAST_SIGN = re.compile("[āīūṛṝḷḹṅṭḍṇśṣṃṁḥ]")
_IAST_VOWELS = "aāiīuūṛṝḷeo"
_IAST_SOUNDS = (
    ("ḷh", "lh"), ("ch", "ch"), ("c", "ch"), ("śv", "shuv"), ("ṣv", "shuv"), ("ś", "sh"),
    ("ṣ", "sh"), ("ā", "aa"), ("ī", "ee"), ("ū", "oo"), ("ṛ", "ri"), ("ṝ", "ree"), ("ḷ", "lri"),
    ("ḹ", "lree"), ("ṅ", "n"), ("ñ", "n"), ("ṭ", "t"), ("ḍ", "d"), ("ṇ", "n"), ("ṃ", "m"),
    ("ṁ", "m"), ("ḥ", "h"),
)  # fmt: skip
_IAST = re.compile("|".join(iast for iast, _ in _IAST_SOUNDS))
_IAST_TABLE = dict(_IAST_SOUNDS)

_WORD = re.compile(r"[^\W\d_][^\W\d_'\u0300-\u036f-]*[\u0300-\u036f]*")
_UNSAID = re.compile(r"[^A-Za-z0-9 .,;:!?'%$+=/-]")
_WHILE_SIGNS_STAND = (
    (re.compile(r"</?|/?>"), " "),
    (re.compile(r"(?<=\d) +1/2\b"), " and a half"),
    (re.compile(r"\b1/2\b"), "half"),
    (re.compile(r"\b1/4\b"), "a quarter"),
    (re.compile(r"\b3/4\b"), "three quarters"),
    (re.compile(r"(?<=\d) *- *(?=\d)"), " to "),
    (re.compile(r"\s*\n\s*"), ". "),
    (re.compile(r"[()\[\]{}|]+"), ", "),
)
_AFTERWARDS = (
    (re.compile(r"(?<!\S)-+(?!\S)"), ", "),
    (re.compile(r"(?<!\d)/|/(?!\d)"), " or "),
    (re.compile(r"(?<![0-9A-Za-z])-+|-+(?![0-9A-Za-z])"), " "),
    (re.compile(r"\.(?:\s*\.)+"), ", "),  # dots in a row would be read out or swallowed
    (re.compile(r"\s+"), " "),
    (re.compile(r" (?=[.,;:!?])"), ""),
    (re.compile(r"[,;:]+(?=[.!?])"), ""),
    (re.compile(r"([.!?])[,;:.]+"), r"\1"),
    (re.compile(r"([,;:])[,;:.]+"), r"\1"),
    (re.compile(r"((?<=\w\w)\.(?=[A-Z])|[,;:!?](?=[A-Za-z]))"), r"\1 "),
    (re.compile(r"^[ .,;:!?'-]+|[ ,;:-]+$"), ""),
)
_SENTENCE = re.compile(r"(?<=[.!?]) +")
_CLAUSE = re.compile(r"(?<=[,;:]) +")


def spoken(saying: Saying, lexicon: Mapping[str, str]) -> str:
    """The ASCII to be spoken, "" when there is nothing to pronounce.

    `lexicon` maps names as displayed (IAST or English, in any case) to respellings. What an engine
    could take for a command (SSML, `[[ ]]`, control characters) is gone afterwards.
    """
    text = _plain(saying.text)
    text = _respelled(text, tuple(sorted(lexicon.items())))
    text = _WORD.sub(lambda word: _sounds(word[0]), text)
    text = _tidy(_ascii(text))
    return text if any(letter.isalnum() for letter in text) else ""


def split(text: str, limit: int) -> tuple[str, ...]:
    """Pieces of at most `limit` letters, cut at sentences, else clauses, else words.

    Long texts are rendered piece by piece; joined with a space they are the text again, except
    where one word alone is longer than `limit`.
    """
    if limit < 1:
        raise ValueError(f"a piece has at least one letter, not {limit}")
    text = " ".join(text.split())
    return tuple(_cut(text, limit, (_SENTENCE, _CLAUSE, re.compile(" ")))) if text else ()


def slug(text: str) -> str:
    """Words as a file name has them: lower case, ASCII, joined by hyphens."""
    folded = unicodedata.normalize("NFKD", _plain(text)).encode("ascii", "ignore").decode()
    return "-".join(re.findall(r"[a-z0-9]+", folded.lower().replace("'", "")))


def _cut(text: str, limit: int, ways: tuple[re.Pattern[str], ...]) -> list[str]:
    """As few pieces as the first way gives; one that is still too long is cut the next way."""
    if len(text) <= limit:
        return [text]
    if not ways:
        return [text[at : at + limit] for at in range(0, len(text), limit)]
    pieces: list[str] = []
    open_end = False
    for part in ways[0].split(text):
        if open_end and len(pieces[-1]) + 1 + len(part) <= limit:
            pieces[-1] += f" {part}"
        else:
            open_end = len(part) <= limit
            pieces += _cut(part, limit, ways[1:])
    return pieces


def _plain(text: str) -> str:
    text = unicodedata.normalize("NFC", text).translate(_SIGN_TABLE)
    text = "".join(" " if _control(letter) else letter for letter in text)
    return unicodedata.normalize("NFC", text)


def _control(letter: str) -> bool:
    return unicodedata.category(letter)[0] == "C" and letter != "\n"


def _respelled(text: str, entries: tuple[tuple[str, str], ...]) -> str:
    names = _names(entries)
    if names is None:
        return text
    pattern, respellings = names
    base, places = _base(text)
    result, done = [], 0
    for found in pattern.finditer(base):
        start, end = places[found.start()], places[found.end()]
        result += [text[done:start], respellings[_key(found[0])]]
        done = end
    return "".join([*result, text[done:]])


@lru_cache(maxsize=8)
def _names(
    entries: tuple[tuple[str, str], ...],
) -> tuple[re.Pattern[str], Mapping[str, str]] | None:
    respellings = {_key(_base(_plain(name))[0]): value for name, value in entries if value}
    respellings.pop("", None)
    if not respellings:
        return None
    longest_first = sorted(respellings, key=lambda name: (-len(name), name))
    ways = "|".join(re.escape(name).replace(r"\ ", r"[\s-]+") for name in longest_first)
    return re.compile(rf"(?<!\w)(?:{ways})(?!\w)"), respellings


def _key(base: str) -> str:
    return re.sub(r"[\s-]+", " ", base).strip()


def _base(text: str) -> tuple[str, list[int]]:
    """Lower case without accents, and for each of its letters the place in `text`."""
    letters, places = [], []
    for place, letter in enumerate(text):
        decomposed = unicodedata.normalize("NFD", letter)
        for part in decomposed.lower():
            if not unicodedata.combining(part):
                letters.append(part)
                places.append(place)
    return "".join(letters), [*places, len(text)]


def _sounds(word: str) -> str:
    low = unicodedata.normalize("NFC", word.lower())
    if not _IAST_SIGN.search(low):
        return word
    return _IAST.sub(lambda found: _IAST_TABLE[found[0]], low)


def _ascii(text: str) -> str:
    kept = (letter for letter in unicodedata.normalize("NFKD", text) if not _mark(letter))
    return "".join(letter if letter.isascii() else " " for letter in kept)


def _mark(letter: str) -> bool:
    return unicodedata.category(letter) == "Mn"


def _tidy(text: str) -> str:
    for pattern, by in _WHILE_SIGNS_STAND:
        text = pattern.sub(by, text)
    text = _UNSAID.sub(" ", text)
    for pattern, by in _AFTERWARDS:
        text = pattern.sub(by, text)
    return text
