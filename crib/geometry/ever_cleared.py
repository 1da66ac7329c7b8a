"""What some bodies can ever clear, one after the other, in whatever order and however often.

It is the least fixed point of a sweep: where each can stand with so much gone, and what it takes there. A body finds no
less room where more is gone, so the order decides nothing and no plan takes more. Positions are closed and metal is
open. Between two heights a body is taken as what of it is there at all of them, and sweeps all that it could at any:
so nothing that leans makes the answer too small.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise

from crib.geometry.drawn_body import Body, Drawn, cores
from crib.geometry.free_positions import Interval, blocked, outside
from crib.geometry.region import NOTHING, Region, may_meet, union
from crib.geometry.silhouette import Part
from crib.light.tuples import NamedTuple

SPARE = 250
"""A body that is to reach no less than it does is drawn so much larger where it cuts, and so much smaller where it must
not: edges that lean end on whole nanometres, and proofs measure to fifty."""

_GRAIN = 8
"""What a span grows by less than this comes of rounding [nm]."""

_STEPS, _OF_ONE = 16, 4
"""A range of heights is looked at in so many steps at the least, and a step of it once more."""


def ever_cleared(stock: Region, keep: Region, obstacles: Region, bodies: Iterable[Body], wanted: Region | None = None,
                 spare: int = SPARE) -> Region:
    """What bodies can ever clear of stock; all that is asked for of it where some is `wanted`. `keep`: what must stay,
    obstacles included; `spare`: 0 for bodies as they are.

    >>> from crib.geometry.region import box
    >>> from crib.geometry.silhouette import Part, Silhouette
    >>> parts = Part("removes", 0, 4, 3, 3), Part("stem", 4, 20, 1, 1)
    >>> disc = Silhouette(parts[:1], parts[:1], parts[1:])
    >>> stock, room = box(-9, -9, 9, 0), box(-3, -6, 3, 0)
    >>> ever_cleared(stock, stock - room, NOTHING, [Body(disc, ((-6, 0),))], spare=0) == room
    True
    """
    return Clearing(stock, keep, obstacles, bodies, spare).cleared(wanted)


class Clearing:
    """Bodies that clear stock as far as they ever can, and what they cleared so far."""

    def __init__(self, stock: Region, keep: Region, obstacles: Region, bodies: Iterable[Body], spare: int = SPARE
                 ) -> None:
        self.stock, self.keep, self.obstacles, self.spare = stock, keep, obstacles, spare
        self.bodies, self.gone = list(bodies), NOTHING
        self._seen = dict.fromkeys(range(len(self.bodies)), -1)
        self._movers: dict[Body, _Mover] = {}

    def cleared(self, wanted: Region | None = None) -> Region:
        """All that they can ever clear; where some is `wanted` no more than it takes to have all of that. Asked again
        it is gone on with."""
        while True:
            before = self.gone.area
            for number, body in enumerate(self.bodies):
                if wanted is not None and not wanted - self.gone:
                    return self.gone
                if self._seen[number] == self.gone.area:
                    continue
                self._seen[number] = self.gone.area
                standing = (self.stock - self.gone) | self.obstacles
                self.gone = self.gone | (self._mover(body).takes(standing) & self.stock)
            if self.gone.area == before:
                return self.gone

    def in_goes(self, goes: Sequence[Sequence[Body]], most: int, wanted: Region) -> Region:
        """What is cleared where no more than so many go, one after the other and each of them once: a body, or several
        that are one in other places, again and again while its go lasts. In each go all are let from where all got
        before."""
        movers = [[self._mover(body).anew() for body in bodies] for bodies in goes]
        gone = NOTHING
        for _ in range(most):
            before = gone
            for one in movers:
                gone = gone | _alone(one, self.stock, self.obstacles, before)
                if not wanted - gone:
                    return gone
            if gone.area == before.area:
                break
        return gone

    def _mover(self, body: Body) -> _Mover:
        if body not in self._movers:
            self._movers[body] = _Mover.of(body, self.stock, self.keep, self.spare)
        return self._movers[body]


def never_cleared(keep: Region, bodies: Iterable[Body], wanted: Region, spare: int = SPARE) -> Region:
    """What of some metal no body reaches even where nothing stands but what must stay: sooner told than what all
    together ever clear, and never more than what they leave of it. Bodies are only looked at near what the others
    didn't reach, so that those that reach most are best first. `spare`: 0 for bodies as they are.

    >>> from crib.geometry.region import box
    >>> from crib.geometry.silhouette import Part, Silhouette
    >>> parts = Part("removes", 0, 4, 3, 3), Part("stem", 4, 20, 1, 1)
    >>> disc = Silhouette(parts[:1], parts[:1], parts[1:])
    >>> keep = box(-9, -9, 9, 0) - box(-3, -6, 3, 0)
    >>> never_cleared(keep, [Body(disc, ((-6, 0),))], box(-3, -7, 3, 0), spare=0).bounds()
    (-3, -7, 3, -6)
    """
    for body in bodies:
        if not wanted:
            break
        if near := _near(body, wanted, spare):
            wanted = wanted - union(_reached(near, keep, wanted, spare))
    return wanted


def _reached(body: Body, keep: Region, wanted: Region, spare: int) -> Iterator[Region]:
    """What a body passes over where it reaches some metal."""
    drawn = Drawn.of(body, spare)
    for low, high, spans in _ranges(drawn, body.heights, keep, wanted):
        if spans is None:
            yield _Mover.of(body._replace(heights=((low, high),)), NOTHING, keep, spare, _OF_ONE).takes(NOTHING)
        else:
            yield from drawn.swept(spans, low, high)


def _ranges(drawn: Drawn, heights: Iterable[Interval], keep: Region, wanted: Region
            ) -> Iterator[tuple[int, int, tuple[Interval, ...] | None]]:
    """Between which heights a body may reach some metal, and between which places it goes there: told of a range of
    heights as a whole where it goes between the same ones at all of them, and else, only where it may reach any from
    there, of its halves; None for the places where the last of these aren't alike."""
    ranges = [(low, high, _STEPS) for low, high in heights]
    while ranges:
        low, high, parts = ranges.pop()
        band, middle = _band(drawn, keep, False, low, high), (low + high) // 2
        spans = drawn.within(outside(band.kept_from))
        if not any(may_meet(one, wanted) for one in drawn.swept(spans, low, high)):
            continue
        if spans == drawn.within(outside(blocked(tuple(drawn.hulls(high - low)), keep, low))):
            yield low, high, spans
        elif parts > 1 and low < high:
            ranges += [(middle + 1, high, parts // 2), (low, middle, parts // 2)]
        else:
            yield low, high, None


def goes_near(body: Body, wanted: Region, spare: int = SPARE) -> bool:
    """Whether a body may take some metal, as far as the heights and places tell between which it stands; soon told."""
    left, low, right, high = wanted.bounds()
    out, under = body.form.radius + 2 * spare, high - body.form.low + spare
    return body.sides[0] < right + out and body.sides[1] > left - out and any(
        lowest <= under and highest >= low - body.form.height - spare for lowest, highest in body.heights)


def _near(body: Body, wanted: Region, spare: int) -> Body | None:
    """A body where it may take some metal; None where it surely touches none or no more than touches it."""
    if not goes_near(body, wanted, spare):
        return None
    left, low, right, high = wanted.bounds()
    under, out = body.form.low, body.form.radius + 2 * spare
    heights = tuple((max(lowest, low - body.form.height - spare), min(highest, high - under + spare))
                    for lowest, highest in body.heights)
    heights = tuple((lowest, highest) for lowest, highest in heights if lowest <= highest)
    sides = max(body.sides[0], left - out), min(body.sides[1], right + out)
    return body._replace(heights=heights, sides=sides)


def _alone(movers: Sequence[_Mover], stock: Region, obstacles: Region, gone: Region) -> Region:
    """What is gone after a go of one body, or of several that are one."""
    while True:
        before = gone
        for mover in movers:
            gone = gone | (mover.takes((stock - gone) | obstacles) & stock)
        if gone.area == before.area:
            return gone


class _Band(NamedTuple):
    """Heights of the lower face, from one to another: what of the stem is there at all of them, and where what must
    stay is in the way at all of them."""

    low: int
    high: int
    stem: tuple[Part, ...]
    kept_from: list[Interval]


class _Mover:
    """A body on its way through growing room: its bands, and where it stood in each."""

    def __init__(self, drawn: Drawn, bands: Sequence[_Band]) -> None:
        self.drawn, self.bands = drawn, bands
        self.stood: list[tuple[Interval, ...]] = [()] * len(self.bands)

    @staticmethod
    def of(body: Body, stock: Region, keep: Region, spare: int, steps: int = _STEPS) -> _Mover:
        """A body that hasn't moved yet."""
        drawn = Drawn.of(body, spare)
        edges = {z for slab in (*stock.slabs, *keep.slabs) for z in slab[:2]}
        bands = dict.fromkeys(_bands((*drawn.removing, *drawn.stem), edges, body.heights, steps))
        is_upright = all(s[0] == s[2] and s[1] == s[3] for slab in keep.slabs for s in slab.spans)
        return _Mover(drawn, [_band(drawn, keep, is_upright, *band) for band in bands])

    def anew(self) -> _Mover:
        """The same before it moved."""
        return _Mover(self.drawn, self.bands)

    def takes(self, standing: Region) -> Region:
        """What it passes over from where it couldn't stand before."""
        runs: list[tuple[int, int, list[Interval]]] = []
        for place, band in enumerate(self.bands):
            spans = self.drawn.within(outside([*band.kept_from, *blocked(band.stem, standing, band.low)]))
            fresh = [span for span in spans if not _is_known(span, self.stood[place])]
            self.stood[place] = spans
            if runs and runs[-1][2] == fresh and 0 <= band.low - runs[-1][1] <= 1:
                runs[-1] = (runs[-1][0], band.high, fresh)
            else:
                runs.append((band.low, band.high, fresh))
        return union(piece for low, high, fresh in runs for piece in self.drawn.swept(fresh, low, high))


def _band(drawn: Drawn, keep: Region, is_upright: bool, low: int, high: int) -> _Band:
    """A band; `is_upright`: what must stay is, and what an upright part meets of it doesn't change within the band."""
    by, every = high - low, (*drawn.removing, *drawn.stem)
    alike = [part for part in every if is_upright and part.radius_low == part.radius_high]
    others = cores((part for part in every if part not in alike), by)
    return _Band(low, high, tuple(cores(drawn.stem, by)),
                 [*blocked(alike, keep, low), *blocked(tuple(others), keep, low)])


def _is_known(span: Interval, stood: Sequence[Interval]) -> bool:
    return any(left - _GRAIN <= span[0] and span[1] <= right + _GRAIN for left, right in stood)


def _bands(parts: Sequence[Part], edges: set[int], heights: Iterable[Interval], steps: int) -> Iterator[Interval]:
    """The heights at which what an upright part meets of level edges changes, each by itself, and what lies between,
    in steps."""
    changes = {at for part in parts if part.radius_low == part.radius_high for z in edges
               for at in (z - part.high - part.end, z - part.low + part.end)}
    for low, high in heights:
        step = max(1, -((low - high) // steps))
        at = {low, high, *(z for z in changes if low < z < high), *range(low, high, step)}
        for here, above in pairwise(sorted(at)):
            yield here, here
            if above - here > 1:
                yield here + 1, above - 1
        yield high, high
