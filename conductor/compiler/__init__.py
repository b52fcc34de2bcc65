"""From plan to score: pure passes in one direction, no clock, no file, no screen."""
