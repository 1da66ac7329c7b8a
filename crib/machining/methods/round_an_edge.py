"""Round an edge that is open above and beside: a corner-rounding cutter of the radius with its pilot along the wall, or
pointed cutters that lay flats along the round, which the file takes down."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import atan2, cos, degrees, pi, sin

from crib.cutters.base import Motion
from crib.findings.finding import NO_CHANGE, Figure
from crib.findings.message import InWords, said
from crib.geometry.free_positions import Metal, free_positions
from crib.geometry.outline import Room
from crib.geometry.region import Region
from crib.handbook.bites import bites_needed
from crib.handbook.chamfers import BELOW_MM, LEAST_BELOW_MM
from crib.handbook.deviations import flats_proud
from crib.machining.methods.base import Attempt, Limit, Method, PassBound, Stand, takes
from crib.machining.methods.cuts import GRAIN, LAST_BITE, Cut, Job, after
from crib.machining.tool import Tool
from crib.machining.words import Manner, Role, Side
from crib.shop import Shop
from crib.units import nm

_LEAST_TURN, _MOST_TURN = 10.0, 80.0
"""Between which angles from the upright a flat along a round is worth its cutter [deg]. From memory."""


def limits(a: Attempt) -> Iterator[Limit]:
    """A rounder has the radius; a point's flat lies along the round, and its cone is long enough for it."""
    least, _, most = _rounded(a.room)
    if _is_round(a.tool):
        has = a.tool.cutter.radius_mm or 0.0
        low, high = least / 1e6, most / 1e6
        near, side = (high, "the most") if has > high else (low, "the least")
        says = said("it rounds with {has}, {needs} is {side} here: a radius is cut by its own cutter alone", side=side)
        yield Limit("SZ3", says, has, near, "one of {needs} would do", abs(has - near), "radius_mm", has < low,
                    holds=low - 1e-6 <= has <= high + 1e-6)
        return
    waist = _waist(a.tool)
    both = said("it is hollow between two full sides: beside this edge the other half would cut into the wall; it "
                "rounds both edges of what is {thick} thick at once", thick=InWords(2 * waist / 1e6))
    yield Limit("KD1", both, fix="a corner-rounding cutter", short=1.0, holds=not waist)
    outwards = "it is round outwards and makes hollows, no round edge"
    yield Limit("KD1", outwards, fix="a corner-rounding cutter", short=1.0, holds=not _is_convex(a.tool))
    turn = degrees(_turn(a.tool))
    yield Limit("AN1", "its flat would lie along neither the top nor the wall, but too near one of them", fix=NO_CHANGE,
                short=1.0, holds=_LEAST_TURN <= turn <= _MOST_TURN)
    edge = a.tool.form.edge
    has, needs = (edge.high - edge.low) / 1e6, (-_low_end(a) + nm(LEAST_BELOW_MM)) / 1e6
    yield Limit("CN1", "its cone is {has} long, {needs} is needed with what hangs below the edge", has, needs,
                short=needs - has, holds=has >= needs - 1e-9)


def _rounded(room: Room) -> tuple[int, int, int]:
    assert room.rounded is not None
    return room.rounded


def _is_round(tool: Tool) -> bool:
    return Motion.ROUND in tool.kind.motions


def _waist(tool: Tool) -> int:
    """How far a hollow rim comes in between its two sides [nm]; nought for any other edge."""
    parts = sorted(tool.form.sure, key=lambda part: part.low)
    least = min(min(part.radius_low, part.radius_high) for part in parts)
    ends = parts[0].radius_low, max(parts, key=lambda part: part.high).radius_high
    return max(0, min(ends) - least)


def _is_convex(tool: Tool) -> bool:
    """Whether a rim swells between its two sides."""
    parts = sorted(tool.form.sure, key=lambda part: part.low)
    return max(parts[0].radius_low, parts[-1].radius_high) < tool.form.radius


def _turn(tool: Tool) -> float:
    """The angle of a point's edge from the upright."""
    edge = tool.form.edge
    return atan2(edge.radius_high - edge.radius_low, edge.high - edge.low)


def _low_end(a: Attempt) -> int:
    """The height at which a point's flat, laid along the round, leaves the wall."""
    turn, radius = _turn(a.tool), _rounded(a.room)[1]
    return min(-1, round(radius * (1 - cos(turn) - sin(turn)) / sin(turn))) if 0 < turn < pi / 2 else -1


def place(a: Attempt) -> tuple[int, int]:
    """Where it stands at last: the pilot along the wall, the arc's middle a radius below the top; a point's flat along
    the round."""
    if _is_round(a.tool):
        return min(part.radius_low for part in a.tool.form.sure), -nm(a.tool.cutter.radius_mm or 0.0)
    turn, radius, edge, low = _turn(a.tool), _rounded(a.room)[1], a.tool.form.edge, _low_end(a)
    below = min(nm(BELOW_MM), edge.high - edge.low + low)
    z = low - below
    flat = (radius * (1 - cos(turn) - sin(turn)) - z * sin(turn)) / cos(turn)
    return round(flat) + edge.radius_low, z - edge.low


def positions(a: Attempt, removed: Region) -> Iterator[Job]:
    """At its place, down in bites."""
    x, z = place(a)
    outline = a.outline
    metal = Metal(outline.keep, (outline.stock - removed - outline.most) | outline.obstacles)
    if not any(left - GRAIN <= x <= right + GRAIN for left, right in free_positions(a.tool.form, metal, z)):
        return
    cuts = tuple(_cuts(a, x, z))
    job = Job(a.tool, a.room.name, cuts, after(a.tool, outline, cuts, removed), Manner.ONE_PLACE)
    if takes(outline, a.room, removed, job.removed):
        yield job


def _height(a: Attempt) -> int:
    """How far it comes down in metal."""
    return nm(a.tool.cutter.radius_mm or 0.0) if _is_round(a.tool) else -_low_end(a)


def _cuts(a: Attempt, x: int, z: int) -> Iterator[Cut]:
    height, done = _height(a), 0
    last = LAST_BITE if height > 3 * LAST_BITE else 0
    count = bites_needed(height - last, _bite(a.tool))
    downs = [(height - last) * k // count for k in range(1, count + 1)] + ([height] if last else [])
    for down in downs:
        role = Role.FINISH if down == height else Role.ROUGH
        yield Cut(x, z + height - down, role, a.room.name, Side.FRONT, a.room.aim.width * down // height, down - done)
        done = down


def _bite(tool: Tool) -> int:
    """Half of what an end mill of the size would take: form teeth have little room for chips."""
    return max(1, tool.bite // 2)


def _count(a: Attempt) -> tuple[PassBound, ...]:
    bound = PassBound(max(1, bites_needed(_height(a) - LAST_BITE, _bite(a.tool))), manner=Manner.ONE_PLACE)
    return (bound,)


def _in_the_way(a: Attempt, cleared: Region) -> Limit:
    from crib.machining.methods.blocked import blocked

    return blocked(a, cleared | a.outline.aim, [place(a)])


def _figures(job: Job, before: Sequence[Job], room: Room, shop: Shop) -> Iterator[Figure]:
    last, edge = job.cuts[-1], job.tool.form.edge
    if _is_round(job.tool):
        yield Figure(f"{room.name}: axis outside the wall, half the pilot", last.x / 1e6)
        yield Figure(f"{room.name}: end of the arc below the top", -last.z / 1e6)
        return
    turn = _turn(job.tool)
    radius = _rounded(room)[1] / 1e6
    yield Figure(f"{room.name}: axis outside the wall", last.x / 1e6)
    yield Figure(f"{room.name}: flat from the upright", value=said("{deg:.1f} degrees", deg=degrees(turn)))
    yield Figure(f"{room.name}: flat touches the round below the top", radius * (1 - sin(turn)))
    for flats in (1, 2, 3):
        yield Figure(f"{room.name}: proud of it with {flats} flat{'s' if flats > 1 else ''} evenly laid",
                     flats_proud(radius, flats), places=4)
    yield Figure(f"{room.name}: widest that it cuts with",
                 2 * edge.radius_at(min(edge.high, max(edge.low, -last.z))) / 1e6)


def _says(job: Job, cut: Cut) -> str:
    """The last bite creeps down; a flat is measured before it."""
    if cut is not job.cuts[-1]:
        return ""
    if _is_round(job.tool):
        return "creep down until the arc's end just meets the top"
    return "measure the flat before the last bite"


METHOD = Method(
    limits=limits,
    positions=positions,
    stands_in=lambda a, _: (Stand(place(a)[1], place(a)[1] + _height(a)),),
    in_the_way=_in_the_way,
    figures=_figures,
    manners={Manner.ONE_PLACE: "at one place, down in bites"},
    motion=Motion.ROUND,
    also=Motion.EDGE,
    says=_says,
    count=_count,
)
