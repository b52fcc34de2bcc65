"""Leading: the state machine that leads a score. No clock, no thread, no I/O."""
