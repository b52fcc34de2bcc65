"""Sound: one stream, one mixer, planned frames. The mixer is pure; the device is an edge."""
