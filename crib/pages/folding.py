"""Passes that are alike, drawn together: what differs among them is where a slide is set, and every setting is told."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from itertools import pairwise, takewhile
from operator import attrgetter

from crib.light.choices import StrEnum
from crib.light.hints import Any
from crib.light.records import dataclass, fields
from crib.machining.words import Direction, Entry, Fed, Role
from crib.planning.told.passes import Pass

_SAME_MM = 1e-6


class Fold(StrEnum):
    """What is set anew for each pass of a run: nothing, for it is one; Z; cross; cross first on one side of nought and
    then as far on the other; the boring head; the table, where the work is turned under it."""

    ONE = "one"
    DOWN = "down"
    OVER = "over"
    SIDES = "sides"
    BORE = "bore"
    ROUND = "round"


@dataclass(frozen=True)
class Run:
    """Passes that share a line, and what is set anew for each."""

    passes: tuple[Pass, ...]
    fold: Fold = Fold.ONE

    @property
    def first(self) -> Pass:
        """The first of them."""
        return self.passes[0]

    @property
    def last(self) -> Pass:
        """The last of them."""
        return self.passes[-1]

    @property
    def span(self) -> str:
        """Their numbers."""
        return str(self.first.no) if len(self.passes) == 1 else f"{self.first.no}-{self.last.no}"


@dataclass(frozen=True)
class Again:
    """Lines once more, at another Z."""

    lines: tuple[Run, ...]
    like: tuple[Run, ...]


Line = Run | Again


def lined(passes: Sequence[Pass]) -> list[Line]:
    """The lines that a table of passes has: runs, and runs once more at another Z."""
    runs, out, at = folded(passes), list[Line](), 0
    while at < len(runs):
        size = next((size for size in range((len(runs) - at) // 2, 0, -1) if _is_once_more(runs, at, size)), 0)
        out += runs[at:at + max(1, size)]
        begun, at = at, at + max(1, size)
        while size and _is_once_more(runs, at - size, size, begun):
            out.append(Again(tuple(runs[at:at + size]), tuple(runs[begun:begun + size])))
            at += size
    return out


def folded(passes: Sequence[Pass]) -> list[Run]:
    """Passes in a row that differ in one setting, each time as many as there are."""
    runs, at = list[Run](), 0
    while at < len(passes):
        rest = passes[at:]
        counts = {fold: count(rest) for fold, count in _COUNTS.items()}
        fold = max(counts, key=lambda fold: counts[fold])
        most = counts[fold]
        runs.append(Run(tuple(rest[:most]), fold) if most > 1 else Run((rest[0],)))
        at += max(1, most)
    return runs


def _is_once_more(runs: Sequence[Run], at: int, size: int, begun: int | None = None) -> bool:
    """Whether so many runs are those before them, all of them at one other Z, and more than one pass."""
    here, there = runs[at if begun is None else begun:][:size], runs[at + size:at + 2 * size]
    if len(there) < size or sum(len(run.passes) for run in there) < 2:
        return False
    flat = [one for run in there for one in run.passes], [one for run in here for one in run.passes]
    levels = [{one.dial_z_mm for one in side} for side in flat]
    return (all(len(level) == 1 for level in levels) and all(run.first.direction != Direction.AXIAL for run in there)
            and [(run.fold, len(run.passes)) for run in here] == [(run.fold, len(run.passes)) for run in there]
            and all(_but_height(a) == _but_height(b) for a, b in zip(*flat, strict=True)))


Key = tuple[Any, ...]
"""What passes have to be alike in."""


def _alike(key: Callable[[Pass], Key]) -> Callable[[Sequence[Pass]], int]:
    """How many at the beginning of a row are alike in something."""
    def count(passes: Sequence[Pass]) -> int:
        first = key(passes[0])
        return sum(1 for _ in takewhile(lambda one: key(one) == first, passes))
    return count


def _but(*left_out: str) -> Callable[[Pass], Key]:
    """All of a pass but what is said of it elsewhere and what else is left out."""
    without = {"no", "minutes", "says", "dials", "stops_mm", *left_out}
    return attrgetter(*(one.name for one in fields(Pass) if one.name not in without))


_but_height = _but("z_mm", "dial_z_mm", "axial_mm")
_but_table = _but("x_mm", "radial_mm", "dial_from_mm", "dial_to_mm")
_ACROSS = ("x_mm", "dial_x_mm", "radial_mm", "path_mm", "dial_path_mm", "way_says")
_at_one_setting, _at_one_side, _at_one_size = _but(*_ACROSS), _but(*_ACROSS, "feed", "enters_mm", "leaves_mm"), _but(
    "diameter_mm", "radial_mm")


def _but_across(one: Pass) -> Key:
    """But for where it is across."""
    return *_at_one_setting(one), *_ways(one)


def _ways(one: Pass) -> Key:
    """A way that runs straight goes with where it is across, and so does one in from the open end, which is said of
    each pass by itself."""
    is_from_end = one.entry == Entry.OPEN_END
    straight = len({y for _, y in one.dial_path_mm}) == 1 and not one.way_says
    ways = ((), ()) if straight or is_from_end else (one.path_mm, one.dial_path_mm)
    return *ways, () if is_from_end else one.way_says


def _but_size(one: Pass) -> Key:
    return *_at_one_size(one), round(one.radial_mm, 3)


def _but_side(one: Pass) -> Key:
    return *_at_one_side(one), *_ways(one)


def _bored(passes: Sequence[Pass]) -> int:
    return _alike(_but_size)(passes) if passes[0].role in (Role.BORE, Role.GROOVE) else 1


def _round(passes: Sequence[Pass]) -> int:
    return _alike(_but_table)(passes) if passes[0].feed == Fed.ROUND else 1


def _over(passes: Sequence[Pass]) -> int:
    return _alike(_but_across)(passes) if passes[0].direction != Direction.AXIAL else 1


def _sides(passes: Sequence[Pass]) -> int:
    """Pairs of which the second is as far on the other side as the first, fed the other way."""
    firsts, count = [_but_across(one) for one in passes[:2]], 0
    for one, other in _pairs(passes):
        is_pair = (abs(one.dial_x_mm + other.dial_x_mm) < _SAME_MM < abs(one.dial_x_mm) and one.feed != other.feed
                   and [_but_across(one), _but_across(other)] == firsts and _but_side(one) == _but_side(other)
                   and one.dial_x_mm * passes[0].dial_x_mm > 0 and one.direction != Direction.AXIAL)
        if not is_pair:
            break
        count += 2
    return count


def _pairs(passes: Sequence[Pass]) -> Iterator[tuple[Pass, Pass]]:
    return ((one, other) for at, (one, other) in enumerate(pairwise(passes)) if at % 2 == 0)


_COUNTS: dict[Fold, Callable[[Sequence[Pass]], int]] = {
    Fold.BORE: _bored, Fold.DOWN: _alike(_but_height), Fold.SIDES: _sides, Fold.OVER: _over,
    Fold.ROUND: _round,
}
"""How many passes at the beginning of a row each fold takes; where two take as many, the first."""
