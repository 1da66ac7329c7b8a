"""The verdict that a question's sizes bring with them at the least, whichever tools do it."""

from __future__ import annotations

from collections.abc import Iterator

from crib.features.base import Dimension
from crib.geometry.outline import Room
from crib.machining.ends import misses_corners
from crib.planning.abilities import DRAWN, GIVEN_AWAY, Abilities
from crib.planning.verdict import surely_runs_out
from crib.rules.sizes import makes_size


def missed_by_all(abilities: Abilities) -> int:
    """The verdict that every plan comes to at the least, for some tool is the last in each room, and one the largest of
    those that finish its corners."""
    question = abilities.question
    rooms = [room for room in question.outline.rooms if abilities.of(room)]
    if surely_runs_out(question) or any(_misses_corners(abilities, room) for room in rooms):
        return GIVEN_AWAY
    return GIVEN_AWAY if any(_missed(abilities)) else DRAWN


def _missed(abilities: Abilities) -> Iterator[Dimension]:
    """The sizes that are missed whichever tool is the last in whichever of their rooms."""
    for size in abilities.question.dimensions:
        last = [able for room in abilities.question.outline.rooms if makes_size(room.name, size)
                for able in abilities.of(room).values()]
        if last and all(size.name in able.missed for able in last):
            yield size


def _misses_corners(abilities: Abilities, room: Room) -> bool:
    able = [tool for number in abilities.of(room) if (tool := abilities.by_number[number]).can_finish]
    return bool(able) and all(misses_corners(abilities.question, tool, room) for tool in able)
