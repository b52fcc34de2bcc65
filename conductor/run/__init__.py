"""The edges of leading: the runner thread, the journal, waiting."""
