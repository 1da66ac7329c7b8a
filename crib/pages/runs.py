"""Passes of a cutter that belong together on a sheet, and what such a run is called."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby, pairwise

from crib.machining.words import Direction
from crib.planning.told.passes import Pass

Run = tuple[Pass, ...]


def runs(passes: Sequence[Pass]) -> Iterator[Run]:
    """Passes of a cutter that belong together: in one room, down at one place, along one wall, or out to both sides
    at one height."""
    for _, mine in groupby(passes, key=lambda one: (one.room, one.view, one.direction == Direction.AXIAL)):
        yield from _by_wall(_level_or_down(tuple(mine)))


def _level_or_down(passes: Run) -> Iterator[Run]:
    """Cut where neither the place across nor the height stays."""
    run: list[Pass] = []
    for one in passes:
        if run and not (_same([*run, one], "dial_x_mm") or _same([*run, one], "dial_z_mm")):
            yield tuple(run)
            run = []
        run.append(one)
    yield tuple(run)


def _by_wall(found: Iterator[Run]) -> Iterator[Run]:
    """Cut between two walls that are done one after the other."""
    for run in found:
        turns = [at for at, (a, b) in enumerate(pairwise(run), start=1) if a.feed != b.feed]
        if len(turns) == 1 and len(run) > 2:
            yield from (run[:turns[0]], run[turns[0]:])
        else:
            yield run


def _same(passes: Sequence[Pass], key: str) -> bool:
    return len({getattr(one, key) for one in passes}) == 1


def title(run: Run, two_walls: bool) -> str:
    """What a group of passes does, and which of two walls it cuts where it cuts only one."""
    roles = list(dict.fromkeys(one.role for one in run))
    number = f"Pass {run[0].no}" if len(run) == 1 else f"Passes {run[0].no} to {run[-1].no}"
    ways = {(one.feed, one.direction) for one in run}
    wall = next((words for way, words in _WALLS.items() if ways == {(way, Direction.CONVENTIONAL)}), "")
    what = " and ".join(roles) + ("" if run[0].room in roles else f" {run[0].room}")
    return f"{number}: {what}{wall if two_walls else ''}"


_WALLS = {"right": ", back wall", "left": ", front wall"}
"""What is cut conventionally by a cutter that goes over the work that way."""
