"""The holes that owned cutters are expected to make, one cutter alone or after another."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from crib.cutters import goes_down, kind_of
from crib.cutters.base import Cutter, Down
from crib.cutters.edges import BROKEN, SERRATED, edges
from crib.handbook.bands import band
from crib.handbook.boring import BEFORE_BORING_MM, BORED_LEAST
from crib.handbook.reaming import BY_HAND_MM, can_follow, can_follow_by_hand, outside, outside_by_hand, window
from crib.light.records import dataclass, replace
from crib.machining.cores import lets_by, unlike
from crib.machining.own_holes import oversize, whole_range
from crib.machining.words import Making
from crib.shop import Own

THOU = 0.0254
NO_OWN = Own()
REAMED_MM, MILLED = 0.3 * THOU, 1.0 * THOU
"""A reamer's and a plunged end mill's hole over their size [mm]. Common practice."""

_SPREAD = {Making.REAM: (0.3 * THOU, 0.7 * THOU), Making.TWO_DRILLS: (1.0 * THOU, 1.0 * THOU),
           Making.END_MILL: (1.0 * THOU, 1.0 * THOU), Making.BORE: (0.5 * THOU, 0.5 * THOU)}
"""By how much a hole may be under and over what is expected, by the way [mm]. Common practice."""


@dataclass(frozen=True)
class Hole:
    """The hole that a cutter is expected to make: its own size, the hole, how it is made, and the steps before it.
    `spread_mm`: by how much the hole may be under and over what is expected [mm]. `bored`: what is bored before a
    reamer that no drill leaves right."""

    cutter: Cutter | None
    label: str
    diameter_mm: float
    expected_mm: float
    way: Making = Making.DRILL
    before: str = ""
    extra_minutes: float = 0.0
    first: Cutter | None = None
    spread_mm: tuple[float, float] = (0.0, 0.0)
    bored: Hole | None = None

    @property
    def low_mm(self) -> float:
        """The least that the hole may come out [mm]."""
        return self.expected_mm - self.spread_mm[0]

    @property
    def high_mm(self) -> float:
        """The most that the hole may come out [mm]."""
        return self.expected_mm + self.spread_mm[1]


def usable(cutter: Cutter) -> bool:
    """Whether a cutter of known size may make a hole to size, as the spindle turns."""
    return cutter.diameter_mm is not None and cutter.hand != "left" and edges(cutter) not in (*BROKEN, SERRATED)


def drilled(cutters: Sequence[Cutter], own: Own = NO_OWN) -> Iterator[Hole]:
    """The hole of every drill alone."""
    for cutter in cutters:
        if goes_down(cutter, Down.DRILLING) and cutter.diameter_mm is not None:
            yield drilled_hole(cutter, cutter.label, cutter.diameter_mm, own)


def drilled_hole(cutter: Cutter | None, label: str, diameter_mm: float, own: Own = NO_OWN) -> Hole:
    """The hole of a drill, with how far it may come out from what is expected."""
    over, (least, most) = oversize(own, diameter_mm)[0], whole_range(own, diameter_mm)
    return Hole(cutter, label, diameter_mm, diameter_mm + over, spread_mm=(over - least, most - over))


def drill_hole(diameter_mm: float, own: Own = NO_OWN) -> float:
    """The hole that a drill is expected to make [mm], by the owner's own holes where there are any.

    >>> round(drill_hole(0.1590 * 25.4) / 25.4, 4)
    0.1618
    """
    return diameter_mm + oversize(own, diameter_mm)[0]


def other_ways(cutters: Sequence[Cutter], low_mm: float, high_mm: float, own: Own = NO_OWN) -> Iterator[Hole]:
    """The holes between two sizes [mm] that take more than one drill: reamed, drilled in two steps, plunged with an
    end mill, bored."""
    drills = [cutter for cutter in cutters if goes_down(cutter, Down.DRILLING) and usable(cutter)]
    drills.sort(key=lambda drill: drill.diameter_mm or 0.0)
    bars = [cutter for cutter in cutters if goes_down(cutter, Down.BORING) and usable(cutter)]
    for cutter in cutters:
        if usable(cutter) and cutter.diameter_mm is not None:
            yield from _way(cutter, drills, low_mm, high_mm, own)
            if goes_down(cutter, Down.REAMING) and (size := reams_to(cutter, low_mm, high_mm)) is not None:
                yield from _bored_and_reamed(cutter, size, drills, bars, own)


def reams_to(reamer: Cutter, low_mm: float, high_mm: float) -> float | None:
    """The size at which a reamer makes a hole between two sizes, the nearest to their middle that it can be set to
    [mm]; None where it makes none."""
    least, most = kind_of(reamer).sizes(reamer)
    size = min(max((low_mm + high_mm) / 2 - REAMED_MM, least), most)
    return size if low_mm <= size + REAMED_MM <= high_mm else None


def _bored_and_reamed(reamer: Cutter, size: float, drills: Sequence[Cutter], bars: Sequence[Cutter], own: Own
                      ) -> Iterator[Hole]:
    """A reamer that no drill leaves right, in a bore that does: as much left as the middle of what it takes."""
    by_hand = kind_of(reamer).by_hand(reamer)
    under = under_reamer(drills, size, own, reamer)
    if under and not (by_hand and outside_by_hand(size, drill_hole(under.diameter_mm or 0.0, own))):
        return
    bore = size - sum(BY_HAND_MM if by_hand else window(size)) / 2
    for bar in bars:
        if before := _bored(bar, drills, bore, bore, own):
            label = f"{reamer.label} in a bore by {bar.label}"
            yield Hole(reamer, label, size, size + REAMED_MM, Making.REAM, before.before, 19.0, before.first,
                       _SPREAD[Making.REAM], before)


def _way(cutter: Cutter, drills: Sequence[Cutter], low: float, high: float, own: Own) -> Iterator[Hole]:
    size = cutter.diameter_mm or 0.0
    if goes_down(cutter, Down.REAMING) and (set_to := reams_to(cutter, low, high)) is not None:
        size = set_to
        if under := under_reamer(drills, size, own, cutter):
            yield Hole(cutter, cutter.label, size, size + REAMED_MM, Making.REAM, under.label, 4.0, under,
                       _SPREAD[Making.REAM])
    elif goes_down(cutter, Down.DRILLING) and size <= high:
        usual = band(Making.TWO_DRILLS).usual_mm
        expected = size + sum(usual) / 2
        under = _largest(drills, size - 0.3 / 64 * 25.4, own, at_least=size - 1.5 / 32 * 25.4)
        if under and low <= expected <= high:
            yield Hole(cutter, cutter.label, size, expected, Making.TWO_DRILLS, under.label, 3.0, under,
                       _SPREAD[Making.TWO_DRILLS])
    elif goes_down(cutter, Down.MILLING) and low <= size + MILLED <= high:
        yield from _milled(cutter, size, drills, own)
    elif goes_down(cutter, Down.BORING) and (bore := _bored(cutter, drills, low, high, own)):
        yield bore


def _milled(mill: Cutter, size: float, drills: Sequence[Cutter], own: Own) -> Iterator[Hole]:
    """An end mill after a drill that opens the hole for its middle, and where its teeth reach the middle, from
    solid."""
    solid = Hole(mill, mill.label, size, size + MILLED, Making.END_MILL, "", 4.0, spread_mm=_SPREAD[Making.END_MILL])
    for under in unlike([drill for drill in reversed(drills) if goes_under(mill, drill, own)]):
        yield replace(solid, before=under.label, extra_minutes=3.0, first=under)
    if mill.centre_cutting:
        yield solid


def goes_under(mill: Cutter, drill: Cutter, own: Own) -> bool:
    """Whether a drill goes before an end mill: its hole lets the mill's middle by, and leaves it all of the wall."""
    widest = (mill.diameter_mm or 0.0) - BEFORE_BORING_MM
    return lets_by(drill, mill, own) and drill_hole(drill.diameter_mm or 0.0, own) <= widest


def _bored(bar: Cutter, drills: Sequence[Cutter], low: float, high: float, own: Own) -> Hole | None:
    """A bore to the middle of two sizes, after the largest drill that leaves it enough and lets the bar in; None where
    none does."""
    under = _largest(drills, low - BEFORE_BORING_MM, own)
    if not under or bar.min_hole_mm is None:
        return None
    if drill_hole(under.diameter_mm or 0.0, own) < bar.min_hole_mm + BORED_LEAST:
        return None
    middle = (low + high) / 2
    return Hole(bar, bar.label, middle, middle, Making.BORE, under.label, 15.0, under, _SPREAD[Making.BORE])


def under_reamer(drills: Sequence[Cutter], size: float, own: Own, reamer: Cutter) -> Cutter | None:
    """The drill that leaves a reamer of a size [mm] most nearly what it wants, and of several the least."""
    kind = kind_of(reamer)
    if kind.by_hand(reamer):
        holes = ((drill_hole(c.diameter_mm or 0.0, own), c) for c in drills)
        by_hand = [(outside_by_hand(size, hole), size - hole, c.id, c) for hole, c in holes
                   if can_follow_by_hand(size, hole, kind.sizes(reamer)[0])]
        return min(by_hand, key=lambda one: one[:3])[3] if by_hand else None
    fitting = [(outside(size, mm), whole_range(own, mm)[1] + mm >= size, size - mm, c) for c in drills
               if (mm := c.diameter_mm) is not None and can_follow(size, mm, drill_hole(mm, own))]
    return min(fitting, key=lambda one: (one[:3], one[3].id))[3] if fitting else None


def _largest(drills: Sequence[Cutter], at_most: float, own: Own, at_least: float = 0.0) -> Cutter | None:
    """The largest drill whose hole is no larger than a size."""
    fitting = [c for c in drills
               if at_least <= (c.diameter_mm or 0.0) and drill_hole(c.diameter_mm or 0.0, own) <= at_most]
    return fitting[-1] if fitting else None
