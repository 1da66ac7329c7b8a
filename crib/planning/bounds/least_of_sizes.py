"""The verdict that a question's sizes bring with them at the least, whichever tools do it."""

from __future__ import annotations

from collections.abc import Iterator
from math import inf

from crib.features.base import Dimension
from crib.geometry.free_positions import Metal, free_positions
from crib.geometry.outline import Room
from crib.geometry.region import Region, union
from crib.machining.ends import ends_stand, has_corners
from crib.machining.methods import stands_in
from crib.machining.question import Question
from crib.machining.tool import Tool
from crib.planning.bounds.abilities import Abilities
from crib.planning.bounds.each_tool import DRAWN, GIVEN_AWAY
from crib.planning.told.verdict import surely_runs_out
from crib.rules.surely_sized import between_flanks, comes_too_low, lies_between_walls, never_kept
from crib.rules.ways_of_cutting import makes_size
from crib.units import NM


def missed_by_all(abilities: Abilities) -> int:
    """The verdict that every plan comes to at the least, for some tool is the last in each room, and one the largest of
    those that finish its corners."""
    if abilities.missed_by_all is None:
        abilities.missed_by_all = _missed_by_all(abilities)
    return abilities.missed_by_all


def _missed_by_all(abilities: Abilities) -> int:
    question = abilities.question
    if surely_given_away(question):
        return GIVEN_AWAY
    if surely_runs_out(question) or any(_is_missed(abilities, size) for size in question.dimensions):
        return GIVEN_AWAY
    rooms = question.outline.rooms
    return GIVEN_AWAY if any(_misses_corners(abilities, room) or _ends_stand(abilities, room)
                             for room in rooms) else DRAWN


def surely_given_away(question: Question) -> bool:
    """Whether a size of a question is missed whatever there is that does it."""
    return any(never_kept(question)) or any(kept == "no" for _, kept in between_flanks(question))


def most_left(question: Question) -> float:
    """What any plan leaves at the most of the chance that the part comes out well: less than the shop's own for each
    size that whatever makes it holds with care only, or misses."""
    shop, kept = question.shop, [one for _, one in between_flanks(question)]
    careful = (1 - shop.careful_chance) ** kept.count("with care")
    return (1 - shop.base_chance) * careful * (1 - shop.miss_chance) ** kept.count("no")


def _is_missed(abilities: Abilities, size: Dimension) -> bool:
    """Whether a size is missed whichever tool is the last in whichever of its rooms."""
    rooms = [room for room in abilities.question.outline.rooms if makes_size(room.name, size)]
    return _all(size.name in missed for room in rooms for tool in abilities.likely(room)
                 if (missed := abilities.missed(tool, room)) is not None)


def missed_as_cleared(abilities: Abilities) -> bool:
    """Whether some size across a room under a lip is missed whichever tool is the last there: it comes out no wider
    than all together ever clear that, as what is before it lets them stand. What comes out with all gone that is aimed
    at is asked first: they mostly clear that, and it is soon told. Or a height is, which the last makes by itself."""
    if any(_is_too_low(abilities, size) for size in abilities.question.dimensions if size.sort == "height"):
        return True
    outline = abilities.question.outline
    aimed = outline.aim | union(room.most.region for room in outline.rooms if not room.open)
    return any(_is_too_narrow(abilities, size, aimed) and _is_too_narrow(abilities, size, abilities.together.ever)
               for size in abilities.question.dimensions if lies_between_walls(size))


def _is_too_narrow(abilities: Abilities, size: Dimension, gone: Region) -> bool:
    """Whether a size is missed whichever tool is the last in its rooms, where no more than so much is ever gone."""
    outline = abilities.question.outline
    rooms = [room for room in outline.rooms if makes_size(room.name, size)]
    if any(room.open or room.lean or room.most.region - outline.stock for room in rooms):
        return False
    some = [(tool, room) for room in rooms for tool in abilities.likely(room)
            if abilities.missed(tool, room) is not None]
    ends = [end for tool, room in some for end in _ends(abilities, tool, room, gone)]
    widest = (max(right for _, right in ends) - min(left for left, _ in ends)) / NM if ends else inf
    return _all(size.name in (abilities.missed_within(tool, room, widest) or ()) for tool, room in some)


def _is_too_low(abilities: Abilities, size: Dimension) -> bool:
    """Whether a height is missed whichever tool is the last in its room: in its levels it gets neither so high nor so
    low with all gone that may be."""
    question, rooms = abilities.question, [room for room in abilities.question.outline.rooms
                                           if makes_size(room.name, size)]
    return not any(room.lean or room.rounded or room.hollow for room in rooms) and _all(
        size.name in missed or all(comes_too_low(question, size, one, _tallest(abilities, tool, room))
                                   for one in abilities.ways(tool, room))
        for room in rooms for tool in abilities.likely(room)
        if (missed := abilities.missed(tool, room)) is not None and tool.id not in abilities.shut_out(room))


def _tallest(abilities: Abilities, tool: Tool, room: Room) -> float:
    """From the lowest to the highest that a tool ever cuts in a room [mm]: none of its teeth are where it never takes
    anything of what must go."""
    outline, least = abilities.question.outline, room.least
    stands = stands_in(tool, outline, room, abilities.limits, outline.most)
    low, high = min((one.low for one in stands), default=0), max((one.high for one in stands), default=0)
    low, high = low, high + tool.form.height
    if taken := (least.region & outline.least) - abilities.together.never_taken_by(tool):
        _, lowest, _, highest = taken.bounds()
        low, high = lowest if lowest > least.low else low, highest if highest < least.high else high
    return (high - low) / NM


def _ends(abilities: Abilities, tool: Tool, room: Room, gone: Region) -> Iterator[tuple[int, int]]:
    """From where to where the teeth of a tool may be between the walls of a room, with so much gone."""
    outline, radius, most = abilities.question.outline, tool.form.radius, room.most
    metal = Metal(outline.keep, outline.standing(gone))
    for stand in stands_in(tool, outline, room, abilities.limits, outline.most):
        if stand.low != stand.high:
            yield most.left, most.right
        yield from ((left - radius, right + radius) for left, right in free_positions(tool.form, metal, stand.low)
                    if left < most.right and right > most.left)


def _misses_corners(abilities: Abilities, room: Room) -> bool:
    """Whether a room's corners come out beyond the drawing whichever tool that finishes it is the largest in them; told
    first of those that don't miss them."""
    if not has_corners(abilities.question, room):
        return False
    miss = []
    for tool in abilities.likely(room):
        if tool.can_finish and abilities.misses_corners(tool, room):
            miss.append(tool)
        elif tool.can_finish and abilities.missed(tool, room) is not None:
            return False
    return any(abilities.missed(tool, room) is not None for tool in miss)


def _ends_stand(abilities: Abilities, room: Room) -> bool:
    """Whether something stands at a room's closed ends, whichever tools do anything there."""
    tools = [tool for tool in abilities.likely(room) if abilities.missed(tool, room) is not None
             ] if abilities.question.layers and not room.open else []
    return bool(tools) and ends_stand(abilities.question, abilities.limits, room, tools)


def _all(some: Iterator[bool]) -> bool:
    """Whether there are any, and all hold."""
    first = next(some, None)
    return bool(first) and all(some)
