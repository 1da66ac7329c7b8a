"""Passes before they have numbers, speeds and words, and what a way of cutting must give."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from math import inf
from typing import NamedTuple

from crib.cutters.base import Motion
from crib.findings.finding import Figure
from crib.geometry.free_positions import cut_all
from crib.geometry.operation import Frame, Operation, Path
from crib.geometry.outline import Face, Outline, Room
from crib.geometry.region import Region
from crib.machining.tool import Tool
from crib.shop import Shop
from crib.units import nm

FINE_BAND = nm(0.010 * 25.4)
"""A face with this band or less gets a finishing pass."""

FINISH_FLOOR = nm(0.010 * 25.4)
STEPPED = ("stepped", "wide", "a hair a side", "along the edge")
"""Manners in which walls are set by the axis, not by the cutter's own width."""

KEEP_OFF = nm(0.010 * 25.4)
"""How far a pass stays off what stands beside the work, where it can (common practice)."""

LEANING = ("one height", "two heights")
"""Manners in which leaning walls are made, by the teeth's own lean."""

LEAST_BITE = nm(0.003 * 25.4)
"""Less than this a side rubs instead of cutting."""


@dataclass(frozen=True)
class Course:
    """Where a pass goes between closed ends, seen from above: its corners (along, across) from the feature's middle.

    `entry`: how it gets down at the first: into room that is `free`, over a `hole` wide enough for what its end teeth
    don't reach, by a `plunge`, by a `ramp` of so many `strokes`; `on` where it goes on from the last pass. `free`: the
    radius that must be clear there. `drop`: how far it goes down into metal [nm].
    """

    path: Path
    entry: str
    free: int | None
    strokes: int = 0
    drop: int = 0


@dataclass(frozen=True)
class Cut:
    """One pass: the axis and the lower face, its role, the side that it cuts (`both`, `back`, `front`) and how much it
    takes sideways and down [nm]; `slow`: at half the feed; `wall`: it follows a wall, all that is before it being
    roughed out. `course`: where it goes between closed ends."""

    x: int
    z: int
    role: str
    room: str
    side: str
    radial: int
    axial: int
    slow: bool = False
    wall: bool = False
    course: Course | None = None

    @property
    def is_down(self) -> bool:
        """Whether it only goes down, and not along."""
        return self.course is not None and len(self.course.path) == 1

    def operation(self, tool: Tool) -> Operation:
        """The pass as the proof wants it, tagged with the cutter's number."""
        path, free = (self.course.path, self.course.free) if self.course else ((), None)
        frame = Frame.PLAN if self.is_down else Frame.SECTION
        return Operation(frame, tool.form, self.z, self.x, tool.id, path, free)


@dataclass(frozen=True)
class Job:
    """What one tool does in one room: its passes and what is gone after them. `manner` names how, in a word of its
    way; `levels` counts those that aren't depth passes."""

    tool: Tool
    room: str
    cuts: tuple[Cut, ...]
    removed: Region
    manner: str
    levels: int = 1


@dataclass(frozen=True)
class Limits:
    """What the shop and the drawing allow: levels of one cutter, the radius of floor corners [mm]; `wide`: walls nearer
    their far limits, where nothing fits at the aim."""

    most_levels: int
    floor_radius: float = 0.0
    wide: bool = False


class PassBound(NamedTuple):
    """What a tool needs at the least to do a room alone in one of its manners: passes (infinite where it can't do the
    whole room), how many of them at half the feed, levels, how often is measured; whether the walls are surely as far
    apart as the cutter is wide, or surely set by the axis; whether some pass surely cuts both walls at once, or surely
    rubs; the manner, where rules speak of it."""

    passes: float
    slow: int = 0
    levels: int = 1
    checks: int = 0
    own_size: bool = False
    stepped: bool = False
    both: bool = False
    rubs: bool = False
    manner: str = ""


TOUCHES = (PassBound(inf),)
"""For a tool that takes something out of a room and can't do all of it."""


@dataclass(frozen=True)
class Infeasible:
    """What keeps a tool from clearing a room: the rule, both numbers [mm], and what would do. `says` and `fix` may name
    {has}, {needs} and {side}. `key`: the size of the cutter that one change would cure, at least so much where `up`,
    else at most."""

    rule: str
    says: str
    has: float | None = None
    needs: float | None = None
    fix: str | None = None
    short: float = inf
    key: str | None = None
    up: bool = False
    side: float = 0.0


@dataclass(frozen=True)
class Method:
    """One way of clearing a room: one file with one `METHOD`, listed in `crib/machining/methods/__init__.py`.

    `suits`: whether a room is cleared so. `clear`: the manners in which a tool takes metal out of a room, given what is
    gone already. `fewest`: what each manner takes at the least to do the room alone, none where it can do nothing
    there; never more than what comes out. `why_not`: what keeps it from the room, with all that is before the room
    gone. `figures`: what was reckoned on the way, given the jobs before. `manners`: each manner in words. `motion`:
    what a kind of cutter must be able to do for it (see `Kind.motions`). `says`: what to look at with a pass, where the
    way knows better than what goes for all. `is_feasible`: whether it clears the whole room with all before it gone,
    told without making the passes; None where only they can tell. `fewest_now`: the same as `fewest` for a room that
    nobody was in, closer where it is known what is gone already.
    """

    suits: Callable[[Room], bool]
    clear: Callable[[Tool, Outline, Room, Region, Limits], tuple[Job, ...]]
    fewest: Callable[[Tool, Outline, Room, Limits], tuple[PassBound, ...]]
    why_not: Callable[[Tool, Outline, Room, Region, Limits], Infeasible]
    figures: Callable[[Job, Sequence[Job], Room, Shop], Iterator[Figure]]
    manners: Mapping[str, str]
    motion: Motion = Motion.ALONG
    says: Callable[[Job, Cut], str] | None = None
    is_feasible: Callable[[Tool, Outline, Room, Region, Limits], bool | None] = lambda *_: None
    fewest_now: Callable[[Tool, Outline, Room, Region, Limits], tuple[PassBound, ...]] | None = None


def after(tool: Tool, outline: Outline, cuts: Sequence[Cut], removed: Region) -> Region:
    """What of the stock is gone when the passes are done."""
    places = [(c.x, c.z) for c in cuts]
    if tool.form.grows:
        top = outline.stock.bounds()[3]
        places = [place for place in places if not _is_passed(place, places, tool.form.height - top)]
    return removed | (cut_all(tool.form.sure, places) & outline.stock)


def _is_passed(place: tuple[int, int], places: list[tuple[int, int]], height: int) -> bool:
    """Whether a deeper pass at the same x takes all that this one does, its teeth reaching out of the top; `height` is
    that of the teeth, less that of the top."""
    return any(x == place[0] and z < place[1] and z + height >= 0 for x, z in places)


def rubs(cut: Cut) -> bool:
    """Whether a pass beside one that went before takes less than teeth bite."""
    at_a_wall = cut.wall or cut.role in ("finish", "undercut")
    return at_a_wall and cut.side in ("back", "front") and 0 < cut.radial < LEAST_BITE


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


def width_figures(job: Job) -> Iterator[Figure]:
    """How far the axis stands off the middle, and how wide the room comes out."""
    xs = [cut.x for cut in job.cuts]
    reached = max(xs) - min(xs) + 2 * job.tool.form.radius
    yield Figure(f"{job.room}: axis offset each side, (width - diameter) / 2", (max(xs) - min(xs)) / 2e6)
    yield Figure(f"{job.room}: width aimed at", reached / 1e6)
