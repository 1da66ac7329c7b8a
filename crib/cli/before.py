"""Shows what something would change before it is changed, and asks whether it is to be."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from crib.cli import out
from crib.pages.history import change_in_words, deed
from crib.render.words import words

if TYPE_CHECKING:
    from crib.app.changes import Change

_MOST = 200


def rows(changes: Sequence[Change], units: str, labels: dict[str, str] | None = None) -> list[str]:
    """A line for each change: what it is done to, and what is changed."""
    told = [(deed(one.as_json(), {}), (labels or {}).get(one.subject, ""),
             words(change_in_words(one.as_json()), units)) for one in changes]
    lines = out.table(("", "", ""), told[:_MOST])
    return lines + ([f"and {len(told) - _MOST} more"] if len(told) > _MOST else [])


def is_wanted(question: str) -> bool:
    """Whether somebody at the terminal says yes."""
    out.note(f"{question} y does it, Enter leaves it as it is")
    try:
        return input().strip().lower() in ("y", "yes")
    except EOFError:
        return False
