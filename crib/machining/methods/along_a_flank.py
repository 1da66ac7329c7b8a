"""Along a flank that leans over the cutter: one height where the teeth are as high as the flank, else two where the
neck allows; steps sideways to the back flank, the last a light one, then the same to the front flank."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import partial
from math import atan2, degrees

from crib.cutters.base import Kind, Motion
from crib.findings.finding import NO_CHANGE, Figure
from crib.findings.message import Deg, joined, said
from crib.geometry.outline import Opening, Room
from crib.geometry.region import FAR, Region, box
from crib.handbook.bites import bites_needed
from crib.handbook.dovetails import LAST_BITE_MM, flank_error, square_corner_short
from crib.handbook.dovetails import widest_neck as widest_flank_neck
from crib.machining.gate import Gate
from crib.machining.methods.base import Attempt, Limit, Method, PassBound, Stand, by_levels, lies_along, side_cuts
from crib.machining.methods.cuts import GRAIN, LEAST_BITE, Cut, Job, after, side_bites
from crib.machining.methods.under_a_flank import meets
from crib.machining.tool import Tool
from crib.machining.words import Manner, Role, Side
from crib.shop import Shop
from crib.units import NM, nm

_LAST = nm(LAST_BITE_MM)
_MOST_HEIGHTS = 2


def limits(a: Attempt) -> Iterator[Limit]:
    """Its edge leans as the flank does, it goes between the flanks, and it does them in two heights."""
    tool, room, lean = a.tool, a.room, a.lean
    yield _square(a, Motion.FLANK in tool.kind.motions)
    yield _other_angle(a, lies_along(tool, lean))
    diameter, sharp = tool.cutter.diameter_mm or 0.0, 2 * tool.form.base / 1e6
    widest = room.most.width / 1e6 - (sharp - diameter)
    says = said("{has} across is more than goes between the {room}, {needs}", room=room.name)
    yield Limit("SZ3", says, diameter, widest,
                "a cutter of {needs} or less would go in", diameter - widest, "diameter_mm",
                holds=a.at_an_edge or diameter <= widest)
    count, face = len(heights_of(a)), tool.form.height / 1e6
    needs = (room.aim.height + 2 * _overlap(tool)) / 2e6
    says = said("its teeth are {has} high, so the flank would take {count} levels, and two are the most; {needs} "
                "would do it in two", count=count)
    yield Limit("FC2", says, face, needs, "teeth {needs} high or higher would do", needs - face, "face_mm", up=True,
                holds=count <= min(a.allowed.most_levels, _MOST_HEIGHTS))


def positions(a: Attempt, removed: Region) -> Iterator[Job]:
    """Height by height, the highest first, where it can stand at all of them."""
    heights = heights_of(a)
    if not _is_opened(a, removed):
        return
    cuts, gone = by_levels(a, removed, heights, partial(_height, a))
    if {cut.z for cut in cuts} == set(heights):
        manner = Manner.ONE_HEIGHT if len(heights) == 1 else Manner.TWO_HEIGHTS
        yield Job(a.tool, a.room.name, cuts, gone, manner, len(heights))


def _is_opened(a: Attempt, removed: Region) -> bool:
    """Whether the metal before the flanks is gone: down the middle of a slot, or all that stood outside of a slide."""
    low = a.room.least.low
    before = box(a.room.most.right, low, FAR, 0) if a.at_an_edge else box(a.middle - 1, low, a.middle + 1, 0)
    return not (a.outline.stock & before) - removed


def heights_of(a: Attempt) -> tuple[int, ...]:
    """Where the lower face stands, the highest first: on the floor, and above it as often as the teeth fall short."""
    face, flank, floor, overlap = a.tool.form.height, a.room.aim.height, a.room.aim.low, _overlap(a.tool)
    if face >= flank:
        return (floor,)
    count = 1 + bites_needed(flank - face, face - overlap) if face > overlap else _MOST_HEIGHTS + 1
    raised = [min(flank - face + overlap, k * (face - overlap)) for k in range(count)]
    return tuple(floor + dz for dz in reversed(raised))


def _overlap(tool: Tool) -> int:
    """How far one height reaches over the next: past the rounded corner too, which the lower one must take away."""
    return max(tool.overlap, tool.form.edge.low)


def _final(tool: Tool, room: Room, z: int) -> dict[Side, int]:
    """Where the axis stands at a height when each flank is done."""
    shift = tool.form.base + (room.lean.over(z - room.aim.low) if room.lean else 0)
    front = {Side.FRONT: room.aim.left + shift}
    return front if room.opens(Opening.RIGHT) else {Side.BACK: room.aim.right - shift, **front}


def _height(a: Attempt, z: int, gone: Region) -> list[Cut]:
    """The passes at a height, by what metal is there; none where the tool can't stand at any of their places."""
    tool, room, ends = a.tool, a.room, _final(a.tool, a.room, z)
    left, right = meets(a, z, gone)
    if a.at_an_edge:
        cuts = _side(a, Side.FRONT, z, left - ends[Side.FRONT])
        return cuts if _can_stand(a, z, gone, [*ends.values(), *(cut.x for cut in cuts[:1])]) else []
    front, back = ends[Side.FRONT], ends[Side.BACK]
    start = min(max((left + right) // 2, front), back) if front <= back else (front + back) // 2
    cuts = []
    if (bite := max(start - right, left - start)) > 0:
        cuts.append(Cut(start, z, Role.UNDERCUT, room.name, Side.BOTH, 2 * tool.form.radius, _deep(a, z),
                        bite > tool.side))
        left, right = min(left, start), max(right, start)
    cuts += _side(a, Side.BACK, z, back - right)
    cuts += _side(a, Side.FRONT, z, left - front)
    return cuts if _can_stand(a, z, gone, [start, *ends.values()]) else []


def _stands_in(a: Attempt, gone: Region) -> Iterator[Stand]:
    """At each height from flank to flank, or out from the one; nowhere where it doesn't get to all of them."""
    found = []
    for z in heights_of(a):
        ends = _final(a.tool, a.room, z)
        if not _can_stand(a, z, gone, list(ends.values())):
            return
        right = FAR if a.at_an_edge else max(ends.values()) + GRAIN
        found.append(Stand(z, z, min(ends.values()) - GRAIN, right))
    yield from found


def _can_stand(a: Attempt, z: int, gone: Region | None, places: Sequence[int]) -> bool:
    low, high = min(places), max(places)
    return low <= high + GRAIN and any(
        left - GRAIN <= low and high <= right + GRAIN for left, right in a.spans(z, gone))


def _side(a: Attempt, side: Side, z: int, metal: int) -> list[Cut]:
    """The steps to a flank, the last a light one."""
    return side_cuts(a, side, _final(a.tool, a.room, z)[side], z, _bites(a.tool, metal), _deep(a, z), a.tool.can_finish)


def _bites(tool: Tool, metal: int) -> list[int]:
    """The steps that so much metal takes; where there is more the first stands farther out."""
    return side_bites(metal, tool.side, _LAST if tool.can_finish else 0) if metal > GRAIN else []


def _deep(a: Attempt, z: int) -> int:
    """How much of the teeth's height is in the work."""
    return min(a.tool.form.height, a.room.aim.high - z)


def _count(a: Attempt) -> tuple[PassBound, ...]:
    tool, heights, ends = a.tool, heights_of(a), [tuple(_final(a.tool, a.room, z).values()) for z in heights_of(a)]
    if not all(_can_stand(a, z, None, places) for z, places in zip(heights, ends, strict=True)):
        return ()
    sides, metal, more = 1 if a.at_an_edge else 2, least_metal(a), len(heights) - 1
    finished = sides if tool.can_finish and metal > GRAIN else 0
    manner = Manner.ONE_HEIGHT if len(heights) == 1 else Manner.TWO_HEIGHTS
    return (PassBound(max(1, sides * _fewest(tool, metal)) + more, levels=len(heights), checks=1 + finished,
                      stepped=len(set(ends[0])) > 1, manner=manner),)


def _begins(a: Attempt) -> bool:
    """At one height from an edge it stands clear of what is beside the work in its first step too, as far out as the
    least metal asks."""
    if not a.at_an_edge or len(heights := heights_of(a)) > 1:
        return True
    z, (_, *after_it) = heights[0], _bites(a.tool, least_metal(a)) or [0]
    ends = _final(a.tool, a.room, z)[Side.FRONT]
    return _can_stand(a, z, None, [ends, ends + max(0, sum(after_it) - len(after_it))])


def least_metal(a: Attempt) -> int:
    """How much metal is at each corner at the least where the rooms before are clear and nobody was in this one."""
    if a.room.opens(Opening.LEFT) and not a.at_an_edge:
        a = a.mirrored
    tool, room = a.tool, a.room
    missing = tool.form.base - tool.form.radius
    if a.at_an_edge:
        walls = [_goes_in_to(other) for other in a.outline.rooms if other.most.left > room.aim.left]
        return min(walls, default=0) - room.aim.left - missing
    mouth = max((other.most.right if a.allowed.as_wide else other.aim.right + 1
                 for other in a.outline.rooms if other.name != room.name), default=0)
    return room.aim.right - missing - max(mouth, a.middle + tool.form.radius)


def _goes_in_to(room: Room) -> int:
    """How far in from an edge anything is cut in another room: of one that is cut from above with a wall at its left
    no farther than that wall is aimed, for all strips lie outside of it, and its last pass stands there."""
    return room.aim.left if is_at_an_edge(room) and room.opens(Opening.RIGHT) else room.most.left


def is_at_an_edge(room: Room) -> bool:
    """Whether a room is cut from above along an edge, so that nothing goes farther in than its wall is aimed."""
    return _is_from_above(room) and room.opens(Opening.LEFT) != room.opens(Opening.RIGHT)


def _is_from_above(room: Room) -> bool:
    return room.opens(Opening.TOP) and not (room.lean or room.rounded or room.hollow)


def opens_no_wider(tool: Tool, room: Room) -> bool:
    """Whether a tool that clears a room alone opens it no wider than it is aimed, walls nearer their far limits aside:
    along an edge, and where it is so much narrower than the room that it is stepped to both walls."""
    return is_at_an_edge(room) or (_is_from_above(room) and 2 * (tool.form.radius + LEAST_BITE) <= room.aim.width)


def _fewest(tool: Tool, metal: int) -> int:
    """How many steps so much metal takes at the least, or any more."""
    if metal <= GRAIN:
        return 0
    last = _LAST if tool.can_finish else 0
    if metal > 2 * last:
        return len(side_bites(metal, tool.side, last))
    return min(bites_needed(metal, tool.side), 1 + bites_needed(last, tool.side))


def angle_of(run: float, rise: int) -> float:
    """The angle from the floor of an edge that runs so far over a rise [deg].

    >>> angle_of(0, 1), angle_of(1, 1)
    (90.0, 45.0)
    """
    return round(degrees(atan2(rise, run)), 4)


def _in_the_way(a: Attempt, cleared: Region) -> Limit:
    """What stands in metal at the finished places, with all heights above the lowest cut."""
    heights = heights_of(a)
    ends = {z: [Cut(x, z, Role.UNDERCUT, a.room.name, side, 0, 0)
                for side, x in _final(a.tool, a.room, z).items()] for z in heights}
    gone = cleared
    for z in heights[:-1]:
        gone = after(a.tool, a.outline, ends[z], gone)
    every = [cut for cuts in ends.values() for cut in cuts]
    from crib.machining.methods.blocked import blocked

    limit = blocked(a, after(a.tool, a.outline, every, gone), [(cut.x, cut.z) for cut in every])
    if limit.key != "neck_mm" or len(heights) == 1:
        return limit
    says = joined(" ", ("its teeth are too short to do the flank at one height, and at two", limit.says))
    return limit._replace(id="NK3", says=says)


def _square(a: Attempt, holds: bool) -> Limit:
    """A cutter's edge doesn't stand upright."""
    short = _upright(a.room, a.tool.kind, a.tool.cutter.diameter_mm or 0.0)
    if not a.tool.kind.opens:
        says = "its edge stands upright: levels make a staircase, and a staircase is no flank"
        return Limit("AN1", says, fix=NO_CHANGE, short=short, holds=holds)
    says = ("a square corner doesn't go into an acute one: laid along the flank it would leave or gouge {has}, and "
            "levels make a staircase, which is no flank")
    return Limit("AN3", says, _corner(a.room, a.tool.cutter.diameter_mm or 0.0), 0.0, NO_CHANGE, short, holds=holds)


def _upright(room: Room, kind: Kind, diameter: float) -> float:
    """By how much an edge that stands upright falls short [mm]."""
    height = room.aim.height / NM
    return height + _corner(room, diameter) if kind.opens else 2 * height


def _corner(room: Room, diameter: float) -> float:
    """What a square corner would leave or gouge [mm]."""
    assert room.lean is not None
    return square_corner_short(diameter, angle_of(room.lean.run, room.lean.rise))


def _other_angle(a: Attempt, holds: bool) -> Limit:
    lean = a.lean
    has, wanted = angle_of(a.tool.form.run(lean.rise), lean.rise), angle_of(lean.run, lean.rise)
    height = a.room.aim.height / 1e6
    off = flank_error(height, has, wanted)
    allowed = flank_error(height, angle_of(lean.least, lean.rise), wanted)
    says = said("its flank is {angle} degrees, {wanted} is wanted: over the height it would be {has} off, {needs} is "
                "allowed", angle=Deg(has), wanted=Deg(wanted))
    return Limit("AN1", says, off, allowed, NO_CHANGE, off, holds=holds)


def _figures(job: Job, before: Sequence[Job], room: Room, shop: Shop) -> Iterator[Figure]:
    lean, form = room.lean, job.tool.form
    if lean is None:
        return
    ends = _final(job.tool, room, room.aim.low)
    if Side.BACK in ends:
        yield Figure(f"{job.room}: axis offset each side, (width - diameter) / 2",
                     (ends[Side.BACK] - ends[Side.FRONT]) / 2e6)
    else:
        yield Figure(f"{job.room}: axis from the centre line, (width + diameter) / 2", abs(ends[Side.FRONT]) / 1e6)
    opening = before[-1].removed.spans_at(-1) if before else ()
    if any(one.manner == Manner.STEPS_FIRST and one.room == job.room for one in before):
        side = Side.BACK if Side.BACK in ends else job.cuts[0].side
        metal = max(sum(cut.radial for cut in job.cuts if cut.z == z and cut.side == side) for z in
                    {cut.z for cut in job.cuts})
        yield Figure(f"{job.room}: most metal that the steps leave", metal / 1e6)
    elif opening and Side.BACK in ends:
        yield Figure(f"{job.room}: metal at each corner", (room.aim.right - max(right for _, right in opening)) / 1e6)
    elif Side.BACK not in ends:
        metal = sum(cut.radial for cut in job.cuts if cut.z == room.aim.low)
        yield Figure(f"{job.room}: metal at the corner", metal / 1e6)
    yield Figure(f"{job.room}: side step in this metal", job.tool.side / 1e6)
    yield Figure(f"{job.room}: levels", value=job.levels)
    if job.levels > 1:
        angle = angle_of(lean.run, lean.rise)
        yield Figure("fattest neck that does it in two levels",
                     widest_flank_neck(2 * form.base / 1e6, room.aim.height / 1e6, angle, shop.neck_clearance_mm))


def _says(job: Job, cut: Cut) -> str:
    """What to look at with a pass: the pins after each flank."""
    if cut.z != job.cuts[0].z and cut is next(other for other in job.cuts if other.z == cut.z):
        return "out of the end before the height is changed"
    if job.manner == Manner.STEPS_FIRST and cut is job.cuts[0]:
        return "takes the bulk; the flank, and what is left on it, are for the cutter that follows"
    if job.manner == Manner.STEPS_FIRST:
        return "chips out after it"
    if cut.role != Role.FINISH:
        return "both points cut at once, no faster than told" if cut.side == Side.BOTH else "chips out after it"
    if cut.z != job.cuts[-1].z:
        return ""
    second = job.room.startswith("front") or Side.BACK in {other.side for other in job.cuts[:-1]} - {cut.side}
    if cut is job.cuts[-1] and second:
        across = "over" if _is_a_slide(job) else "between"
        return f"once more without moving, then measure {across} both pins: what is still to come goes on this flank"
    return "once more without moving, then measure from the pin to the reference edge"


def _is_a_slide(job: Job) -> bool:
    """Whether a job does one flank alone: the pins lie outside of it, and inside of a slot."""
    return len({cut.side for cut in job.cuts} & {Side.BACK, Side.FRONT}) == 1


METHOD = Method(
    limits=limits,
    positions=positions,
    stands_in=_stands_in,
    in_the_way=_in_the_way,
    figures=_figures,
    manners={Manner.ONE_HEIGHT: "one level", Manner.TWO_HEIGHTS: "two levels, with a line where they meet",
             Manner.STEPS_FIRST: "the bulk first, levels: {levels}"},
    motion=Motion.FLANK,
    says=_says,
    count=_count,
    begins=_begins,
    gate=lambda site: Gate(upright=partial(_upright, site.room)),
)
