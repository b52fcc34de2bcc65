"""The wording of what a body does: a verb phrase for each action, whole and in brief."""

from collections.abc import Iterable

from conductor.body.moves import Action, Do, Way
from conductor.sides import Side
from conductor.timing.estimate import estimate

FULL_MS = 3400
"""A whole cue with its breath word; it leaves a half breath of 4 s its lead and a little more."""

SHORT_MS = 2200
"""A cue in brief with its breath word, so that words ahead of the next one have room after it."""

WHOLE: dict[Do, str] = {
    Do.STEP_FORWARD: "step the {side} foot forward",
    Do.STEP_BACK: "step the {side} foot back",
    Do.LIFT_LEG: "lift the {side} leg",
    Do.LOWER_FOOT: "lower the {side} foot",
    Do.LOWER_LEG: "lower the {side} leg",
    Do.KNEE_FORWARD: "bring the {side} knee forward",
    Do.KNEE_BACK: "bring the {side} knee back",
    Do.KNEE_DOWN: "lower the {side} knee",
    Do.KNEE_UP: "lift the {side} knee",
    Do.BEND_KNEE: "bend the {side} knee",
    Do.STRETCH_LEG: "stretch the {side} leg",
    Do.OPEN_LEG: "take the {side} leg out",
    Do.HAND_DOWN: "{side} hand to the floor",
}

BRIEF: dict[Do, str] = {
    Do.STEP_FORWARD: "{side} foot forward",
    Do.STEP_BACK: "{side} foot back",
    Do.LIFT_LEG: "{side} leg up",
    Do.LOWER_FOOT: "{side} foot down",
    Do.LOWER_LEG: "{side} leg down",
    Do.KNEE_FORWARD: "{side} knee forward",
    Do.KNEE_BACK: "{side} knee back",
    Do.KNEE_DOWN: "{side} knee down",
    Do.KNEE_UP: "{side} knee up",
    Do.BEND_KNEE: "bend the {side} knee",
    Do.STRETCH_LEG: "{side} leg long",
    Do.OPEN_LEG: "{side} leg out",
    Do.HAND_DOWN: "{side} hand down",
}

BOTH: dict[Do, str] = {
    Do.STEP_FORWARD: "step forward",
    Do.STEP_BACK: "step back",
    Do.LIFT_LEG: "lift the legs",
    Do.LOWER_FOOT: "lower the feet",
    Do.LOWER_LEG: "lower the legs",
    Do.KNEE_FORWARD: "bring the knees forward",
    Do.KNEE_BACK: "bring the knees back",
    Do.KNEE_DOWN: "lower the knees",
    Do.KNEE_UP: "lift the knees",
    Do.BEND_KNEE: "bend the knees",
    Do.STRETCH_LEG: "stretch the legs",
    Do.OPEN_LEG: "take the legs apart",
    Do.HANDS_DOWN: "hands to the floor",
    Do.HANDS_KNEES: "come to hands and knees",
    Do.FOREARMS_DOWN: "forearms to the floor",
    Do.WEIGHT_TO_HANDS: "shift onto the hands",
    Do.WEIGHT_TO_FOREARMS: "shift onto the forearms",
    Do.KNEEL_UP: "kneel up",
    Do.SIT_BACK: "sit back on the heels",
    Do.SIT_DOWN: "come to sit",
    Do.SIT_UP: "come up to sit",
    Do.LIE_ON_BELLY: "come to the belly",
    Do.LIE_BACK: "lie back",
    Do.LIE_ON_SIDE: "roll to the side",
    Do.ROLL_TO_BACK: "roll onto the back",
    Do.ROLL_TO_BELLY: "roll onto the belly",
    Do.STAND_UP: "stand up",
    Do.RISE: "rise",
    Do.FOLD: "fold forward",
    Do.LIFT_HIPS: "lift the hips",
    Do.LOWER_HIPS: "lower the hips",
    Do.LOWER_BACK: "lower the back",
    Do.LIFT_LEGS_OVER: "lift the legs overhead",
    Do.PRESS_UP: "press up",
}

SAME_AGAIN = {"in": "lengthen", "out": "soften"}
"""Half a breath in place: growing on the inhale, letting go on the exhale; common practice."""


def whole(action: Action) -> str:
    """The verb phrase of an action ("step the left foot back")."""
    if action.side is None:
        return BOTH.get(action.kind, "")
    return WHOLE.get(action.kind, BOTH.get(action.kind, "")).format(side=action.side.value)


def brief(action: Action) -> str:
    """The same in two to four words ("left foot back")."""
    if action.side is None:
        return BOTH.get(action.kind, "")
    return BRIEF.get(action.kind, BOTH.get(action.kind, "")).format(side=action.side.value)


def filled(phrase: str, side: Side | None) -> str:
    """A phrase of the catalogue with <side> and <other> filled in."""
    if side is None:
        return phrase
    return phrase.replace("<side>", side.value).replace("<other>", side.other.value)


def fitting(phrases: Iterable[str], most: int) -> str:
    """The first phrase that is said within `most` ms with its breath word, else the shortest.

    The left side counts as the right one, so that both sides are worded alike.
    """
    lengths = []
    for phrase in phrases:
        length = estimate(f"Exhale, {phrase.replace('left', 'right')}.")
        if length <= most:
            return phrase
        lengths.append((length, phrase))
    return min(lengths)[1] if lengths else ""


def action_of(way: Way, kinds: tuple[Do, ...]) -> Action | None:
    """Find the first of these kinds of action in the order given."""
    for kind in kinds:
        for action in way.actions:
            if action.kind is kind:
                return action
    return None


def clause(phrase: str) -> str:
    """The part of a phrase that tells most: the one with a side, else the first."""
    parts = [part.strip() for part in phrase.split(",")]
    return next((part for part in parts if "<" in part), parts[0])
