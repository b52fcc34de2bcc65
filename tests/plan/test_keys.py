import subprocess
import sys

import pytest

from conductor.plan import keys

CHECK = """
import sys
from conductor.plan.reader import read
plan, findings = read("plan: 1\\nparts:\\n  - part: A\\n    steps:\\n      - in: plank\\n", "p")
assert plan and not findings
assert "rapidfuzz" not in sys.modules, "loaded without need"
read("plan: 1\\nprats: x\\n", "p")
assert "rapidfuzz" in sys.modules
"""


@pytest.mark.parametrize(
    ("written", "place", "meant"),
    [
        ("stya", keys.ANY, "stay"),
        ("each_side", keys.ANY, "each side"),
        ("Each Side", keys.ANY, "each side"),
        ("come-to", keys.ANY, "come to"),
        ("may strech", keys.ANY, "may stretch"),
        ("hold", keys.ANY, "stay"),
        ("repeat", keys.ANY, "rounds"),
        ("name", keys.PART, "part"),
        ("name", keys.TOP, "title"),
        ("lenght", keys.TOP, "length"),
        ("xylophone", keys.TOP, ""),
    ],
)
def test_the_key_that_was_meant(written: str, place: keys.Place, meant: str) -> None:
    assert keys.meant(written, place) == meant


def test_other_words_lead_to_keys_that_exist_and_are_none_themselves() -> None:
    everything = keys.STEP | keys.PART.keys | keys.FLOW.keys | keys.TOP.keys | keys.WAY.keys
    assert set(keys.SLIPS.values()) <= everything
    assert not set(keys.SLIPS) & keys.STEP - {"side"}


def test_every_modifier_has_a_place() -> None:
    for key in keys.MODIFIERS:
        assert any(key in place.keys for place in (keys.MOVE, keys.STAY, keys.FREE, keys.BLOCK))


def test_spelling_help_loads_only_on_a_miss() -> None:
    subprocess.run([sys.executable, "-c", CHECK], check=True)
