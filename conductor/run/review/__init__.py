"""What a journal and its score tell of a class that was led, and what to change next time."""
