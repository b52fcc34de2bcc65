"""The ways of the body: how one gets from one stance to another, and whether one can."""
