"""Levels of teeth in a room that is cleared sideways: how many they take, where each stands, and which are too tall or
too low for it."""

from __future__ import annotations

from collections.abc import Callable
from functools import lru_cache

from crib.findings.message import Text, said
from crib.geometry.outline import Room
from crib.handbook.bites import bites_needed, level_heights, level_overlap, levels_needed
from crib.machining.methods.base import Attempt, Limit, Site
from crib.machining.sizes import Sizes
from crib.units import NM, nm


def heights_of(a: Attempt) -> tuple[int, int]:
    """The least and the most height of the room."""
    return a.room.height or (a.room.least.height, a.room.most.height)


def tallest(room: Room) -> int:
    """The most height of a room."""
    return room.height[1] if room.height else room.most.height


def levels_of(a: Attempt) -> tuple[int, ...]:
    """Where the lower face stands at each level, floor first."""
    return _levels(a.tool.form.height, heights_of(a)[0], a.room.aim.low, a.room.aim.height, a.tool.overlap)


def levels_in(room: Room, sizes: Sizes) -> int:
    """How many levels teeth take in a room at the least."""
    least = (room.height[0] if room.height else room.least.height) / NM
    if sizes.height > least - 1 / NM:
        return 1
    overlap = level_overlap(sizes.height)
    return 2 if sizes.height <= overlap else max(2, bites_needed(room.aim.height / NM - sizes.height,
                                                                 sizes.height - overlap) + 1)


def levels_short(site: Site) -> tuple[Callable[[float], float], float]:
    """By how much a height of teeth falls short of few levels [mm], by the height, and from what height on none does
    [mm]: the taller teeth are the fewer levels they take, for what two levels overlap grows by less than they do."""
    most, height = site.allowed.most_levels, site.room.aim.height
    least = site.room.height[0] if site.room.height else site.room.least.height

    def overlap(face: int) -> int:
        return min(face // 2, nm(level_overlap(face / NM)))

    def are_few(face: int) -> bool:
        return face >= least or levels_needed(height / NM, face / NM, overlap(face) / NM) <= most

    def short(height_mm: float) -> float:
        face = nm(height_mm)
        return 0.0 if are_few(face) else (_least_face(face, least, height, overlap(face), most) - face) / NM

    return short, (_lowest(are_few, 1, least) + 1) / NM


def low_face(a: Attempt, says: Text) -> Limit:
    """A face is no taller than the room."""
    face, most = a.tool.form.height / 1e6, heights_of(a)[1] / 1e6
    return Limit("FC1", says, face, most, "a face of {needs} or less would go in", face - most, "face_mm",
                 holds=face <= most)


def few_levels(a: Attempt) -> Limit:
    """The face is high enough for few levels; the least that would do is found by halving."""
    tool, count = a.tool, len(levels_of(a))
    if count <= a.allowed.most_levels:
        return Limit("FC2", "", holds=True)
    aim = a.room.aim
    high = _least_face(tool.form.height, heights_of(a)[0], aim.height, tool.overlap, a.allowed.most_levels)
    buried = tool.kind.buried
    template = ("with a face of {has} the {room} would take {count} levels, {most} at the most: {needs} is the least"
                if buried else
                "with teeth {has} tall the {room} would take {count} levels, {most} at the most: {needs} is the least")
    says = said(template, room=a.room.name, count=count, most=a.allowed.most_levels)
    fix, key = ("a face of {needs} or more would do", "face_mm") if buried else (None, None)
    return Limit("FC2", says, tool.form.height / 1e6, high / 1e6, fix, (high - tool.form.height) / 1e6, key, up=True)


@lru_cache(maxsize=1024)
def _levels(face: int, least: int, floor: int, height: int, overlap: int) -> tuple[int, ...]:
    """The levels of teeth so high, in a room of which so much is the least: kept, for many cutters are alike in it."""
    if face >= least:
        return (floor,)
    count = levels_needed(height / NM, face / NM, overlap / NM)
    return tuple(nm(z) for z in level_heights(-floor / NM, height / NM, face / NM, count))


@lru_cache(maxsize=1024)
def _least_face(face: int, least: int, height: int, overlap: int, most_levels: int) -> int:
    """The lowest teeth over some that need no more levels than that."""
    return _lowest(lambda tall: levels_needed(height / NM, tall / NM, overlap / NM) <= most_levels, face, least)


def _lowest(few: Callable[[int], bool], low: int, high: int) -> int:
    """Of teeth over some the lowest whose levels are few, as those of so high ones are."""
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (low, middle) if few(middle) else (middle, high)
    return high
