"""Closed ends: what a feature is seen from above, layer by layer, and the sizes that go with it.

An end may be as round as the room is wide, since a turning cutter leaves no square corner; how square it may be at the
most is the rectangle. The head of a T-slot ends where its own length says; where none is given it is to end with the
throat, as near as the disc can go.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from crib.features.base import Feature, Request, refuse
from crib.geometry.outline import Box, Room
from crib.geometry.plan_view import Layer, Layers
from crib.geometry.rounded_box import RoundedBox, oblong
from crib.units import Size, nm

WAIVED = 4
"""An owner may let a floor's edge be as round as this part of the lesser of width and depth."""


def with_layers(feature: Feature) -> Feature:
    """The feature with its layers, where both of its ends are closed. Raises `CribError` for sizes that can't be
    together."""
    request = feature.request
    if request.ends != "closed":
        _only_closed(request)
        return feature
    if "length" not in request.sizes:
        raise refuse(f"a closed {feature.words} needs its length, from end to end", "", "give --length")
    rooms = feature.outline.rooms
    width = rooms[0].aim.width / 1e6
    length = request.size("length")
    if length.mid < width or length.lo <= 0:
        raise refuse(f"a length of {length.text} is less than the {rooms[0].name} is wide", length.text,
                     "a length from end to end")
    _check_head(request, rooms)
    before = tuple(_entry_hole(request, rooms))
    floor = rooms[-1].least
    fillet, waived = nm(request.floor_radius), min(floor.width, floor.height) // WAIVED
    least: list[Layer] = []
    most: list[Layer] = []
    for room in rooms:
        size = _length_of(request, room)
        least += _rounds(room.least, size, request.size("length"), rooms[0].most.width)
        most.append(_square(room.most, size or length))
    layers = Layers(tuple(least), (*most, *before), before, fillet, waived)
    return replace(feature, layers=layers)


def _length_of(request: Request, room: Room) -> Size | None:
    """The length of a room; None where it only is to end with the others."""
    return request.sizes.get("head_length") if room.name == "head" else request.size("length")


def _rounds(box: Box, size: Size | None, length: Size, opening: int) -> Iterator[Layer]:
    """What must go: with ends as round as it is wide; of a head without a length of its own only the straight part of
    the throat over it."""
    if size is None:
        half = nm(length.lo / 2) - opening // 2
        if half > 0:
            yield Layer(box.low, box.high, oblong(-half, half, box.right, 0))
        return
    half = nm(size.lo / 2)
    yield Layer(box.low, box.high, oblong(-half, half, box.right, min(box.right, half)))


def _square(box: Box, size: Size) -> Layer:
    return Layer(box.low, box.high, oblong(-nm(size.hi / 2), nm(size.hi / 2), box.right, 0))


def _entry_hole(request: Request, rooms: tuple[Room, ...]) -> Iterator[Layer]:
    """A round hole in the middle, down to the floor that is aimed at."""
    hole = request.sizes.get("entry_hole")
    if hole:
        yield Layer(min(room.aim.low for room in rooms), 0, RoundedBox(0, 0, 0, 0, nm(hole.lo / 2)))


def _only_closed(request: Request) -> None:
    for key, option in (("head_length", "--head-length"), ("entry_hole", "--entry-hole")):
        if key in request.sizes:
            raise refuse(f"{option} is for closed ends; these are {request.ends}", request.sizes[key].text,
                         f"--ends closed, or no {option}")


def _check_head(request: Request, rooms: tuple[Room, ...]) -> None:
    length, throat, head = request.size("length"), rooms[0], rooms[-1]
    own, hole = request.sizes.get("head_length"), request.sizes.get("entry_hole")
    if own and own.mid < head.aim.width / 1e6:
        raise refuse(f"a head {own.text} long is shorter than it is wide", own.text,
                     "a length from end to end, the round ends included")
    if own and own.lo >= length.hi + head.most.width / 1e6:
        raise refuse(f"no disc makes a head {own.text} long through a throat {length.text} long: its axis stays in the "
                     "throat", own.text, "at most the throat's length and the head's width together")
    if hole and hole.lo <= throat.most.width / 1e6:
        raise refuse(f"an entry hole of {hole.text} is no wider than the throat", hole.text,
                     "a hole wider than the throat, or none")
    if hole and hole.hi > head.most.width / 1e6:
        raise refuse(f"an entry hole of {hole.text} is wider than the head", hole.text,
                     "a hole no wider than the head")
