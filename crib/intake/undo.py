"""Undoing: a change that puts back what another one changed, as long as nothing later touched the same thing."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from crib.cutters.base import Cutter
from crib.findings.errors import CribError
from crib.findings.message import said
from crib.intake.build import ask, asked, check
from crib.light.records import fields
from crib.store import Change, Crib, HeldBack, Note
from crib.store.changes import undone_by

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
        if not can_be_undone(change):
            raise CribError("nothing-to-undo", f"change {change.id} changed nothing that could be put back",
                            str(number), "crib history lists what was done")
        _undo_these(crib, [change], changes, undone)
    return change


def undo_all(crib: Crib, first: int, last: int) -> list[Change]:
    """Undo every change from one number to another, all of them or none, the last one first; those that were undone.
    It is then as if none of them had been: one that is undone already is passed over, and with it its undoing; the
    undoing of one that stood before them is undone in turn. Raises `CribError` as `undo` does."""
    with crib.transaction():
        changes = crib.changes()
        undone = undone_by(changes)
        within = {change for change, by in undone.items() if first <= change}
        wanted = [one for one in changes if first <= one.id <= last and one.id not in undone and can_be_undone(one)
                  and one.undoes not in within]
        wanted = [one for one in wanted if one.undoes is None or undone.get(one.undoes) == one.id]
        if not wanted:
            raise CribError("nothing-to-undo", f"between change {first} and change {last} there is nothing to undo",
                            f"{first}-{last}", "crib history lists what was done")
        return _undo_these(crib, wanted, changes, undone)


def undo_since(crib: Crib, numbers: Sequence[int]) -> list[Change]:
    """Undo the changes with these numbers, all of them or none, those that aren't undone. Raises `CribError`."""
    with crib.transaction():
        changes = crib.changes()
        undone, these = undone_by(changes), set(numbers)
        wanted = [one for one in changes if one.id in these and one.id not in undone and can_be_undone(one)]
        return _undo_these(crib, wanted, changes, undone)


def _undo_these(crib: Crib, wanted: Sequence[Change], changes: Sequence[Change], undone: Mapping[int, int]
                ) -> list[Change]:
    """Put back what some changes changed, the last one first. One pass from the last change of all to the first of
    them; what goes with another that is put back is put back with it."""
    these, gone = {one.id for one in wanted}, _with_others(wanted)
    later = _Later()
    by_number = {one.id: one for one in changes}
    put_back = []
    for change in reversed(changes[next((at for at, one in enumerate(changes) if one.id in these), len(changes)):]):
        if change.id in these:
            if change.id in gone:
                continue
            if (blocker := later.meets(_touched(change))) is not None:
                raise _blocked(change, by_number[blocker], "touched the same thing later")
            _PUT_BACK[change.what.partition(" ")[0]](crib, change)
            put_back.append(change)
        elif change.id in undone:
            if (by := by_number[undone[change.id]]).id not in these:
                later.remove(by)
        else:
            later.add(change)
    return put_back


_ALONG = {"take-in": ("put-right", "let-go"), "take-back": ("hold-back",)}
"""What becomes of cutters along with a line's being put right, or held back again."""


def _with_others(wanted: Sequence[Change]) -> set[int]:
    """The changes of cutters that are put back along with that of the line that they came of."""
    lines: dict[tuple[str, str], int] = {}
    for one in wanted:
        lines |= {(one.what, f"cutter {number}"): one.id for number in (one.after or {}).get("cutters", ())}
    return {one.id for one in wanted
            if any(lines.get((what, one.subject), 0) > one.id for what in _ALONG.get(one.what, ()))}


class _Later:
    """What later changes touched, by subject and value, as one goes back through them."""

    def __init__(self) -> None:
        self._by: dict[str, dict[str | None, set[int]]] = {}

    def add(self, change: Change) -> None:
        """It stands in the way of what touches the same."""
        for subject, keys in _touched(change).items():
            for key in (None,) if keys is None else keys:
                self._by.setdefault(subject, {}).setdefault(key, set()).add(change.id)

    def remove(self, change: Change) -> None:
        """It is as if it had never been."""
        for subject, keys in _touched(change).items():
            for key in (None,) if keys is None else keys:
                self._by.get(subject, {}).get(key, set()).discard(change.id)

    def meets(self, touched: Touched) -> int | None:
        """The last change that touches the same thing."""
        found = [max(numbers) for subject, keys in touched.items() for key, numbers in self._by.get(subject, {}).items()
                 if numbers and (keys is None or key is None or key in keys)]
        return max(found, default=None)


def can_be_undone(change: Change) -> bool:
    """Whether a change changed something that can be put back."""
    return change.what.partition(" ")[0] in _PUT_BACK


def _last(changes: Sequence[Change], undone: Mapping[int, int]) -> Change:
    """The last change that isn't undone and is no undoing itself."""
    for change in reversed(changes):
        if can_be_undone(change) and change.undoes is None and change.id not in undone:
            return change
    raise CribError("nothing-to-undo", "there is nothing to undo", "", "crib history lists what was done")


def _touched(change: Change) -> Touched:
    before, after = change.before or {}, change.after or {}
    if change.what == "seen":
        return {}
    if change.what == "shop":
        return {"shop": frozenset(after)}
    if change.what == "part":
        return {change.subject: frozenset({"text"})}
    if change.what == "made":
        return {change.subject: frozenset(key for what in after.values() for key in what)}
    if change.what == "amend":
        keys = {key for key in after if key not in _FOLLOWS}
        keys |= {key for how in _HOW for key in set(before.get(how) or ()) ^ set(after.get(how) or ())}
        keys |= {key for key in after.get("typed") or {} if key != "words"}
        return {change.subject: frozenset(keys)}
    touched: Touched = {f"cutter {number}": None for number in after.get("cutters", ())}
    return {**touched, change.subject: None}


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
    typed, became = crib.typed(now.id), after.get("typed") or {}
    back = {key: text for key, text in (before.get("typed") or {}).items()
            if key != "words" or typed.get(key) == became.get(key)}
    try:
        check(as_it_was)
    except CribError as error:
        found = error.finding
        says = said("change {change} can't be undone: {why}", change=change.id, why=found.says)
        raise CribError(found.id, says, str(change.id), found.fix or "") from error
    crib.amend(ask(as_it_was), back, undoes=change.id)


def _swapped(now: Sequence[str], before: Sequence[str] | None, after: Sequence[str] | None) -> tuple[str, ...]:
    """A list without what a change put into it, and with what it took away."""
    was, became = list(before or ()), list(after or ())
    kept = [one for one in now if one not in became or one in was]
    return tuple(dict.fromkeys((*kept, *(one for one in was if one not in became))))


def _value(key: str, value: Any) -> Any:
    """A value of JSON as the field's own."""
    if key == "ends":
        return tuple(cutter_of(end) for end in value or ())
    return tuple(value) if isinstance(value, list) else value


def cutter_of(shape: Mapping[str, Any]) -> Cutter:
    """A cutter as it was written down in JSON."""
    return Cutter(**{key: _value(key, value) for key, value in shape.items() if key in _FIELDS})


def _taken_in(crib: Crib, change: Change) -> None:
    crib.take_back(int(change.subject.split()[1]), undoes=change.id)


def _taken_back(crib: Crib, change: Change) -> None:
    shape = dict(change.before or {})
    crib.put_back(cutter_of(shape), shape.get("from"), shape.get("typed") or {}, undoes=change.id)


def _set(crib: Crib, change: Change) -> None:
    crib.set_shop(change.before or {}, undoes=change.id)


def _put_right(crib: Crib, change: Change) -> None:
    """The line is held back again, and what it had become is taken back with it."""
    cutters = (change.after or {}).get("cutters", ())
    for number in reversed(cutters):
        if crib.history(number)[-1].what != "take-back":
            crib.take_back(number)
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


def _part_written(crib: Crib, change: Change) -> None:
    """The part's text as it was before; no part where there was none."""
    name, text = change.subject.partition(" ")[2], (change.before or {}).get("text")
    if text is None:
        crib.drop_part(name, undoes=change.id)
    else:
        crib.keep_part(name, text, undoes=change.id)


def _made(crib: Crib, change: Change) -> None:
    """What was ticked off or measured as it was before."""
    crib.note_made(change.subject.partition(" ")[2], change.after or {}, change.before or {}, undoes=change.id)


_PUT_BACK = {"amend": _amended, "take-in": _taken_in, "take-back": _taken_back, "shop": _set, "put-right": _put_right,
             "let-go": _put_right, "hold-back": _held_back, "reword": _reworded,
             "note": _noted, "cross-out": _crossed_out, "part": _part_written, "made": _made}
