"""What a shell offers at the tab key: verbs, plans, shapes, rules and the values of options."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from itertools import islice
from pathlib import Path
from typing import TYPE_CHECKING

import click
from click.shell_completion import CompletionItem
from click.types import StringParamType

from conductor import places

if TYPE_CHECKING:
    Items = list[CompletionItem]

LENGTHS = ("30min", "45min", "60min", "75min", "90min")
ROWS = ("5min", "10min", "15min", "30min")
LEVELS = {"ease": "gentler ways", "more": "fuller ways", "or": "other ways"}


class Offered(StringParamType):
    """A text for which a shell is offered choices; it takes every text, as before."""

    def __init__(self, offer: Callable[[click.Context, str], Items]) -> None:
        self._offer = offer

    def shell_complete(
        self,
        ctx: click.Context,
        param: click.Parameter,  # noqa: ARG002 -- click hands it to whoever wants it
        incomplete: str,
    ) -> Items:
        """What may stand here, beginning with what is typed already."""
        return self._offer(ctx, incomplete)


def offering(command: click.Command) -> click.Command:
    """The command, with choices for those of its texts of which there is something to offer."""
    for param in command.params:
        offer = _OFFERS.get((command.name or "", param.name or "")) or _offer_of(param)
        if offer and isinstance(param.type, StringParamType):
            param.type = Offered(offer)
    return command


def _offer_of(param: click.Parameter) -> Callable[[click.Context, str], Items] | None:
    if isinstance(param, click.Argument):
        return plans if param.name in {"plan", "plans", "other"} else None
    if param.name == "level":
        return _levels
    metavar = getattr(param, "metavar", "")
    if metavar == "SHAPE":
        return shapes
    lengths = {"length": LENGTHS, "lengths": LENGTHS, "row": ROWS}.get(param.name or "", ())
    return (lambda _, typed: starting(dict.fromkeys(lengths, ""), typed)) if lengths else None


def starting(choices: Iterable[str] | dict[str, str], typed: str) -> Items:
    """Those that begin with what is typed, each with its help."""
    helps = choices if isinstance(choices, dict) else dict.fromkeys(choices, "")
    found = (word for word in helps if word.lower().startswith(typed.lower()))
    return [CompletionItem(word, help=helps[word] or None) for word in found]


def plans(_: click.Context, typed: str) -> Items:
    """Shipped plans and plans in this folder by name; all files where none begins so."""
    here = sorted(
        path.name
        for path in Path().iterdir()
        if path.suffix in places.SUFFIXES and path.is_file() and " " not in path.name
    )
    shipped = [path.stem for path in places.shipped_plans()]
    return starting([*here, *shipped], typed) or [CompletionItem(typed, type="file")]


def shapes(_: click.Context, typed: str) -> Items:
    """Shapes by names without blanks, which a shell would part."""
    from conductor.shapes.catalogue import load  # noqa: PLC0415 -- only for these

    known = load().shapes.values()
    return starting({shape.id: shape.iast or shape.name for shape in known}, typed)


def _words(_: click.Context, typed: str) -> Items:
    """Families and areas of shapes, by which they are searched."""
    from conductor.shapes.catalogue import load  # noqa: PLC0415 -- only for these

    known = load().shapes.values()
    found = {word for one in known for word in (one.family, *one.asks) if " " not in word}
    return starting(sorted(found), typed)


def _rules(_: click.Context, typed: str) -> Items:
    from conductor.cli.rulebook import RULES  # noqa: PLC0415 -- only for these

    return starting({rule.name: rule.sentence for rule in RULES}, typed)


def _voices(ctx: click.Context, typed: str) -> Items:
    """Voices of the engine that is asked for; none where no engine answers."""
    from conductor.voice.manner import Manner, VoiceError  # noqa: PLC0415 -- only for these
    from conductor.voice.pool import NoVoiceError  # noqa: PLC0415 -- as above
    from conductor.voice.voices import voices  # noqa: PLC0415 -- as above

    try:
        known = voices(Manner(engine=ctx.params.get("engine") or "espeak"))
    except (NoVoiceError, VoiceError, OSError):
        return []
    return starting({one.id: one.name for one in known if " " not in one.id}, typed)


def _levels(ctx: click.Context, typed: str) -> Items:
    """The three kinds of ways, and those that the plan on the line gives names."""
    # behind an option that has no value yet, what stood before it is not read as the plan
    plan = ctx.params.get("plan") or next(iter(ctx.args), "")
    return starting({**LEVELS, **_named(plan)}, typed)


def _named(plan: object) -> dict[str, str]:
    from conductor.cli.opening import opened  # noqa: PLC0415 -- only where a plan is named

    try:
        score = opened(places.plan(str(plan))).score if plan else None
    except OSError:
        return {}
    moments = score.moments if score else ()
    levels = {way.level for moment in moments for way in moment.variants}
    return {name: "" for name in sorted(levels - LEVELS.keys()) if " " not in name}


def _classes(_: click.Context, typed: str) -> Items:
    """The days on which classes were led, the newest first, each with its last class."""
    from conductor import store  # noqa: PLC0415 -- only for these
    from conductor.run.review.kept import LOOKED_AT, heads  # noqa: PLC0415 -- as above

    days: dict[str, str] = {}
    for head in islice(heads(store.journals()), LOOKED_AT):
        if head.when:
            days.setdefault(head.when.date().isoformat(), head.title)
    return starting(days, typed)


def _focuses(_: click.Context, typed: str) -> Items:
    from conductor.draft.wish import MEANS  # noqa: PLC0415 -- only for these

    return starting({focus.value: words for focus, words in MEANS.items()}, typed)


_OFFERS: dict[tuple[str, str], Callable[[click.Context, str], Items]] = {
    ("shape", "name"): shapes,
    ("shapes", "words"): _words,
    ("rule", "name"): _rules,
    ("voices", "name"): _voices,
    ("lead", "voice"): _voices,
    ("review", "which"): _classes,
    ("new", "focus"): _focuses,
    ("new", "first_side"): lambda _, typed: starting(("right", "left"), typed),
}
