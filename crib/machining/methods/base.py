"""What a method of clearing a room is asked of, and what it must give."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from math import inf

from crib.cutters.base import Motion
from crib.findings.finding import Figure
from crib.findings.message import Text, said
from crib.geometry.free_positions import Interval, Metal, free_positions
from crib.geometry.outline import Face, Lean, Opening, Outline, Room
from crib.geometry.region import FAR, Region, box
from crib.light.records import dataclass, replace
from crib.light.tuples import NamedTuple
from crib.machining.gate import Gate
from crib.machining.methods.cuts import FINISH_FLOOR, Cut, Job, after
from crib.machining.tool import Tool
from crib.machining.words import Manner, Role, Side
from crib.shop import Shop
from crib.units import nm

FINE_BAND = nm(0.010 * 25.4)
"""A face with this band or less gets a finishing pass."""

CLOSE_BAND = nm(0.004 * 25.4)
"""A whole surface gets one under this band, which no caliper tells. Common practice."""


@dataclass(frozen=True)
class Limits:
    """What the shop and the drawing allow: levels of one cutter, the radius of floor corners, that of corners at the
    one closed end as seen from above [mm]; `wide`: walls nearer their far limits too; `aimed`: walls at their aim;
    `as_wide`: whether what opens a room may open it as wide as that may be, and not only as it is aimed; `ends`: how
    its rooms end."""

    most_levels: int
    floor_radius: float = 0.0
    wide: bool = False
    aimed: bool = True
    corner: float = inf
    as_wide: bool = True
    ends: str = "open"


class Attempt(NamedTuple):
    """A tool put to a room: what every method is asked of."""

    tool: Tool
    outline: Outline
    room: Room
    allowed: Limits

    @property
    def mirrored(self) -> Attempt:
        """The same with left and right changed over."""
        return self._replace(outline=self.outline.mirrored, room=self.room.mirrored)

    @property
    def middle(self) -> int:
        """The middle of the room."""
        return (self.room.aim.left + self.room.aim.right) // 2

    @property
    def lean(self) -> Lean:
        """How the walls of the room lean."""
        assert self.room.lean is not None
        return self.room.lean

    @property
    def at_an_edge(self) -> bool:
        """Whether the room is open at the right."""
        return self.room.opens(Opening.RIGHT)

    def spans(self, z: int, removed: Region | None = None) -> tuple[Interval, ...]:
        """Where the tool can stand at a height, when so much is gone; without it, when all that may be is."""
        outline = self.outline
        return free_positions(self.tool.form, Metal(outline.keep, outline.keep if removed is None else
                                                    outline.standing(removed)), z)

    def span(self, z: int, removed: Region | None = None) -> Interval | None:
        """The part of these in which the middle of the room lies."""
        return next((span for span in self.spans(z, removed) if span[0] <= self.middle <= span[1]), None)

    @property
    def is_a_face(self) -> bool:
        """Whether the room has no walls at all."""
        return self.room.opens(Opening.LEFT, Opening.RIGHT)

    def edges(self, removed: Region, left: int, low: int, right: int, high: int) -> list[Interval]:
        """From where to where metal stands within a box, piece by piece."""
        standing = (self.outline.stock - removed) & box(left, low, right, high)
        return [(min(s.left_low, s.left_high), max(s.right_low, s.right_high))
                for slab in standing.slabs for s in slab.spans]

    def is_fine(self, names: str) -> bool:
        """Whether any face of the room whose name holds a word has a band that wants finishing. A slanted face that
        was turned level is a floor as any other, and so is a whole surface that is closely held, of which more comes
        off than two such passes take."""
        return _is_fine(self.outline, self.room, names)


def _is_fine(outline: Outline, room: Room, names: str) -> bool:
    return any(face.band <= FINE_BAND for face in outline.faces
               if (names in face.name or (names == "floor" and _lies_as_a_floor(face, room)))
               and _touches(face, room))


def _lies_as_a_floor(face: Face, room: Room) -> bool:
    is_closely_held = face.band < CLOSE_BAND and room.aim.height > 2 * FINISH_FLOOR
    return not face.upright and (face.turned or (
        is_closely_held and not face.lean and room.opens(Opening.LEFT, Opening.RIGHT)))


class Site(NamedTuple):
    """A room that no tool is put to yet, with all that is `cleared` before."""

    outline: Outline
    room: Room
    allowed: Limits
    cleared: Region

    @property
    def mirrored(self) -> Site:
        """The same with left and right changed over."""
        return self._replace(outline=self.outline.mirrored, room=self.room.mirrored, cleared=self.cleared.mirrored)

    def is_fine(self, names: str) -> bool:
        """Whether any face of the room whose name holds a word has a band that wants finishing."""
        return _is_fine(self.outline, self.room, names)


class PassBound(NamedTuple):
    """What a tool needs at the least to do a room alone in one of its manners: passes (infinite where it can't do the
    whole room), how many of them at half the feed, levels, how often is measured; whether the walls are surely as far
    apart as the cutter is wide, or surely set by the axis; whether some pass surely cuts both walls at once, or surely
    rubs; the manner, where rules speak of it; of one that can't do the whole room, whether it may leave no more than
    what is gone when another room is; `returns`: how often it goes half the way between closed ends besides, `strips`
    of them before strips; `sides`: so many of the passes go along its walls."""

    passes: float
    slow: int = 0
    levels: int = 1
    checks: int = 0
    own_size: bool = False
    stepped: bool = False
    both: bool = False
    rubs: bool = False
    manner: Manner = Manner.IDLE
    helped: bool = False
    returns: int = 0
    strips: int = 0
    sides: int = 0


class Stand(NamedTuple):
    """Where a tool may be in a pass: its lower face between two heights, its axis between two places across."""

    low: int
    high: int
    left: int = -FAR
    right: int = FAR


class Limit(NamedTuple):
    """One thing that must hold for a tool to clear a room: the rule, both numbers [mm], and what would do. `says` and
    `fix` may name {has}, {needs} and {side}. `key`: the size of the cutter that one change would cure, at least so much
    where `up`, else at most. `short`: by how much it falls short [mm]. `unsure`: it turns on a size that
    nobody measured."""

    id: str
    says: Text
    has: float | None = None
    needs: float | None = None
    fix: Text | None = None
    short: float = inf
    key: str | None = None
    up: bool = False
    side: float = 0.0
    holds: bool = False
    unsure: bool = False


@dataclass(frozen=True)
class Method:
    """A method of clearing a room: one file with one `METHOD`, listed in `crib/machining/methods/__init__.py` with the
    rooms that are cleared so, which derives from it whether a tool can, why not, and what it takes at the least.

    `limits`: what must hold before a tool can take anything, told of its
    sizes alone. `positions`: the manners in which a tool that keeps them takes metal out of a room, given what is
    gone already: where it stands, in order. `stands_in`: between which heights and places it is then, where no more
    is ever gone than so much; `gets_near`: whether it may be there between two places with its lower face no higher
    than so, told sooner; `near`: which of some tools may then touch anything between two places, told of
    many at once. `count`: what each manner takes at the least to do the room alone; never more than what comes
    out. `stands`: whether a tool that keeps the
    limits clears the whole room with all before it gone, told without making the passes; None where only they can
    tell. `in_the_way`: what keeps it from that all the same. `figures`: what was reckoned on the way, given the jobs
    before. `manners`: each manner in words. `motion`: what a kind of cutter must be able to do for it; `also`: what
    does as well. `says`: what to look at with a pass, where the method knows better than what goes for all.
    `ways`: the same as `count` without counting, where that is told sooner; `never_ends`: whether none of these clears
    the whole room, nor leaves no more than what is gone with another, told of little; False where that isn't plain.
    `begins`: whether a tool may be the first in a room, with all before it gone; None where whoever has a way may.
    `count_now`: the same as `count` for a room that nobody was in, closer where it is known what is gone already.
    `gate`: what a room asks of a cutter's bare sizes, by the same limits, before a tool is made of it; None where that
    can't be told so. `both`: whether every job in a room surely has a pass that cuts both walls at once.
    """

    limits: Callable[[Attempt], Iterable[Limit]]
    positions: Callable[[Attempt, Region], Iterator[Job]]
    stands_in: Callable[[Attempt, Region], Iterable[Stand]]
    in_the_way: Callable[[Attempt, Region], Limit]
    figures: Callable[[Job, Sequence[Job], Room, Shop], Iterator[Figure]]
    manners: Mapping[Manner, str]
    motion: Motion = Motion.ALONG
    also: Motion | None = None
    says: Callable[[Job, Cut], str] | None = None
    count: Callable[[Attempt], tuple[PassBound, ...]] = lambda _: (PassBound(1),)
    stands: Callable[[Attempt, Region], bool | None] = lambda *_: None
    count_now: Callable[[Attempt, Region], tuple[PassBound, ...]] | None = None
    ways: Callable[[Attempt], tuple[PassBound, ...]] | None = None
    never_ends: Callable[[Attempt], bool] = lambda _: False
    begins: Callable[[Attempt], bool] | None = None
    gate: Callable[[Site], Gate | None] = lambda _: None
    gets_near: Callable[[Attempt, Region, Interval, int], bool] = lambda *_: True
    near: Callable[[Site, Sequence[Tool], Interval, int], Sequence[Tool]] = lambda site, tools, sides, under: tools
    both: Callable[[Room], bool] = lambda _: False


def lies_along(tool: Tool, lean: Lean) -> bool:
    """Whether the edge of a tool leans as a face does, within what the drawing allows."""
    return lean.holds(tool.form.run(lean.rise))


def goes_with_the_fillet(outline: Outline, room: Room) -> bool:
    """Whether a room is the step beside a fillet: whoever makes that first, along the wall, takes as much of the step
    with it as he is wide, and may take all."""
    return room.hollow is not None and room.name != outline.rooms[-1].name


def by_levels(a: Attempt, removed: Region, heights: Sequence[int],
              level: Callable[[int, Region], list[Cut]]) -> tuple[tuple[Cut, ...], Region]:
    """The passes at each height in turn, in the room as the others left it, and what is gone then."""
    cuts: list[Cut] = []
    gone = removed
    for place, z in enumerate(heights):
        here = level(z, gone)
        if place:
            here = [replace(cut, axial=abs(z - heights[place - 1])) for cut in here]
        cuts += here
        gone = after(a.tool, a.outline, here, gone)
    return tuple(cuts), gone


def side_cuts(a: Attempt, side: Side, wall: int, z: int, bites: Sequence[int], deep: int, fine: bool,
              role: Role = Role.UNDERCUT) -> list[Cut]:
    """A pass for each bite, the last of which stands at the wall and finishes it where that is wanted."""
    outward = 1 if side == Side.BACK else -1
    return [Cut(wall - outward * sum(bites[k + 1:]), z, Role.FINISH if fine and k == len(bites) - 1 else role,
                a.room.name, side, bite, deep) for k, bite in enumerate(bites)]


def too_wide(a: Attempt) -> Limit:
    """A tool is no wider than the room."""
    diameter, widest = a.tool.cutter.diameter_mm or 0.0, a.room.most.width / 1e6
    says = said("{has} across is more than the {room} may be, {needs}", room=a.room.name)
    return Limit("SZ3", says, diameter, widest,
                 "a cutter of {needs} or less would go in", diameter - widest, "diameter_mm",
                 holds=2 * a.tool.form.radius <= a.room.most.width)


def _touches(face: Face, room: Room) -> bool:
    return not face.upright or room.name in face.name


def takes(outline: Outline, room: Room, before: Region, gone: Region) -> bool:
    """Whether anything that must go of a room is taken between two states."""
    return outline.rest(room, before).area > outline.rest(room, gone).area


def width_figures(job: Job) -> Iterator[Figure]:
    """How far the axis stands off the middle, and how wide the room comes out."""
    xs = [cut.x for cut in job.cuts]
    reached = max(xs) - min(xs) + 2 * job.tool.form.radius
    yield Figure(f"{job.room}: axis offset each side, (width - diameter) / 2", (max(xs) - min(xs)) / 2e6)
    yield Figure(f"{job.room}: width aimed at", reached / 1e6)
