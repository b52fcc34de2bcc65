"""A person's own breath, measured from taps: one at each inhale and one at each exhale."""
