"""How a cutter clears a room: the passes that a machinist would take, in order. One file for each way, the first that
suits a room is its way."""

from __future__ import annotations

from crib.geometry.outline import Lean, Outline, Room
from crib.geometry.region import Region
from crib.machining.methods import along_a_flank, along_an_edge, from_above, from_the_side, under_a_lip
from crib.machining.methods.base import Job, Limits, Method, PassBound
from crib.machining.methods.mirrored import mirrored
from crib.machining.tool import Tool

_RIGHT_HANDED = (along_a_flank.METHOD, along_an_edge.METHOD, from_above.METHOD, from_the_side.METHOD,
                 under_a_lip.METHOD)
METHODS: tuple[Method, ...] = (*map(mirrored, _RIGHT_HANDED), *_RIGHT_HANDED)


_KNOWN: dict[tuple[frozenset[str], Lean | None], Method] = {}


def method_of(room: Room) -> Method:
    """The way in which a room is cleared, by its open sides and the lean of its walls."""
    place = (room.open, room.lean)
    if place not in _KNOWN:
        _KNOWN[place] = next(way for way in METHODS if way.suits(room))
    return _KNOWN[place]


def clear(tool: Tool, outline: Outline, room: Room, removed: Region, limits: Limits) -> tuple[Job, ...]:
    """The manners in which a tool can take metal out of a room, given what is gone already; none where it can't."""
    return method_of(room).clear(tool, outline, room, removed, limits) if may(tool, room) else ()


def may(tool: Tool, room: Room) -> bool:
    """Whether a tool has any work in a room: one that may only rough has none but where there is a roughing."""
    return can_try(tool, room) and (tool.can_finish or ("top" in room.open and not room.lean))


def can_try(tool: Tool, room: Room) -> bool:
    """Whether a tool can move as the room's way wants it."""
    return method_of(room).motion in tool.kind.motions


def fewest(tool: Tool, outline: Outline, room: Room, limits: Limits) -> tuple[PassBound, ...]:
    """What a tool takes at the least to do a room alone (see `Method`); nothing where it can't move so."""
    return method_of(room).fewest(tool, outline, room, limits) if may(tool, room) else ()


def fewest_now(tool: Tool, outline: Outline, room: Room, removed: Region, limits: Limits) -> tuple[PassBound,
                                                                                                   ...] | None:
    """The same with so much gone already; None where the way knows no better."""
    now = method_of(room).fewest_now
    return now(tool, outline, room, removed, limits) if now and may(tool, room) else None


def is_feasible(tool: Tool, outline: Outline, room: Room, cleared: Region, limits: Limits) -> bool | None:
    """Whether a tool clears a whole room that nobody was in, told without making the passes (see `Method`)."""
    return method_of(room).is_feasible(tool, outline, room, cleared, limits) if may(tool, room) else False
