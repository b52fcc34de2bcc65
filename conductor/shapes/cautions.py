"""What a caution code means, in the words to show before class and on paper."""

from collections.abc import Mapping
from functools import cache
from types import MappingProxyType

from conductor.shapes.files import DATA, LEGEND
from conductor.values import Struct, decode


class Caution(Struct, frozen=True):
    """One kind of caution: who should take care, in words, and where the caution comes from."""

    code: str
    words: str
    more: str
    source: str


@cache
def table() -> Mapping[str, Caution]:
    """Every caution by its code."""
    entries = decode((DATA / LEGEND).read_bytes())
    return MappingProxyType({entry["code"]: Caution(**entry) for entry in entries})


def legend() -> dict[str, str]:
    """Code to short words ("high blood pressure")."""
    return {code: caution.words for code, caution in table().items()}
