"""Small random plans in which rounds, breath, passages and stays may vary."""

from textwrap import indent

from hypothesis import strategies as st

BREATHS = [
    "breath: 4 s in, 4 s out\n",
    "breath: 4 s in, 5 s out\nbreath may stretch: 8.4 to 9.6 s\n",
    "breath: 6 a minute\nbreath may stretch: 6 to 7 a minute\n",
]
MOVES = "- in: arms overhead\n- out: mountain\n"


@st.composite
def stays(draw: st.DrawFn) -> str:
    amount = draw(st.integers(1, 6))
    low, high = draw(st.integers(1, amount)), draw(st.integers(amount, 9))
    unit = draw(st.sampled_from(["breaths", "breaths", "min"]))
    bounds = draw(st.sampled_from(["", f"  may stretch: {low} to {high} {unit}\n"]))
    return f"- stay: {amount} {unit}\n{bounds}".replace("stay: 1 breaths", "stay: 1 breath")


@st.composite
def passages(draw: st.DrawFn, depth: int = 1) -> str:
    inner = MOVES + draw(stays())
    if draw(st.booleans()):
        inner += "- in: same\n- out: same\n  only: last round\n" if depth > 1 else draw(stays())
    if depth == 1 and draw(st.booleans()):
        inner += draw(passages(depth=2))
    kind = draw(st.sampled_from(["rounds", "drop", "both", "side"]))
    head = {"drop": "- may drop: yes\n", "side": "- each side: yes\n"}.get(kind, "")
    if not head:
        few, most = draw(st.integers(1, 2)), draw(st.integers(2, 4))
        written = draw(st.integers(few, most))
        bounds = f"may repeat: {few} to {most}" if written > 1 or most > 2 else "least: 1"
        head = f"- rounds: {written}\n  {bounds}\n"
        head += "  may drop: yes\n" if kind == "both" else ""
    if depth > 1 and "may repeat" not in head:
        inner = inner.replace("- out: same\n  only: last round\n", "- out: same\n")
    return f"{head}  steps:\n{indent(inner, '    ')}"


@st.composite
def varying_plans(draw: st.DrawFn, shares: bool = False) -> str:
    """A whole plan of one to three parts, without a length."""
    count = draw(st.integers(1, 3))
    text = "plan: 1\ntitle: T\nkind: piece\n" + draw(st.sampled_from(BREATHS)) + "parts:\n"
    for number in range(count):
        text += f"  - part: P{number}\n"
        own = draw(st.sampled_from(["", "", *BREATHS[1:]]))
        text += indent(own, "    ")
        if shares and number == 0 and count > 1:
            text += f"    share: {draw(st.integers(10, 70))} %\n"
        steps = "- come to: mountain\n" + draw(stays())
        steps += "".join(draw(st.lists(passages(), max_size=2)))
        text += "    steps:\n" + indent(steps, "      ")
    return text
