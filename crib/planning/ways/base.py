"""Passes before they have numbers, speeds and words."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from crib.lengths import nm
from crib.planning.tools import Tool
from crib.section.outline import Face, Outline, Room
from crib.section.proof import Step
from crib.section.reach import cut_all
from crib.section.region import Region

FINE_BAND = nm(0.010 * 25.4)
"""A face with this band or less gets a finishing pass."""

FINISH_FLOOR = nm(0.010 * 25.4)
LEAST_BITE = nm(0.003 * 25.4)
"""Less than this a side rubs instead of cutting."""


@dataclass(frozen=True)
class Cut:
    """One pass: the axis and the lower face, its role, the side that it cuts (`both`, `back`, `front`) and how much it
    takes sideways and down [nm]; `slow`: at half the feed."""

    x: int
    z: int
    role: str
    room: str
    side: str
    radial: int
    axial: int
    slow: bool = False


@dataclass(frozen=True)
class Job:
    """What one tool does in one room: its passes and what is gone after them. `manner` names how: `own size`,
    `stepped`, `wide`, `one level`, `levels`; `levels` counts those that aren't depth passes."""

    tool: Tool
    room: str
    cuts: tuple[Cut, ...]
    removed: Region
    manner: str
    levels: int = 1


def after(tool: Tool, outline: Outline, cuts: Sequence[Cut], removed: Region) -> Region:
    """What of the stock is gone when the passes are done."""
    places = [(c.x, c.z) for c in cuts]
    if tool.form.grows:
        places = [place for place in places if not _is_passed(place, places, tool.form.height)]
    return removed | (cut_all(tool.form.sure, places) & outline.stock)


def _is_passed(place: tuple[int, int], places: list[tuple[int, int]], height: int) -> bool:
    """Whether a deeper pass at the same x takes all that this one does, its teeth reaching out of the top."""
    return any(x == place[0] and z < place[1] and z + height >= 0 for x, z in places)


def steps(tool: Tool, cuts: tuple[Cut, ...], tag: int) -> tuple[Step, ...]:
    """The passes as the proof wants them."""
    return tuple(Step(tool.form, c.x, c.z, tag) for c in cuts)


def is_fine(outline: Outline, names: str, room: Room) -> bool:
    """Whether any face of a room whose name holds a word has a band that wants finishing."""
    return any(
        face.band <= FINE_BAND for face in outline.faces if names in face.name and _touches(face, room)
    )


def _touches(face: Face, room: Room) -> bool:
    if not face.upright:
        return True
    return room.name in face.name


def takes(outline: Outline, room: Room, before: Region, gone: Region) -> bool:
    """Whether anything that must go of a room is taken between two states."""
    return outline.rest(room, before).area > outline.rest(room, gone).area
