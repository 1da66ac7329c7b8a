"""The metal that a feature takes, where it lies in the part: convex pieces in the part's frame [mm], and their outline
on the face that it is cut from."""

from __future__ import annotations

from collections.abc import Iterator
from math import cos, pi, sin

from crib.features.base import Feature
from crib.geometry.convex import AXES, Convex, Disc, Vector, points
from crib.geometry.outline import Room
from crib.geometry.region import FAR
from crib.geometry.slabs import Slab, Span
from crib.light.tuples import NamedTuple
from crib.parts.frame import Frame, frame_of
from crib.parts.part import Part, Place, Placed, Runs, Stock

_NM = 1e6


class Solid(NamedTuple):
    """A piece of the metal that a feature takes, and which of its rooms it is of: a throat, a head, a hole."""

    room: str
    body: Convex


class Axis(NamedTuple):
    """Where a hole's middle comes out of the face, and which way it goes in, in the part's frame."""

    point: Vector
    inward: Vector


class Shape(NamedTuple):
    """What a feature is on its face, looked at from outside [mm along and across]: a rectangle, or a round where it has
    a diameter."""

    along: float
    across: float
    length: float
    width: float
    diameter: float | None = None


class Run(NamedTuple):
    """How what runs lies: from where to where along its run, and for its section the point of the face from which it
    counts across, the direction in which it counts to the right, and that of its run."""

    begin: float
    end: float
    frame: Frame
    place: Place
    sign: float

    def at(self, run: float, right: float, out: float) -> Vector:
        """A point so far along its run from the edge, to the right of its section's zero, and out of its surface."""
        across = self.sign * right
        if self.place.runs is Runs.ALONG:
            return self.frame.at(run, self.place.across + across, out - self.place.level)
        return self.frame.at(self.place.along + across, run, out - self.place.level)

    @property
    def right(self) -> Vector:
        """The way in which its section counts to the right."""
        way = self.frame.across if self.place.runs is Runs.ALONG else self.frame.along
        return way if self.sign > 0 else tuple(-one for one in way)  # type: ignore[return-value]


def run_of(stock: Stock, place: Place, feature: Feature) -> Run:
    """How a feature that runs lies on its face."""
    frame = frame_of(stock, place.face)
    whole, begin, extent, at = ((frame.length, place.along, frame.width, place.across)
                                if place.runs is Runs.ALONG else
                                (frame.width, place.across, frame.length, place.along))
    length = feature.request.length
    sign = -1.0 if _is_turned(place, feature, extent, at) else 1.0
    return Run(begin, whole if length is None else begin + length, frame, place, sign)


def _is_turned(place: Place, feature: Feature, extent: float, at: float) -> bool:
    """Whether its section's right lies towards the edge from which its place counts: as said, else where that is the
    edge at which it opens."""
    if place.turned is not None:
        return place.turned
    edge = feature.outline.stock.bounds()[2] if feature.outline.stock else FAR
    if edge >= FAR:
        return False
    return abs(at - edge / _NM) < abs(at + edge / _NM - extent)


def axes(part: Part, placed: Placed, feature: Feature) -> tuple[Axis, ...]:
    """The axes of what is made down one, at every place; none of what runs."""
    if feature.down is None:
        return ()
    found = []
    for place in placed.places:
        frame = frame_of(part.stock, place.face)
        inward = tuple(-one for one in frame.out)
        found += [Axis(frame.at(along, across, -place.level), inward)  # type: ignore[arg-type]
                  for along, across in _middles(place, feature)]
    return tuple(found)


def _middles(place: Place, feature: Feature) -> Iterator[tuple[float, float]]:
    """Where on its face each of its holes stands."""
    row = getattr(feature.down, "gib", None)
    if feature.circle is not None:
        x, y = feature.circle.middle or (0.0, 0.0)
        for along, across in feature.circle.places:
            yield place.along + along - x, place.across + across - y
    elif row is not None:
        for along in row.along_mm:
            yield (place.along + along, place.across) if place.runs is Runs.ALONG else (place.along,
                                                                                        place.across + along)
    else:
        yield place.along, place.across


def solids(part: Part, placed: Placed, feature: Feature) -> tuple[Solid, ...]:
    """All that a feature takes, as it is aimed at, in convex pieces."""
    if feature.down is not None:
        return tuple(piece for axis in axes(part, placed, feature) for piece in _rounds(axis, feature))
    runs = (run_of(part.stock, place, feature) for place in placed.places)
    return tuple(piece for run in runs for piece in _prisms(run, feature))


_SECTORS = 24
"""In so many pieces a ring is told, each a little larger than its share."""


def _rounds(axis: Axis, feature: Feature) -> Iterator[Solid]:
    """The slices of what is made down an axis; what leaves the middle standing is a ring."""
    for slab in feature.outline.aim.slabs:
        if all(span.left_low > 0 for span in slab.spans if max(span.right_low, span.right_high) > 0):
            yield from _ring(axis, feature, slab)
            continue
        low, high = (max(radius, 0) / _NM for radius in (max(span.right_low for span in slab.spans),
                                                         max(span.right_high for span in slab.spans)))
        bottom, top = slab.low / _NM, slab.high / _NM
        yield Solid(_room(feature, (slab.low + slab.high) // 2, 0), Convex((
            Disc(_along(axis, -bottom), axis.inward, low), Disc(_along(axis, -top), axis.inward, high))))


def _ring(axis: Axis, feature: Feature, slab: Slab) -> Iterator[Solid]:
    """A ring in sectors: chords inside, and outside what touches the round."""
    inner, outer = (at / _NM for at in next(span for span in slab.spans if span.right_low > 0)[:2])
    one, other = (way for way in AXES if not any(a * b for a, b in zip(way, axis.inward, strict=True)))
    room, wide = _room(feature, (slab.low + slab.high) // 2, round(inner * _NM)), 2 * pi / _SECTORS
    for number in range(_SECTORS):
        corners = [_off(_along(axis, -z / _NM), one, other, radius, number * wide + turn)
                   for z in (slab.low, slab.high) for radius, turn in (
                       (inner, 0.0), (inner, wide), (outer / cos(wide / 2), wide / 2), (outer, 0.0), (outer, wide))]
        yield Solid(room, points(corners))


def _off(middle: Vector, one: Vector, other: Vector, radius: float, angle: float) -> Vector:
    return tuple(p + radius * (cos(angle) * a + sin(angle) * b)
                 for p, a, b in zip(middle, one, other, strict=True))  # type: ignore[return-value]


def _along(axis: Axis, deep: float) -> Vector:
    return tuple(p + deep * n for p, n in zip(axis.point, axis.inward, strict=True))  # type: ignore[return-value]


def _prisms(run: Run, feature: Feature) -> Iterator[Solid]:
    """The slices of what runs, from end to end; what a disc makes that goes straight in is a disc."""
    for slab in feature.outline.aim.slabs:
        for span in slab.spans:
            near = (span.left_low + span.left_high) // 2
            name = _room(feature, (slab.low + slab.high) // 2, near)
            room = next((room for room in feature.outline.rooms if room.name == name), None)
            if room is not None and room.across is not None:
                yield Solid(name, _disc_cut(run, room))
            else:
                yield Solid(name, _prism(run, feature, slab, span))


def _room(feature: Feature, z: int, x: int) -> str:
    """The room that a point of a section is in, the nearest where it is in none; the lower of two."""
    rooms = sorted(feature.outline.rooms, key=lambda room: room.aim.high)
    off = [max(room.aim.left - x, x - room.aim.right, room.aim.low - z, z - room.aim.high, 0) for room in rooms]
    return rooms[off.index(min(off))].name if rooms else str(feature.words)


def _prism(run: Run, feature: Feature, slab: Slab, span: Span) -> Convex:
    """A slice between its ends: with closed ones as round as it is wide, as a turning cutter leaves them."""
    low, high = slab.low / _NM, slab.high / _NM
    corners = ((span.left_low / _NM, low), (span.right_low / _NM, low),
               (span.left_high / _NM, high), (span.right_high / _NM, high))
    middle, half = (span.left_low + span.right_low) / 2 / _NM, (span.right_low - span.left_low) / 2 / _NM
    closed = closed_ends(run, feature)
    upright = span.left_low == span.left_high and span.right_low == span.right_high
    if not any(closed) or not upright or 2 * half > run.end - run.begin:
        return points(run.at(at, right, out) for at in (run.begin, run.end) for right, out in corners)
    corner = _corner(feature, half)
    discs = []
    for is_closed, end, inwards in zip(closed, (run.begin, run.end), (1, -1), strict=True):
        radius = corner if is_closed else 0.0
        discs += [Disc(run.at(end + inwards * radius, middle + side * (half - radius), out), run.frame.out, radius)
                  for out in (low, high) for side in (1, -1)]
    return Convex(tuple(dict.fromkeys(discs)))


def _corner(feature: Feature, half: float) -> float:
    """How round its closed ends are [mm]: as it is seen from above, no more than half as wide as it is."""
    radii = [layer.shape.radius / _NM for layer in feature.layers.least] if feature.layers is not None else []
    return min([half, *radii])


def closed_ends(run: Run, feature: Feature) -> tuple[bool, bool]:
    """Whether its beginning and its end are closed: of one that has one closed end that which is farther in."""
    ends = feature.request.ends
    if ends != "one":
        return ends == "closed", ends == "closed"
    whole = run.frame.length if run.place.runs is Runs.ALONG else run.frame.width
    return (run.begin > whole - run.end, run.begin <= whole - run.end)


def _disc_cut(run: Run, room: Room) -> Convex:
    """What a disc takes that goes straight in: its section has the way in to the left, and its width upright."""
    assert room.across is not None
    radius = sum(room.across) / 4 / _NM
    out = room.aim.left / _NM + radius
    return Convex(tuple(Disc(run.at(run.begin, across / _NM, out), run.right, radius)
                        for across in (room.aim.low, room.aim.high)))


def footprint(part: Part, placed: Placed, feature: Feature) -> tuple[Shape, ...]:
    """What a feature is on its face: a round for each hole, else from where to where it opens."""
    left, _, right, _ = feature.outline.aim.bounds()
    found = []
    for place in placed.places:
        if feature.down is not None:
            found += [Shape(along, across, 0.0, 0.0, 2 * right / _NM) for along, across in _middles(place, feature)]
            continue
        run = run_of(part.stock, place, feature)
        ends = (left, right) if run.sign > 0 else (-right, -left)
        low, high = (end / _NM for end in ends)
        if feature.outline.rooms and (across := feature.outline.rooms[0].across):
            half = sum(across) / 4 / _NM
            found.append(_oriented(place, run.begin - half, -(high - low) / 2, 2 * half, high - low))
        else:
            found.append(_oriented(place, run.begin, low, run.end - run.begin, high - low))
    return tuple(found)


def _oriented(place: Place, begin: float, low: float, length: float, width: float) -> Shape:
    if place.runs is Runs.ALONG:
        return Shape(begin, place.across + low, length, width)
    return Shape(place.along + low, begin, width, length)
