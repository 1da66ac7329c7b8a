"""What was done to the crib, and undoing it."""

from __future__ import annotations

from starlette.responses import Response

from crib.app import changes
from crib.pages.history import change_in_words, subject_in_words
from crib.render.words import words
from crib.web.bench import News
from crib.web.call import Call

_MOST = 50


def history(call: Call) -> Response:
    """Every change, the newest first, each with a button that undoes it."""
    before = call.number("before")
    with call.open() as crib:
        done, units = changes.newest(crib, _MOST, before), crib.units
    return call.page("history.html", rows=changes.in_rows(done.changes, done.undone), units=units, more=done.more > 0)


def undo(call: Call) -> Response:
    """Undo one change."""
    with call.open() as crib:
        [(undone, by)] = changes.undo(crib, call.number("change"))
        said = f"{subject_in_words(undone.subject)}: {words(change_in_words(undone.as_json()), crib.units)}"
    return call.go("/history", news=News(said=f"change {undone.id} is undone, {said}; change {by.id} did it"))
