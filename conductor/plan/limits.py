"""How much a plan may hold and ask for, in one place, so that no file can make reading hang.

The figures are far beyond any class that was ever taught; they only stop accidents and mischief.
"""

FILE_CHARS = 1_000_000
DEPTH = 30  # lists and mappings within each other
NODES = 40_000  # scalars, lists and mappings of one file
FLOW_DEPTH = 10  # flows that call flows; each level is work for every pass
FINDINGS = 200  # listed of one file
REPAIRS = 40  # lines mended for the sake of reading on
TEXT_CHARS = 4_000  # one text
LIST_ITEMS = 100  # one list of words, such as `props` or `through`

BREATHS = 500  # one stay
TIME_MS = 3 * 60 * 60 * 1000  # one stay, and the whole class
ROUNDS = 200
STROKES = 27  # bells; a quarter of 108, which is customary and more than a class wants at once
HALF_BREATH_MS = (500, 60_000)  # the shortest and the longest half breath
HALF_BREATHS = 20_000  # the whole plan with its flows and rounds written out
"""About eleven hours at four seconds: every moment costs memory and work in each pass."""
