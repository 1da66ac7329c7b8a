"""How a part lies at the machine: which of its faces is up and which lie to each side, where a feature's own nought is
then, and from which corner it is counted."""

from __future__ import annotations

from crib.features.base import Feature
from crib.light.records import dataclass
from crib.parts.frame import Vector
from crib.parts.part import Face, Part, Placed, Runs, Stock
from crib.parts.solids import Run, closed_ends, run_of


@dataclass(frozen=True)
class Sides:
    """Which faces lie to the left, to the right, toward who stands there, and away from them."""

    left: Face
    right: Face
    near: Face
    away: Face

    @property
    def turned_a_quarter(self) -> Sides:
        """The same with what lay to the right away."""
        return Sides(self.away, self.near, self.left, self.right)


_FLAT = {
    Face.TOP: Sides(Face.LEFT, Face.RIGHT, Face.FRONT, Face.BACK),
    Face.BOTTOM: Sides(Face.LEFT, Face.RIGHT, Face.BACK, Face.FRONT),
    Face.FRONT: Sides(Face.LEFT, Face.RIGHT, Face.BOTTOM, Face.TOP),
    Face.BACK: Sides(Face.LEFT, Face.RIGHT, Face.TOP, Face.BOTTOM),
    Face.LEFT: Sides(Face.FRONT, Face.BACK, Face.TOP, Face.BOTTOM),
    Face.RIGHT: Sides(Face.FRONT, Face.BACK, Face.BOTTOM, Face.TOP),
}
"""Turned about its length, its left end still to the left; standing on an end its front to the left. Seen from above
each goes round the same way, so that none is a mirror image."""


def sides_of(up: Face, runs: Runs = Runs.ALONG, is_turned: bool = False) -> Sides:
    """How the work lies with a face up, what runs so along the table; turned end for end where that is said."""
    sides = _FLAT[up] if runs == Runs.ALONG else _FLAT[up].turned_a_quarter
    return sides.turned_a_quarter.turned_a_quarter if is_turned else sides


def size_of(stock: Stock, sides: Sides) -> tuple[float, float]:
    """How wide and how deep it lies [mm].

    >>> size_of(Stock(150, 60, 30), sides_of(Face.FRONT)), size_of(Stock(150, 60, 30), sides_of(Face.LEFT))
    ((150, 30), (60, 30))
    """
    return _across(stock, sides.right), _across(stock, sides.away)


def _across(stock: Stock, face: Face) -> float:
    """From a face to the one opposite [mm]."""
    if face in (Face.LEFT, Face.RIGHT):
        return stock.length
    return stock.width if face in (Face.FRONT, Face.BACK) else stock.height


def _toward(stock: Stock, face: Face, at: Vector) -> float:
    """How far a point is from the face opposite, towards a face [mm]."""
    x, y, z = at
    return {Face.RIGHT: x, Face.LEFT: stock.length - x, Face.BACK: y, Face.FRONT: stock.width - y, Face.TOP: z,
            Face.BOTTOM: stock.height - z}[face]


def below(stock: Stock, up: Face, at: Vector) -> float:
    """How far a point of the part lies below the face that is up [mm].

    >>> below(Stock(150, 60, 30), Face.BACK, (0, 45, 0)), below(Stock(150, 60, 30), Face.FRONT, (0, 45, 0))
    (15, 45)
    """
    return _across(stock, up) - _toward(stock, up, at)


def laid(stock: Stock, sides: Sides, at: Vector) -> tuple[float, float]:
    """Where a point of the part lies, from the left and from the near side [mm]."""
    return _toward(stock, sides.right, at), _toward(stock, sides.away, at)


def is_half_round(stock: Stock, sides: Sides, run: Run) -> bool:
    """Whether what a feature's drawing has on its right, away from you, lies toward you instead."""
    here, there = (laid(stock, sides, run.at(run.begin, right, 0.0)) for right in (0.0, 1.0))
    return there[1] < here[1]


def lies_wrong(part: Part, placed: Placed, feature: Feature, sides: Sides) -> tuple[bool, ...]:
    """Of all that tells one way of a feature from the other, at each of its places, whether it lies half round to how
    its plan has it: its drawing's right away from you, and of one closed end the open one to the left. All alike: it
    can be made as it lies, or turned end for end; where they differ it lies as in a mirror, and no plan makes it."""
    found = []
    for place in placed.places:
        run = run_of(part.stock, place, feature)
        if feature.outline.aim != feature.outline.mirrored.aim:
            found.append(is_half_round(part.stock, sides, run))
        if feature.request.ends == "one":
            ends = (run.end, run.begin) if closed_ends(run, feature)[0] else (run.begin, run.end)
            opens, closed = (laid(part.stock, sides, run.at(end, 0.0, 0.0))[0] for end in ends)
            found.append(opens > closed)
    return tuple(found)


def corner_of(part: Part, sides: Sides) -> tuple[Face, Face]:
    """The two faces from which the work is counted as it lies: one to a side, one near or away."""
    named = {Face.RIGHT if "right" in part.datum else Face.LEFT, Face.BACK if "back" in part.datum else Face.FRONT,
             Face.TOP}
    return (sides.left if sides.left in named else sides.right), (sides.near if sides.near in named else sides.away)


def from_corner(part: Part, sides: Sides, at: tuple[float, float]) -> tuple[float, float]:
    """What table and cross read at a place as it lies, both being nought at the corner [mm]: + to the right and
    away."""
    wide, deep = size_of(part.stock, sides)
    side, front = corner_of(part, sides)
    return at[0] - (wide if side == sides.right else 0.0), at[1] - (deep if front == sides.away else 0.0)
