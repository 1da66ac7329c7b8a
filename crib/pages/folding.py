"""Passes that are alike, drawn together: what differs among them is where a slide is set, and every setting is told."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from enum import Enum, auto
from itertools import pairwise, takewhile

from crib.light.records import dataclass, replace
from crib.machining.words import Direction, Entry, Fed, Role
from crib.planning.passes import Pass

_SAME_MM = 1e-6


class Fold(Enum):
    """What is set anew for each pass of a run: nothing, for it is one; Z; cross; cross first on one side of nought and
    then as far on the other; the boring head; the table, where the work is turned under it."""

    ONE = auto()
    DOWN = auto()
    OVER = auto()
    SIDES = auto()
    BORE = auto()
    ROUND = auto()


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


def _alike(key: Callable[[Pass], Pass]) -> Callable[[Sequence[Pass]], int]:
    """How many at the beginning of a row are alike but for what `key` leaves out."""
    def count(passes: Sequence[Pass]) -> int:
        first = key(passes[0])
        return sum(1 for _ in takewhile(lambda one: key(one) == first, passes))
    return count


def _but(one: Pass, **left_out: float | str | tuple[()] | None) -> Pass:
    """A pass without what is said of it elsewhere and what else is left out."""
    return replace(one, no=0, minutes=0.0, says="", dials=(), stops_mm=(), **left_out)  # type: ignore[arg-type]


def _but_height(one: Pass) -> Pass:
    return _but(one, z_mm=0.0, dial_z_mm=0.0, axial_mm=0.0)


def _but_across(one: Pass) -> Pass:
    """But for where it is across; a way that runs straight goes with it, and one in from the open end, which is said of
    each pass by itself."""
    straight = len({y for _, y in one.dial_path_mm}) == 1 and not one.way_says
    ways = {"path_mm": (), "dial_path_mm": ()} if straight or one.entry == Entry.OPEN_END else {}
    if one.entry == Entry.OPEN_END:
        ways["way_says"] = ()
    return _but(one, x_mm=0.0, dial_x_mm=0.0, radial_mm=0.0, **ways)


def _but_size(one: Pass) -> Pass:
    return _but(one, diameter_mm=0.0, radial_mm=round(one.radial_mm, 3))


def _but_table(one: Pass) -> Pass:
    return _but(one, x_mm=0.0, radial_mm=0.0, dial_from_mm=0.0, dial_to_mm=0.0)


def _but_side(one: Pass) -> Pass:
    return replace(_but_across(one), feed=Fed.RIGHT, enters_mm=None, leaves_mm=None)


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
