"""What to draw of a proved plan: the section at the pass that decides."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from crib.findings.finding import FINE_MM
from crib.geometry.outline import Box, Opening, Outline, Room
from crib.geometry.region import Region
from crib.geometry.trace import Trace
from crib.light.records import replace
from crib.machining.question import ZEROS
from crib.machining.words import Fed, Seen, Slide
from crib.pages.one_sided import one_sided
from crib.pages.scene import DimensionLine, FromAbove, HolesFromAbove, Scene
from crib.planning.dialled.finish import Proved
from crib.planning.told.advice import TightSpot
from crib.planning.told.passes import Pass
from crib.units import nm


def scene_of(proved: Proved) -> Scene:
    """The scene of a plan."""
    outline = proved.draft.question.outline
    standing = outline.stock - proved.trace.elevation.removed
    rooms = [_as_drilled(room, standing) if proved.draft.is_round else as_cut(proved, room) for room in outline.rooms
             if not proved.draft.is_round or not _is_let_stand(room, standing)]
    told = replace(
        _section(outline, proved.trace, proved.plan.proof.tight),
        dialled=_dialled(proved),
        slide=Slide.TABLE if _deciding(proved).feed is Fed.ROUND else Slide.CROSS,
        dimensions=sizes_of(outline, proved.draft.is_round, rooms),
        on_top=proved.plan.zeros[1] == ZEROS[1],
        faces_you=not proved.draft.is_round,
        above=_from_above(proved),
    )
    return one_sided(told, proved.draft, proved.draft.jobs[-1].tool)


def _from_above(proved: Proved) -> HolesFromAbove | FromAbove | None:
    """The scene from above, where there is more to see there than a strip."""
    if proved.trace.plan is None and proved.draft.question.feature.circle is None:
        return None
    from crib.pages.above import holes_from_above, seen_from_above

    return holes_from_above(proved) or seen_from_above(proved)


def _dialled(proved: Proved) -> tuple[float, float]:
    """What the slides are set to in the pass that is drawn [mm]: the steps of a readout, as the table of passes has
    them."""
    one = _deciding(proved)
    across = one.dial_from_mm if one.feed is Fed.ROUND else None
    return one.dial_x_mm if across is None else across, one.dial_z_mm


def _deciding(proved: Proved) -> Pass:
    """The pass that is drawn."""
    return proved.plan.passes[proved.trace.elevation.deciding]


def sizes_of(outline: Outline, is_round: bool, rooms: Sequence[Room] = ()) -> tuple[DimensionLine, ...]:
    """The sizes of an outline as it is aimed at, or as its rooms came out where that is known."""
    rooms = rooms or outline.rooms
    lowest = min(room.aim.low for room in rooms)
    leaning = () if is_round else tuple(_leaning(outline, lowest))
    outside = tuple(DimensionLine("outside", True, -room.aim.right, room.aim.right) for room in rooms
                    if is_round and room.aim.left > 0 and room.opens(Opening.TOP))
    return leaning or (*outside, *(one for at, room in enumerate(rooms) for one in _sizes(
        room, is_round or at == 0, room.aim.low if is_round else lowest)))


def _as_drilled(room: Room, standing: Region) -> Room:
    """A round room as it comes out: as wide as it is half-way down, and as deep as it is so wide; a cone as wide as its
    mouth."""
    if room.aim.left > 0:
        return _as_turned(room, standing)
    aim, middle = room.aim, (room.aim.low + room.aim.high) // 2
    wide = _off_the_axis(standing, middle) or aim.right
    slab = next((slab for slab in standing.slabs if slab.low <= middle < slab.high), None)
    if slab and _off_the_axis(standing, slab.low) != _off_the_axis(standing, slab.high - 1):
        mouth = _off_the_axis(standing, aim.high - 1) or aim.right
        return replace(room, aim=Box(-mouth, slab.low, mouth, aim.high))
    floors = (slab.high for slab in standing.slabs
              if slab.high <= middle and _off_the_axis(standing, slab.low, wide) < wide)
    return replace(room, aim=Box(-wide, max(floors, default=aim.low), wide, aim.high))


def _is_let_stand(room: Room, standing: Region) -> bool:
    """Whether a round room wasn't cut, as an owner may let it be: metal stands within it at its mouth."""
    within = room.least.right * 9 // 10
    return room.aim.left <= 0 and any(left < within < right for left, right in standing.spans_at(room.aim.high - 1))


def _as_turned(room: Room, standing: Region) -> Room:
    """A groove round an axis, as it comes out from its one wall to the other and from its floor up."""
    aim, up, across = room.aim, (room.aim.low + room.aim.high) // 2, (room.aim.left + room.aim.right) // 2
    spans = standing.spans_at(up)
    left = max((end for _, end in spans if end <= across), default=aim.left)
    right = min((begin for begin, _ in spans if begin >= across), default=aim.right)
    stand = [slab for slab in standing.slabs if any(s.left_low < across < s.right_low for s in slab.spans)]
    low = max((slab.high for slab in stand if slab.high <= up), default=aim.low)
    high = min((slab.low for slab in stand if slab.low >= up), default=aim.high)
    return replace(room, aim=Box(left if room.opens(Opening.TOP) else aim.left, low, right, high))


def _off_the_axis(standing: Region, z: int, none: int = 0) -> int:
    """How far from the axis the nearest metal is at a height."""
    return min((max(left, -right, 0) for left, right in standing.spans_at(z)), default=none)


def as_cut(proved: Proved, room: Room) -> Room:
    """A room with the width and height that the plan gives it where it is aimed."""
    cuts = [(job.tool, cut) for job in proved.draft.jobs if job.room == room.name for cut in job.cuts]
    if not cuts or room.opens(Opening.RIGHT, Opening.TOP):
        return room
    left = min(cut.x - tool.form.radius for tool, cut in cuts)
    right = room.aim.right if room.opens(Opening.RIGHT) else max(cut.x + tool.form.radius for tool, cut in cuts)
    high = room.aim.high if room.opens(Opening.TOP) else max(cut.z + tool.form.height for tool, cut in cuts)
    return replace(room, aim=Box(left, min(cut.z for _, cut in cuts), right, high))


def _section(outline: Outline, trace: Trace, tight: TightSpot | None) -> Scene:
    """The operation that decides in the finished section, without sizes."""
    view = trace.elevation
    one = trace.operations[view.deciding]
    is_told = view.is_tight_inside and tight is not None and tight.view == Seen.CROSS
    return Scene(outline.stock | outline.obstacles, view.removed, one.form, one.x, one.z, tight if is_told else None)


def steps(trace: Trace) -> Iterator[Scene]:
    """The section at each of its passes in turn: the cutter in its place, what it takes, and what is near to it."""
    outline = trace.work.section or trace.work.axes[0]
    stock = outline.stock | outline.obstacles
    for stage in trace.elevation.stages:
        one = trace.operations[stage.operation]
        spot = min((spot for spot in stage.spots if spot.z < 0), key=lambda spot: spot.gap, default=None)
        yield Scene(stock, stock - stage.standing, one.form, one.x, one.z, TightSpot.of(spot) if spot else None,
                    taken=stage.taken, pass_no=stage.operation + 1)


def _leaning(outline: Outline, lowest: int) -> Iterator[DimensionLine]:
    """The sizes of what leans: across its sharp corners, at the surface, and how high it is, down to the lowest of what
    was cut."""
    faces = [face for face in outline.faces if face.lean]
    room = next((room for room in outline.rooms if room.lean), None)
    if not faces or room is None:
        return
    low, tops = room.aim.low, [face.aim_at(0) for face in faces]
    feet = [face.aim_at(low) for face in faces]
    left, right = (min(tops), max(tops)) if len(faces) > 1 else (min(*tops, *feet), max(*tops, *feet))
    names = {1: ("floor", "mouth"), -1: ("root", "top")}[faces[0].metal] if len(faces) > 1 else ("", "across")
    if len(faces) > 1 and max(feet) - min(feet) > 2:
        yield DimensionLine(names[0], True, min(feet), max(feet))
    yield DimensionLine(names[1], True, left, right)
    yield DimensionLine("height" if faces[0].metal < 0 and len(faces) > 1 else "depth", False, min(low, lowest), 0)


def _sizes(room: Room, first: bool, lowest: int) -> tuple[DimensionLine, ...]:
    """Those of a room; the first one's depth goes down to the lowest of them all, however deep it was cut by itself."""
    aim = room.aim
    if room.opens(Opening.RIGHT) and not room.opens(Opening.TOP):
        return (DimensionLine("depth", True, aim.left, aim.right), DimensionLine(room.name, False, aim.low, aim.high))
    if room.opens(Opening.LEFT) and not room.opens(Opening.TOP):
        return (DimensionLine(room.name, True, -aim.right, aim.right), DimensionLine("width", False, aim.low, aim.high),
                DimensionLine("lip", False, aim.high, 0))
    fine = 0 < room.most.width - room.least.width < nm(FINE_MM)
    return (DimensionLine(room.name, True, aim.left, aim.right, fine),
            DimensionLine("depth", False, lowest, aim.high) if first else
            DimensionLine(f"{room.name} height", False, aim.low, aim.high))
