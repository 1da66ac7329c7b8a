"""Whether all that is able, one after the other, could ever clear what must go: told without making a plan."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import zip_longest

from crib.geometry.ever_cleared import Body, cleared_in_goes, ever_cleared
from crib.geometry.free_positions import Interval
from crib.geometry.outline import Outline, Room
from crib.geometry.region import Region
from crib.machining.methods import stands_in
from crib.machining.methods.base import Limits
from crib.machining.tool import Tool

Able = Iterable[tuple[Tool, Room]]
"""Tools with the rooms in which each can do anything."""


def left_by_all(outline: Outline, able: Able, allowed: Limits) -> Region:
    """What of all that must go no plan takes: each tool stands where its rooms' methods put it.
    Nothing where some order of all of them might take everything."""
    bodies = list(_likely_first(_by_room(outline, able, allowed)))
    return outline.least - ever_cleared(outline.stock, outline.keep, outline.obstacles, bodies, outline.least)


def left_by_some(outline: Outline, able: Able, allowed: Limits, most: int) -> Region:
    """The same of plans with so many tools at the most, each of which goes once, and of what all together ever clear:
    closer, and slower to tell."""
    able = list(able)
    bodies = _likely_first(_by_room(outline, able, allowed))
    ever = ever_cleared(outline.stock, outline.keep, outline.obstacles, bodies)
    goes: dict[int, dict[Body, None]] = {}
    for tool, room in able:
        goes.setdefault(tool.id, {}).update(dict.fromkeys(_bodies(tool, outline, room, allowed, ever)))
    return outline.least - cleared_in_goes(outline.stock, outline.keep, outline.obstacles,
                                           list(dict.fromkeys(map(tuple, goes.values()))), most, outline.least)


def _by_room(outline: Outline, able: Able, allowed: Limits) -> Iterable[Iterable[Body]]:
    found: dict[str, dict[Body, None]] = {}
    for tool, room in able:
        found.setdefault(room.name, {}).update(dict.fromkeys(_bodies(tool, outline, room, allowed, outline.most)))
    return found.values()


def _likely_first(by_room: Iterable[Iterable[Body]]) -> Iterator[Body]:
    """Room by room in turn, the tallest teeth first."""
    likely = (sorted(bodies, key=lambda body: (-body.form.height, -body.form.radius)) for bodies in by_room)
    return (body for turn in zip_longest(*likely) for body in turn if body)


def _bodies(tool: Tool, outline: Outline, room: Room, allowed: Limits, gone: Region) -> Iterator[Body]:
    """A tool as a body, once for each range of places in which it may stand."""
    heights: dict[Interval, list[Interval]] = {}
    for one in stands_in(tool, outline, room, allowed, gone):
        heights.setdefault((one.left, one.right), []).append((one.low, one.high))
    for sides, between in heights.items():
        yield Body(tool.form, tuple(between), sides)
