"""Along a slanted edge that is open above: a pointed cutter stands at one place, and comes down its axis in bites."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import atan2, degrees

from crib.cutters.base import Motion
from crib.findings.finding import NO_CHANGE, Figure
from crib.geometry.free_positions import Metal, free_positions
from crib.geometry.outline import Lean, Outline, Room
from crib.geometry.region import Region
from crib.handbook.bites import bites_needed
from crib.handbook.chamfers import BELOW_MM, LEAST_BELOW_MM, leg_ratio, root_left
from crib.machining.methods.base import FINE_BAND, Cut, Infeasible, Job, Limits, Method, PassBound, after, takes
from crib.machining.methods.blocked import blocked
from crib.machining.tool import Tool
from crib.shop import Shop
from crib.units import nm

_GRAIN = 6
"""Positions are good to so many nanometres: slanted edges end on whole ones."""

_LAST_BITE = nm(0.005 * 25.4)


def clear(tool: Tool, outline: Outline, room: Room, removed: Region, limits: Limits) -> tuple[Job, ...]:
    """The one manner in which a pointed tool makes a slanted edge: its own edge through the middle of the face, else
    through one of its ends, whichever keeps what must stay; none where its angle is another."""
    lean = room.lean
    if lean is None or not lies_along(tool, lean):
        return ()
    jobs = []
    for x, z in places(tool, room):
        if not _can_stand(tool, outline, removed, x, z):
            continue
        cuts = _cuts(tool, outline, room, x, z)
        gone = after(tool, outline, cuts, removed)
        job = Job(tool, room.name, cuts, gone, "one place")
        if not outline.rest(room, gone):
            return (job,)
        if takes(outline, room, removed, gone):
            jobs.append(job)
    return tuple(jobs[:1])


def lies_along(tool: Tool, lean: Lean) -> bool:
    """Whether the edge of a tool leans as the face does, as far as an owner might let pass."""
    return lean.holds(tool.form.run(lean.rise))


def places(tool: Tool, room: Room) -> Iterator[tuple[int, int]]:
    """Where the tool may stand, the best first: its edge through the middle, the upper end, the lower end of the
    face."""
    edge = tool.form.edge
    if "right" in room.open:
        deep = _below(tool, room)
        if deep is None:
            return
        z = room.aim.low - deep - edge.low
        for share in (0.5, 1.0, 0.0):
            height = round(room.aim.height * share)
            out = edge.radius_at(min(edge.high, height - (z - room.aim.low)))
            yield room.aim.left + round(room.aim.width * (1 - share)) + out, z
        return
    middle, half = (room.aim.left + room.aim.right) // 2, room.aim.width // 2
    spread = edge.radius_high - edge.radius_low
    for share in (0.5, 1.0, 0.0):
        out = round(half * share)
        up = edge.low + (out - edge.radius_low) * (edge.high - edge.low) // spread
        if edge.radius_high >= half:
            yield middle, room.aim.low + round(room.aim.height * share) - up


def _below(tool: Tool, room: Room) -> int | None:
    """How far the lower end of the cone hangs below the chamfer; None where it isn't tall enough."""
    edge = tool.form.edge
    spare = edge.high - edge.low - room.aim.height
    return min(nm(BELOW_MM), spare) if spare >= nm(LEAST_BELOW_MM) else None


def _can_stand(tool: Tool, outline: Outline, removed: Region, x: int, z: int) -> bool:
    metal = Metal(outline.keep, (outline.stock - removed - outline.aim) | outline.obstacles)
    return any(left - _GRAIN <= x <= right + _GRAIN for left, right in free_positions(tool.form, metal, z))


def _cuts(tool: Tool, outline: Outline, room: Room, x: int, z: int) -> tuple[Cut, ...]:
    """Bites down to the place, the last a light one where the face is to be finished."""
    side = "front" if "right" in room.open else "both"
    fine = tool.can_finish and any(face.lean and face.band <= FINE_BAND for face in outline.faces)
    height = room.aim.height
    last = _LAST_BITE if fine and height > 3 * _LAST_BITE else 0
    count = bites_needed(height - last, _bite(tool))
    downs = [(height - last) * k // count for k in range(1, count + 1)] + ([height] if last else [])
    cuts, done = [], 0
    for number, down in enumerate(downs, start=1):
        role = "finish" if fine and number == len(downs) else "rough"
        cuts.append(Cut(x, z + height - down, role, room.name, side, room.aim.width * down // height, down - done))
        done = down
    return tuple(cuts)


def _bite(tool: Tool) -> int:
    """Half of what an end mill of the size would take: a point has little room for chips."""
    return max(1, tool.bite // 2)


def _fewest(tool: Tool, outline: Outline, room: Room, limits: Limits) -> tuple[PassBound, ...]:
    if room.lean is None or not lies_along(tool, room.lean) or next(places(tool, room), None) is None:
        return ()
    return (PassBound(max(1, bites_needed(room.aim.height - _LAST_BITE, _bite(tool))), manner="one place"),)


def _why_not(tool: Tool, outline: Outline, room: Room, cleared: Region, limits: Limits) -> Infeasible:
    lean = room.lean
    if lean is None or Motion.EDGE not in tool.kind.motions:
        says = ("its edge stands upright unless the work or the head is tilted: levels make a staircase, and a "
                "staircase is no face")
        return Infeasible("AN1", says, fix=NO_CHANGE, short=room.aim.height / 1e6)
    if not lies_along(tool, lean):
        return _other_angle(tool, room, lean)
    has = (tool.form.edge.high - tool.form.edge.low) / 1e6
    if "right" in room.open and _below(tool, room) is None:
        needs = (room.aim.height + nm(LEAST_BELOW_MM)) / 1e6
        return Infeasible("CN1", "its cone is {has} long, {needs} is needed with what hangs below the edge", has, needs,
                    short=needs - has)
    across, width = 2 * tool.form.edge.radius_high / 1e6, room.aim.width / 1e6
    if "right" not in room.open and across < width:
        says = f"{{has}} across is less than the {room.name} is wide, {{needs}}"
        return Infeasible("CN1", says, across, needs=width, fix="a cutter of {needs} or more would do",
                          short=width - across)
    at = next(places(tool, room))
    return blocked(tool, outline, room, cleared | outline.aim, [at])


def _other_angle(tool: Tool, room: Room, lean: Lean) -> Infeasible:
    """The legs that the angle would give, over the legs that are wanted."""
    has, wanted = (round(2 * degrees(atan2(-run, lean.rise)), 3) for run in (tool.form.run(lean.rise), lean.run))
    down = room.aim.height / 1e6
    gives, wants = down * leg_ratio(has), down * leg_ratio(wanted)
    says = (f"it is {has:g} degrees between its edges, {wanted:g} is wanted: it gives legs as "
            f"{_ratio(has)}, {_ratio(wanted)} is asked, {{has}} across instead of {{needs}}")
    if "right" not in room.open:
        says = f"it is {has:g} degrees between its edges, {wanted:g} is wanted"
    return Infeasible("AN1", says, gives, wants, NO_CHANGE, abs(gives - wants))


def _ratio(included: float) -> str:
    """A ratio of legs as it is told: `0.577 to 1`."""
    return f"{leg_ratio(included):.3f} to 1"


def _figures(job: Job, before: Sequence[Job], room: Room, shop: Shop) -> Iterator[Figure]:
    edge, low = job.tool.form.edge, job.cuts[-1].z
    included = round(2 * degrees(atan2(edge.radius_high - edge.radius_low, edge.high - edge.low)), 3)
    top = edge.radius_at(min(edge.high, max(edge.low, -low))) / 1e6
    if "right" in room.open:
        yield Figure(f"{job.room}: axis outside the wall", job.cuts[-1].x / 1e6)
        yield Figure(f"{job.room}: tip below the lower edge", (room.aim.low - low - edge.low) / 1e6)
        yield Figure(f"{job.room}: leg across the top over leg down the wall", value=_ratio(included))
    else:
        yield Figure(f"{job.room}: depth to the sharp root", room.aim.height / 1e6)
        if edge.radius_low:
            yield Figure(f"{job.room}: from the tip's flat to the sharp root aimed at",
                         root_left(2 * edge.radius_low / 1e6, included))
    yield Figure(f"{job.room}: widest that it cuts with", 2 * top)


def _says(job: Job) -> str:
    """What to measure before the last bite: a groove is cut on both sides at once and has no leg."""
    what = "width at the surface" if job.cuts[-1].side == "both" else "leg"
    return f"measure the {what} before the last bite"


METHOD = Method(
    suits=lambda room: room.lean is not None and room.lean.run < 0,
    clear=clear,
    fewest=_fewest,
    why_not=_why_not,
    figures=_figures,
    manners={"one place": "at one place, down in bites"},
    motion=Motion.EDGE,
    says=lambda job, cut: _says(job) if cut is job.cuts[-1] and len(job.cuts) > 1 else "",
)
