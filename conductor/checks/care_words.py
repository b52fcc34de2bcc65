"""What `for:` of a plan says about the people it is for, as caution codes of the catalogue."""

import re
from collections.abc import Mapping

from conductor.patterns import pattern
from conductor.shapes.model import Shape
from conductor.stance import Base
from conductor.values import Struct

_TROUBLE = pattern(
    r"\b(?:pain\w*|troubles?|injur\w*|sore|hurt\w*|problems?|sensitiv\w*|weak\w*|bad|tender|"
    r"issues?|arthriti\w*|conditions?|disease|surgery|aches?|achy|aching|care|complaints?|"
    r"ill|illness|patients|rehab\w*|friendly|free)\b",
    re.IGNORECASE,
)
_DENIED = pattern(
    r"\b(?:no|not|without|never|except|but not|free of|unless|isn't|aren't)\b(?:\W+\w+){0,3}\W*$",
    re.IGNORECASE,
)


class Group(Struct, frozen=True):
    """People a class may be for: how they are named, and the caution that holds for them.

    `stems` are pieces of which one is in every name. `told` lets a word count only beside one of
    trouble: "heart" opens, "weak heart" warns.
    """

    code: str
    words: str
    stems: str
    told: bool = False


GROUPS: tuple[Group, ...] = (
    Group(
        "P",
        r"pre-?natal|ante-?natal|pregnan\w*|expecting|trimester|mothers?-to-be",
        "natal|pregnan|expecting|trimester|mother",
    ),
    Group("GL", r"glaucoma|retina\w*|(?:eye|intraocular) pressure", "glaucoma|retina|pressure"),
    Group("BP", r"high blood[- ]pressure|hypertensi\w*", "pressure|hypertensi"),
    Group("LBP", r"low blood[- ]pressure|hypotensi\w*", "pressure|hypotensi"),
    Group("KN", r"knees?", "knee"),
    Group("WR", r"wrists?|carpal tunnel", "wrist|carpal"),
    Group(
        "DI",
        r"sciatica|slipped dis[ck]s?|herniated|dis[ck] (?:prolapse|herniation)|osteoporosis",
        "sciatica|slipped|herniat|prolapse|osteoporosis",
    ),
    Group("DI", r"dis[ck]s?", "dis", told=True),
    Group("LB", r"back-?aches?|lumbago", "ache|lumbago"),
    Group("LB", r"(?:low(?:er)? )?backs?", "back", told=True),
    Group("HT", r"cardiac|heart (?:disease|trouble|condition|failure)", "cardiac|heart"),
    Group("HT", r"hearts?", "heart", told=True),
    Group("NK", r"necks?", "neck", told=True),
    Group("SH", r"frozen shoulder|rotator cuff", "shoulder|rotator"),
    Group("SH", r"shoulders?", "shoulder", told=True),
    Group("EL", r"tennis elbow|elbows?", "elbow", told=True),
    Group("HP", r"hip replacement\w*", "replacement"),
    Group("HP", r"hips?", "hip", told=True),
    Group("AN", r"ankles?", "ankle", told=True),
    Group("HM", r"hamstrings?", "hamstring", told=True),
    Group(
        "BA",
        r"vertigo|dizz\w*|seniors?|elderly|older (?:people|adults?)|over (?:60|65|70|80)",
        "vertigo|dizz|senior|elderly|older|over",
    ),
    Group("HA", r"headaches?|migraines?", "headache|migraine"),
    Group("MN", r"menstruat\w*|moon days?", "menstruat|moon"),
    Group(
        "AB",
        r"hernia|ulcers?|abdominal surgery|caesarean|c-section",
        "hernia|ulcer|surgery|caesarean|section",
    ),
)
_NAMED = tuple(
    (group, pattern(rf"(?<![\w-])(?:{group.words})(?!\w)", re.IGNORECASE, group.stems))
    for group in GROUPS
)
BEGINNERS = pattern(
    r"(?<![\w-])(?:beginners?|newcomers?|first[- ]timers?)(?!\w)",
    re.IGNORECASE,
    "beginner|newcomer|timer",
)
MUCH = 2  # of the catalogue's scale
NOT_FOR_BEGINNERS = frozenset({"headstand", "lotus"})
"""Cramer, Krucoff, Dobos, PLoS ONE 2013;8:e75515: beginners avoid headstand, lotus and forceful
breathing."""


def codes(text: str) -> Mapping[str, str]:
    """The caution codes that hold for the people named, each with the word that names them."""
    found: dict[str, str] = {}
    for group, words in _NAMED:
        if group.code in found:
            continue
        hit = next((one for one in words.finditer(text) if not denied(text, one.start())), None)
        if hit and (not group.told or _TROUBLE.search(text)):
            found[group.code] = hit[0]
    return found


def denied(text: str, at: int) -> bool:
    """Whether the words before this place take back what follows ("not for", "no ... trouble")."""
    clause = re.split(r"[,.;:()]|\bbut\b", text[:at])[-1]
    return bool(_DENIED.search(clause))


def applies(code: str, shape: Shape) -> bool:
    """Whether a shape carries a caution, by its own list or by what the caution says in general.

    In pregnancy: no belly-lying, no deep backbends or twists, no inversions beyond legs up (the
    stricter of the sources). Trouble with balance concerns what balances, not all standing.
    """
    if code == "BA":
        return shape.balance or shape.asks.get("balance", 0) >= MUCH
    if code in shape.cautions:
        return True
    if code != "P":
        return False
    upside_down = shape.family == "inversion" and shape.place.base is not Base.BACK
    deep = any(shape.asks.get(f"spine {way}", 0) > MUCH for way in ("extension", "rotation"))
    return shape.place.base is Base.BELLY or upside_down or deep
