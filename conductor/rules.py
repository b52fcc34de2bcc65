"""What a rule is. Each room keeps the rules it enforces; `conductor rules` lists them all."""

from conductor.findings import Weight
from conductor.values import Struct


class Rule(Struct, frozen=True):
    """A rule by name: one sentence that states it, why it is there, a bad and a good example.

    `family` groups rules in lists; `source` says where the rule comes from.
    """

    name: str
    weight: Weight
    family: str
    sentence: str
    why: str
    bad: str = ""
    good: str = ""
    source: str = "common practice"
