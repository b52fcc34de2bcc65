"""What a plan may set under `voice` and `view`, and the words and bells that come of it.

`check` has names of its own, which the check knows.
"""

from conductor.compiler.model import Bit
from conductor.compiler.rules import found
from conductor.findings import Finding
from conductor.plan.model import Plan
from conductor.stance import Trunk
from conductor.values import replace

SWITCHES = ("voice.last breath", "voice.count down", "voice.part bell", "voice.off")
KNOWN = (
    *SWITCHES,
    "voice.rate",
    "voice.name",
    "voice.recordings",
    "voice.fastest",
    "view.screen",
    "view.distance",
    "shapes from",
)
NUMBERS = {  # from, to, in words, what can be typed
    "voice.rate": (80, 450, "the rate is 80 to 450 words a minute", "rate: 150"),
    "voice.fastest": (0, 40, "cues may be spoken 0 to 40 % faster", "fastest: 15 %"),
    "view.distance": (0.3, 10, "the screen stands 0.3 to 10 m away", "distance: 2 m"),
}
_YES, _NO = frozenset({"yes", "true", "on"}), frozenset({"no", "false", "off"})
_NUMBERS = ("Three more.", "Two more.", "Last breath.")
LEAST_BREATHS = 3  # a shorter stay has no need of a count


def checked(plan: Plan) -> tuple[Finding, ...]:
    """Say which settings nobody knows, and which cannot be read."""
    findings = []
    for name, text in plan.options.items():
        if name.startswith("check."):
            continue
        if name not in KNOWN:
            words = f"no setting is called {name.replace('.', ': ', 1)}"
            findings.append(found("no-such-setting", words, text.span, _near(name)))
        elif name in SWITCHES and text.value.lower() not in _YES | _NO:
            findings.append(found("unreadable-setting", "write yes or no", text.span))
        elif name in NUMBERS:
            low, high, words, hint = NUMBERS[name]
            if not low <= _number(text.value) <= high:
                findings.append(found("unreadable-setting", words, text.span, hint))
    return tuple(findings)


def _number(text: str) -> float:
    """The number in front of its unit; one that cannot be read lies outside of every bound."""
    digits = text.strip().rstrip("% m")
    plain = digits.replace(".", "", 1)
    return float(digits) if plain.isascii() and plain.isdecimal() else -1.0


def _near(name: str) -> str:
    from rapidfuzz import process  # noqa: PLC0415 -- only on a slip

    match = process.extractOne(name, KNOWN, score_cutoff=60)
    group, _, key = str(match[0]).partition(".") if match else ("", "", "")
    return f"did you mean `{key or group}`?" if match else ""


def accented(bits: tuple[Bit, ...], plan: Plan) -> tuple[Bit, ...]:
    """Count down stays, announce their last breath, ring at a change of part: as the plan asks."""
    last, down, bell = (_asked(plan, name) for name in SWITCHES[:3])
    if not (last or down or bell):
        return bits
    led = []
    part = bits[0].part if bits else 0
    for bit in bits:
        if bell and bit.part != part:
            bit = replace(bit, bells=bit.bells or 1, bell="part")  # noqa: PLW2901
        part = bit.part
        led.append(_counted(bit, down=down) if last or down else bit)
    return tuple(led)


def _asked(plan: Plan, name: str) -> bool:
    text = plan.options.get(name)
    return text is not None and text.value.lower() in _YES


def _counted(bit: Bit, *, down: bool) -> Bit:
    """Give a stay its count, unless it rests, is silent, or has words of its own at its end."""
    resting = bit.stance is not None and bit.stance.trunk is Trunk.RESTING
    breaths = bit.halves // 2
    if bit.verb != "stay" or breaths < LEAST_BREATHS or resting or bit.form == "nothing":
        return bit
    if any(anchor == "last" for anchor, _ in bit.lines):
        return bit
    words = _NUMBERS[-min(3, breaths - 1) :] if down else _NUMBERS[-1:]
    return replace(bit, lines=(*bit.lines, *(("last", text) for text in words)))
