"""The frame of a class, arrival, rest and close, and the comments that say why all stands so."""

import math

from conductor.draft import words
from conductor.draft.choice import Hold
from conductor.draft.graph import shapes
from conductor.draft.passages import Way
from conductor.draft.peak import Peak
from conductor.draft.pen import Pen
from conductor.draft.tree import Bell
from conductor.draft.wish import Focus, Wish

REST_SHARE = 0.10  # published: 1 min in 10
REST_LEAST_S = 300  # the studio norm, where the class is long enough
BRIEF_MIN = 20
REST_PART = 6  # of a short class one part in six: 5 min in 30

WHY_ARRIVE = (
    "People come from somewhere: quiet first, so that the breath is found before it leads. "
    "Change the words; keep some breaths without any."
)
WHY_SALUTES = (
    "One movement to each breath, told in full the first time, in fewer words each round. "
    "Fewer rounds make it softer; leave the part out for a class that has been on its feet all day."
)
WHY_COOL = (
    "What was heated grows quiet: folds and turns near the floor, the strongest first. "
    "Leave out what there is no time for."
)
WHY_REST = (
    "The rest is the first thing to be cut when time runs out, and should be the last: "
    "one minute in ten, or five. Nothing is said in it; a word and a bell end it gently."
)
WHY_CLOSE = "Out of the rest by way of one side, so that nobody sits up at once."


def named(names: tuple[str, ...]) -> str:
    """Names as one says them."""
    said = [shapes()[name].name for name in names]
    return said[0] if len(said) == 1 else f"{', '.join(said[:-1])} and {said[-1]}" if said else ""


def _start(names: tuple[str, ...], verb: str) -> str:
    """The start of a sentence: what prepares or undoes."""
    ending = {"prepare": "prepares", "undo": "undoes"}[verb] if len(names) == 1 else verb
    said = named(names)
    return f"{said[0].upper()}{said[1:]} {ending}"


def arrive(pen: Pen) -> None:
    """Write the arrival: a shape, a bell, breaths with hardly a word."""
    starts: tuple[str, ...] = (
        "easy-seat",
        "easy-seat",
        "constructive-rest",
        "mountain",
        "childs-pose",
    )
    if pen.focus is Focus.SLOW:
        starts = ("easy-seat", "constructive-rest")
    shape = pen.one(starts)
    pen.come(shape, pen.one(words.WELCOME[shape]))
    pen.steps.append(Bell(1))
    pen.pause(1)
    most = {"mountain": 80.0, "childs-pose": 150.0}.get(shape, 240.0)  # standing still tires
    seconds = min(most, max(24.0, 0.06 * pen.wish.minutes * 60))
    usual = max(3, round(1000 * seconds / pen.tempo.breath))
    many = Hold(max(2, usual * 2 // 3), usual, usual + max(2, usual // 2))
    pen.say_in(many, tuple(("", line) for line in pen.one(words.ARRIVING)))


def rest_s(wish: Wish) -> int:
    """Seconds of the final rest, as usual for the length."""
    seconds = wish.minutes * 60
    least = min(REST_LEAST_S, seconds / REST_PART)  # what the check asks for
    share = REST_SHARE * (1.3 if wish.focus is Focus.SLOW else 1)
    return 10 * round(max(least, seconds * share) / 10)


def brief(wish: Wish) -> bool:
    """Whether a class is so short that each of its parts holds the least."""
    return wish.minutes < BRIEF_MIN


def end(pen: Pen) -> None:
    """Write all that comes from the final rest on."""
    rest(pen)
    close(pen)


def rest(pen: Pen) -> None:
    """Write the final rest: the way down, silence, and the way out of it."""
    seconds = rest_s(pen.wish)
    pen.free(20 if brief(pen.wish) else 30, "final-rest", pen.one(words.REST))
    low = 10 * math.ceil(max(seconds * 0.9, 60) / 10)
    pen.rest(seconds, bounds=(low, 10 * round(seconds * 1.5 / 10)))
    pen.rest(20, pen.one(words.WAKE))
    if pen.wish.minutes > 25:
        pen.rest(20, pen.one(words.MOVE))


def close(pen: Pen) -> None:
    """Write the way out of the rest, a seat, thanks and the bell."""
    if brief(pen.wish):
        pen.free(24, "easy-seat", "Roll to one side, and come to sit.")
    else:
        words_ = "Bend the knees, and roll to your right side."
        pen.free(20, "side-lying-rest", words_, side="right")
        pen.free(20, "easy-seat", "Press up with your hands, and come to sit.")
    first, last = pen.one(words.FAREWELL)
    many = Hold(2, 2 if brief(pen.wish) else 3, 5)
    pen.say_in(many, (("first", first), ("last", last)))
    pen.steps.append(Bell(1))


def about_passage(way: Way, peak: Peak) -> str:
    """A comment for a standing passage."""
    opens = "to the long side" if way.opens else "hips to the end of the mat"
    needed = [name for name in way.must if name in peak.prepared_by]
    verb = "prepares" if len(needed) == 1 else "prepare"
    why = f"; {named(tuple(needed))} {verb} {shapes()[peak.shape].name}" if needed else ""
    if peak.shape in way.must:
        why = f"; leads to {shapes()[peak.shape].name}, the peak"
    return f"A standing passage, {opens}{why}. Written for the right; the left is its mirror."


def why_warm(peak: Peak) -> str:
    """A comment for the warm-up."""
    why = f" {_start(peak.warm, 'prepare')} {shapes()[peak.shape].name}." if peak.warm else ""
    return f"Spine, shoulders and hips are moved gently before anything is held.{why}"


def why_stand(peak: Peak, wish: Wish) -> str:
    """A comment for the standing part."""
    walked = (*peak.walked, *peak.stood)
    why = ""
    if walked:
        verbs = (
            "comes here on purpose: it prepares"
            if len(walked) == 1
            else ("come here on purpose: they prepare")
        )
        why = f" {named(walked)[0].upper()}{named(walked)[1:]} {verbs} the peak."
    if brief(wish):
        return f"One movement to each breath; more rounds make it stronger, fewer softer.{why}"
    if wish.focus is Focus.SLOW:
        return f"Little standing in a slow class, and long stays.{why}"
    return (
        "What warms most. The passages stand under `flows`; shapes that open to the side come "
        f"before those that turn or face forward.{why} More rounds make it stronger, fewer softer."
    )


def why_peak(peak: Peak) -> str:
    """A comment for the peak."""
    shape = shapes()[peak.shape]
    before = f" {_start(peak.prepared_by, 'prepare')} it." if peak.prepared_by else ""
    after = f" {_start(shape.undoes[:2], 'undo')} it." if shape.undoes else ""
    return (
        f"The peak is {shape.name}.{before}{after} Put another one here only with what prepares "
        "and undoes it: `conductor shape NAME` says what, and its cautions."
    )
