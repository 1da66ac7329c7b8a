"""What was done to a crib, and undoing it."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence

from crib.findings.errors import CribError
from crib.intake import undo as undoing
from crib.light.records import dataclass
from crib.store import Change as Change
from crib.store import Crib
from crib.store.changes import undone_by


@dataclass(frozen=True)
class Done:
    """Changes, oldest first, and by which change each of them was undone; how many there are before them."""

    changes: Sequence[Change]
    undone: dict[int, int]
    more: int = 0


@dataclass(frozen=True)
class Row:
    """A change, by which other it was undone, and whether it can be undone now as far as it goes by itself."""

    change: Change
    undone_by: int | None
    can_be_undone: bool


def in_rows(changes: Sequence[Change], undone: Mapping[int, int]) -> list[Row]:
    """Changes, the newest first."""
    return [Row(one, undone.get(one.id), one.id not in undone and undoing.can_be_undone(one))
            for one in reversed(changes)]


def history(crib: Crib, number: int | None = None) -> Done:
    """Everything that was done, or what was done to one cutter. Raises `CribError` where there is no such cutter."""
    if number is None:
        changes = crib.changes()
        return Done(changes, undone_by(changes))
    if not (changes := crib.history(number)):
        crib.cutter(number)
    return Done(changes, undone_by(crib.undoings()))


def newest(crib: Crib, most: int, before: int | None = None) -> Done:
    """What was done last, so many changes at the most; only of what was done before one with a number."""
    changes, more = crib.newest_changes(most, before)
    return Done(changes, undone_by(crib.undoings()), more)


def undo(crib: Crib, number: int | None = None, last: int | None = None) -> list[tuple[Change, Change]]:
    """Undo the last change, the one with a number, or all from it to the `last`. Each that was undone, with the change
    that undid it. Raises `CribError`."""
    if number is not None and last is not None:
        crib.put_by("before-undo")
        undone = undoing.undo_all(crib, number, last)
    else:
        undone = [undoing.undo(crib, number)]
    by = {one.undoes: one for one in crib.undoings()}
    return [(one, by[one.id]) for one in undone]


def undo_as_shown(crib: Crib, wanted: tuple[int | None, int | None], shown: Sequence[Change]
                  ) -> tuple[list[tuple[Change, Change]], list[Change]]:
    """The same, but only what was shown; and what was put back along with that. Raises `CribError` where it would be
    another thing by now."""
    from crib.app.rehearsal import done

    came: list[tuple[Change, Change]] = []
    made = done(crib, lambda: came.extend(undo(crib, *wanted)), shown)
    told = {by.id for _, by in came}
    return came, [one for one in made if one.id not in told]


def last_of(crib: Crib, number: int) -> int:
    """The last change of a cutter that can be undone and isn't. Raises `CribError` where there is none."""
    crib_changes = crib.changes()
    undone = undone_by(crib_changes)
    subject = f"cutter {number}"
    for one in reversed(crib_changes):
        if one.subject == subject and one.undoes is None and one.id not in undone and undoing.can_be_undone(one):
            return one.id
    raise CribError("nothing-to-undo", f"there is nothing to undo of no. {number}", str(number),
                    f"crib history {number} lists what was done to it")


def read_numbers(text: str | None) -> tuple[int | None, int | None]:
    """A change's number, or the first and the last of several as `12-40`. Raises `CribError`.

    >>> read_numbers("12"), read_numbers("12-40"), read_numbers(None)
    ((12, None), (12, 40), (None, None))
    """
    if text is None:
        return None, None
    found = re.fullmatch(r"(\d{1,18})(?:-(\d{1,18}))?", text, re.ASCII)
    if found is None:
        raise CribError("usage", f"{text!r} is not a change's number", text,
                        "crib undo 12, or crib undo 12-40 for all from 12 to 40; crib history has the numbers")
    return int(found[1]), int(found[2]) if found[2] else None
