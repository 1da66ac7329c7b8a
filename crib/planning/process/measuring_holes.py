"""Where to measure what comes down an axis, with what, and what it should read."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import inf

from crib.features.base import Dimension
from crib.features.down import BoreKeyseat, InsideGroove, PlainHole, RingGroove, Thread
from crib.machining.chain import Chain
from crib.machining.words import MAKES, Role
from crib.planning.process.measuring import TIMES, by_depth, coarse_will_do
from crib.planning.told.passes import Check, Pass

SMALL_MM, NIBS_MM, GAUGED_MM = 3.0, 6.35, 12.7
"""Up to where a hole takes a pin alone, up to where a caliper's nibs read false or don't go in, and up to where a
small-hole gauge goes [mm]. Common practice, no source."""

FELT_MM = 0.0005 * 25.4
"""How far off a telescoping gauge that is felt and then miked may read, either way [mm]. Common practice."""


_SPRINGS = "inside caliper with turned-out legs that spring"


def checks(chain: Chain, passes: Sequence[Pass]) -> tuple[Check, ...]:
    """A bore before its last cut, each hole once it is made, its depth where it is blind, a thread's depth."""
    if isinstance(chain.question.feature.down, InsideGroove):
        return tuple(_in_a_bore(chain.question.feature.down, passes))
    if isinstance(chain.question.feature.down, RingGroove):
        return tuple(_in_a_face(chain.question.feature.down, passes))
    if isinstance(chain.question.feature.down, BoreKeyseat):
        return tuple(_in_a_seat(chain.question.feature.down, passes))
    found = [*_before_the_last(chain, passes), *_finished(chain, passes), *_round_a_circle(chain, passes)]
    return tuple(sorted(found, key=lambda one: one.after_no))


def _in_a_bore(asked: InsideGroove, passes: Sequence[Pass]) -> Iterator[Check]:
    """What a caliper's jaws don't come out of a groove with. Common practice, no source."""
    last, lip = max(one.no for one in passes), asked.from_face
    yield from _before_a_last_turn(asked, passes)
    yield Check(last, "groove diameter", _SPRINGS, asked.diameter.mid,
                asked.diameter.lo, asked.diameter.hi)
    yield Check(last, "groove width", "feeler gauges, or what goes in it", asked.width.mid, asked.width.lo,
                asked.width.hi)
    yield Check(last, "from the face to its upper side", "depth gauge with a hook", lip.mid, lip.lo, lip.hi)


def _before_a_last_turn(asked: InsideGroove, passes: Sequence[Pass]) -> Iterator[Check]:
    """What a head is still to be set out by at the first height, where the groove is closely held."""
    mine = [one for one in passes if one.diameter_mm is not None and one.z_mm == passes[0].z_mm]
    if len(mine) > 2 and not coarse_will_do(asked.diameter.band) and (across := mine[-2].diameter_mm) is not None:
        yield Check(mine[-2].no, "groove diameter", _SPRINGS, across)


def _in_a_face(asked: RingGroove, passes: Sequence[Pass]) -> Iterator[Check]:
    """A groove in a face, from its last turn on. Common practice, no source."""
    last = max(one.no for one in passes)
    for what, by, size in (("across the outside", "caliper", asked.outside),
                           ("groove width", "gauge pins, or what goes in it", asked.width),
                           ("depth", "depth micrometer", asked.depth)):
        yield Check(last, what, by, size.mid, size.lo, size.hi)


def _in_a_seat(asked: BoreKeyseat, passes: Sequence[Pass]) -> Iterator[Check]:
    """A keyseat in a bore: nothing bears a rod beside it, its floor is told from the wall across. ANSI B17.1 gives that
    size; what measures it is common practice, no source."""
    last, far = max(one.no for one in passes), asked.edge_mm + asked.bore.mid / 2
    by = "caliper" if coarse_will_do(asked.depth.band) else "telescoping gauge and micrometer"
    yield Check(last, "keyseat width", "gauge pins or slips", asked.width.mid, asked.width.lo, asked.width.hi)
    yield Check(last, "floor to the far wall of the bore", by, *(
        far + mm for mm in (asked.depth.mid, asked.depth.lo, asked.depth.hi)))


def _before_the_last(chain: Chain, passes: Sequence[Pass]) -> Iterator[Check]:
    """What the head is still to be set out by is what this bore lacks."""
    size = next((one.size for one in chain.question.feature.dimensions if one.sort == "width"), None)
    bores = [one for one in passes if one.role == Role.BORE and one.diameter_mm is not None]
    if len(bores) > 1 and (across := bores[-2].diameter_mm) is not None:
        yield Check(bores[-2].no, "bore", _felt(across, size.band if size else 0.0), across)


def _finished(chain: Chain, passes: Sequence[Pass]) -> Iterator[Check]:
    down = chain.question.feature.down
    is_through = isinstance(down, PlainHole | Thread) and down.through
    making = max((one.no for one in passes if one.role in MAKES), default=_last_at_a_mouth(chain, passes))
    tapped = max((one.no for one in passes if one.role == Role.TAP), default=None)
    if isinstance(down, Thread) and down.gib and making and chain.hole:
        yield from _before_the_tap(down, making, chain.hole.expected_mm)
        return
    for one in chain.question.feature.dimensions:
        after = (tapped or making) if one.sort == "depth" else making
        if after is None or (one.sort == "depth" and (is_through or _is_till_clean(passes[after - 1], one))):
            continue
        if one.sort == "width":
            tool = _across(one.size.mid, one.size.band)
            yield Check(after, one.name, tool, _made(chain, one), one.size.lo, one.size.hi)
        elif not tapped or after == tapped:
            tool = "a screw turned in by hand" if tapped else by_depth(one.size.band, _widest(chain))
            yield Check(after, "full thread" if tapped else one.name, tool, one.size.mid, one.size.lo, one.size.hi)


def _widest(chain: Chain) -> float:
    """How wide what is made is [mm]."""
    return next((one.size.mid for one in chain.question.feature.dimensions if one.sort == "width"), inf)


def _before_the_tap(thread: Thread, after: int, expected: float) -> Iterator[Check]:
    """The hole of a thread that none of the drawing's sizes names."""
    from crib.handbook.threads import hole_limits

    limits = hole_limits(thread.reading.thread, thread.class_name or thread.reading.class_name)
    low, high = limits.least or thread.reading.thread.minor_basic_mm, limits.most or thread.reading.thread.major_mm
    reads = expected if low <= expected <= high else (low + high) / 2
    yield Check(after, "minor diameter", _across(reads, high - low), reads, low, high)


def _is_till_clean(made: Pass, one: Dimension) -> bool:
    """Whether a flat goes as deep as it must to be clean all round: no depth of it is drawn."""
    return made.role == Role.LAND and not one.size.given


def _last_at_a_mouth(chain: Chain, passes: Sequence[Pass]) -> int | None:
    """Where nothing but a mouth is made, a cone or a flat round a hole that is there, the last stroke at it."""
    if isinstance(chain.question.feature.down, PlainHole | Thread):
        return None
    return max((one.no for one in passes if one.role in (Role.COUNTERSINK, Role.LAND)), default=None)


def _round_a_circle(chain: Chain, passes: Sequence[Pass]) -> Iterator[Check]:
    """Over pins that fill two neighbours: the chord and one hole."""
    circle = chain.question.feature.circle
    after = max((one.no for one in passes if one.role in MAKES), default=None)
    if circle is None or after is None or chain.hole is None:
        return
    pin, share = chain.hole.expected_mm, circle.chord_mm / circle.diameter.mid
    low, middle, high = (pin + share * mm for mm in (circle.diameter.lo, circle.diameter.mid, circle.diameter.hi))
    yield Check(after, "over pins that fill two neighbours", "pins and micrometer", middle, low, high)


def _made(chain: Chain, one: Dimension) -> float:
    """What the hole is expected to come out at, or what makes it measures; the middle where neither is known, or lies
    outside its limits."""
    making = (2 * job.tool.form.radius / 1e6 for job, cut in reversed(tuple(chain.passes()))
              if cut.role in MAKES or cut.role == Role.LAND)
    expected = chain.hole.expected_mm if chain.hole else next(making, one.size.mid)
    return expected if one.size.lo <= expected <= one.size.hi else one.size.mid


def _across(diameter_mm: float, band_mm: float = 0.0) -> str:
    """What a hole is measured with. Common practice, no source.

    >>> _across(2.5), _across(4.0, 0.5), _across(8.0, 0.06), _across(25.4, 0.06), _across(25.4, 0.5)
    ('gauge pins', 'gauge pins', 'gauge pins or small-hole gauge', 'telescoping gauge and micrometer', 'caliper')
    >>> _across(8.0, 0.015), _across(25.4, 0.021)
    ('gauge pins or a bore gauge', 'bore gauge set by a micrometer')
    """
    if diameter_mm <= SMALL_MM or (diameter_mm <= NIBS_MM and coarse_will_do(band_mm)):
        return "gauge pins"
    if coarse_will_do(band_mm):
        return "caliper"
    return _felt(diameter_mm, band_mm)


def _felt(diameter_mm: float, band_mm: float) -> str:
    """The same where no caliper will do."""
    is_small = diameter_mm <= GAUGED_MM
    if band_mm < TIMES * FELT_MM:
        return "gauge pins or a bore gauge" if is_small else "bore gauge set by a micrometer"
    return "gauge pins or small-hole gauge" if is_small else "telescoping gauge and micrometer"
