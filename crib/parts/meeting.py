"""Where the features of a part meet: walls grown thin, a hole that breaks into a slot or stands over its head, an edge
that is gone before it is broken, two in the same place; told with the distance."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import combinations, product
from shlex import quote

from crib.features.base import Comes, Feature
from crib.features.down import PlainHole, Thread
from crib.findings.errors import CribError, failure
from crib.findings.finding import Finding, Grade
from crib.findings.message import Mm, said
from crib.geometry.convex import Convex, Vector, apart, boxes_apart, holds, overlap
from crib.light.tuples import NamedTuple
from crib.parts.lying import SLACK_MM, Lying, lying_in
from crib.parts.on_holes import without_hole
from crib.parts.outside import near_faces, outside
from crib.parts.part import Part
from crib.parts.solids import Solid
from crib.parts.walls import least_wall


class Gap(NamedTuple):
    """How far the metal that two features take is apart, below nought how deep one reaches into the other [mm], and at
    which pieces; how thick a wall there should be."""

    mm: float
    one: Solid
    other: Solid
    least: float


def meetings(part: Part, drawn: Mapping[str, Feature]) -> tuple[Finding, ...]:
    """All that is to be said of where features lie, those that can't be so first: outside the stock, in the same place.
    """
    lying = lying_in(part, drawn)
    found = [told for one in lying for told in (*outside(one), *near_faces(one), *without_hole(one, lying))]
    for one, other in combinations(lying, 2):
        found += _pair(one, other)
    return tuple(sorted(found, key=lambda told: told.grade is not Grade.ERROR))


def check(part: Part, drawn: Mapping[str, Feature]) -> tuple[Finding, ...]:
    """What is to be minded of where features lie. Raises `CribError` for the first that can't lie so."""
    found = meetings(part, drawn)
    if found and found[0].grade is Grade.ERROR:
        raise CribError.of(found[0])
    return found


def _pair(one: Lying, other: Lying) -> Iterator[Finding]:
    if Comes.FIRST in (one.comes, other.comes):
        yield from _over_its_face(one, other)
        return
    if _is_same(one, other):
        yield failure("part-same-place", said("{one} and {other} lie in the same place", one=one.name,
                                              other=other.name), other.name,
                      f"take one of them off (crib part {quote(one.part.name)} drop), or move it")
        return
    for gone, taker in ((one, other), (other, one)):
        if not gone.is_coaxial(taker) and (deep := _gone(gone, taker)) is not None:
            yield _is_gone(gone, taker, deep)
            return
    if Comes.ON_EDGES in (one.comes, other.comes) or one.is_coaxial(other):
        return
    if (gap := closest(one, other)) is None:
        return
    if gap.mm < -SLACK_MM:
        yield _breaks_in(one, other, gap)
    elif gap.mm > SLACK_MM or _graze(one, other, gap):
        yield _thin(one, other, gap._replace(mm=max(0.0, gap.mm)))


def _graze(one: Lying, other: Lying, gap: Gap) -> bool:
    """Whether a hole touches what another feature takes with its side, and where that is a hole too, the side of it:
    where one begins or ends it is drilled into the other."""
    sides = [(hole, mine, its) for hole, mine, its in ((one, gap.one, gap.other), (other, gap.other, gap.one))
             if hole.feature.down is not None and hole.axes]
    return bool(sides) and all(_by_its_side(*side) for side in sides)


def _by_its_side(one: Lying, mine: Solid, its: Solid) -> bool:
    """Whether what touches a hole lies beside it, not where it begins or ends."""
    ways = [place for place, part in enumerate(one.axes[0].inward) if abs(part) > 1 - 1e-9]
    (low, high), (down, up) = mine.body.bounds, its.body.bounds
    return any(min(high[way], up[way]) - max(low[way], down[way]) > SLACK_MM for way in ways)


def _over_its_face(one: Lying, other: Lying) -> Iterator[Finding]:
    """Of a face and what lies on it: that counts from the stock, not from the face when it is made, unless its level
    says so."""
    face, on_it = (one, other) if one.comes is Comes.FIRST else (other, one)
    place, floor = face.placed.place, face.placed.place.level - face.feature.outline.aim.bounds()[1] / 1e6
    if on_it.comes is Comes.FIRST or on_it.placed.place.face != place.face or _is_meant(on_it):
        return
    if (less := floor - on_it.placed.place.level) > SLACK_MM:
        yield Finding("part-face", Grade.CAUTION,
                      said("{one}: its depth counts from the stock; once {face} is made it is {less} less deep",
                           one=on_it.name, face=face.name, less=Mm(less)), "geometry", has_mm=-less, needs_mm=0.0,
                      fix=said("level {level}: then it counts from the face as it is made", level=Mm(floor)),
                      read=on_it.name)


def closest(one: Lying, other: Lying) -> Gap | None:
    """Where two features come nearest, or reach into each other deepest; None where no wall between them is thin."""
    found: list[Gap] = []
    for a in one.solids:
        for b in other.solids:
            least = least_wall(one, other, a.body.bounds, _common(a, b))
            if boxes_apart(a.body, b.body) >= least:
                continue
            gap = apart(a.body, b.body, least)
            if gap < least:
                found.append(Gap(gap if gap > 0 else -overlap(a.body, b.body), a, b, least))
    return min(found, key=lambda gap: gap.mm, default=None)


def _common(a: Solid, b: Solid) -> tuple[float, ...]:
    """How far the metal between two pieces reaches along itself: in all ways in which they lie side by side, but for
    the one in which they are apart."""
    (low, high), (down, up) = a.body.bounds, b.body.bounds
    spans = [min(h, u) - max(b_, d) for b_, h, d, u in zip(low, high, down, up, strict=True)]
    spans.remove(min(spans))
    return tuple(spans)


def _is_same(one: Lying, other: Lying) -> bool:
    """Whether one takes what the other takes, piece by piece."""
    if len(one.solids) != len(other.solids) or one.placed.kind != other.placed.kind:
        return False
    return all(_alike(a, b) for a, b in zip(one.solids, other.solids, strict=True)) or all(
        any(_alike(a, b) for b in other.solids) for a in one.solids)


def _alike(a: Solid, b: Solid) -> bool:
    return all(abs(x - y) <= SLACK_MM for side, its in zip(a.body.bounds, b.body.bounds, strict=True)
               for x, y in zip(side, its, strict=True))


def _gone(one: Lying, taker: Lying) -> float | None:
    """How deep what a feature takes lies within what another takes, where that is deepest; None where something of it
    is left."""
    deepest = 0.0
    for piece in one.solids:
        near = [its.body for its in taker.solids if boxes_apart(its.body, piece.body) == 0]
        if not near or not all(any(holds(body, point, SLACK_MM) for body in near) for point in _grains(piece.body)):
            return None
        deepest = max(deepest, *(overlap(body, piece.body) for body in near))
    return deepest


def _grains(body: Convex) -> Iterator[Vector]:
    """Points all over a body: its middle, its outermost ones in many directions, and half-way to them."""
    low, high = body.bounds
    middle = tuple((b + h) / 2 for b, h in zip(low, high, strict=True))
    yield middle  # type: ignore[misc]
    for way in product((-1.0, 0.0, 1.0), repeat=3):
        if any(way):
            rim = body.farthest(way)  # type: ignore[arg-type]
            for share in (0.5, 1.0):
                yield tuple(m + share * (r - m) for m, r in zip(middle, rim, strict=True))  # type: ignore[misc]


def _is_gone(one: Lying, taker: Lying, deep: float) -> Finding:
    return Finding("part-gone", Grade.CAUTION,
                   said("{one}: nothing is left of it once {other} is cut, it lies {deep} inside", one=one.name,
                        other=taker.name, deep=Mm(deep)), "geometry", has_mm=-deep, needs_mm=0.0,
                   fix="its place by what is there then (its level, its face), or take it off", read=one.name)


def _breaks_in(one: Lying, other: Lying, gap: Gap) -> Finding:
    """One reaches into the other: a hole is told as breaking in, of two that run that they cross."""
    hole, into, room = _who(one, other, gap)
    if hole.feature.down is None:
        return Finding("part-crosses", Grade.NOTE,
                       said("{one}: crosses the {room} of {other}, {deep} deep", one=hole.name, room=room,
                            other=into.name, deep=Mm(-gap.mm)), "geometry", has_mm=gap.mm,
                       fix="so it should be where they are meant to open into each other", read=hole.name)
    meant = _is_meant(hole)
    fix = ("so it should be where it is meant to open there: a burr is left, and where the face isn't square to it a "
           "drill pulls and wanders as it comes out" if meant else
           "another place, a lesser depth, or say that it goes through")
    return Finding("part-breaks-in", Grade.NOTE if meant else Grade.CAUTION,
                   said("{hole}: breaks into {other}, {deep} deep" if _is_itself(into.name, room) else
                        "{hole}: breaks into the {room} of {other}, {deep} deep", hole=hole.name, room=room,
                        other=into.name, deep=Mm(-gap.mm)), "geometry", has_mm=gap.mm, needs_mm=0.0, fix=fix,
                   read=hole.name)


def _is_itself(name: str, room: str) -> bool:
    """Whether a feature is called as its room is, so that `the slot of lay slot` would say it twice.

    >>> _is_itself("T-slot", "head"), _is_itself("slot", "slot"), _is_itself("lay slot", "slot")
    (False, True, True)
    """
    return name.lower().split(" ")[-1] == room


def _is_meant(hole: Lying) -> bool:
    """Whether a hole is said to go through: it may well be to open into the other."""
    down = hole.feature.down
    return isinstance(down, PlainHole | Thread) and down.through


def _who(one: Lying, other: Lying, gap: Gap) -> tuple[Lying, Lying, str]:
    """The smaller hole of the two, what it comes into, and which room of that."""
    holes: Sequence[Lying] = [lying for lying in (one, other) if lying.feature.down is not None]
    width = {lying.name: max(room.aim.width for room in lying.feature.outline.rooms) for lying in holes}
    hole = min(holes, key=lambda lying: width[lying.name]) if holes else one
    return (hole, other, gap.other.room) if hole is one else (hole, one, gap.one.room)


def _thin(one: Lying, other: Lying, gap: Gap) -> Finding:
    hole, by, room = _who(one, other, gap)
    return Finding("part-wall", Grade.CAUTION,
                   said("{one}: leaves a wall of {gap} to {other}; under {least} it springs away, or breaks through"
                        if _is_itself(by.name, room) else
                        "{one}: leaves a wall of {gap} to the {room} of {other}; under {least} it springs away, or "
                        "breaks through", one=hole.name, gap=Mm(gap.mm), room=room, other=by.name,
                        least=Mm(gap.least)), "from memory", has_mm=gap.mm, needs_mm=gap.least,
                   fix="farther apart; else the deeper first and the last cuts light", read=hole.name)
