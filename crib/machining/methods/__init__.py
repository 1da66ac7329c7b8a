"""How a cutter clears a room: one file for each method, the first that suits a room is its method. What a method says
once, its limits, where the tool stands, how many passes at the least, is made here into whether a tool can, why not,
and the bound that the search goes by."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from crib.geometry.free_positions import Interval
from crib.geometry.outline import Lean, Opening, Outline, Room
from crib.geometry.region import FAR, Region, box
from crib.light.modules import load
from crib.machining.gate import Gate
from crib.machining.methods.base import Attempt, Limit, Limits, Method, PassBound, Site, Stand, takes
from crib.machining.methods.cuts import Job
from crib.machining.tool import Tool

METHODS: dict[str, Callable[[Room], bool]] = {
    "round_an_edge": lambda room: room.rounded is not None,
    "in_a_fillet": lambda room: room.hollow is not None,
    "along_a_flank": lambda room: room.leans_over,
    "along_an_edge": lambda room: room.lean is not None and room.lean.run < 0,
    "from_above": lambda room: room.opens(Opening.TOP),
    "from_the_side": lambda room: room.opens(Opening.RIGHT),
    "under_a_lip": lambda room: True,
}
"""The methods by their files, each with the rooms that are cleared so where none before it suits; a file is loaded when
such a room is met."""

_SPARE, _FEW_HEIGHTS = 250, 4
"""A tool reaches so much farther here than it is reckoned to [nm], and is looked at under so many heights."""

_KNOWN: dict[tuple[frozenset[Opening], Lean | None, bool, bool], Method] = {}


def method_of(room: Room) -> Method:
    """The method by which a room is cleared, by its open sides and the lean of its walls."""
    place = (room.open, room.lean, room.rounded is not None, room.hollow is not None)
    if place not in _KNOWN:
        name, is_mirrored = how(room)
        method: Method = load(f"{__name__}.{name}").METHOD
        if is_mirrored:
            from crib.machining.methods.mirrored import mirrored

            method = mirrored(method)
        _KNOWN[place] = method
    return _KNOWN[place]


def how(room: Room) -> tuple[str, bool]:
    """The file of the method by which a room is cleared, and whether it is done as its mirror image."""
    is_mirrored = room.opens(Opening.LEFT) and not room.opens(Opening.RIGHT)
    seen = room.mirrored if is_mirrored else room
    return next(name for name, suits in METHODS.items() if suits(seen)), is_mirrored


def can_try(tool: Tool, room: Room) -> bool:
    """Whether a tool can move as the room's method wants it."""
    method = method_of(room)
    return method.motion in tool.kind.motions or method.also in tool.kind.motions


def may(tool: Tool, room: Room) -> bool:
    """Whether a tool has any work in a room: one that may only rough has none but where there is a roughing."""
    return can_try(tool, room) and (tool.can_finish or (room.opens(Opening.TOP) and not room.lean and not room.rounded))


def violated(tool: Tool, outline: Outline, room: Room, allowed: Limits) -> Limit | None:
    """The first of its limits that a tool doesn't keep to in a room."""
    limits = method_of(room).limits(Attempt(tool, outline, room, allowed))
    return next((limit for limit in limits if not limit.holds), None)


def keeps_to_all(tool: Tool, outline: Outline, room: Room, allowed: Limits) -> bool:
    """Whether a tool may have work in a room and keeps to all of its limits there."""
    return may(tool, room) and violated(tool, outline, room, allowed) is None


def clear(tool: Tool, outline: Outline, room: Room, removed: Region, allowed: Limits) -> tuple[Job, ...]:
    """The manners in which a tool can take metal out of a room, given what is gone already; none where it can't."""
    if not keeps_to_all(tool, outline, room, allowed):
        return ()
    jobs = method_of(room).positions(Attempt(tool, outline, room, allowed), removed)
    return tuple(job for job in jobs if takes(outline, room, removed, job.removed))


def pass_bounds(tool: Tool, outline: Outline, room: Room, allowed: Limits) -> tuple[PassBound, ...]:
    """What each manner takes at the least to do a room alone, never more than what comes out; nothing where a tool
    takes nothing out of the room."""
    if not keeps_to_all(tool, outline, room, allowed):
        return ()
    return method_of(room).count(Attempt(tool, outline, room, allowed))


def ways(tool: Tool, outline: Outline, room: Room, allowed: Limits) -> tuple[PassBound, ...]:
    """The same without counting: none that is no pass at all, else any number of them."""
    if not keeps_to_all(tool, outline, room, allowed):
        return ()
    method = method_of(room)
    return (method.ways or method.count)(Attempt(tool, outline, room, allowed))


def never_ends(tool: Tool, outline: Outline, room: Room, allowed: Limits) -> bool:
    """Whether a tool surely neither clears a whole room nor leaves no more of it than what is gone with another: told
    before its ways; False where that isn't plain."""
    return method_of(room).never_ends(Attempt(tool, outline, room, allowed))


def begins(tool: Tool, outline: Outline, room: Room, allowed: Limits) -> bool:
    """Whether a tool that keeps to its limits in a room may be the first there."""
    told = method_of(room).begins
    return told is None or told(Attempt(tool, outline, room, allowed))


def pass_bounds_now(tool: Tool, outline: Outline, room: Room, removed: Region,
                    allowed: Limits) -> tuple[PassBound, ...] | None:
    """The same with so much gone already; None where the method knows no better."""
    now = method_of(room).count_now
    if now is None or not may(tool, room):
        return None
    a = Attempt(tool, outline, room, allowed)
    return now(a, removed) if violated(tool, outline, room, allowed) is None else ()


def is_feasible(tool: Tool, outline: Outline, room: Room, cleared: Region, allowed: Limits) -> bool | None:
    """Whether a tool clears a whole room that nobody was in, told without making the passes; None where only they can
    tell."""
    if not keeps_to_all(tool, outline, room, allowed):
        return False
    told = method_of(room).stands(Attempt(tool, outline, room, allowed), cleared)
    if told is None and len(tool.form.sure) > 1 and room.opens(Opening.TOP) and room.hollow is None:
        return False if _leaves_a_round(tool, outline, room, cleared, allowed) else None
    return told


def _leaves_a_round(tool: Tool, outline: Outline, room: Room, cleared: Region, allowed: Limits) -> bool:
    """Whether a tool with round corners surely leaves more at the sides of a floor than may stand there: under a height
    to which its wider parts don't come down, outside of all that those under it get to."""
    stands = stands_in(tool, outline, room, allowed, outline.most | cleared)
    if not stands:
        return False
    low, left, right = (most(ends) for most, ends in zip((min, min, max), zip(*(
        (one.low, one.left, one.right) for one in stands), strict=True), strict=True))
    rest, parts = outline.rest(room, cleared), tool.form.sure
    for part in [one for one in parts if low + one.high - _SPARE > room.least.low][:_FEW_HEIGHTS]:
        wide = max(one.widest for one in parts if one.low < part.high) + _SPARE
        under = rest & box(-FAR, -FAR, FAR, low + part.high - _SPARE)
        if not outline.is_waived(under - box(left - wide, -FAR, right + wide, FAR)):
            return True
    return False


def gate(site: Site) -> Gate | None:
    """What a room asks of a cutter's bare sizes; None where its method can't tell."""
    return method_of(site.room).gate(site)


def stands_in(tool: Tool, outline: Outline, room: Room, allowed: Limits, gone: Region) -> tuple[Stand, ...]:
    """Between which heights and places a tool that keeps to the limits is in every pass in a room, where no more is
    ever gone than so much."""
    return tuple(method_of(room).stands_in(Attempt(tool, outline, room, allowed), gone))


def gets_near(tool: Tool, outline: Outline, room: Room, allowed: Limits, gone: Region, sides: Interval, under: int
              ) -> bool:
    """Whether it may be there between two places, with its lower face no higher than so; told sooner."""
    return method_of(room).gets_near(Attempt(tool, outline, room, allowed), gone, sides, under)


def near(tools: Sequence[Tool], outline: Outline, room: Room, allowed: Limits, gone: Region, sides: Interval, under: int
         ) -> Sequence[Tool]:
    """Which of some tools may touch anything there between two places with the lower face no higher than so; told of
    many at once."""
    return method_of(room).near(Site(outline, room, allowed, gone), tools, sides, under)


def why_not(tool: Tool, outline: Outline, room: Room, cleared: Region, allowed: Limits) -> Limit:
    """What keeps a tool from clearing a room: the first limit that it doesn't keep to, else what is in its way with
    all that is before the room gone."""
    limit = violated(tool, outline, room, allowed)
    return limit or method_of(room).in_the_way(Attempt(tool, outline, room, allowed), cleared)
