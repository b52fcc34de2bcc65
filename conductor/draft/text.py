"""The draft as the text of a plan, with comments for whoever changes it."""

from collections.abc import Iterator, Mapping

from conductor.draft.graph import shapes
from conductor.draft.tree import Bell, Call, Come, Free, Group, Move, Rest, Stay, Step, Tempo
from conductor.sides import Breath
from conductor.values import Struct

WIDE = 96  # columns of a comment


class Part(Struct, frozen=True):
    """A named stretch of the class: why it stands here, its steps, its own breath if it has one."""

    name: str
    why: str
    steps: tuple[Step, ...]
    speak: str = ""


class Page(Struct, frozen=True):
    """All that the text of a plan says."""

    head: tuple[str, ...]  # comment lines before the plan
    title: str
    people: str
    minutes: int
    tempo: Tempo
    first_side: str
    flows: Mapping[str, tuple[Step, ...]]
    about: Mapping[str, str]  # a comment for each flow
    parts: tuple[Part, ...]
    amounts: Mapping[int, int]  # breaths, or seconds of a rest, by key


def text(page: Page) -> str:
    """Write the plan."""
    lines = [f"# {line}".rstrip() for line in page.head]
    lines += [
        "plan: 1",
        f"title: {quoted(page.title)}",
        "kind: class",
        f"for: {quoted(page.people)}",
        f"length: {page.minutes} min",
        f"breath: {_seconds(page.tempo.inhale)} in, {_seconds(page.tempo.exhale)} out",
        f"first side: {page.first_side}",
    ]
    if page.flows:
        lines.append("flows:")
    for name, steps in page.flows.items():
        lines += _comment(page.about.get(name, ""), 1)
        lines.append(f"  {name}:")
        lines += _steps(steps, 2, page.amounts)
    lines.append("parts:")
    for part in page.parts:
        lines += _comment(part.why, 1)
        lines.append(f"  - part: {part.name}")
        if part.speak:
            lines.append(f"    speak: {part.speak}")
        lines.append("    steps:")
        lines += _steps(part.steps, 3, page.amounts)
    return "\n".join(lines) + "\n"


def quoted(words: str) -> str:
    """Words as YAML takes them: bare where they are plain, else in quotes."""
    plain = words and all(sign.isalnum() or sign in " ,.'-()<>" for sign in words)
    if plain and words[0].isalpha() and words == words.strip():
        return words
    escaped = words.replace("\\", "\\\\").replace('"', '\\"')
    return f'"{escaped}"'


def _comment(words: str, depth: int) -> Iterator[str]:
    """A comment, broken into lines."""
    pad = "  " * depth
    line = ""
    for word in words.split():
        if line and len(pad) + len(line) + len(word) + 3 > WIDE:
            yield f"{pad}# {line}"
            line = ""
        line = f"{line} {word}".strip()
    if line:
        yield f"{pad}# {line}"


def _seconds(ms: int) -> str:
    return f"{ms / 1000:g} s"


def _steps(steps: tuple[Step, ...], depth: int, amounts: Mapping[int, int]) -> Iterator[str]:
    for step in steps:
        for at, line in enumerate(_lines(step, amounts)):
            yield "  " * depth + ("  " if at else "- ") + line


def _lines(step: Step, amounts: Mapping[int, int]) -> Iterator[str]:
    match step:
        case Move():
            yield from _move(step)
        case Come():
            yield f"come to: {_name(step.shape)}"
            yield f"over: {_breaths(step.breaths)}"
            yield f"say: {quoted(step.say)}"
        case Stay():
            yield from _stay(step, amounts[step.key])
        case Rest():
            yield from _rest(step, amounts)
        case Free():
            yield f"free: {step.seconds} s"
            yield f"to: {_name(step.to)}"
            yield from [f"side: {step.side}"] if step.side else []
            yield f"say: {quoted(step.say)}"
        case Bell():
            yield f"bell: {step.strokes}"
        case Call():
            yield f"flow: {step.flow}"
        case Group():
            yield from _group(step, amounts)


def _name(shape: str) -> str:
    return shapes()[shape].name


def _breaths(many: int) -> str:
    return f"{many} breath" if many == 1 else f"{many} breaths"


def _move(step: Move) -> Iterator[str]:
    verb = "in" if step.breath is Breath.IN else "out"
    yield f"{verb}: {_name(step.shape) if step.shape else 'same'}"
    said = (("say", step.say), ("ease", step.ease), ("more", step.more))
    for key, words in said:
        if words:
            yield f"{key}: {quoted(words)}"


def _stay(step: Stay, many: int) -> Iterator[str]:
    yield f"stay: {_breaths(many)}"
    if step.least < step.most:
        yield f"may stretch: {step.least} to {_breaths(step.most)}"
    if step.say:
        yield "say:"
        for anchor, words in step.say:
            yield f"  - {anchor}: {quoted(words)}" if anchor else f"  - {quoted(words)}"


def _rest(step: Rest, amounts: Mapping[int, int]) -> Iterator[str]:
    if step.key < 0:
        yield f"stay: {step.seconds} s"
    else:
        yield f"stay: {_time(amounts[step.key])}"
        yield f"may stretch: {_time(step.least)} to {_time(step.most)}"
    yield f"say: {quoted(step.say)}" if step.say else "speak: nothing"


def _time(seconds: int) -> str:
    minutes, rest = divmod(seconds, 60)
    if rest and minutes:
        return f"{minutes} min {rest} s"
    return f"{minutes} min" if minutes else f"{rest} s"


def _group(step: Group, amounts: Mapping[int, int]) -> Iterator[str]:
    yield "each side: yes" if step.sides else f"rounds: {step.rounds}"
    if step.alternate:
        yield "alternate: yes"
    if step.speak:
        yield f"speak: {step.speak}"
    yield "steps:"
    yield from _steps(step.steps, 1, amounts)
    if step.between:
        yield "between:"
        yield from _steps(step.between, 1, amounts)
