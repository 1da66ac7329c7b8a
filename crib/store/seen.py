"""The cutters that were given out, as they were then."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from crib.cutters.base import Cutter


class Seen:
    """The version of each cutter that was given out, and the cutter, by its number. When all of a large crib is given
    out, its cutters are only gone through once somebody asks for one."""

    def __init__(self) -> None:
        self._known: dict[int, tuple[int, Cutter]] = {}
        self._waiting: list[tuple[tuple[Cutter, ...], Mapping[int, int]]] = []

    def all_of(self, cutters: Sequence[Cutter], versions: Mapping[int, int]) -> None:
        """Many that were given out; their versions by number, where that isn't the first."""
        self._waiting.append((tuple(cutters), versions))

    def _settled(self) -> dict[int, tuple[int, Cutter]]:
        waiting, self._waiting = self._waiting, []
        for cutters, versions in waiting:
            self._known.update({cutter.id: (versions.get(cutter.id, 1), cutter) for cutter in cutters})
        return self._known

    def __contains__(self, number: int) -> bool:
        return number in self._settled()

    def __getitem__(self, number: int) -> tuple[int, Cutter]:
        return self._settled()[number]

    def __setitem__(self, number: int, seen: tuple[int, Cutter]) -> None:
        self._settled()[number] = seen

    def get(self, number: int, otherwise: tuple[int, Cutter]) -> tuple[int, Cutter]:
        """What is known of one, else something else."""
        return self._settled().get(number, otherwise)
