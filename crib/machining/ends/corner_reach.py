"""What stays in the corners of a room, seen from above, whoever goes down there and however often."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from math import hypot, sqrt

from crib.geometry.arcs import quarter
from crib.geometry.cleared import segments
from crib.geometry.layers import Layers
from crib.geometry.outline import Room
from crib.geometry.plan_view import inset_of
from crib.geometry.region import Region
from crib.geometry.rounded_box import RoundedBox
from crib.machining.ends.cornered import Walls
from crib.machining.ends.roughed import corners, is_for_corners, may_follow, may_go_first
from crib.machining.methods import stands_in
from crib.machining.methods.base import Limits, Stand
from crib.machining.methods.cuts import Job
from crib.machining.question import Question
from crib.machining.tool import Tool

SPARE, _INSIDE = 250, 1000
"""A cutter reaches so much farther here than it is reckoned to, and is asked to reach so much less [nm]: distances are
proved to fifty."""

_EACH, _BESIDE = 3, 32
"""Each third of the heights is looked at, and so many points along an end."""


Point = tuple[int, int, int]
"""Along, across and up [nm]."""

_Reach = tuple[RoundedBox, Stand, int]
"""Where an axis may be, seen from above and by its method, and how far something that cuts gets from there [nm]."""


def corners_stay(question: Question, limits: Limits, room: Room, tools: Iterable[Tool], gone: Region) -> bool:
    """Whether none of some tools, nor the one that may rough for them or a drill in the corners, gets to a point there
    that must go whatever an owner lets stand, no more of the section ever being gone than so much; then no plan holds
    that has no others.

    At a height a cutter takes a round about its axis, no wider than a part of it that cuts, when that stands so low or
    lower. Whatever else of it is in the room then stays inside of what may go, with its clearance, and so the axis that
    far inside of it; higher up it has no less room, for fewer of its parts are in there. Its axis lies between the
    heights and places across at which its method puts it, for on its ways round a room it is no farther out than in its
    passes. So a point that is farther from there than the part is wide stays. Drills stand in the middles of the
    corners, down to where the mill goes that follows them, or where another goes in, at the left end, as deep as that
    one goes: so there it is asked of what lies deeper.
    """
    layers = question.layers
    if layers is None or room.name not in layers.corners:
        return False
    walls, left = Walls.of(layers, room), list(_points(layers))
    widest = max((drill.form.radius for drill in question.drills), default=0)
    if any(abs(x - walls.middle[0]) <= widest + SPARE for x, _, _ in left):
        return False
    stands: dict[int, tuple[Tool, tuple[Stand, ...]]] = {}
    for tool in tools:
        if not left:
            return False
        stands[tool.id] = tool, stands_in(tool, question.outline, room, limits, gone)
        left = _left_by(*stands[tool.id], left, layers)
    lowest = min((one.low for _, some in stands.values() for one in some), default=0) - SPARE
    left = [point for point in left if point[0] > walls.middle[0] or point[2] < lowest]
    after = [(tool, some) for tool, some in stands.values() if may_follow(tool, walls)]
    left = _left_by_drills(question, walls, min((one.low for _, some in after for one in some), default=0), left)
    first = may_go_first(question, [tool for tool, _ in after])
    return bool(left) and all(any(not _is_roughed(one.job, point) for point in left) for one in first)


def _is_roughed(job: Job, point: Point) -> bool:
    """Whether what goes first, the same whatever follows, gets to a point on one of its ways."""
    x, y, z = point
    ways = dict.fromkeys(cut.course.path for cut in job.cuts if cut.course and cut.z <= z + SPARE)
    return any(piece.off(x, y) <= job.tool.form.radius + SPARE for path in ways for piece in segments(path))


def _left_by(tool: Tool, stands: Iterable[Stand], points: list[Point], layers: Layers) -> list[Point]:
    """The points to which a tool doesn't get."""
    known: dict[int, list[_Reach]] = {}
    stands, left = list(stands), list[Point]()
    for x, y, z in points:
        if z not in known:
            known[z] = [one for stand in stands for one in _reaches(tool, stand, z, layers)]
        if not any(_off(x, y, room, stand) <= far for room, stand, far in known[z]):
            left.append((x, y, z))
    return left


def _left_by_drills(question: Question, walls: Walls, low: int, points: list[Point]) -> list[Point]:
    """The points to which no drill in the middle of a corner gets, down to a height."""
    radii = (drill.form.radius for drill in question.drills if is_for_corners(drill, walls))
    reach, middles = max(radii, default=0) + SPARE, corners(walls)
    return [point for point in points if point[2] < low - SPARE or all(
        hypot(point[0] - x, point[1] - y) > reach for x, y in middles)]


def _points(layers: Layers) -> Iterator[Point]:
    """Along, across and up: at some heights points of what must go, a little inside: the one that is farthest into the
    corner at the right and away, and some at both ends."""
    most = max(layers.fillet, layers.waived)
    floor = min(layer.low for layer in layers.must)
    for layer in layers.must:
        for _, up in quarter(most)[::_EACH]:
            if (z := floor + up) < layer.high:
                left, low, right, high, radius = layer.shape.inset(inset_of(most, up))
                out, in_, z = round(radius / sqrt(2)) - _INSIDE, radius - _INSIDE, max(z, layer.low)
                yield right + out, high + out, z
                for y in (low + (high - low) * k // _BESIDE for k in range(_BESIDE + 1)):
                    yield from ((right + in_, y, z), (left - in_, y, z))


def _reaches(tool: Tool, stand: Stand, z: int, layers: Layers) -> Iterator[_Reach]:
    """Where the axis of a tool may be whose parts cut at a height, and how far each gets from there."""
    for part in tool.form.sure:
        if z - part.low >= stand.low - SPARE:
            held = _held(tool, z - part.low, layers.top)
            yield from ((room, stand, part.widest + SPARE) for layer in layers.most
                        if (room := _for_axis(layer.shape, held)))


def _held(tool: Tool, z: int, top: int) -> int:
    """How far the axis stays off what must stay, the lower face standing at a height: as wide as what is in the room
    is, with its clearance."""
    beside = (part.widest + part.side for part in (*tool.form.may, *tool.form.clear) if z + part.low - part.end < top)
    return max(beside, default=0) - SPARE


def _for_axis(most: RoundedBox, held: int) -> RoundedBox | None:
    """Where an axis may be that stays so far inside of what may go; None where it can't."""
    less = max(0, held - most.radius)
    if most.left + less > most.right - less or most.low + less > most.high - less:
        return None
    return most.inset(max(0, held))


def _off(x: int, y: int, room: RoundedBox, stand: Stand) -> float:
    """How far a point is from where an axis may be at the most, between two places across."""
    across = max(0, stand.left - y, y - stand.right)
    return max(0.0, room.off(x, y), across)
