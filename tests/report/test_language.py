import pytest

from conductor.plan.keys import STEP, TOP
from conductor.report import language
from conductor.report.language import Key
from tests.support import findings_of, plan_of, score_of

KEYS = (*language.TOP, *language.VERBS, *language.MODIFIERS)
EXAMPLES = [key for key in KEYS if key.example]
FLOWS = "rise:\n  - in: arms overhead\n  - out: mountain\n"


def plan(key: Key) -> str:
    if not key.top:
        return plan_of(key.example, flows=FLOWS)
    if "parts:" in key.example:
        return f"plan: 1\ntitle: T\nkind: piece\n{key.example}\n"
    base = {"title": "title: T", "kind": "kind: piece", "breath": "breath: 4 s in, 4 s out"}
    head = "\n".join(text for name, text in base.items() if f"{name}:" not in key.example)
    steps = "- come to: mountain\n      - stay: 60 breaths\n        may stretch: yes"
    steps += "\n      - stay: 5 min\n        may stretch: 1 to 30 min"
    return f"plan: 1\n{head}\n{key.example}\nparts:\n  - part: One\n    steps:\n      {steps}\n"


@pytest.mark.parametrize("key", EXAMPLES, ids=lambda key: key.name)
def test_every_example_compiles(key: Key) -> None:
    text = plan(key)
    told = [one for one in findings_of(text) if one.weight != "remark"]
    assert told == []
    assert score_of(text).moments


def test_every_key_of_the_language_is_there_and_no_other() -> None:
    named = {key.name for key in KEYS}
    assert named == STEP | TOP.keys | {"share"}


def test_the_page_names_keys_marks_and_where_to_go_on() -> None:
    told = language.page()
    for word in ("may stretch", "<other>", "conductor rules"):
        assert word in told
    assert max(map(len, told.splitlines())) <= 100
