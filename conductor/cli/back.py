"""Coming back: the class that broke off, or is led by a window that is gone, is offered."""

from datetime import datetime, timedelta

from conductor import store
from conductor.cli import shelf
from conductor.cli.classroom import Class
from conductor.cli.how import How
from conductor.run.resume import (
    BeingLedError,
    Broken,
    NothingToResumeError,
    latest,
    leave,
    taken_over,
)
from conductor.screens.wiring import Offer
from conductor.settings import Settings
from conductor.view.before import going_on
from conductor.view.clean import clean
from conductor.view.spell import span

OFFERED = timedelta(hours=12)  # after that nobody waits for the class any more


def offer(settings: Settings, how: How) -> Offer | None:
    """What there is to be taken up again; None where nothing is, or only a rehearsal is asked."""
    if how.speed != 1.0 or how.broken or how.rehearsal is not None:
        return None
    try:
        broken = latest(store.journals())
    except BeingLedError as led:
        return _elsewhere(led, settings, how)
    except NothingToResumeError:
        return None
    if datetime.now().astimezone() - broken.ended_at > OFFERED:
        return None
    return Offer(
        broken.score.meta.title,
        told(broken, datetime.now().astimezone()),
        lambda: shelf.of_broken(broken, settings, how),
        lambda: leave(broken),
    )


def told(broken: Broken, wall: datetime) -> str:
    """What broke off, how long ago, how far it was, and where it goes on."""
    ago = span(max(round((wall - broken.ended_at) / timedelta(milliseconds=1)), 0))
    title = clean(broken.score.meta.title)
    into = span(broken.last - broken.begun)
    where = going_on(broken.score, str(broken.here))
    return f"{title} broke off {ago} ago, {into} into the class. {where}"


def _elsewhere(led: BeingLedError, settings: Settings, how: How) -> Offer | None:
    """A class that another program leads: its window may be gone, and nobody can command it."""
    if not led.pid:
        return None

    def go_on() -> "Class | str":
        if not taken_over(led):
            return "The other window does not let go of it. Close that one, and try again."
        try:
            broken = latest(store.journals())
        except NothingToResumeError as error:  # it ended in the meantime
            return f"There is nothing to take up: {error}."
        return shelf.of_broken(broken, settings, how)

    words = (
        f"{clean(led.title)} is being led at this moment by another window, or by one that was "
        "closed. Going on here takes it over: it ends there, and is taken up where it is."
    )
    return Offer(led.title, words, go_on, lambda: None, "n lets it go on there.")
