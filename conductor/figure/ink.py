"""The elements of an SVG, and its style: light on paper, dark where the reader's screen is dark."""

from xml.sax.saxutils import escape, quoteattr

from conductor.patterns import pattern
from conductor.values import replace
from conductor.view.clean import clean
from conductor.view.palette import DARK, LIGHT, Palette

_NO_XML = pattern("[\ud800-\udfff\ufffe\uffff]")  # what no XML file may hold
_EM = 0.53  # mean width of a letter of a sans serif face, in its own size
_WIDE = 1.0
PAPER = replace(LIGHT, ground="#ffffff", panel="#f3f1ea", trough="#e6e2d6")


def safe(text: str) -> str:
    """A text for an SVG: no sign that XML forbids, none that steers anything, no markup."""
    return escape(_NO_XML.sub("", clean(text)))


def tag(name: str, content: str = "", /, **values: str | float | None) -> str:
    """One element; `content` is markup already, and an underscore stands for a hyphen."""
    shown = "".join(
        f" {key.rstrip('_').replace('_', '-')}={quoteattr(_value(value))}"
        for key, value in values.items()
        if value is not None
    )
    return f"<{name}{shown}>{content}</{name}>" if content else f"<{name}{shown}/>"


def _value(value: str | float) -> str:
    return value if isinstance(value, str) else f"{value:.2f}".rstrip("0").rstrip(".")


def words(text: str, x: float, y: float, look: str, **more: str | float | None) -> str:
    """A line of text; `look` names its classes."""
    return tag("text", safe(text), x=x, y=y, class_=look, **more)


def box(look: str, place: tuple[float, float, float, float], note: str = "", r: float = 1) -> str:
    """A rectangle (x, y, width, height); `note` is shown where it is pointed at."""
    x, y, width, height = place
    inner = tag("title", safe(note)) if note else ""
    return tag("rect", inner, class_=look, x=x, y=y, width=max(width, 0.5), height=height, rx=r)


def reach(text: str, size: float) -> float:
    """About how wide a text is drawn; letters of the far East are as wide as high."""
    return size * sum(_WIDE if ord(sign) > 0x2E7F else _EM for sign in text)


def fitted(text: str, size: float, room: float) -> str:
    """The text where it fits in so many units, or nothing."""
    return text if reach(text, size) <= room else ""


def style() -> str:
    """The whole style sheet: one set of rules, with three sets of colours."""
    dark = f"@media (prefers-color-scheme: dark) {{\n{_colours(DARK)}}}\n"
    paper = f"@media print {{\n{_colours(PAPER)}}}\n"
    return tag("style", "\n" + _FORMS + _colours(LIGHT) + dark + paper)


_FORMS = """\
text { font-family: "Source Sans 3", "Noto Sans", "Segoe UI", Helvetica, Arial, sans-serif; }
.title { font-size: 26px; font-weight: 600; }
.lead { font-size: 13px; }
.sum { font-size: 11.5px; }
.lane { font-size: 11px; font-weight: 600; }
.who { font-size: 9.5px; }
.tick { font-size: 10px; }
.part { font-size: 12.5px; font-weight: 600; }
.name { font-size: 10px; }
.thin { font-size: 8.5px; }
.mid { text-anchor: middle; }
.end { text-anchor: end; }
.grid { stroke-width: 0.6; fill: none; }
.axis { stroke-width: 1; fill: none; }
.cut { stroke-width: 0.9; stroke-dasharray: 2 2; fill: none; }
.cell { stroke-width: 0.6; }
.curve { stroke-width: 1.6; fill: none; stroke-linejoin: round; }
.area { stroke: none; fill-opacity: 0.16; }
.soft-box { fill-opacity: 0.22; stroke-width: 0.9; }
.name, .thin { paint-order: stroke; stroke-width: 2.4px; stroke-linejoin: round; }
"""


def _colours(of: Palette) -> str:
    """The colours of every class, from a palette whose inks are all 7:1 or better on its ground."""
    return f"""\
.ground {{ fill: {of.ground}; }}
.title, .part, .name, .thin, .sum, .lead, .lane {{ fill: {of.text}; }}
.tick, .who, .quiet {{ fill: {of.soft}; }}
.grid {{ stroke: {of.trough}; }}
.axis, .cut {{ stroke: {of.soft}; }}
.band {{ fill: {of.trough}; }}
.cell {{ fill: {of.panel}; stroke: {of.soft}; stroke-opacity: 0.55; }}
.hatch {{ stroke: {of.soft}; stroke-width: 0.7; stroke-opacity: 0.6; }}
.name, .thin {{ stroke: {of.panel}; }}
.effort {{ fill: {of.rising}; stroke: {of.rising}; }}
.curve {{ fill: none; }}
.right {{ fill: {of.right}; stroke: {of.right}; }}
.left {{ fill: {of.left}; stroke: {of.left}; }}
.bare {{ stroke: none; }}
.breath {{ fill: {of.falling}; stroke: {of.falling}; }}
.speech {{ fill: {of.soft}; }}
.bell {{ fill: {of.ground}; stroke: {of.alert}; stroke-width: 1.4; }}
.load {{ fill: {of.alert}; stroke: {of.alert}; }}
.mark {{ stroke: {of.alert}; stroke-width: 1.2; fill: none; }}
"""


def hatches() -> str:
    """Patterns that tell kinds apart without colour."""
    lines = {
        "rest": "M0 8L8 0",
        "back": "M0 4H8",
        "long": "M4 0V8",
        "held": "M0 0L8 8M0 8L8 0",
        "gone": "M0 0L8 8",
    }
    found = ""
    for name, path in lines.items():
        inner = tag("path", d=path, class_="hatch")
        values: dict[str, str | float | None] = {
            "patternUnits": "userSpaceOnUse",
            "width": 8.0,
            "height": 8.0,
        }
        found += tag("pattern", inner, id=f"hatch-{name}", **values)
    return tag("defs", found)
