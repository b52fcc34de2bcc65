"""The score: the compiled plan, every moment of the class with its time. Knows no plan file."""
