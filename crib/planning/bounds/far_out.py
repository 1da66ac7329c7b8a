"""Whether in every plan that gives nothing away some tool stands too far out for what holds it to pass over what stands
beside the work."""

from __future__ import annotations

from collections.abc import Iterator

from crib.geometry.outline import Room
from crib.geometry.region import box
from crib.machining.methods import stands_in
from crib.machining.tool import Tool
from crib.planning.bounds.abilities import Abilities
from crib.rules.beside import surely_stands_out

_IN = 1000
"""So far inside of what must go a spot at the floor is looked at [nm]."""

_THIN = 8
"""What is no higher than this is passed over [nm]."""

_SPARE = 250
"""A tool takes so much more here than it is wide [nm]."""

_Spot = tuple[int, int]
"""Across and up [nm]."""


def all_stand_far_out(abilities: Abilities) -> bool:
    """Whether a spot at the floor must go that nobody takes who isn't cautioned for how far he stands out there: then
    every plan is that leaves nothing. Whoever takes it stands no higher, and no farther to either side than he is
    wide."""
    outline = abilities.question.outline
    if not outline.obstacles or any(room.lean for room in outline.rooms):
        return False
    return any(_is_so_at(abilities, spot) for spot in _spots(abilities))


def _is_so_at(abilities: Abilities, spot: _Spot) -> bool:
    x, z = spot
    here, together = box(x - 1, z - 1, x + 1, z + 1), abilities.as_drawn
    takers = [(tool, room) for tool, room in together.able if here - together.never_taken_by(tool)]
    return bool(takers) and all(_stands_out(abilities, tool, room, spot) for tool, room in takers)


def _stands_out(abilities: Abilities, tool: Tool, room: Room, spot: _Spot) -> bool:
    (x, z), wide, outline = spot, tool.form.radius + _SPARE, abilities.question.outline
    stands = stands_in(tool, outline, room, abilities.limits, outline.most)
    left = max(x - wide, min((one.left for one in stands), default=x))
    right = min(x + wide, max((one.right for one in stands), default=x))
    return left <= right and surely_stands_out(outline.obstacles, tool, left, right, z + 1)


def _spots(abilities: Abilities) -> Iterator[_Spot]:
    """Both lower corners of what must go where nothing is given away, and nobody may have roughed before."""
    outline = abilities.question.outline
    must = outline.least - abilities.roughed
    for slab in [slab for slab in must.slabs if slab.high - slab.low > _THIN][:1]:
        first, last, z = slab.spans[0], slab.spans[-1], slab.low + min(_IN, (slab.high - slab.low) // 2)
        for x in (max(first[0], first[2]) + _IN, min(last[1], last[3]) - _IN):
            if not box(x - 1, z - 1, x + 1, z + 1) - must:
                yield x, z
