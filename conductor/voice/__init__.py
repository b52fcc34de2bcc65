"""Speech, rendered before class in a child process and kept in a cache."""
