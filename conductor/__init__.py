"""Conductor leads a breath-linked movement class from a plain text plan.

Nothing heavy is imported here: `conductor check` must start as fast as a text tool does.
"""

__version__ = "0.1.0"
