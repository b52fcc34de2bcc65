"""Run the program as `python -m conductor`."""

from conductor.cli import main

main()
