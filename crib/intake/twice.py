"""A list that comes a second time: what of it is in the crib already isn't taken in again.

A list that was cut short is simply given once more, so its beginning must be known for what it is. Two lists may well
begin with the same drill, and so only a few lines in the same order make it the same.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import Any, NamedTuple

from crib.intake.reading import Taken, kept
from crib.intake.shorthand.again import asked
from crib.store import Arrival, Crib, HeldBack

LEAST = 3
"""So many lines in order make a list the same as one that was taken in (common practice, no source)."""

_TELLING = ("kind", "diameter_mm", "nominal_mm", "thread", "drawer")
_UNNAMED = ("id", "label", "from")
_SILENT = ("undo", "no", "yes", "unit", "actual", "lent")
"""Forms of a line that take nothing in by themselves."""


class _Item(NamedTuple):
    """One entry of a list: what to look for first, whether an arrival came of it, and whether it takes in anything."""

    pieces: Mapping[str, Any]
    is_in: Callable[[Arrival], bool]
    is_silent: bool = False
    takes_back: bool = False


def lines_there(crib: Crib, lines: Sequence[str]) -> frozenset[int]:
    """The places of the lines that are in the crib already, as part of a list that was taken in."""
    return _there(crib, [_line(line) for line in lines])


def entries_there(crib: Crib, entries: Sequence[Taken | HeldBack]) -> frozenset[int]:
    """The same of the entries of a table, in the order in which they are taken in: what was read, then what is held
    back."""
    return _there(crib, [_entry(crib, one) for one in entries])


def _line(text: str) -> _Item:
    line = kept(text)
    form = asked(text)
    silent = form is not None and form.form in _SILENT
    return _Item({"words": line}, lambda one: one.is_of(line), silent,
                 form is not None and form.form in ("undo", "no"))


def _entry(crib: Crib, one: Taken | HeldBack) -> _Item:
    if isinstance(one, HeldBack):
        text = one.text
        return _Item({"text": text}, lambda other: other.held and other.words == text)
    said = crib.as_taken_in(one.cutter)
    bare = {key: value for key, value in said.items() if key not in _UNNAMED}
    pieces: dict[str, Any] = {key: bare[key] for key in _TELLING if key in bare}
    return _Item(pieces, lambda other: not other.held and bare == {
        key: value for key, value in other.after.items() if key not in _UNNAMED})


class _Run(NamedTuple):
    """How far a run of arrivals goes along with a list, which of those are still there, and its last change."""

    reached: int = 0
    there: frozenset[int] = frozenset()
    last: int = 0


def _there(crib: Crib, items: Sequence[_Item]) -> frozenset[int]:
    """What of a list is there: in one run of arrivals, or in several where it was cut short more than once."""
    done, last, there = 0, 0, frozenset[int]()
    while done < len(items):
        runs = [_run(crib.arrivals(first), items[done:]) for first in crib.arrivals_like(items[done].pieces, last)]
        best = max(runs, default=_Run(), key=lambda run: run.reached)
        if best.reached < (1 if done else LEAST):
            break
        there |= {done + place for place in best.there}
        done, last = done + best.reached, best.last
    return there


def _run(arrived: Iterator[Arrival], items: Sequence[_Item]) -> _Run:
    """How many items in a row arrived. One that was taken back since counts as having come, and isn't there."""
    reached, last, place = 0, 0, 0
    there: set[int] = set()
    silent: list[int] = []
    one = next(arrived, None)
    while one is not None and place < len(items):
        item = items[place]
        if item.is_silent:
            silent.append(place)
            place += 1
            continue
        taken_back = place + 1 < len(items) and items[place + 1].takes_back
        if not item.is_in(one) and not (one.is_gone and taken_back):
            break
        there |= {*silent, *([] if one.is_gone and not taken_back else [place])}
        silent, reached, last = [], place + 1, one.change
        place += 1
        same = place < len(items) and items[place].pieces == item.pieces
        one = next(arrived, None)
        while one is not None and not same and not one.is_gone and item.is_in(one) and item.pieces.keys() == {"words"}:
            last, one = one.change, next(arrived, None)
    return _Run(reached, frozenset(there), last)
