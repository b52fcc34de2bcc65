"""Time on the score: when cues start, how long speech takes, how a score is refitted. Pure."""
