"""What would come of a deed, found by doing it and taking it back at once; and doing it only as it was shown."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

from crib.findings.errors import CribError
from crib.store import Change, Crib


class _TakenBackError(Exception):
    """Ends a transaction that isn't to be kept."""


def rehearsed(crib: Crib, deed: Callable[[], object]) -> list[Change]:
    """The changes that a deed would write down, all of them; nothing is kept. Raises `CribError` as the deed does."""
    made: list[Change] = []
    try:
        with crib.transaction():
            made = _made(crib, deed)
            raise _TakenBackError
    except _TakenBackError:
        return made


def done(crib: Crib, deed: Callable[[], object], shown: Sequence[Change]) -> list[Change]:
    """Do what was shown: the changes as they were written down. Raises `CribError` where it would be another thing by
    now, and then nothing is changed."""
    with crib.transaction():
        made = _made(crib, deed)
        if [_what(one) for one in made] != [_what(one) for one in shown]:
            raise CribError("changed-meanwhile", "somebody changed something meanwhile: it would be another thing than "
                            "was shown", "", "say it again, and look at what it would change now")
        return made


def _made(crib: Crib, deed: Callable[[], object]) -> list[Change]:
    first = crib.last_change()
    deed()
    return [one for one in crib.changes() if one.id > first]


def _what(change: Change) -> tuple[Any, ...]:
    return change.what, change.subject, change.before, change.after
