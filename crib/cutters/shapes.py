"""Pieces that cutters' silhouettes are made of. Lengths in mm on the way in, whole nanometres in the parts."""

from __future__ import annotations

from itertools import pairwise

from crib.geometry.arcs import quarter
from crib.geometry.silhouette import Part
from crib.light.tuples import NamedTuple
from crib.units import nm


def cylinder(name: str, low: float, high: float, diameter: float, side: float = 0.0, end: float = 0.0) -> Part:
    """A straight piece from one height above the lower face to another."""
    radius = nm(diameter / 2)
    return Part(name, nm(low), nm(high), radius, radius, nm(side), nm(end))


def cone(name: str, low: float, high: float, diameter_low: float, diameter_high: float) -> tuple[Part, ...]:
    """A cone or a flat: nothing where it has no height.

    >>> [(part.radius_low, part.radius_high) for part in cone("point", 0.0, 1.0, 0.0, 2.0)], cone("flat", 0, 0, 0, 2)
    ([(0, 1000000)], ())
    """
    if nm(high) <= nm(low):
        return ()
    return (Part(name, nm(low), nm(high), nm(diameter_low / 2), nm(diameter_high / 2)),)


def rounded_end(name: str, diameter: float, corner: float, height: float) -> tuple[Part, ...]:
    """A cylinder whose lower corner is rounded with a radius, down to a full ball: chords inside the true arc,
    so that what it surely cuts is never overstated.

    >>> [part.radius_low for part in rounded_end("teeth", 10.0, 0.0, 20.0)]
    [5000000]
    """
    if corner <= 0:
        return (cylinder(name, 0.0, height, diameter),)
    flat = nm(diameter / 2) - nm(corner)
    points = quarter(nm(corner))
    arc = tuple(
        Part(name, low, high, flat + inner, flat + outer)
        for (inner, low), (outer, high) in pairwise(points)
        if high > low
    )
    side = flat + points[-1][0]
    return (*arc, Part(name, points[-1][1], nm(height), side, side))


class Stem(NamedTuple):
    """What stands above the teeth, from their top at `low` up [mm]: the neck, with a fillet at its root, up to the
    `reach`, then the shank up to the `top`; how much room each asks for at its side, and the shank at its end. Without
    a neck the shank begins at the teeth."""

    low: float
    neck: float | None
    fillet: float | None
    reach: float
    shank: float
    top: float
    neck_side: float
    shank_side: float
    end: float

    @property
    def parts(self) -> tuple[Part, ...]:
        """Its pieces. A fillet of radius r widens the neck by r all round for its own height, as common practice
        reckons it."""
        low, parts = self.low, []
        if self.neck is not None and self.reach > low:
            top_of_fillet = low
            if self.fillet:
                top_of_fillet = min(self.reach, low + self.fillet)
                parts.append(cylinder("neck fillet", low, top_of_fillet, self.neck + 2 * self.fillet, self.neck_side))
            if self.reach > top_of_fillet:
                parts.append(cylinder("neck", top_of_fillet, self.reach, self.neck, self.neck_side))
            low = self.reach
        if self.top > low:
            parts.append(cylinder("shank", low, self.top, self.shank, self.shank_side, self.end))
        return tuple(parts)
