"""The plan as a person wrote it: read strictly, typed, every value with its place."""
