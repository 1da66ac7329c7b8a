"""Closed ends: what a feature is seen from above, layer by layer, and the sizes that go with it.

An end may be as round as the room is wide, since a turning cutter leaves no square corner; how square it may be at the
most is the rectangle. A room under a lip may have a length of its own; where none is given it is to end with what opens
it, as near as a disc can go.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from crib.features.base import Dimension, Feature, refuse
from crib.features.request import Request
from crib.features.shapes import floor_radius_between
from crib.findings.message import Message, Mm, a, said
from crib.geometry.layers import Ends, Layer, Layers, air_beside
from crib.geometry.outline import Box, Room
from crib.geometry.rounded_box import RoundedBox, oblong
from crib.light.records import replace
from crib.units import Size, nm

WAIVED = 4
"""An owner may let a floor's edge be as round as this part of the lesser of width and depth."""

HOLE = "entry_hole"


def check_corner(corner: Size, across: Size, name: str) -> None:
    """Raises `CribError` for a corner that isn't one, and for one rounder than half of what lies between its walls."""
    if corner.hi <= 0:
        raise refuse(f"a corner radius of {corner.text} is none: a turning cutter leaves no square corner",
                     corner.text, "the radius of the smallest mill that is stiff enough for the depth, or more")
    if 2 * corner.mid > across.hi:
        raise refuse(f"a corner radius of {corner.text} is more than half of the {name}, {across.text}", corner.text,
                     f"at most half of {across.text}")


def with_layers(feature: Feature) -> Feature:
    """The feature with its layers, where both of its ends are closed. Raises `CribError` for sizes that can't be
    together."""
    request = feature.request
    if request.ends != "closed":
        _only_closed(feature)
        return feature
    if "length" not in request.sizes:
        raise refuse(f"a closed {feature.words} needs its length, from end to end", "", "give --length")
    rooms = feature.outline.rooms
    opening, lowest = rooms[0], min(rooms, key=lambda room: room.least.low)
    width = opening.aim.width / 1e6
    length = request.size("length")
    if length.mid < width or length.lo <= 0:
        raise refuse(f"a length of {length.text} is less than the {opening.name} is wide", length.text,
                     "a length from end to end")
    own = {room.name: _own_length(feature, room) for room in rooms}
    for room in rooms[1:]:
        _check_own(own[room.name], room, length, opening)
    hole = tuple(_entry_hole(request, opening, lowest))
    before = (*hole, *air_beside(feature.outline.stock, lowest.most.low))
    ends = {room.name: _ends(own[room.name], length, opening) for room in rooms}
    least = [layer for room in rooms for layer in _rounds(room.least, ends[room.name], own[room.name])]
    kept = [layer for room in rooms for layer in _kept(room, ends[room.name], own[room.name])]
    most = (_layer(room.most, ends[room.name].most // 2, 0) for room in rooms)
    fillet = floor_radius_between(request.floor_radius, lowest.least.width)
    layers = Layers(tuple(least), (*most, *before), before, fillet,
                    min(lowest.least.width, lowest.least.height) // WAIVED, tuple(layer.shape for layer in hole), ends,
                    kept=tuple(kept) if any(one.kept is not None for one in ends.values()) else None)
    return replace(feature, layers=layers, assumed=(*feature.assumed, *_told_of_the_hole(hole, opening, lowest)),
                   dimensions=(*feature.dimensions, *_lengths(feature, own)))


def with_its_stop(feature: Feature) -> Feature:
    """The feature with its length to one closed end, where the first cutter is stopped; an end that runs out has none
    to hold."""
    request, first = feature.request, feature.outline.rooms[0].name
    if "length" not in request.sizes or request.said.get("run_out"):
        return feature
    length = Dimension(f"{first} length", "length", request.size("length"), (), (first,))
    return replace(feature, dimensions=(*feature.dimensions, length))


def _lengths(feature: Feature, own: Mapping[str, Size | None]) -> Iterator[Dimension]:
    """The lengths from end to end, of rooms that have one: they are set and measured as any size is."""
    if not any(one.sort == "length" for one in feature.dimensions):
        for name, length in own.items():
            if length:
                yield Dimension(f"{name} length", "length", length, ())


def _told_of_the_hole(hole: Sequence[Layer], opening: Room, lowest: Room) -> Iterator[Message]:
    """What an entry hole takes of the lips, and of the walls under them where it is wider than these are apart."""
    for layer in hole:
        if (over := layer.shape.radius - lowest.aim.width // 2) > 0:
            yield said("the entry hole takes {across} out of the lips beside the {opening}, and {over} out of each "
                       "wall of the {room}: nothing bears there", across=Mm(2 * layer.shape.radius / 1e6),
                       opening=opening.name, over=Mm(over / 1e6), room=lowest.name)


def _own_length(feature: Feature, room: Room) -> Size | None:
    """The length of a room; None where it only is to end with the others."""
    return feature.request.sizes.get(feature.lengths.get(room.name, "length"))


def _ends(own: Size | None, length: Size, opening: Room) -> Ends:
    """Where a room ends; what has no length of its own must be gone under the straight part of what opens it."""
    aim, most = nm((own or length).mid / 2), nm((own or length).hi / 2)
    least = nm(own.lo / 2) if own else max(0, nm(length.lo / 2) - opening.most.width // 2)
    kept = None if own else 2 * max(0, least - opening.most.width)
    return Ends(-aim, aim, 2 * least, 2 * most, kept)


def _rounds(box: Box, ends: Ends, own: Size | None) -> Iterator[Layer]:
    """What must go: with ends as round as it is wide."""
    half = ends.least // 2
    if half > 0:
        yield _layer(box, half, min(box.width // 2, half) if own else 0)


def _kept(room: Room, ends: Ends, own: Size | None) -> Iterator[Layer]:
    """What must go whatever an owner lets stand: of a room that only is to end with the others, all but its corners and
    a piece at each end as long as the opening is wide."""
    if ends.kept is None:
        yield from _rounds(room.least, ends, own)
    elif (half := ends.kept // 2) > 0:
        yield _layer(room.least, half, min(room.least.width // 2, half))


def _layer(box: Box, half: int, corner: int) -> Layer:
    return Layer(box.low, box.high, oblong(-half, half, box.width // 2, corner, box.middle))


def _entry_hole(request: Request, opening: Room, lowest: Room) -> Iterator[Layer]:
    """A round hole in the middle, down to the floor that is aimed at. Raises `CribError` where it is too small or too
    large."""
    hole, y = request.sizes.get(HOLE), opening.aim.middle
    if not hole:
        return
    if hole.lo <= opening.most.width / 1e6:
        raise refuse(f"an entry hole of {hole.text} is no wider than the {opening.name}", hole.text,
                     f"a hole wider than the {opening.name}, or none")
    length = request.size("length")
    if hole.hi >= length.lo:
        raise refuse(f"an entry hole of {hole.text} is as wide as the {opening.name} is long, {length.text}", hole.text,
                     "a smaller hole, or none")
    yield Layer(lowest.aim.low, 0, RoundedBox(0, y, 0, y, nm(hole.lo / 2)))


def _only_closed(feature: Feature) -> None:
    request = feature.request
    for key in (*feature.lengths.values(), HOLE):
        if key in request.sizes:
            option = f"--{key.replace('_', '-')}"
            raise refuse(f"{option} is for closed ends; these are {request.ends}", request.sizes[key].text,
                         f"--ends closed, or no {option}")


def _check_own(own: Size | None, room: Room, length: Size, opening: Room) -> None:
    if own and own.mid < room.aim.width / 1e6:
        raise refuse(f"{a(room.name)} {own.text} long is shorter than it is wide", own.text,
                     "a length from end to end, the round ends included")
    if own and own.lo >= length.hi + room.most.width / 1e6:
        raise refuse(f"no disc makes {a(room.name)} {own.text} long through {a(opening.name)} {length.text} long: its "
                     f"axis stays in the {opening.name}", own.text,
                     f"at most the {opening.name}'s length and the {room.name}'s width together")
