"""The colours of the screens: three sets, each pair that is used at 7:1 or better."""

from collections.abc import Mapping

from conductor.values import Struct


class Palette(Struct, frozen=True):
    """A set of colours by what they are for. `rising` is the inhale, `falling` the exhale."""

    name: str
    dark: bool
    ground: str
    panel: str
    text: str
    soft: str
    now: str
    following: str
    rising: str
    falling: str
    right: str
    left: str
    alert: str
    trough: str

    def pairs(self) -> tuple[tuple[str, str], ...]:
        """Every pair of letters and ground that is drawn."""
        inks = (self.text, self.soft, self.now, self.following, self.rising, self.falling)
        upon = tuple((ink, ground) for ink in inks for ground in (self.ground, self.panel))
        turned = tuple((self.ground, block) for block in (self.right, self.left, self.alert))
        marks = tuple((ink, self.ground) for ink in (self.right, self.left, self.alert))
        bars = tuple(
            (ink, self.trough) for ink in (self.rising, self.falling, self.soft, self.text)
        )
        return (*upon, *turned, *marks, *bars)


DARK = Palette(
    name="dark",
    dark=True,
    ground="#0d1215",
    panel="#161d21",
    text="#f1ece1",
    soft="#b8b9b0",
    now="#fffaf0",
    following="#d3cdb9",
    rising="#ffcf70",
    falling="#86d4ea",
    right="#ff9f80",
    left="#bfb2ff",
    alert="#ffe35c",
    trough="#1c2529",
)

LIGHT = Palette(
    name="light",
    dark=False,
    ground="#faf6ec",
    panel="#f1ebdd",
    text="#171a1c",
    soft="#3f4446",
    now="#0b0d0e",
    following="#3d3a30",
    rising="#6a3b00",
    falling="#00445a",
    right="#7a1f0e",
    left="#3b2a86",
    alert="#5a1250",
    trough="#e6dfce",
)

HIGH = Palette(
    name="contrast",
    dark=True,
    ground="#000000",
    panel="#000000",
    text="#ffffff",
    soft="#ffffff",
    now="#ffffff",
    following="#ffffff",
    rising="#ffff00",
    falling="#00ffff",
    right="#ffffff",
    left="#ffffff",
    alert="#ffff00",
    trough="#333333",
)

PALETTES: Mapping[str, Palette] = {one.name: one for one in (DARK, LIGHT, HIGH)}
