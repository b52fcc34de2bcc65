"""The catalogue of shapes: what they are called, what carries them, what they ask of a body."""
