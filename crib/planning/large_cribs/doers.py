"""Who may do a room, the least money first: told loosely of many at once, of each of the least by itself, and of the
least of those as closely as the bounds of the search tell it."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Callable, Sequence
from heapq import heapify, heappop, heappush, heapreplace
from math import inf

from crib.light.tuples import NamedTuple
from crib.machining.tool import Tool


class Doer(NamedTuple):
    """A tool as it does a room, `place` in order: what it costs to put it up, and to do the room at the least. `rooms`:
    what it takes at the least for each of all rooms, infinite where it surely doesn't."""

    place: int
    tool: Tool
    up: float
    rooms: tuple[float, ...]


class Some(NamedTuple):
    """Tools that are nearly of one size: what each room takes of them at the least, the place of the first of them in
    order, and what makes of them those that may do any."""

    rooms: tuple[float, ...]
    place: int
    make: Callable[[], list[Doer]]


class Doers:
    """Tools that may do any room, each made when somebody first asks for those that are nearly of its size."""

    def __init__(self, every: Sequence[Some]) -> None:
        self.every = every
        self.made: dict[int, list[Doer]] = {}

    def of(self, number: int) -> list[Doer]:
        """Those of one size."""
        if number not in self.made:
            self.made[number] = self.every[number].make()
        return self.made[number]


    @property
    def all(self) -> list[Doer]:
        """All of them."""
        return [one for number in range(len(self.every)) for one in self.of(number)]


class InRoom:
    """The tools that may do a room, the least money first; `closely` tells it of the least of them, as far as somebody
    asks."""

    def __init__(self, room: int, doers: Doers, closely: Callable[[Tool, int], float]) -> None:
        self.room, self.doers, self.closely = room, doers, closely
        self.heap: list[tuple[float, int, int, int | Doer]] = [
            (some.rooms[room], some.place, _MANY, number)
            for number, some in enumerate(doers.every) if some.rooms[room] < inf]
        heapify(self.heap)
        self.found: list[tuple[float, Doer]] = []

    def up_to(self, money: float, most: int | None = None) -> list[tuple[float, Doer]]:
        """Those that take no more; where they are more than `most`, no fewer than that and one more."""
        while self.heap and self.heap[0][0] <= money and (most is None or len(self.found) <= most):
            self._look()
        return self.found[:bisect_right(self.found, money, key=lambda one: one[0])]

    def at_place(self, place: int) -> float:
        """What the one at so high a place takes, or the last of them; infinite where there is none."""
        while self.heap and len(self.found) < place:
            self._look()
        return self.found[:place][-1][0] if self.found else inf

    def _look(self) -> None:
        money, place, stage, one = self.heap[0]
        if isinstance(one, int):
            heappop(self.heap)
            for doer in self.doers.of(one):
                if doer.rooms[self.room] < inf:
                    heappush(self.heap, (doer.rooms[self.room], doer.place, _LOOSE, doer))
        elif stage == _CLOSE:
            self.found.append((money, one))
            heappop(self.heap)
        elif (closer := max(self.closely(one.tool, self.room), money)) < inf:
            heapreplace(self.heap, (closer, place, _CLOSE, one))
        else:
            heappop(self.heap)


_MANY, _LOOSE, _CLOSE = range(3)
"""How what takes so much is told: of many at once, of one, as closely as the search does."""
