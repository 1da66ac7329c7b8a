"""In a fillet: as any room that is open at the top and beside; a ball smaller than the fillet is set out along the
round, setting by setting, until what stands between two settings lies inside the limits."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from math import cos, hypot, inf, pi, sin, sqrt

from crib.findings.finding import Figure
from crib.geometry.free_positions import Interval, cut_all
from crib.geometry.outline import Room
from crib.geometry.region import Region
from crib.handbook.bites import bites_needed
from crib.handbook.deviations import walked_corner_left
from crib.light.records import replace
from crib.machining.methods import from_above
from crib.machining.methods.base import Attempt, PassBound, Stand, goes_with_the_fillet
from crib.machining.methods.cuts import GRAIN, Cut, Job, after
from crib.machining.methods.from_above.least import count as count_from_above
from crib.machining.methods.from_above.least import lowest_alone, stands_at
from crib.machining.methods.from_above.least import ways as ways_from_above
from crib.machining.tool import Tool
from crib.machining.words import Manner, Role, Side
from crib.shop import Shop
from crib.units import NM, nm

SETTINGS = (3, 5, 7, 9, 12)
"""In so many settings a smaller ball is tried. Three are usual; common practice, no source."""


_CHORD = 6_000
"""By how much chords may tell another ridge than arcs [nm]."""


def is_smaller_ball(tool: Tool, room: Room) -> bool:
    """Whether a cutter is a ball that is smaller than the fillet at its least."""
    across, corner = tool.cutter.diameter_mm or 0.0, tool.cutter.corner_radius_mm or 0.0
    return room.hollow is not None and corner > 0 and 2 * corner >= across - 1e-6 and nm(corner) < room.hollow[0]


def _is_beside(a: Attempt) -> bool:
    """Whether a room is the step beside the fillet, and not the fillet's own."""
    return goes_with_the_fillet(a.outline, a.room)


def _is_bull_nose(a: Attempt) -> bool:
    """Whether a cutter has the fillet's own corner and a flat within it, so that it makes the step and the fillet at
    once."""
    corner, hollow = nm(a.tool.cutter.corner_radius_mm or 0.0), a.room.hollow
    return hollow is not None and hollow[0] <= corner <= hollow[2] and corner < a.tool.form.radius


def _to_the_wall(a: Attempt) -> Attempt:
    """The step with the fillet's width in it, and its wall."""
    least, aim, most = (one._replace(left=of.left) for one, of in zip(
        (a.room.least, a.room.aim, a.room.most),
        (a.outline.rooms[-1].least, a.outline.rooms[-1].aim, a.outline.rooms[-1].most), strict=True))
    room = replace(a.room, least=least, aim=aim, most=most)
    faces = tuple(replace(face, name=f"{a.room.name} wall") if face.upright else face for face in a.outline.faces)
    return a._replace(room=room, outline=replace(a.outline, rooms=(room, *a.outline.rooms[1:]), faces=faces))


def positions(a: Attempt, removed: Region) -> Iterator[Job]:
    """As from above; a bull nose to the wall at once; a smaller ball in the fewest settings that leave nothing. Roughed
    before it is finished: no slender mill goes into the round first, for another to take the step after it."""
    if _is_beside(a):
        yield from from_above.positions(_to_the_wall(a) if _is_bull_nose(a) else a, removed)
        return
    steps = [room for room in a.outline.rooms if goes_with_the_fillet(a.outline, room) and _is_slender_for(a, room)]
    for job in _round(a, removed):
        if not any(a.outline.rest(room, job.removed) for room in steps):
            yield job


def _is_slender_for(a: Attempt, step: Room) -> bool:
    """Whether it is a ball, whose middle doesn't cut, or no wider than half of a step. Common practice, no source."""
    across, corner = 2 * a.tool.form.radius, nm(a.tool.cutter.corner_radius_mm or 0.0)
    return 2 * corner >= across - GRAIN or 2 * across <= step.aim.width


def _with_what_stands_beside(a: Attempt, removed: Region) -> Attempt:
    """The fillet's room with as much of a step that stands as a cutter takes with it along the wall: it is buried."""
    beside = [room for room in a.outline.rooms if goes_with_the_fillet(a.outline, room)
              and a.outline.rest(room, removed)]
    if not beside:
        return a
    right = max(a.room.aim.right, min(beside[0].aim.right, a.room.aim.left + 2 * a.tool.form.radius))
    least, aim, most = (one._replace(right=right) for one in (a.room.least, a.room.aim, a.room.most))
    room = replace(a.room, least=least, aim=aim, most=most)
    return a._replace(room=room, outline=replace(a.outline, rooms=(*a.outline.rooms[:-1], room)))


def _round(a: Attempt, removed: Region) -> Iterator[Job]:
    """The jobs in the fillet's own room."""
    if not is_smaller_ball(a.tool, a.room):
        yield from from_above.positions(_with_what_stands_beside(a, removed), removed)
        return
    for count in _settings(a):
        cuts = tuple(_cuts(a, removed, count))
        gone = after(a.tool, a.outline, cuts, removed)
        if not a.outline.rest(a.room, gone) and _stands_at(a, _places(a, count), gone):
            yield Job(a.tool, a.room.name, cuts, gone, Manner.ONE_PLACE)
            return


def _settings(a: Attempt) -> Iterator[int]:
    """In how many settings a smaller ball may leave nothing, the fewest first."""
    return (one for one in SETTINGS if a.tool.can_finish and _is_kept(a, one) and _stands_at(a, _places(a, one)))


def _stands_at(a: Attempt, places: Iterable[tuple[int, int]], gone: Region | None = None) -> bool:
    """Whether a ball gets to all of its settings with so much gone; without it, with all that may be."""
    return all(any(left - GRAIN <= x <= right + GRAIN for left, right in a.spans(z, gone)) for x, z in places)


def _places(a: Attempt, count: int) -> Iterator[tuple[int, int]]:
    """Where a ball stands at each setting when it is all the way down, from the wall to the floor."""
    assert a.room.hollow is not None
    ball, fillet, aim = nm(a.tool.cutter.corner_radius_mm or 0.0), a.room.hollow[1], a.room.aim
    out = fillet - ball
    for k in reversed(range(count)):
        turn = pi / 2 * k / (count - 1)
        yield aim.left + fillet - round(out * sin(turn)), aim.low + fillet - round(out * cos(turn)) - ball


def _is_kept(a: Attempt, count: int) -> bool:
    """Whether every ridge between two settings stands outside of what must go, as far as chords tell."""
    assert a.room.hollow is not None
    (_, fillet, most), aim, least = a.room.hollow, a.room.aim, a.room.least
    ball, half = nm(a.tool.cutter.corner_radius_mm or 0.0), pi / 4 / (count - 1)
    out = fillet - ball
    if out * sin(half) > ball:
        return False
    reach = fillet - walked_corner_left(ball / NM, fillet / NM, count) * NM
    at = ((aim.left + fillet - reach * sin(turn), aim.low + fillet - reach * cos(turn))
          for turn in (half * (2 * k + 1) for k in range(count - 1)))
    return all(hypot(x - least.left - most, z - least.low - most) >= most - _CHORD or x > least.left + most
               or z > least.low + most for x, z in at)


def _cuts(a: Attempt, removed: Region, count: int) -> Iterator[Cut]:
    """From the wall to the floor, at each setting down in bites from where metal still stands in its way. All that
    teeth take which reach out of the top lies in what they take when they are down: it is parted alone."""
    form, standing = a.tool.form, a.outline.stock - removed
    for x, low in _places(a, count):
        whole = cut_all(form.sure, [(x, low)]) & standing
        reaches_out = low + form.height >= a.outline.stock.bounds()[3]
        left = whole if reaches_out else standing
        top = whole.bounds()[3] if whole else low + 1
        bites = bites_needed(max(1, top - low), max(1, a.tool.bite))
        for bite in range(1, bites + 1):
            z = top - (top - low) * bite // bites
            taken = left if reaches_out and bite == bites else cut_all(form.sure, [(x, z)]) & left
            if taken or bite == bites:
                begin, _, end, _ = taken.bounds() if taken else (0, low, 0, low)
                yield Cut(x, z, Role.FINISH if bite == bites else Role.ROUGH, a.room.name, Side.FRONT, end - begin,
                          (top - low) // bites)
                left = left - taken
        standing = standing - whole if reaches_out else left


def _gets_down(a: Attempt) -> bool:
    """Whether a cutter along the wall may come so far down in the fillet's own room that nothing of it is left under
    its teeth, at the sharpest that the fillet may be: in the strip under those that don't, none of them ever is.

    Where it is full it stays over the round; that is so high over the floor where the wall is as far in as it may be.
    """
    assert a.room.hollow is not None
    form, (sharp, _, round_), least, most = a.tool.form, a.room.hollow, a.room.least, a.room.most
    full = min((part.low for part in form.may if part.radius_low == part.radius_high == form.radius), default=None)
    if full is None:
        return True
    deep = min(sharp, a.room.aim.left - most.left)
    low = most.low + sharp - sqrt(2 * sharp * deep - deep**2) - full
    under = min(float(round_), max(0.0, low - GRAIN - least.low))
    return sqrt(2 * round_ * under - under**2) <= max(0, least.left + round_ - a.room.aim.right) + GRAIN


def _count(a: Attempt, count: Callable[[Attempt], tuple[PassBound, ...]] = count_from_above
           ) -> tuple[PassBound, ...]:
    """`count`: what tells it of a room from above."""
    if not _is_beside(a) and len(a.outline.rooms) > 1 and _is_bull_nose(a):
        return (PassBound(0, stepped=True, manner=Manner.ALONG_THE_EDGE),)
    if _is_beside(a) and _is_bull_nose(a):
        return count(_to_the_wall(a))
    if _is_beside(a):
        return count(a)
    if not is_smaller_ball(a.tool, a.room):
        found = count(a)
        return found if _gets_down(a) else tuple(one._replace(passes=inf) for one in found)
    fewest = next(_settings(a), None)
    return (PassBound(fewest, stepped=True, manner=Manner.ONE_PLACE),) if fewest else ()


def _never_ends(a: Attempt) -> bool:
    """Of a cutter that doesn't come down along the wall as far as the fillet asks, where it gets as deep as the room,
    or not even as deep as what of it isn't gone with another."""
    if _is_beside(a) or _is_bull_nose(a) or is_smaller_ball(a.tool, a.room) or _gets_down(a):
        return False
    return stands_at(a, a.room.least.low) or not stands_at(a, lowest_alone(a))


def _figures(job: Job, before: Sequence[Job], room: Room, shop: Shop) -> Iterator[Figure]:
    if job.manner is not Manner.ONE_PLACE or room.hollow is None:
        yield from from_above.METHOD.figures(job, before, room, shop)
        return
    count, fillet = len({cut.x for cut in job.cuts}), room.hollow[1] / NM
    ball = job.tool.cutter.corner_radius_mm or 0.0
    yield Figure(f"{room.name}: settings along the round", value=float(count))
    yield Figure(f"{room.name}: ridge between two of them", walked_corner_left(ball, fillet, count), places=4)


def _stands_in(a: Attempt, removed: Region) -> Iterable[Stand]:
    """A smaller ball stands over the settings along the round in which it may leave nothing."""
    if _is_beside(a) and _is_bull_nose(a):
        return from_above.METHOD.stands_in(_to_the_wall(a), removed)
    if not _is_beside(a) and is_smaller_ball(a.tool, a.room):
        top = max(0, a.outline.stock.bounds()[3])
        places = dict.fromkeys(place for count in _settings(a) for place in _places(a, count))
        return tuple(Stand(low, max(low, top), x, x) for x, low in places)
    return from_above.METHOD.stands_in(a, removed)


def _gets_near(a: Attempt, gone: Region, sides: Interval, under: int) -> bool:
    """A smaller ball may stand at any of its settings."""
    if _is_beside(a) or not is_smaller_ball(a.tool, a.room):
        at = _to_the_wall(a) if _is_beside(a) and _is_bull_nose(a) else a
        return from_above.METHOD.gets_near(at, gone, sides, under)
    return True


def _says(job: Job, cut: Cut) -> str:
    """What to look at with the last pass; a square mill that clears the room before a ball leaves no round to try."""
    is_round = bool(job.tool.cutter.corner_radius_mm)
    return "try it with a radius gauge after it" if is_round and cut is job.cuts[-1] else ""


METHOD = replace(
    from_above.METHOD,
    positions=positions,
    stands_in=_stands_in,
    gets_near=_gets_near,
    count=_count,
    ways=lambda a: _count(a, ways_from_above),
    never_ends=_never_ends,
    stands=lambda a, cleared: None if is_smaller_ball(a.tool, a.room) else from_above.METHOD.stands(a, cleared),
    figures=_figures,
    says=_says,
    manners={**from_above.METHOD.manners, Manner.ONE_PLACE: "setting by setting along the round"},
)
