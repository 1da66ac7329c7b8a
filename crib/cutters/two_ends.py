"""Double-ended cutters: one item, of which either end cuts. What is planned with is an end."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from crib.cutters.base import CUTTER_KEYS, Cutter
from crib.light.hints import Any

STATES = ("sharp", "used", "unknown", "dull", "chipped", "burnt", "bent")
"""Conditions, the better ones first."""

_OF_THE_ITEM = ("id", "kind", "label", "count", "drawer", "reground", "hand", "price", "currency", "assumed",
                "measured", "stamped", "questions", "ends", "note", "away", "overruled", "shank_mm",
                "overall_length_mm")


class OtherEnd(int):
    """The number of an item where its second end is meant: it reads and is ordered as the item's, right behind it, and
    is yet another cutter's than that of the first.

    >>> OtherEnd(7) == 7, OtherEnd(7) == OtherEnd(7), f"no. {OtherEnd(7)}", int(OtherEnd(7)) == 7
    (False, True, 'no. 7', True)
    >>> sorted([8, OtherEnd(7), 7]), sorted([OtherEnd(7), 7])[0] == 7
    ([7, 7, 8], True)
    """

    def _place(self) -> tuple[int, int]:
        return int(self), 1

    def __eq__(self, other: object) -> bool:
        return isinstance(other, OtherEnd) and int(self) == int(other)

    def __ne__(self, other: object) -> bool:
        return not self == other

    def __hash__(self) -> int:
        return hash(self._place())

    def __lt__(self, other: int) -> bool:
        return self._place() < _place(other)

    def __le__(self, other: int) -> bool:
        return self._place() <= _place(other)

    def __gt__(self, other: int) -> bool:
        return self._place() > _place(other)

    def __ge__(self, other: int) -> bool:
        return self._place() >= _place(other)


def _place(number: int) -> tuple[int, int]:
    return int(number), int(isinstance(number, OtherEnd))


def each_end(cutters: Sequence[Cutter]) -> Sequence[Cutter]:
    """The cutters, of a double-ender both ends where they aren't of one size, else the better one."""
    if not any(cutter.ends for cutter in cutters):
        return cutters
    return [end for cutter in cutters for end in _ends(cutter)]


def _ends(cutter: Cutter) -> Iterator[Cutter]:
    if len(cutter.ends) < 2:
        yield cutter
        return
    both = sorted((_end(cutter, end) for end in cutter.ends[:2]), key=_state)
    if both[0].but(condition="", label="") == both[1].but(condition="", label=""):
        yield both[0].but(id=cutter.id) if _state(both[0]) != _state(both[1]) else cutter
        return
    first, second = (_end(cutter, end) for end in cutter.ends[:2])
    yield first
    yield second.but(id=OtherEnd(cutter.id))


def _state(end: Cutter) -> int:
    return STATES.index(end.condition)


def _end(cutter: Cutter, end: Cutter) -> Cutter:
    """An end as a cutter: what is known of it, else what is known of the item. What was measured, stamped or taken for
    usual of the item goes for the end where it has that very value."""
    from crib.cutters.label import of_end

    own: dict[str, Any] = {key: value for key in CUTTER_KEYS if key not in _OF_THE_ITEM
                           and (value := getattr(end, key)) is not None and value != "unknown"}
    how = {key: (*(name for name in getattr(cutter, key) if name not in own or own[name] == getattr(cutter, name)),
                 *getattr(end, key)) for key in ("measured", "stamped", "assumed")}
    return cutter.but(**own, label=of_end(cutter, end), ends=(),
                      **{key: tuple(dict.fromkeys(names)) for key, names in how.items()})
