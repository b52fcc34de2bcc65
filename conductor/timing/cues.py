"""When each cue starts, in which form, and whether it is over before the next one begins."""

import re
from collections.abc import Iterator, Sequence

from conductor.patterns import pattern
from conductor.score.model import Lengths, Line, Moment, Saying, Score, Words
from conductor.settings import Settings
from conductor.sides import Breath
from conductor.timing.estimate import estimate
from conductor.timing.model import Cue
from conductor.timing.sayings import (
    Form,
    ahead_forms,
    compose,
    forms,
    lines_of,
    phrases,
    speaks,
    taken_up,
    terse_forms,
    wanted,
    words_of,
)
from conductor.values import Struct, field

__all__ = ["compose", "cues", "phrases", "taken_up", "wanted"]

GAP_MS = 250  # silence that keeps two cues apart
AHEAD_MS = 750  # from words ahead to their breath word, for a class that is moving
BELL_MS = 2500  # a stroke of the bell is heard alone this long before a line
STROKE_MS = 2000  # from one stroke to the next
NEAR = 0.85  # of its room: an estimate may be short by this much (p95 of the estimate is 15 %)
SERIES = 12  # moments within which words once said short are said short again
_SIDED = pattern(r"\b(?:left|right)\b", re.IGNORECASE)
_SLOTS = {"ahead": 0, "main": 1}


class _Group(Struct):
    """What a moment has to say: forms to choose from, words ahead, lines; `main` is its start.

    `still` tells that the class is in a stay until then.
    """

    index: int
    moment: Moment
    main: int
    words: Words
    forms: tuple[Form, ...]
    ahead: tuple[Form, ...]
    lines: tuple[Line, ...]
    still: bool
    rung: int  # when a bell that was struck may be spoken over

    @property
    def start(self) -> int:
        """When the first of it is due, words ahead not counted."""
        return self.main if self.forms else self.moment.start


class _Talk(Struct):
    """The cues placed so far, and when the last of them is over."""

    lengths: Lengths
    rate: int
    fastest: int = 0  # percent
    placed: list[Cue] = field(default_factory=list)
    over: int | None = None
    shortened: dict[Form, int] = field(default_factory=dict)  # a full form, and where last short

    def length(self, saying: Saying) -> int:
        """Milliseconds as rendered, else as estimated."""
        known = self.lengths.get(saying)
        if known is not None:
            return known
        return estimate(saying.text, self.rate * (100 + saying.hurry) // 100)

    def hurried(self, form: Form) -> Form | None:
        """The same words spoken as fast as may be, where the voice has them so."""
        fast = Saying(form[1].text, self.fastest)
        if not self.fastest or (self.lengths and fast not in self.lengths):
            return None
        return form[0], fast

    def put(self, index: int, slot: str, form: Form, start: int) -> int:
        """Place a cue and say when it is over."""
        name, saying = form
        length = self.length(saying)
        known = saying in self.lengths
        self.placed.append(Cue(index, slot, saying, start, length, known, 0, name, start))
        end = start + length
        self.over = end if self.over is None else max(self.over, end)
        return end


def cues(
    score: Score, lengths: Lengths, settings: Settings, level: str | None = None
) -> tuple[tuple[Cue, ...], frozenset[Saying]]:
    """All cues in order of their start (score ms), and every saying the class may need.

    `level` None takes the one of the settings, "" leads as written. A cue that finds no room is
    said shorter, then faster (up to `settings.fastest`), then as its breath word alone; one that
    cannot be shortened stays and does not fit.
    The prompting voice says a terse cue half a breath ahead and leaves lines to the screen.
    """
    level = settings.level if level is None else level
    talk = _Talk(lengths, settings.rate, settings.fastest)
    groups = list(_groups(score, settings, level))
    for position, group in enumerate(groups):
        following = groups[position + 1] if position + 1 < len(groups) else None
        _say(talk, group, following, score.length)
    placed = _with_room(talk.placed, score.length)
    return placed, wanted(score, settings.prompting) | _hurrying(placed, settings.fastest)


def _hurrying(placed: Sequence[Cue], fastest: int) -> frozenset[Saying]:
    """What may have to be said faster: cues that leave little room, by estimate or as measured."""
    if not fastest:
        return frozenset()
    return frozenset(
        Saying(cue.saying.text, fastest)
        for cue in placed
        if cue.slot == "main" and cue.form != "breath" and cue.length > NEAR * cue.room
    )


def _groups(score: Score, settings: Settings, level: str) -> Iterator[_Group]:
    rests = {name for name, hold in score.holds.items() if hold.rest}
    before: Moment | None = None
    rung = 0
    for index, moment in enumerate(score.moments):
        if moment.bells:
            rung = moment.start + BELL_MS + STROKE_MS * (moment.bells - 1)
        words = words_of(moment, level) if moment.variants else moment.words
        said = words.form != "nothing" and speaks(moment, moment.hold in rests)
        early = moment.early or before is None
        lead = settings.lead_ms
        said_as, ahead = forms(words), ahead_forms(words) if early else ()
        lines = lines_of(moment, level)
        if settings.prompting:
            lead = max(_half(before, moment), lead)
            said_as, ahead, lines = terse_forms(words), (), ()
        if not said:
            said_as, ahead = (), ()
        if said_as or lines:
            still = bool(before and before.hold)
            main = moment.start - lead
            yield _Group(index, moment, main, words, said_as, ahead, lines, still, rung)
        before = moment


def _half(before: Moment | None, moment: Moment) -> int:
    """Half a breath before this moment, in ms."""
    halves = [one for one in (before, moment) if one and one.breath is not Breath.FREE]
    return min((one.length for one in halves), default=0)


def _say(talk: _Talk, group: _Group, following: _Group | None, length: int) -> None:
    """Place all a moment has to say, with room for the words ahead of the one that follows."""
    limit = following.start if following else max(length, group.start)
    start = group.main
    ahead = _ahead(talk, group, limit)
    if ahead:
        over = talk.put(group.index, "ahead", *ahead)
        whole = (
            _whole_after(talk, group, following, limit, over) if ahead[0][0] == "short" else None
        )
        bare: Form = ("breath", compose(group.words.breath, ""))
        talk.put(group.index, "main", whole or bare, start)
    elif group.forms:
        chosen = _chosen(talk, group, following, limit)
        if group.index == 0 and not group.words.breath:
            start = min(start, limit - talk.length(chosen[1]))
        talk.put(group.index, "main", chosen, start)
    _say_lines(talk, group, limit)


def _ahead(talk: _Talk, group: _Group, limit: int) -> tuple[Form, int] | None:
    """The longest words that are over before the breath word, and when they start.

    Half a breath ahead of a class that stays; one that moves hears them just before they are
    wanted, as does one that is about to begin. Written words are not cut short to be ahead.
    """
    for form in group.ahead:
        cut = form[0] == "short" and (group.words.written or _adds_nothing(form, group))
        if cut and _whole_fits(talk, group, limit):
            return None
        need = talk.length(form[1]) + GAP_MS
        if talk.over is None:
            return form, group.main - need
        lead = group.moment.length if group.still else need - GAP_MS + AHEAD_MS
        start = max(talk.over + GAP_MS, group.main - max(lead, need))
        if start + need <= group.main:
            return form, start
    return None


def _adds_nothing(form: Form, group: _Group) -> bool:
    """Whether words ahead only name what the whole cue names too, and no side."""
    text = form[1].text
    return not _SIDED.search(text) and text.rstrip(".").lower() in group.forms[0][1].text.lower()


def _whole_after(
    talk: _Talk, group: _Group, following: _Group | None, limit: int, over: int
) -> Form | None:
    """The whole cue on its breath, where only its side or its shape was heard ahead."""
    form = group.forms[0]
    after = sum(talk.length(line.saying) + GAP_MS for line in group.lines)
    coming = _wanted_ahead(following) if following else ()
    needs = min((talk.length(saying) + 2 * GAP_MS for _, saying in coming), default=0)
    fits = group.main + talk.length(form[1]) + after + needs <= limit
    return form if form[0] == "full" and fits and over + GAP_MS <= group.main else None


def _whole_fits(talk: _Talk, group: _Group, limit: int) -> bool:
    name, saying = group.forms[0]
    return name == "full" and group.main + talk.length(saying) <= limit


def _chosen(talk: _Talk, group: _Group, following: _Group | None, limit: int) -> Form:
    """The longest form that leaves room for what else is to be said, else for itself alone.

    It gives way to all words ahead of the next moment, but not to what is short of them too.
    """
    after = sum(talk.length(line.saying) + GAP_MS for line in group.lines)
    ahead = _wanted_ahead(following) if following else ()
    needs = [after + talk.length(saying) + 2 * GAP_MS for _, saying in ahead] or [after]
    for form in _in_series(talk, group):
        need = min(needs) if form is group.forms[0] else needs[0]
        if form[0] != "breath" and group.main + talk.length(form[1]) + need <= limit:
            return _noted(talk, group, form)
    for form in group.forms:
        if form[0] != "breath" and group.main + talk.length(form[1]) + after <= limit:
            return form
    for form in group.forms:
        if form[0] != "breath" and group.main + talk.length(form[1]) <= limit:
            return form
    return _hurried(talk, group, limit) or group.forms[-1]


def _hurried(talk: _Talk, group: _Group, limit: int) -> Form | None:
    """The shortest words there are, spoken faster, where that makes them fit."""
    words = [form for form in group.forms if form[0] != "breath"]
    fast = talk.hurried(words[-1]) if words else None
    return fast if fast and group.main + talk.length(fast[1]) <= limit else None


def _wanted_ahead(group: _Group) -> tuple[Form, ...]:
    """What may be said ahead of a moment; of written words only the longest."""
    return group.ahead[:1] if group.words.written else group.ahead


def _in_series(talk: _Talk, group: _Group) -> tuple[Form, ...]:
    """The forms to try: what gave way a few moments ago is said no longer than it was then."""
    last = talk.shortened.get(group.forms[0])
    near = last is not None and group.index - last <= SERIES
    return group.forms[1:] if near else group.forms


def _noted(talk: _Talk, group: _Group, form: Form) -> Form:
    """Remember that words gave way, so that the last of a series is not longer than the others."""
    if form is not group.forms[0]:
        talk.shortened[group.forms[0]] = group.index
    return form


def _say_lines(talk: _Talk, group: _Group, limit: int) -> None:
    """Place lines where they are wanted, or as soon after as the words before them are over."""
    moment = group.moment
    for number, line in enumerate(group.lines):
        length = talk.length(line.saying)
        start = moment.start + line.at
        if line.at < 0:
            start = max(moment.start, min(moment.end + line.at, moment.end - length))
        start = max(start, min(group.rung, limit - length))
        if talk.over is not None and start < talk.over + GAP_MS:
            start = max(start, min(talk.over + GAP_MS, limit - 1))
        talk.put(group.index, f"line{number}", ("full", line.saying), start)


def _with_room(placed: Sequence[Cue], length: int) -> tuple[Cue, ...]:
    """The cues in order, each with the time to the next one, or to the end of the class."""
    ordered = sorted(
        placed, key=lambda cue: (cue.start, cue.moment, _SLOTS.get(cue.slot, 2), cue.slot)
    )
    ends = [cue.start for cue in ordered[1:]] + [length]
    return tuple(
        Cue(
            moment=cue.moment,
            slot=cue.slot,
            saying=cue.saying,
            start=cue.start,
            length=cue.length,
            measured=cue.measured,
            room=max(0, end - cue.start),
            form=cue.form,
            word_at=cue.word_at,
        )
        for cue, end in zip(ordered, ends, strict=False)
    )
