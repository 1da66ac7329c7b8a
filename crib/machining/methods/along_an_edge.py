"""Along a slanted edge that is open above: a pointed cutter stands at one place, and comes down its axis in bites."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import atan2, degrees

from crib.cutters.base import Motion
from crib.findings.finding import NO_CHANGE, Figure
from crib.findings.message import Deg, said
from crib.geometry.free_positions import Metal, free_positions
from crib.geometry.outline import Lean, Opening, Room
from crib.geometry.region import Region
from crib.handbook.bites import bites_needed
from crib.handbook.chamfers import BELOW_MM, LEAST_BELOW_MM, leg_ratio, root_left
from crib.machining.gate import Gate
from crib.machining.methods.base import FINE_BAND, Attempt, Limit, Method, PassBound, Stand, lies_along, takes
from crib.machining.methods.cuts import GRAIN, LAST_BITE, Cut, Job, after
from crib.machining.tool import Tool
from crib.machining.words import Manner, Role, Side
from crib.shop import Shop
from crib.units import NM, nm


def limits(a: Attempt) -> Iterator[Limit]:
    """Its edge leans as the face does, as far as an owner might let pass, and its cone is long enough."""
    tool, aim, edge, lean = a.tool, a.room.aim, a.tool.form.edge, a.lean
    upright = ("its edge stands upright unless the work or the head is tilted: levels make a staircase, and a "
               "staircase is no face")
    yield Limit("AN1", upright, fix=NO_CHANGE, short=aim.height / 1e6, holds=Motion.EDGE in tool.kind.motions)
    yield _other_angle(a, lean)
    if a.at_an_edge:
        has, needs = (edge.high - edge.low) / 1e6, (aim.height + nm(LEAST_BELOW_MM)) / 1e6
        yield Limit("CN1", "its cone is {has} long, {needs} is needed with what hangs below the edge", has, needs,
                    short=needs - has, holds=_spare(a) >= nm(LEAST_BELOW_MM))
    else:
        across, width = 2 * edge.radius_high / 1e6, aim.width / 1e6
        says = said("{has} across is less than the {room} is wide, {needs}", room=a.room.name)
        yield Limit("CN1", says, across, width,
                    "a cutter of {needs} or more would do", width - across, holds=edge.radius_high >= aim.width // 2)


def _spare(a: Attempt) -> int:
    """By how much the cone is longer than the edge."""
    return a.tool.form.edge.high - a.tool.form.edge.low - a.room.aim.height


def positions(a: Attempt, removed: Region) -> Iterator[Job]:
    """At the first place where it keeps what must stay and leaves nothing, else at the first where it takes any."""
    first = None
    for x, z in places(a):
        if not _can_stand(a, removed, x, z):
            continue
        cuts = _cuts(a, x, z)
        job = Job(a.tool, a.room.name, cuts, after(a.tool, a.outline, cuts, removed), Manner.ONE_PLACE)
        if not a.outline.rest(a.room, job.removed):
            yield job
            return
        if first is None and takes(a.outline, a.room, removed, job.removed):
            first = job
    if first is not None:
        yield first


def places(a: Attempt) -> Iterator[tuple[int, int]]:
    """Where the tool may stand, the best first: its edge through the middle, the upper end, the lower end of the
    face."""
    edge, aim = a.tool.form.edge, a.room.aim
    if a.at_an_edge:
        below = min(nm(BELOW_MM), _spare(a))
        z = aim.low - below - edge.low
        for share in (0.5, 1.0, 0.0):
            out = edge.radius_at(min(edge.high, round(aim.height * share) - (z - aim.low)))
            yield aim.left + round(aim.width * (1 - share)) + out, z
        return
    for share in (0.5, 1.0, 0.0):
        out = round(aim.width // 2 * share)
        up = edge.low + (out - edge.radius_low) * (edge.high - edge.low) // (edge.radius_high - edge.radius_low)
        yield a.middle, aim.low + round(aim.height * share) - up


def _can_stand(a: Attempt, removed: Region, x: int, z: int) -> bool:
    outline = a.outline
    metal = Metal(outline.keep, (outline.stock - removed - outline.aim) | outline.obstacles)
    return any(left - GRAIN <= x <= right + GRAIN for left, right in free_positions(a.tool.form, metal, z))


def _cuts(a: Attempt, x: int, z: int) -> tuple[Cut, ...]:
    """Bites down to the place, the last a light one where the face is to be finished."""
    side = Side.FRONT if a.at_an_edge else Side.BOTH
    fine = a.tool.can_finish and any(face.lean and face.band <= FINE_BAND for face in a.outline.faces)
    height = a.room.aim.height
    last = LAST_BITE if fine and height > 3 * LAST_BITE else 0
    count = bites_needed(height - last, _bite(a.tool))
    downs = [(height - last) * k // count for k in range(1, count + 1)] + ([height] if last else [])
    cuts, done = [], 0
    for number, down in enumerate(downs, start=1):
        role = Role.FINISH if fine and number == len(downs) else Role.ROUGH
        cuts.append(Cut(x, z + height - down, role, a.room.name, side, a.room.aim.width * down // height, down - done))
        done = down
    return tuple(cuts)


def _bite(tool: Tool) -> int:
    """Half of what an end mill of the size would take: a point has little room for chips."""
    return max(1, tool.bite // 2)


def _count(a: Attempt) -> tuple[PassBound, ...]:
    return (PassBound(max(1, bites_needed(a.room.aim.height - LAST_BITE, _bite(a.tool))), manner=Manner.ONE_PLACE),)


def _in_the_way(a: Attempt, cleared: Region) -> Limit:
    from crib.machining.methods.blocked import blocked

    return blocked(a, cleared | a.outline.aim, [next(places(a))])


def _other_angle(a: Attempt, lean: Lean) -> Limit:
    """The legs that the angle would give, over the legs that are wanted."""
    holds = lies_along(a.tool, lean)
    has, wanted = (round(2 * degrees(atan2(-run, lean.rise)), 3) for run in (a.tool.form.run(lean.rise), lean.run))
    down = a.room.aim.height / 1e6
    gives, wants = down * leg_ratio(has), down * leg_ratio(wanted)
    template = "it is {angle} degrees between its edges, {wanted} is wanted"
    if a.at_an_edge:
        template += (": it gives legs as {legs:.3f} to 1, {legs_wanted:.3f} to 1 is asked, {has} across instead of "
                     "{needs}")
    says = said(template, angle=Deg(has), wanted=Deg(wanted), legs=leg_ratio(has), legs_wanted=leg_ratio(wanted))
    return Limit("AN1", says, gives, wants, NO_CHANGE, abs(gives - wants), holds=holds)


def _figures(job: Job, before: Sequence[Job], room: Room, shop: Shop) -> Iterator[Figure]:
    edge, low = job.tool.form.edge, job.cuts[-1].z
    included = round(2 * degrees(atan2(edge.radius_high - edge.radius_low, edge.high - edge.low)), 3)
    top = edge.radius_at(min(edge.high, max(edge.low, -low))) / 1e6
    if room.opens(Opening.RIGHT):
        yield Figure(f"{job.room}: axis outside the wall", job.cuts[-1].x / 1e6)
        yield Figure(f"{job.room}: tip below the lower edge", (room.aim.low - low - edge.low) / 1e6)
        yield Figure(f"{job.room}: leg across the top over leg down the wall", value=said("{legs:.3f} to 1",
                                                                                          legs=leg_ratio(included)))
    else:
        yield Figure(f"{job.room}: depth to the sharp root", room.aim.height / 1e6)
        if edge.radius_low:
            yield Figure(f"{job.room}: from the tip's flat to the sharp root aimed at",
                         root_left(2 * edge.radius_low / 1e6, included))
    yield Figure(f"{job.room}: widest that it cuts with", 2 * top)


def _says(job: Job) -> str:
    """What to measure before the last bite: a groove is cut on both sides at once and has no leg."""
    what = "width at the surface" if job.cuts[-1].side == Side.BOTH else "leg"
    return f"measure the {what} before the last bite"


METHOD = Method(
    limits=limits,
    positions=positions,
    stands_in=lambda a, _: (Stand(z, z + a.room.aim.height) for _, z in places(a)),
    in_the_way=_in_the_way,
    figures=_figures,
    manners={Manner.ONE_PLACE: "at one place, down in bites"},
    motion=Motion.EDGE,
    says=lambda job, cut: _says(job) if cut is job.cuts[-1] and len(job.cuts) > 1 else "",
    count=_count,
    gate=lambda site: Gate(upright=lambda kind, diameter: site.room.aim.height / NM),
)
