"""Undoing: a change that puts back what another one changed, as long as nothing later touched the same thing."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import fields
from typing import Any

from crib.cutters.base import Cutter
from crib.diagnostics import CribError
from crib.intake.build import ask, asked, check
from crib.store import Change, Crib, HeldBack, Note

_HOW = ("measured", "stamped", "assumed")
_FOLLOWS = ("label", "questions", "typed", "known", *_HOW)
"""What follows from the other values of a change, or goes along with them."""

_FIELDS = tuple(field.name for field in fields(Cutter))
Touched = dict[str, frozenset[str] | None]
"""What a change touched: by its subject some of its values, or None for the whole of it."""


def undo(crib: Crib, number: int | None = None) -> Change:
    """Undo the change with a number, else the last one that isn't undone; the change that was undone.

    Raises `CribError` where there is none, where it is undone already, and where a later one touched the same thing.
    """
    with crib.transaction():
        changes = crib.changes()
        undone = undone_by(changes)
        change = _last(changes, undone) if number is None else crib.change(number)
        if change.id in undone:
            again = undone[change.id]
            raise CribError("undone", f"change {change.id} was undone by change {again}", str(number),
                            f"crib undo {again} brings it back")
        if not _can_be_undone(change):
            raise CribError("nothing-to-undo", f"change {change.id} changed nothing that could be put back",
                            str(number), "crib history lists what was done")
        if (later := _in_the_way(change, changes, undone)) is not None:
            raise _blocked(change, later, "touched the same thing later")
        _PUT_BACK[change.what.partition(" ")[0]](crib, change)
    return change


def undo_all(crib: Crib, first: int, last: int) -> list[Change]:
    """Undo every change from one number to another, all of them or none, the last one first; those that were undone.
    What is undone already, and undoings, are passed over. Raises `CribError` as `undo` does."""
    with crib.transaction():
        changes = crib.changes()
        undone = undone_by(changes)
        numbers = [one.id for one in changes if first <= one.id <= last and one.undoes is None
                   and one.id not in undone and _can_be_undone(one)]
        if not numbers:
            raise CribError("nothing-to-undo", f"between change {first} and change {last} there is nothing to undo",
                            f"{first}-{last}", "crib history lists what was done")
        return [undo(crib, number) for number in reversed(numbers)]


def _can_be_undone(change: Change) -> bool:
    return change.what.partition(" ")[0] in _PUT_BACK


def undone_by(changes: Sequence[Change]) -> dict[int, int]:
    """Which change is undone, and by which; one whose undoing was undone again is not."""
    found: dict[int, int] = {}
    for change in reversed(changes):
        if change.undoes is not None and change.id not in found:
            found.setdefault(change.undoes, change.id)
    return found


def _last(changes: Sequence[Change], undone: Mapping[int, int]) -> Change:
    """The last change that isn't undone and is no undoing itself."""
    for change in reversed(changes):
        if _can_be_undone(change) and change.undoes is None and change.id not in undone:
            return change
    raise CribError("nothing-to-undo", "there is nothing to undo", "", "crib history lists what was done")


def _in_the_way(change: Change, changes: Sequence[Change], undone: Mapping[int, int]) -> Change | None:
    """The last later change that touched the same thing. One that was undone, and its undoing, are as if they had
    never been."""
    neutral = {number for pair in undone.items() for number in pair if pair[0] > change.id}
    mine = _touched(change)
    for later in reversed(changes):
        if later.id > change.id and later.id not in neutral and _meet(mine, _touched(later)):
            return later
    return None


def _touched(change: Change) -> Touched:
    before, after = change.before or {}, change.after or {}
    if change.what == "seen":
        return {}
    if change.what == "shop":
        return {"shop": frozenset(after)}
    if change.what == "amend":
        keys = {key for key in after if key not in _FOLLOWS}
        keys |= {key for how in _HOW for key in set(before.get(how) or ()) ^ set(after.get(how) or ())}
        return {change.subject: frozenset(keys)}
    touched: Touched = {f"cutter {number}": None for number in after.get("cutters", ())}
    return {**touched, change.subject: None}


def _meet(one: Touched, other: Touched) -> bool:
    return any(subject in other and (keys is None or other[subject] is None or bool(keys & (other[subject] or keys)))
               for subject, keys in one.items())


def _blocked(change: Change, later: Change, why: str) -> CribError:
    return CribError("in-the-way", f"change {change.id} can't be undone: change {later.id} ({later.what}, "
                                   f"{later.subject}) {why}", str(change.id), f"crib undo {later.id} first")


def _amended(crib: Crib, change: Change) -> None:
    """The values that were changed as they were before, all others as they are."""
    before, after = change.before or {}, change.after or {}
    now = crib.cutter(int(change.subject.split()[1]))
    keys = [key for key in after if key in _FIELDS and key not in _FOLLOWS]
    shown = now.as_json()
    if moved := [key for key in keys if shown.get(key) != after[key]]:
        raise CribError("in-the-way", f"change {change.id} can't be undone: the {moved[0].removesuffix('_mm')} of no. "
                                      f"{now.id} isn't what it made of it", str(change.id),
                        f"crib history {now.id} shows what was done; crib amend {now.id} sets it")
    values = {key: _value(key, before.get(key)) for key in keys}
    values |= {how: _swapped(getattr(now, how), before.get(how), after.get(how)) for how in _HOW}
    natural = asked(now)
    questions = _swapped(now.questions, before.get("questions"), after.get("questions"))
    as_it_was = now.but(**values, questions=tuple(one for one in questions if one not in natural))
    typed = dict(before.get("typed") or {})
    try:
        check(as_it_was)
    except CribError as error:
        found = error.diagnostic
        raise CribError(found.code, f"change {change.id} can't be undone: {found.what}", str(change.id),
                        found.help) from error
    crib.amend(ask(as_it_was), typed, undoes=change.id)


def _swapped(now: Sequence[str], before: Sequence[str] | None, after: Sequence[str] | None) -> tuple[str, ...]:
    """A list without what a change put into it, and with what it took away."""
    was, became = list(before or ()), list(after or ())
    kept = [one for one in now if one not in became or one in was]
    return tuple(dict.fromkeys((*kept, *(one for one in was if one not in became))))


def _value(key: str, value: Any) -> Any:
    """A value of JSON as the field's own."""
    if key == "ends":
        return tuple(_cutter(end) for end in value or ())
    return tuple(value) if isinstance(value, list) else value


def _cutter(shape: Mapping[str, Any]) -> Cutter:
    return Cutter(**{key: _value(key, value) for key, value in shape.items() if key in _FIELDS})


def _taken_in(crib: Crib, change: Change) -> None:
    crib.take_back(int(change.subject.split()[1]), undoes=change.id)


def _taken_back(crib: Crib, change: Change) -> None:
    shape = dict(change.before or {})
    crib.put_back(_cutter(shape), shape.get("from"), shape.get("typed") or {}, undoes=change.id)


def _set(crib: Crib, change: Change) -> None:
    crib.set_shop(change.before or {}, undoes=change.id)


def _put_right(crib: Crib, change: Change) -> None:
    """The line is held back again, and what it had become is taken back with it."""
    cutters = (change.after or {}).get("cutters", ())
    for number in reversed(cutters):
        taken = [one.id for one in crib.history(number) if one.what == "take-in"]
        crib.take_back(number, undoes=taken[-1])
    crib.hold_back([HeldBack(**(change.before or {}))], undoes=change.id, cutters=cutters)


def _held_back(crib: Crib, change: Change) -> None:
    """The line is off the list again; what it had become before is there again with it."""
    cutters = (change.after or {}).get("cutters", ())
    for number in cutters:
        _taken_back(crib, [one for one in crib.history(number) if one.what == "take-back"][-1])
    crib.put_right(int(change.subject.split()[1]), cutters, undoes=change.id)


def _reworded(crib: Crib, change: Change) -> None:
    crib.reword(int(change.subject.split()[1]), change.before or {}, undoes=change.id)


def _noted(crib: Crib, change: Change) -> None:
    crib.cross_out(int(change.subject.split()[1]), change.what.partition(" ")[2], undoes=change.id)


def _crossed_out(crib: Crib, change: Change) -> None:
    crib.write_down(Note(**(change.before or {})), undoes=change.id)


_PUT_BACK = {"amend": _amended, "take-in": _taken_in, "take-back": _taken_back, "shop": _set, "put-right": _put_right,
             "let-go": _put_right, "hold-back": _held_back, "reword": _reworded,
             "note": _noted, "cross-out": _crossed_out}
