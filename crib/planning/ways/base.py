"""Passes before they have numbers, speeds and words."""

from __future__ import annotations

from dataclasses import dataclass

from crib.lengths import nm
from crib.planning.tools import Tool
from crib.section.outline import Face, Outline, Room
from crib.section.proof import Step
from crib.section.reach import cut
from crib.section.region import Region, union

FINE_BAND = nm(0.010 * 25.4)
"""A face with this band or less gets a finishing pass."""

FINISH_FLOOR = nm(0.010 * 25.4)
LEAST_BITE = nm(0.003 * 25.4)
"""Less than this a side rubs instead of cutting."""


@dataclass(frozen=True)
class Cut:
    """One pass: the axis and the lower face, its role, the side that it cuts (`both`, `back`, `front`) and how much it
    takes sideways and down [nm]."""

    x: int
    z: int
    role: str
    room: str
    side: str
    radial: int
    axial: int


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


def after(tool: Tool, cuts: tuple[Cut, ...], removed: Region) -> Region:
    """What is gone when the passes are done, in stock or out of it."""
    return removed | union(cut(tool.form.sure, c.x, c.z) for c in cuts)


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


def needs(outline: Outline, room: Room, removed: Region) -> Region:
    """What of a room must still go, waivers left out."""
    rest = (room.least.region & outline.least) - removed
    for waiver in outline.waivers:
        if not rest:
            break
        rest = rest - waiver.region
    return rest
