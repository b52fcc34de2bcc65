"""Run the program as `python -m conductor`."""

from conductor.uncollected import uncollected

with uncollected():
    from conductor.cli import main

    if __name__ == "__main__":
        main()
