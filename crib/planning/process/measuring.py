"""Where to measure, with what, and what it should read."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from math import inf

from crib.features.base import Dimension
from crib.findings.message import Text
from crib.geometry.outline import Opening, Room
from crib.handbook.bands import INSIDE_MM
from crib.light.records import replace
from crib.machining.draft import Draft
from crib.machining.ends import in_the_corners
from crib.machining.question import ZEROS
from crib.machining.words import BY_ITS_WIDTH, Role, Seen
from crib.planning.process.throat_floor import below_aim
from crib.planning.told.passes import Check, Pass

CALIPER_ERROR_MM = 0.001 * 25.4
"""How far off a caliper may read, either way [mm]. Common practice; a micrometer is five times as sure."""

TIMES = 4
"""A band must be so many times what the instrument may be off, else it is too coarse [-]. Common practice."""

_NOTHING_MM = 1e-6
"""What limits differ by where they are the same [mm]."""

_SAME_MM = 1e-3
"""What differs by no more than this is the same [mm]."""

_ROD_MM, _CALIPER_ROD_MM = 3.0, 1.6
"""How thick the rod of a depth micrometer and that of a caliper are [mm]. From memory."""


def checks(draft: Draft, passes: Sequence[Pass], off_mm: Mapping[str, float] | None = None) -> tuple[Check, ...]:
    """Each depth after its first bite, each width before its last wall, and each size of the drawing once made.
    `off_mm`: how far each face came out from where it is aimed at, by the proof."""
    found = [*_first_depths(draft, passes), *_before_the_last(draft, passes), *_before_the_wall(draft, passes),
             *_under_a_lip(draft, passes), *_before_the_root(draft, passes), *_finished(draft, passes, off_mm or {}),
             *_leaning(draft, passes), *_across_flats(draft, passes)]
    return tuple(sorted(found, key=lambda one: one.after_no))


def _first_depths(draft: Draft, passes: Sequence[Pass]) -> Iterator[Check]:
    yield from _so_thin(draft, passes)
    if draft.question.zeros != ZEROS:
        return
    for room in _rooms(draft):
        mine = [one for one in passes if one.room == room.name and one.view == Seen.CROSS]
        if (_has_a_floor(draft, room) and room.opens(Opening.TOP) and len({one.dial_z_mm for one in mine}) > 1
                and mine[0].dial_z_mm < 0):
            yield Check(mine[0].no, f"depth of the {room.name}", by_depth(0.0, _wide(room)), -mine[0].dial_z_mm)


def _so_thin(draft: Draft, passes: Sequence[Pass]) -> Iterator[Check]:
    """How much thinner the work is before the last bite of a whole surface, which leaves a rod nothing to stand on."""
    for one in draft.question.dimensions:
        if one.sort == "depth" and one.called and one.rooms and all(
                room.opens(Opening.LEFT, Opening.RIGHT) for room in _rooms(draft) if room.name in one.rooms):
            last = passes[-1]
            above = [p for p in passes if p.room in one.rooms and last.dial_z_mm < p.dial_z_mm < 0]
            if above:
                yield Check(above[-1].no, one.called, one.by, -above[-1].dial_z_mm)


def _has_a_floor(draft: Draft, room: Room) -> bool:
    """Whether a rod finds a flat floor in it: not along an edge, nor in a V or a round."""
    return not room.aim.region - draft.question.outline.aim


def _wide(room: Room) -> float:
    """How wide a room is at the least; an open side is no hindrance [mm]."""
    return (room.least.right - room.least.left) / 1e6 if _between_walls(room) else inf


def _between_walls(room: Room) -> bool:
    return not (room.opens(Opening.LEFT) or room.opens(Opening.RIGHT))


def _before_the_last(draft: Draft, passes: Sequence[Pass]) -> Iterator[Check]:
    """The width that stands before the last wall is cut: what is still to go shows the error before it counts."""
    across = {tool.id: 2 * tool.form.radius / 1e6 for tool in draft.tools}
    for room in _rooms(draft):
        mine = [one for one in passes if one.room == room.name and one.view == Seen.CROSS]
        if (not room.opens(Opening.TOP) or room.opens(Opening.RIGHT) or room.lean or not mine
                or mine[-1].role != Role.FINISH):
            continue
        last, low = mine[-1], min(one.dial_z_mm for one in mine)
        before = [one.dial_x_mm for one in mine[:-1] if abs(one.dial_z_mm - low) < 1e-6
                  and one.cutter_id == last.cutter_id]
        both = any(x * last.dial_x_mm < 0 for x in before)
        if both and last.no > 1:
            width = max(before) - min(before) + across[last.cutter_id]
            yield Check(last.no - 1, f"width of the {room.name}", _across(width, 0.0), round(width, 6))


def _before_the_wall(draft: Draft, passes: Sequence[Pass]) -> Iterator[Check]:
    """The same where there is one wall, which is told from the edge."""
    rooms = {room.name: room for room in _rooms(draft) if room.opens(Opening.TOP) and not _between_walls(room)}
    for one in draft.question.dimensions:
        room = next((rooms[name] for name in rooms if one.name.startswith(name)), None)
        mine = [p for p in passes if room and p.room == room.name and p.view == Seen.CROSS]
        if one.sort != "width" or len(one.faces) != 1 or one.shrinks or not mine or mine[-1].role != Role.FINISH:
            continue
        last = mine[-1]
        before = [p for p in mine[:-1] if abs(p.dial_z_mm - last.dial_z_mm) < 1e-6 and p.cutter_id == last.cutter_id]
        if left := min((abs(p.dial_x_mm - last.dial_x_mm) for p in before), default=0.0):
            whose, _, what = one.name.partition(" ")
            yield Check(last.no - 1, f"{what or 'width'} of the {whose}", by_depth(0.0, inf),
                        round(one.size.mid - left, 6))


def _under_a_lip(draft: Draft, passes: Sequence[Pass]) -> Iterator[Check]:
    """The width that the first height of a closely held room stands at before its walls are finished there."""
    across = {tool.id: 2 * tool.form.radius / 1e6 for tool in draft.tools}
    rooms = {room.name: room for room in _rooms(draft) if not room.opens(Opening.TOP) and _between_walls(room)
             and not room.lean}
    for one in draft.question.dimensions:
        room = next((rooms[name] for name in rooms if one.name.startswith(name)), None)
        mine = [p for p in passes if room and p.room == room.name and p.view == Seen.CROSS]
        at = next((n for n, p in enumerate(mine) if p.role == Role.FINISH), 0)
        if one.sort != "width" or len(one.faces) != 2 or not at or coarse_will_do(one.size.band):
            continue
        before = [p.dial_x_mm for p in mine[:at] if (p.dial_z_mm, p.cutter_id) == (mine[at].dial_z_mm,
                                                                                   mine[at].cutter_id)]
        if before and min(before) < max(before):
            width = max(before) - min(before) + across[mine[at].cutter_id]
            yield Check(mine[at].no - 1, f"width of the {mine[at].room}", _from_the_end(0.0), round(width, 6))


def _before_the_root(draft: Draft, passes: Sequence[Pass]) -> Iterator[Check]:
    """A groove that lies tilted was touched off by lines of the layout, a face that was turned level at an edge that
    may be broken: how wide they are by now, as wide as they are deep, tells how far that was off before the last of
    it."""
    if not any(face.turned for face in draft.question.outline.faces):
        return
    last = passes[-1]
    above = [one for one in passes if last.dial_z_mm < one.dial_z_mm < 0 and one.cutter_id == last.cutter_id]
    if not above or (draft.question.setup.name == "tilted" and above[-1].dial_x_mm != last.dial_x_mm):
        return
    for one in draft.question.dimensions:
        if one.called or one.sort == "face":
            yield Check(above[-1].no, one.called or one.name, one.by or "caliper",
                        round(one.size.mid * above[-1].dial_z_mm / last.dial_z_mm, 6))


def _finished(draft: Draft, passes: Sequence[Pass], off_mm: Mapping[str, float]) -> Iterator[Check]:
    rooms = {room.name: room for room in _rooms(draft)}
    upright = tuple(name for name, room in rooms.items() if not room.lean)
    for one in draft.question.dimensions:
        if one.shrinks and draft.question.feature.flats:
            continue
        names = one.rooms or tuple(name for name in rooms if one.name.startswith(name)) or (
            upright if one.sort == "depth" else tuple(rooms))
        after = max((p.no for p in passes if p.room in names), default=None)
        if after is not None and not any(rooms[name].lean for name in names if name in rooms):
            made = [rooms[name] for name in names if name in rooms]
            reads = _of_the_cutter(draft, one, names, off_mm) or _reads(draft, one)
            if one.sort == "length" and draft.question.feature.request.ends == "one":
                one = replace(one, by=by_depth(one.size.band, inf))  # a rod goes in from the open end
            yield _of_a_size(after, one, reads, made)


def _of_a_size(after: int, one: Dimension, reads: float, rooms: Sequence[Room]) -> Check:
    """A size of the drawing, or what is measured in its place."""
    if one.instead:
        what, mid = one.instead
        return Check(after, what, one.by, mid, mid - (one.size.hi - one.size.mid), mid + (one.size.mid - one.size.lo))
    return Check(after, one.called or one.name, one.by or _instrument(one, rooms), reads, one.size.lo, one.size.hi)


def _of_the_cutter(draft: Draft, one: Dimension, rooms: Sequence[str], off_mm: Mapping[str, float]) -> float | None:
    """What a size reads that a cutter makes by its own [mm]: across, or of its face, whichever is as far from the aim
    as the faces came out; None where it is stepped to its aim."""
    if one.sort == "width" and len(one.faces) == 2:
        by_width = [job.tool for job in draft.jobs if job.room in rooms and job.manner in BY_ITS_WIDTH]
        if by_width:
            return 2 * by_width[-1].form.radius / 1e6
    off = sum(off_mm.get(name, 0.0) for name in one.faces)
    tools = [job.tool for job in draft.jobs if job.room in rooms] if off > _SAME_MM else []
    own = (size for tool in reversed(tools) for size in (2 * tool.form.radius / 1e6, tool.cutter.face_mm) if size)
    return next((size for size in own if abs(abs(size - one.size.mid) - off) < _SAME_MM), None)


def _reads(draft: Draft, one: Dimension) -> float:
    """What a size should read: a depth with what its floor is cut deeper, a corner as the cutter makes it [mm]."""
    if one.sort == "corner":
        return next((corner.radius / 1e6 for corner in in_the_corners(draft) if one.name.startswith(corner.room)),
                    one.size.mid)
    return one.size.mid + (_deeper(draft) if one.sort == "depth" else 0.0)


_ACROSS_A_LEAN = (("size between", "pins and inside micrometer"), ("size over", "pins and micrometer"),
                  ("width of the face", "caliper"))
"""What of the sizes that follow from those of a drawing is measured where its faces lean, by how it is called, and with
what."""


def _leaning(draft: Draft, passes: Sequence[Pass]) -> Iterator[Check]:
    """What is measured across faces that lean, once they are made."""
    rooms = {room.name for room in _rooms(draft) if room.lean}
    mine = [one for one in passes if one.room in rooms]
    for what, mm in draft.question.feature.measures if mine else ():
        words = what if isinstance(what, str) else what.template
        for called, tool in _ACROSS_A_LEAN:
            if words.startswith(called):
                tool = "pins and slips" if called == "size between" and mm < INSIDE_MM else tool
                yield from _before_the_point(mine, what, tool, mm) if tool == "caliper" else ()
                yield Check(mine[-1].no, what, tool, mm)


def _before_the_point(mine: Sequence[Pass], what: Text, tool: str, mm: float) -> Iterator[Check]:
    """A face that a point makes is as wide as the point has gone in, before its last pass too: what a flat at the tip
    or a broken edge did to the touching off shows in time."""
    last, before = mine[-1], mine[-2] if len(mine) > 1 else mine[-1]
    if last.role == Role.FINISH and last.dial_x_mm == before.dial_x_mm and 0 < before.radial_mm < last.radial_mm:
        yield Check(before.no, what, tool, round(mm * before.radial_mm / last.radial_mm, 6))


def _across_flats(draft: Draft, passes: Sequence[Pass]) -> Iterator[Check]:
    """The first flat to the far side of the bar, which tells the infeed; then each pair that lies across."""
    flats = draft.question.feature.flats
    if flats is None:
        return
    low, mid, high = (flats.across.lo, flats.across.mid, flats.across.hi)
    to_bar = [(flats.bar_mm + mm) / 2 for mm in (mid, low, high)]
    if left := _left_before(passes):
        yield Check(passes[-1].no - 1, "first flat to the far side of the bar", "micrometer",
                    round(to_bar[0] + left, 6))
    yield Check(passes[-1].no, "first flat to the far side of the bar", "micrometer", *to_bar)
    if flats.number % 2 == 0:
        yield Check(passes[-1].no, "across each two opposite flats", "micrometer", mid, low, high)


def _left_before(passes: Sequence[Pass]) -> float:
    """What the last pass takes, sideways or down, of what the one before it left; nothing where that one isn't one
    setting short of it [mm]."""
    if len(passes) < 2 or passes[-1].role not in (Role.FINISH, Role.FLOOR):
        return 0.0
    off = [abs(a - b) for a, b in ((passes[-2].dial_x_mm, passes[-1].dial_x_mm),
                                   (passes[-2].dial_z_mm, passes[-1].dial_z_mm))]
    return max(off) if min(off) < _SAME_MM else 0.0


def _deeper(draft: Draft) -> float:
    """How far a floor that the rod comes down on is cut below its aim [mm]."""
    return max(below_aim(draft, room) for room in _rooms(draft)) / 1e6


def _instrument(one: Dimension, rooms: Sequence[Room]) -> str:
    open_above = all(room.opens(Opening.TOP) for room in rooms)
    from_the_edge = open_above and rooms and not any(_between_walls(room) for room in rooms)
    if one.sort == "depth" or (one.sort == "width" and from_the_edge):
        return by_depth(one.size.band, min(map(_wide, rooms), default=inf))
    if one.sort == "corner":
        return "radius gauge"
    if one.sort == "face":
        return "caliper"
    if one.sort == "height":
        return "pins or leaf" if one.size.mid < 25.4 else _from_the_end(one.size.band)
    return _across(one.size.mid, one.size.band) if open_above else _from_the_end(one.size.band)


def by_depth(band: float, wide: float) -> str:
    """What goes down to a floor, or in from an edge to a wall.

    >>> by_depth(0.5, 12.0), by_depth(0.02, 12.0), by_depth(0.02, 2.0)
    ("caliper's rod", 'depth micrometer', 'a slip that stands out of it')
    """
    if wide < (_CALIPER_ROD_MM if coarse_will_do(band) else _ROD_MM):
        return "a slip that stands out of it"
    return "caliper's rod" if coarse_will_do(band) else "depth micrometer"


def _across(width: float, band: float) -> str:
    if width < INSIDE_MM:
        return "leaf or slips"
    return "caliper" if coarse_will_do(band) else "pins or inside micrometer"


def _from_the_end(band: float) -> str:
    """What goes in from an open end, under a lip or in from a wall.

    >>> _from_the_end(0.5), _from_the_end(0.02)
    ('caliper from the end', 'slips from the end')
    """
    return "caliper from the end" if coarse_will_do(band) else "slips from the end"


def coarse_will_do(band: float) -> bool:
    """Whether a caliper tells a band.

    >>> coarse_will_do(0.010 * 25.4), coarse_will_do(0.002 * 25.4), coarse_will_do(0.979 * 25.4 - 0.975 * 25.4)
    (True, False, True)
    """
    return band > TIMES * CALIPER_ERROR_MM - _NOTHING_MM


def _rooms(draft: Draft) -> tuple[Room, ...]:
    return draft.question.outline.rooms
