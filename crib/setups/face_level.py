"""The work is tilted until a slanted face at its edge lies level, so that the end of a square cutter makes it."""

from __future__ import annotations

from math import atan2, cos, sin

from crib.geometry.outline import Box, Face, Opening, Outline, Room
from crib.geometry.region import Region
from crib.geometry.rotate import Point, mapped
from crib.light.records import replace
from crib.setups.tilted import SETUP as TILTED


def suits(outline: Outline) -> bool:
    """Whether the section is one room at an edge, under one slanted face."""
    return (len(outline.rooms) == 1 and outline.rooms[0].opens(Opening.TOP, Opening.RIGHT)
            and [bool(face.lean) for face in outline.faces] == [True])


def turn(outline: Outline) -> Outline:
    """Turned anticlockwise about the edge until the face is level; x and z then count from that edge."""
    room = outline.rooms[0]
    angle = atan2(room.aim.height, room.aim.width)

    def move(point: Point) -> Point:
        x, z = point
        return round(x * cos(angle) - z * sin(angle)), round(x * sin(angle) + z * cos(angle))

    def moved(region: Region) -> Region:
        return mapped(region, move)

    least, aim, most = (_box(moved(region)) for region in (outline.least, outline.aim, outline.most))
    face = outline.faces[0]
    return Outline(
        stock=moved(outline.stock),
        least=moved(outline.least),
        aim=moved(outline.aim),
        most=moved(outline.most),
        rooms=(Room(room.name, least, aim, most, frozenset({Opening.TOP, Opening.LEFT, Opening.RIGHT})),),
        faces=(Face(face.name, False, -1, aim.low, least.low, most.low, least.left, least.right, turned=True),),
        obstacles=moved(outline.obstacles),
    )


def _box(region: Region) -> Box:
    left, low, right, high = region.bounds()
    return Box(left, low, right, high)


def zeros(outline: Outline) -> tuple[str, str]:
    """What x and z count from."""
    return "the edge, which lies uppermost", "that edge: from the first touch on it"


SETUP = replace(
    TILTED,
    name="face level",
    words="work tilted until the face lies level, the edge uppermost",
    held="tilted in the vise by sine bar or protractor, the edge indicated {true}",
    turn=turn,
    suits=suits,
    zeros=zeros,
)
