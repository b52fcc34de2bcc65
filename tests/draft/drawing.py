"""Drafts for the tests, each drawn and opened once."""

from functools import cache
from pathlib import Path

from conductor.cli.opening import Opened, opened_text
from conductor.draft.draft import Draft, drafted
from conductor.draft.wish import Focus, Wish, usual_tempo
from conductor.score.model import Score


@cache
def draft(minutes: int, focus: Focus, seed: int, people: str = "mixed level") -> Draft:
    return drafted(Wish(minutes, focus, people, usual_tempo(focus), seed=seed))


@cache
def opened(minutes: int, focus: Focus, seed: int, people: str = "mixed level") -> Opened:
    return opened_text(Path("drafted.yaml"), draft(minutes, focus, seed, people).text)


def score_of(minutes: int, focus: Focus, seed: int, people: str = "mixed level") -> Score:
    score = opened(minutes, focus, seed, people).score
    assert score is not None
    return score
