"""The few words that some keys take, in one place for the reader and for editors."""

KINDS = ("class", "piece")
FIRST_SIDES = ("right", "left")
SIDES = ("right", "left", "other")
TURNS = ("other end", "long side", "front", "back")
FORMS = ("full", "short", "breath", "nothing")
"""How much is said."""
ONLY = ("round 1", "last round", "first side", "second side")
"""When a step is led; any number may stand for the 1."""
