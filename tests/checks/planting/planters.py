"""Planters: each puts one fault into a sound plan, at a random place.

They are written from what goes wrong in classes, not from the rules that find it: a planter says in
which lines the fault can be seen and to which family it belongs, never which rule must find it.
"""

from tests.checks.planting import (
    breath_faults,
    load_faults,
    sides_faults,
    time_faults,
    ways_faults,
    words_faults,
)

PLANTERS = (
    *sides_faults.PLANTERS,
    *ways_faults.PLANTERS,
    *breath_faults.PLANTERS,
    *words_faults.PLANTERS,
    *time_faults.PLANTERS,
    *load_faults.PLANTERS,
)
