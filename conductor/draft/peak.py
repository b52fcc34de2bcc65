"""The peak: which shapes a class may lead up to, and where what prepares them is led."""

from collections.abc import Collection

from conductor.draft.choice import drawn_to, homes, leading, may, prepared
from conductor.draft.graph import shapes
from conductor.draft.pen import Pen
from conductor.draft.wish import Focus
from conductor.shapes.model import Shape
from conductor.stance import Base, Foot
from conductor.values import Struct

LONG_S = 90  # a shape that is usually held so long can be the peak of a slow class
HELD_S = 20
WALKED_FROM_MIN = 12
_WALKED = frozenset({Base.FEET, Base.FOOT, Base.FOOT_HAND, Base.FOOT_KNEE, Base.HANDS_FOOT_KNEE})
_BALANCED = frozenset({Base.FOOT, Base.FOOT_HAND, Base.HANDS})
_HIPS = ("outer hips", "inner thighs", "hip flexors")
_ALWAYS = frozenset({"childs-pose", "downward-dog"})  # every class leads them early


class Peak(Struct, frozen=True):
    """A peak, with its preparations by where they are led: at a hub, or on a standing walk."""

    shape: str
    hub: str  # "" when it is led on a standing walk
    warm: tuple[str, ...] = ()  # prepared on the floor, in the warm-up
    walked: tuple[str, ...] = ()  # prepared in the standing passages
    stood: tuple[str, ...] = ()  # prepared at the top of the mat
    near: tuple[str, ...] = ()  # prepared at the hub of the peak, just before it

    @property
    def prepared_by(self) -> tuple[str, ...]:
        """All that prepares it."""
        return (*self.warm, *self.walked, *self.stood, *self.near)


def walks(shape: Shape) -> bool:
    """Whether a shape is a step of a standing passage, with one foot in front."""
    place = shape.place
    apart = {place.own, place.other} != {Foot.TOP} and shape.sided
    turned = shape.side_means in {"front foot", "standing leg"} and place.base in _WALKED
    return turned and apart and shape.id not in {"eagle", "gate"}


def peaks(focus: Focus, level: int) -> tuple[Peak, ...]:
    """Every peak a class of that level may lead up to."""
    found = (
        _peak(shape, level)
        for shape in shapes().values()
        if may(shape, level) and _fits(shape, focus, level)
    )
    return tuple(peak for peak in found if peak is not None)


def _fits(shape: Shape, focus: Focus, level: int) -> bool:
    """Whether a class of this focus could be named after it."""
    asks, strong = shape.asks, min(level, 2)
    still = not shape.loads and not shape.landing and shape.place.base is not Base.BACK
    match focus:
        case Focus.HIPS:
            most = sum(asks.get(area, 0) for area in _HIPS)
            other = shape.balance or asks.get("spine extension", 0) > 1 or shape.family == "twist"
            return still and not other and shape.level >= strong and most > strong
        case Focus.BACKBEND:
            return asks.get("spine extension", 0) >= 2 and shape.hold[1] >= HELD_S
        case Focus.BALANCE:
            carried = shape.balance and shape.place.base in _BALANCED
            return carried and asks.get("balance", 0) >= strong and shape.hold[1] >= HELD_S
        case Focus.SLOW:
            deep = max(asks.values(), default=0) >= 2 and shape.level <= 2
            return still and deep and shape.hold[1] >= LONG_S and _hub(shape.id) != "mountain"


def _peak(shape: Shape, level: int) -> Peak | None:
    """Find a place for a peak and for what prepares it; None where nothing can prepare it."""
    hub = "" if walks(shape) else _hub(shape.id)
    if hub is None:
        return None
    found: dict[str, list[str]] = {place: [] for place in ("warm", "walked", "stood", "near", "on")}
    for name in _preparing(shape, level):
        place = _place(shapes()[name], shape, hub)
        if place:
            found[place].append(name)
    placed = {name for names in found.values() for name in names}
    if shape.level > 1 and not placed & set(shape.prepares):
        return None
    most = {"warm": 2, "walked": 2, "stood": 1, "near": 2}
    return Peak(shape.id, hub, **{key: tuple(found[key][:many]) for key, many in most.items()})


def _preparing(shape: Shape, level: int) -> tuple[str, ...]:
    """What prepares a shape, then what prepares that."""
    first = [name for name in shape.prepares if may(shapes()[name], level)]
    then = [one for name in first for one in shapes()[name].prepares if may(shapes()[one], level)]
    return tuple(name for name in dict.fromkeys((*first, *then)) if name != shape.id)


def _place(one: Shape, peak: Shape, hub: str) -> str:
    """Where a preparation is led; "" where no place is good for it."""
    if one.id in _ALWAYS:
        return "on"
    if one.landing:
        return ""
    if walks(one):
        return "walked"
    if hub and hub in homes(one.id) and max(one.asks.values(), default=0) >= 2:
        return "near"
    if one.id in leading(peak.id):
        return "on"
    if {"all-fours", "childs-pose", "crocodile"} & set(homes(one.id)):
        return "warm"
    return "stood" if "mountain" in homes(one.id) and one.hold[1] > 10 else ""


_WANTED_HUBS = (
    "mountain", "childs-pose", "crocodile", "downward-dog", "staff", "easy-seat",
    "constructive-rest", "all-fours",
)  # fmt: skip


def _hub(shape: str) -> str | None:
    return next((hub for hub in _WANTED_HUBS if hub in homes(shape)), None)


def ready(shape: str, seen: Collection[str]) -> bool:
    """Whether a shape, and all one comes through on the way into it, is prepared by what is led."""
    way = leading(shape)
    return all(prepared(shapes()[name], {*seen, *way}) for name in (shape, *sorted(way)))


def drawn(pen: Pen, *, brief: bool) -> Peak:
    """Draw a peak for the class, the ones nearest to the focus most often.

    A brief class has no time for preparations of their own, so its peak needs none; and the
    shortest has none for a standing passage that leads to one.
    """
    choices = peaks(pen.focus, pen.wish.level)
    if brief:
        choices = tuple(one for one in choices if ready(one.shape, _ALWAYS))
    if pen.wish.minutes < WALKED_FROM_MIN:
        choices = tuple(one for one in choices if one.hub)
    weights = [4 + drawn_to(shapes()[one.shape], pen.focus) ** 2 // 4 for one in choices]
    return pen.weighed(list(zip(choices, weights, strict=True)))
