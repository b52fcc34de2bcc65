"""One draft, letter for letter: the same wish gives the same plan on every machine.

It changes when the catalogue or the drafting does; read the difference as a teacher, then write it
anew with: python -m tests.draft.test_golden
"""

from pathlib import Path

from conductor.draft.wish import Focus
from tests.draft.drawing import draft

GOLDEN = Path(__file__).parents[1] / "golden" / "drafted-backbend-40.yaml"


def test_a_draft_is_the_same_on_every_machine() -> None:
    assert draft(40, Focus.BACKBEND, 2).text == GOLDEN.read_text("utf-8")


if __name__ == "__main__":
    GOLDEN.write_text(draft(40, Focus.BACKBEND, 2).text, "utf-8", newline="\n")
