"""The work is tilted half a right angle: a groove with a right angle between its flanks becomes a wall and a floor,
which the side and the end of a square cutter make at once."""

from __future__ import annotations

from math import sqrt

from crib.geometry.outline import Box, Face, Opening, Outline, Room, Waiver
from crib.geometry.region import Region
from crib.geometry.rotate import Point, mapped
from crib.setups.base import Setup

_HALF = sqrt(0.5)


def suits(outline: Outline) -> bool:
    """Whether the section is one room with two flanks, a right angle between them."""
    leans = [face.lean for face in outline.faces]
    return len(outline.rooms) == 1 and len(leans) == 2 and all(lean and abs(lean.run) == lean.rise for lean in leans)


def turn(outline: Outline) -> Outline:
    """Turned clockwise by half a right angle; then x counts from the wall that one flank has become, z from the upper
    end of that wall."""
    room = outline.rooms[0]
    deep = -room.aim.low

    def move(point: Point) -> Point:
        x, z = point
        return round((x + z + deep) * _HALF), round((z - x - deep) * _HALF)

    def moved(region: Region) -> Region:
        return mapped(region, move)

    least, aim, most = (_box(moved(region)) for region in (outline.least, outline.aim, outline.most))
    return Outline(
        stock=moved(outline.stock),
        least=moved(outline.least),
        aim=moved(outline.aim),
        most=moved(outline.most),
        rooms=(Room(room.name, least, aim, most, frozenset({Opening.TOP, Opening.RIGHT})),),
        faces=tuple(_face(face, least, aim, most) for face in outline.faces),
        waivers=tuple(Waiver(waiver.name, moved(waiver.region)) for waiver in outline.waivers),
        obstacles=moved(outline.obstacles),
    )


def _box(region: Region) -> Box:
    left, low, right, high = region.bounds()
    return Box(left, low, right, high)


def _face(face: Face, least: Box, aim: Box, most: Box) -> Face:
    """The flank whose metal is on the left has become the wall, the other one the floor."""
    if face.metal < 0:
        return Face(face.name, True, -1, aim.left, least.left, most.left, least.low, least.high, turned=True)
    return Face(face.name, False, -1, aim.low, least.low, most.low, least.left, least.right, turned=True)


def zeros(outline: Outline) -> tuple[str, str]:
    """What x and z count from."""
    return "the flank that stands upright", "the upper end of that flank"


SETUP = Setup(
    name="tilted",
    words="work tilted 45 degrees, one flank upright and the other level",
    held="tilted by sine bar or protractor, indicated {true}",
    turn=turn,
    suits=suits,
    zeros=zeros,
    clampings=1,
    tilts=1,
    warns="the work is clamped anew and tilted: a quarter of a degree off, as by protractor, is 4 parts in a thousand, "
          "a sine bar holds a fiftieth of a degree",
)
