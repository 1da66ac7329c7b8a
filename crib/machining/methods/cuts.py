"""Passes before they have numbers, speeds and words, what takes them, and what is gone after them."""

from __future__ import annotations

from collections.abc import Sequence

from crib.findings.message import Text
from crib.geometry.free_positions import cut_all
from crib.geometry.operation import Frame, Operation, Path
from crib.geometry.outline import Outline
from crib.geometry.region import Region
from crib.handbook.bites import bites_needed
from crib.light.records import dataclass
from crib.machining.tool import Tool
from crib.machining.words import Entry, Fed, Manner, Role, Side
from crib.units import nm

FINISH_FLOOR = nm(0.010 * 25.4)

TALL = 1.5
"""So many of its diameters a mill cuts with its side at once [-]."""

KEEP_OFF = nm(0.010 * 25.4)
"""How far a pass stays off what stands beside the work, where it can (common practice)."""

LAST_BITE = nm(0.005 * 25.4)
"""What a finishing pass takes."""

LEAST_BITE = nm(0.003 * 25.4)
"""Less than this a side rubs instead of cutting."""

GRAIN = 6
"""Positions beside what leans are good to so many nanometres: slanted edges end on whole ones."""


@dataclass(frozen=True)
class Course:
    """Where a pass goes between closed ends, seen from above: its corners (along, across) from the feature's middle.

    `entry`: how it gets down at the first: into room that is `free`, over a `hole` wide enough for what its end teeth
    don't reach, by a `plunge`, by a `ramp` of so many `strokes`; `on` where it goes on from the last pass. `free`: the
    radius that must be clear there. `drop`: how far it goes down into metal [nm].
    """

    path: Path
    entry: Entry
    free: int | None
    strokes: int = 0
    drop: int = 0


@dataclass(frozen=True)
class Cut:
    """One pass: the axis and the lower face, its role, the side that it cuts and how much it takes sideways and down
    [nm]; `slow`: at half the feed; `wall`: it follows a wall, all that is before it being roughed out. `course`: where
    it goes between closed ends. Of a stroke down an axis: what to do with it, to what diameter a head is set out for it
    [mm], how often a tap or a crank turns, whether what it makes is measured; `on`: another section that it is proved
    in, the gib's say. Of one round an axis, at x beside it: where its own axis stands before, `start` [nm], whether it
    is there from before, `on_from`, and how far it goes in the metal, `round_mm` [mm]; `fed`: by what it goes round.
    """

    x: int
    z: int
    role: Role
    room: str
    side: Side
    radial: int
    axial: int
    slow: bool = False
    wall: bool = False
    course: Course | None = None
    says: Text = ""
    diameter_mm: float | None = None
    turns: float = 0.0
    is_measured: bool = True
    on: Outline | None = None
    start: int | None = None
    on_from: bool = False
    round_mm: float = 0.0
    fed: Fed = Fed.DOWN

    @property
    def is_down(self) -> bool:
        """Whether it only goes down, and not along."""
        return self.course is not None and len(self.course.path) == 1

    def operation(self, tool: Tool) -> Operation:
        """The pass as the proof wants it, tagged with the cutter's number."""
        path, free = (self.course.path, self.course.free) if self.course else ((), None)
        frame = Frame.PLAN if self.is_down else Frame.SECTION
        return Operation(frame, tool.form, self.z, self.x, tool.id, path, free)

    @property
    def deep_mm(self) -> float:
        """How far under the surface it goes [mm]."""
        return -self.z / 1e6


@dataclass(frozen=True)
class Job:
    """What one tool does in one room: its passes and what is gone after them. `levels` counts those that aren't depth
    passes; `otherwise`: these instead, where nobody who was there before leaves more in corners than it does."""

    tool: Tool
    room: str
    cuts: tuple[Cut, ...]
    removed: Region
    manner: Manner
    levels: int = 1
    otherwise: tuple[Cut, ...] = ()


def side_bites(metal: int, most: int, last: int = 0) -> list[int]:
    """Equal bites that take so much metal, with a light last one where there is enough for two such.

    >>> side_bites(900, 400), side_bites(900, 400, 100), side_bites(150, 400, 100)
    ([300, 300, 300], [400, 400, 100], [150])
    """
    if metal <= 0:
        return []
    light = last if metal > 2 * last else 0
    count = max(1, bites_needed(metal - light, most))
    even = [(metal - light) * (k + 1) // count - (metal - light) * k // count for k in range(count)]
    return [*even, light] if light else even


def tall_of(tool: Tool) -> int:
    """How high it cuts with its side at the most: its teeth, or one and a half of its diameter (common practice)."""
    return min(tool.form.height, round(TALL * 2 * tool.form.radius))


def deeper(tool: Tool, share: float) -> int:
    """The bite of a mill where so much of the metal is left: no more metal than at its usual one, and no deeper than it
    cuts with its side."""
    return max(tool.bite, min(tall_of(tool), round(tool.bite / share)))


def after(tool: Tool, outline: Outline, cuts: Sequence[Cut], removed: Region) -> Region:
    """What of the stock is gone when the passes are done."""
    places = [(c.x, c.z) for c in cuts]
    if tool.form.grows:
        places = _not_passed(places, outline.stock.bounds()[3] - tool.form.height)
    return removed | (cut_all(tool.form.sure, places) & outline.stock)


def _not_passed(places: Sequence[tuple[int, int]], out: int) -> list[tuple[int, int]]:
    """The places without those of which a deeper pass at the same x takes all, its teeth reaching out of the top, as
    they do from the height `out` upwards."""
    lowest: dict[int, int] = {}
    for x, z in places:
        if z >= out:
            lowest[x] = min(z, lowest.get(x, z))
    return [(x, z) for x, z in places if lowest.get(x, z) >= z]


def rubs(cut: Cut) -> bool:
    """Whether a pass beside one that went before takes less than teeth bite."""
    at_a_wall = cut.wall or cut.role in (Role.FINISH, Role.UNDERCUT)
    return at_a_wall and cut.side in (Side.BACK, Side.FRONT) and 0 < cut.radial < LEAST_BITE
