"""Stretches that examples of rules share, so that nothing but the fault is wrong with them."""

ARRIVE = "- come to: easy seat\n- stay: 5 breaths\n"
WORK = "- come to: mountain\n- rounds: 30\n  steps:\n    - in: arms overhead\n    - out: mountain\n"
LONG_WORK = WORK.replace("30", "180")  # 24 min
REST = "- free: 20 s\n  to: final rest\n- stay: 5 min\n- bell: 1\n"
