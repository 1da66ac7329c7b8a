"""How a part lies at the machine: which of its faces is up and which lie to each side, where a feature's own nought is
then, and from which corner it is counted."""

from __future__ import annotations

from crib.parts.part import Face, Part, Place, Runs, Stock
from crib.records import dataclass

Point = tuple[float, float, float]


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


def sides_of(up: Face, runs: Runs = Runs.ALONG) -> Sides:
    """How the work lies with a face up, what runs so along the table."""
    return _FLAT[up] if runs == Runs.ALONG else _FLAT[up].turned_a_quarter


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


def _toward(stock: Stock, face: Face, at: Point) -> float:
    """How far a point is from the face opposite, towards a face [mm]."""
    x, y, z = at
    return {Face.RIGHT: x, Face.LEFT: stock.length - x, Face.BACK: y, Face.FRONT: stock.width - y, Face.TOP: z,
            Face.BOTTOM: stock.height - z}[face]


def point(stock: Stock, face: Face, along: float, across: float) -> Point:
    """A place of a face in the part: x from the left, y from the front, z up from the bottom [mm].

    >>> point(Stock(100, 50, 20), Face.FRONT, 10, 5)
    (10, 0.0, 15)
    """
    down = stock.height - across
    return {Face.TOP: (along, across, stock.height), Face.BOTTOM: (along, across, 0.0), Face.FRONT: (along, 0.0, down),
            Face.BACK: (along, stock.width, down), Face.LEFT: (0.0, along, down),
            Face.RIGHT: (stock.length, along, down)}[face]


def laid(stock: Stock, sides: Sides, at: Point) -> tuple[float, float]:
    """Where a point of the part lies, from the left and from the near side [mm]."""
    return _toward(stock, sides.right, at), _toward(stock, sides.away, at)


def is_half_round(stock: Stock, sides: Sides, place: Place, is_turned: bool) -> bool:
    """Whether what a feature's drawing has on its right, away from you, lies toward you instead."""
    ahead = (place.along, place.across + 1.0) if place.runs == Runs.ALONG else (place.along + 1.0, place.across)
    here, there = (laid(stock, sides, point(stock, place.face, *at)) for at in ((place.along, place.across), ahead))
    return (there[1] < here[1]) != is_turned


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
