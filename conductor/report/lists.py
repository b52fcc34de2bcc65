"""Lists as text: plans, shapes and rules, one line each, and pages about one of them."""

import textwrap
from collections.abc import Iterable, Mapping

from conductor.checks.limits.model import Limit
from conductor.report.score import clock
from conductor.rules import Rule
from conductor.score.model import Score
from conductor.shapes.cautions import legend
from conductor.shapes.model import Shape

CARE = (
    "Usual cautions only; they replace neither a teacher's training nor medical advice. Who has a "
    "condition asks a doctor first."
)


def plan_line(name: str, score: Score | None) -> str:
    """One plan: its name to lead it by, its length and its title."""
    if score is None:
        return f"{name:<28} cannot be led; `conductor check {name}` says why"
    meta = score.meta
    level = f", {meta.for_}" if meta.for_ else ""
    return f"{name:<28} {clock(score.length):>7}  {meta.title} ({meta.kind}{level})"


def shape_lines(shapes: Iterable[Shape], words: tuple[str, ...]) -> list[str]:
    """Shapes one a line, those that hold all the words in names, family or areas."""
    lines = []
    for shape in sorted(shapes, key=lambda one: one.name):
        hay = " ".join(
            (shape.id, *shape.names, *shape.spellings, shape.iast, shape.ascii, shape.family)
        )
        hay = f"{hay} {' '.join(shape.asks)}".lower()
        if all(word.lower() in hay for word in words):
            side = f"right = {shape.side_means}" if shape.sided else ""
            lines.append(f"{shape.name:<32} {shape.iast:<36} {shape.family:<12} {side}".rstrip())
    return lines


def shape_page(shape: Shape, shapes: Mapping[str, Shape]) -> str:
    """All that is known of a shape, with the cautions and where each thing comes from."""
    words = legend()

    def names(ids: Iterable[str]) -> str:
        return ", ".join(shapes[one].name if one in shapes else one for one in ids)

    stance = shape.place
    rows = [
        ("also called", ", ".join(shape.names[1:])),
        ("Sanskrit", "  ".join(part for part in (shape.iast, shape.deva, shape.ascii) if part)),
        ("said aloud", "; ".join(part for part in (shape.spoken, shape.spoken_sanskrit) if part)),
        ("family", shape.family),
        ("right means", shape.side_means or "it has no left and right"),
        ("carried by", stance.base),
        ("faces", stance.frame),
        ("spine", shape.spine),
        ("usual breath in", f"{shape.breath}. {shape.breath_note}".rstrip(". ")),
        ("usual stay", f"{shape.hold[0]} to {shape.hold[1]} s"),
        ("asks of", ", ".join(f"{area} ({much} of 3)" for area, much in shape.asks.items())),
        ("prepared by", names(shape.prepares)),
        ("undone by", names(shape.undoes)),
        ("comes after", names(shape.before)),
        ("comes before", names(shape.after)),
        ("gentler way", names((shape.gentler,)) if shape.gentler else ""),
        ("props", ", ".join(shape.props)),
        ("cautions", "; ".join(words.get(code, code) for code in shape.cautions)),
        ("note", shape.note),
        ("sources", _sources(shape)),
    ]
    lines = [shape.name]
    for label, text in rows:
        if text:
            lines += textwrap.wrap(
                str(text), 96, initial_indent=f"  {label:<16}", subsequent_indent=" " * 18
            )
    return "\n".join([*lines, *textwrap.wrap(CARE, 96)])


def _sources(shape: Shape) -> str:
    """Where each field comes from; `*` in the data stands for every field not named."""
    named = {key: text for key, text in shape.sources.items() if key != "*"}
    parts = [f"{key}: {text}" for key, text in named.items()]
    rest = shape.sources.get("*", "")
    return "; ".join([*parts, f"{'otherwise: ' if parts else ''}{rest}"] if rest else parts)


def rule_lines(rules: Iterable[Rule]) -> list[str]:
    """Rules by family, one a line: weight, name, sentence."""
    lines: list[str] = []
    family = ""
    for rule in sorted(rules, key=lambda one: (one.family, one.name)):
        if rule.family != family:
            family = rule.family
            lines += ["", family] if lines else [family]
        lines.append(f"  {rule.weight:<8} {rule.name:<24} {rule.sentence}")
    return lines


def rule_page(rule: Rule, limits: Iterable[Limit] = (), *, may_be_off: bool = False) -> str:
    """One rule with its reason, its source, its thresholds and its two examples."""
    lines = [f"{rule.name}  ({rule.weight}, {rule.family})", "", *textwrap.wrap(rule.sentence, 96)]
    lines += ["", *textwrap.wrap(f"Why: {rule.why}", 96)]
    lines += ["", *textwrap.wrap(f"Source: {rule.source}", 96)]
    rows = [row for limit in limits for row in _limit_rows(limit)]
    if rows:
        lines += ["", "Thresholds, which a plan may set under `check`:", *rows]
    for label, example in (("Not so:", rule.bad), ("But so:", rule.good)):
        if example:
            lines += ["", label, textwrap.indent(example.rstrip(), "    ")]
    if may_be_off:
        lines += ["", "A plan that means it says so, with a reason:"]
        lines += [f"    check: {{off: {{{rule.name}: the reason}}}}"]
    return "\n".join(lines)


def _limit_rows(limit: Limit) -> list[str]:
    text = f"{limit.name}: {limit.value:g} {limit.unit} ({limit.source})"
    return textwrap.wrap(text, 96, initial_indent="    ", subsequent_indent="        ")
