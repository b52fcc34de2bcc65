"""A first plan, drafted from the catalogue: by preparations, counters and the ways of the body."""
