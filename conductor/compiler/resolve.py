"""Resolve: names in the plan become shapes of the catalogue or of the plan's own."""

from collections.abc import Iterator

from conductor.compiler.rules import found
from conductor.findings import Finding
from conductor.plan.model import OwnShape, Plan, Text
from conductor.shapes.catalogue import Catalogue, Found
from conductor.shapes.model import Shape
from conductor.shapes.names import key
from conductor.shapes.own import own
from conductor.spans import Span


class Names:
    """Looks names up once each and keeps what there is to say about them."""

    def __init__(self, catalogue: Catalogue) -> None:
        self.catalogue = catalogue
        self._known: dict[str, Found | None] = {}
        self._findings: dict[Span, Finding] = {}

    def known(self, text: str) -> bool:
        """Whether this text is the very name of a shape; words that only sound like one are not."""
        return self.catalogue.names(text)

    def _look(self, text: str) -> Found | None:
        if text not in self._known:
            self._known[text] = self.catalogue.find(text)
        return self._known[text]

    def find(self, text: Text) -> Found | None:
        """The shape of that name and the side said with it; an unknown one is kept as a finding."""
        named = self._look(text.value)
        if named is None and text.span not in self._findings:
            near = self.catalogue.nearest(text.value)
            hint = f"did you mean {near}?" if near else "`conductor shapes` lists the known ones"
            words = f"no shape is called {text.value}"
            self._findings[text.span] = found("unknown-shape", words, text.span, hint)
        return named

    def shapes(self, texts: tuple[Text, ...]) -> Iterator[Shape]:
        """The shapes of several names; unknown ones are left out and kept as findings."""
        for text in texts:
            named = self.find(text)
            if named:
                yield named.shape

    def findings(self) -> tuple[Finding, ...]:
        """What there was to say, one finding for each place."""
        return tuple(self._findings.values())


def with_own(plan: Plan, catalogue: Catalogue) -> tuple[Catalogue, tuple[Finding, ...]]:
    """Add the plan's own shapes to the catalogue; their names win, with a remark."""
    known = catalogue
    findings: list[Finding] = []
    for name, written in plan.shapes.items():
        shape, troubles = own(
            name, {key: text.value for key, text in written.fields.items()}, known
        )
        for field, words, hint in troubles:
            findings.append(found("own-shape", words, _field_span(written, field), hint))
        if shape is None:
            continue
        before = catalogue.exact(key(name))  # what only sounds alike is another name
        if before is not None:
            words = f"{name} is the catalogue's {before.name} elsewhere; the plan's own wins"
            findings.append(found("own-name", words, written.name.span))
        known = known.with_own([shape])
    return known, tuple(findings)


def _field_span(written: OwnShape, field: str) -> Span:
    text = written.fields.get(field)
    return text.span if text else written.name.span
