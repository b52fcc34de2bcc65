"""Say: the plan's own words, read for the side and the end of the mat they are led on."""

import re

from conductor.compiler.led import Reader
from conductor.compiler.model import Bit
from conductor.findings import Finding
from conductor.patterns import pattern
from conductor.plan.model import Line
from conductor.values import replace

_BREATH_WORD = pattern(r"\b(?:inhal|exhal|breath(?:e|ing)?\b)", re.IGNORECASE)


class _Speaker(Reader):
    """Puts the words of the plan where they are said."""

    def movement(self, bit: Bit, lines: tuple[Line, ...]) -> Bit:
        """Put the plan's words over the generated ones, which stay as the short form."""
        mods, words = bit.mods, bit.words
        again = mods.say_again if bit.used > 1 and mods.say_again else None
        texts = [again] if again else [line.text for line in lines]
        readings = bit.readings
        if texts:
            read = [self.read(text, bit) for text in texts]
            full = " ".join(led for led, _ in read)
            readings = next((both for _, both in read if both), None)
            form = "full" if again and bit.form == "short" else bit.form
            # short words nobody wrote must not take the place of these, but in later rounds
            short = "" if form == "full" else words.short
            words = replace(words, full=full, short=short, written=True, form=form)
        if mods.short:
            words = replace(words, short=self.read(mods.short, bit)[0])
        if words.written and _BREATH_WORD.search(words.full):
            words = replace(words, breath="" if bit.form == "full" else words.breath)
        return replace(bit, words=words, readings=readings) if words is not bit.words else bit

    def stay(self, bit: Bit, lines: tuple[Line, ...]) -> Bit:
        """Keep a stay's lines by how much is to be said: all, only the last, or none."""
        if bit.mods.say_again and bit.used > 1:
            lines = (Line("first", bit.mods.say_again),)
        elif bit.form == "short":
            lines = tuple(line for line in lines if line.anchor == "last")
        if bit.form in {"breath", "nothing"}:
            return bit
        read = [(line.anchor, self.read(line.text, bit)) for line in lines]
        readings = next((both for _, (_, both) in read if both), bit.readings)
        spoken = tuple((anchor, led) for anchor, (led, _) in read)
        return replace(bit, lines=bit.lines + spoken, readings=readings)


def say(bits: tuple[Bit, ...]) -> tuple[tuple[Bit, ...], tuple[Finding, ...]]:
    """Give every step the words it is led with; a step between others keeps its own lines."""
    reader = _Speaker()
    led = []
    for bit in bits:
        form = bit.form or "full"
        spoken = (
            bit if bit.words.form == form else replace(bit, words=replace(bit.words, form=form))
        )
        if bit.verb == "free" and bit.shape:
            plain = tuple(line for line in bit.mods.say if not line.anchor)
            anchored = tuple(line for line in bit.mods.say if line.anchor)
            spoken = reader.stay(reader.movement(spoken, plain), anchored)
        elif bit.verb in {"stay", "free"}:
            spoken = reader.stay(spoken, bit.mods.say)
            if spoken.lines:  # the plan's own words stand for the generated ones
                spoken = replace(spoken, words=replace(spoken.words, form="nothing"))
        else:
            spoken = reader.movement(spoken, bit.mods.say)
        led.append(_with_extra(reader, spoken))
    return tuple(led), tuple(reader.findings.values())


def _with_extra(reader: _Speaker, bit: Bit) -> Bit:
    if not bit.extra or bit.form == "nothing":
        return bit
    read = tuple((line.anchor, reader.read(line.text, bit)[0]) for line in bit.extra)
    return replace(bit, lines=bit.lines + read)
