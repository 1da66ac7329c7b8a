"""A turning body as it is reckoned with: drawn a hair larger where it cuts and smaller where it must not, and what it
sweeps between two heights. What leans is taken as what of it is there at all of them, and sweeps all that it could."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise

from crib.geometry.free_positions import Interval
from crib.geometry.region import FAR, Region, box, pile, trapezoid
from crib.geometry.silhouette import Part, Silhouette
from crib.geometry.slabs import Slab, Span
from crib.light.tuples import NamedTuple


class Body(NamedTuple):
    """A turning body with the heights between which its lower face may stand, and between which places its axis."""

    form: Silhouette
    heights: tuple[Interval, ...]
    sides: Interval = (-FAR, FAR)


class Drawn(NamedTuple):
    """A body as it is reckoned with, drawn larger where it cuts and smaller where it must not: what it surely takes,
    as a bulge where it is one, what else of it may touch nothing that must stay, and between which places it goes."""

    sure: tuple[Part, ...]
    bulge: _Bulge | None
    removing: tuple[Part, ...]
    stem: tuple[Part, ...]
    sides: Interval

    @staticmethod
    def of(body: Body, spare: int) -> Drawn:
        """A body drawn so much larger and smaller."""
        sure = tuple(_grown(part, spare) for part in body.form.sure)
        return Drawn(sure, _Bulge.of(sure), tuple(_shrunk(part, spare) for part in body.form.may),
                      tuple(_shrunk(part, spare) for part in _apart(body.form)),
                      (body.sides[0] - spare, body.sides[1] + spare))

    def within(self, spans: Iterable[Interval]) -> tuple[Interval, ...]:
        """What of some spans lies where it goes."""
        left, right = self.sides
        return tuple((max(low, left), min(high, right)) for low, high in spans if low <= right and high >= left)

    def swept(self, spans: Iterable[Interval], low: int, high: int) -> Iterator[Region]:
        """What it passes over from all positions of some spans, its lower face from one height to another."""
        for span in spans:
            if self.bulge:
                yield self.bulge.swept(span, low, high)
            else:
                yield from swept(self.sure, span, low, high)


    def hulls(self, by: int) -> Iterator[Part]:
        """Parts that cover what of it may touch nothing that must stay, its lower face at any height from nought to so
        much."""
        for part in (*self.removing, *self.stem):
            if part.radius_low > part.radius_high:
                yield part._replace(high=part.low + by, radius_high=part.radius_low, end=0)
                yield part._replace(low=part.low + by, high=part.high + by)
            else:
                yield part
                yield part._replace(low=part.high, high=part.high + by, radius_low=part.radius_high)


def swept(parts: Iterable[Part], span: Interval, low: int, high: int) -> Iterator[Region]:
    """What parts pass over from all positions of a span, their lower face from one height to another."""
    left, right = span
    for part in parts:
        begins, narrow, wide = part.low, part.radius_low, part.radius_high
        if narrow > wide or (narrow == wide and high > low):
            yield box(left - narrow, low + begins, right + narrow, high + begins)
        at = high if narrow > wide else low
        yield trapezoid(at + begins, at + part.high, left - narrow, right + narrow, left - wide, right + wide)
        if narrow <= wide and high > low:
            yield box(left - wide, low + part.high, right + wide, high + part.high)


class _Bulge(NamedTuple):
    """A body that gets no narrower up to a height, and no wider from there on: by its parts, on top of one another."""

    grows: tuple[Part, ...]
    middle: int
    radius: int
    shrinks: tuple[Part, ...]

    @staticmethod
    def of(parts: Sequence[Part]) -> _Bulge | None:
        """The bulge that some parts are together; None where they are none."""
        stack: list[Part] = []
        for part in parts:
            if stack and stack[-1].high > part.low:
                below = stack.pop()
                if below.widest <= min(part.radius_low, part.radius_high):
                    below = below._replace(high=part.low, radius_high=below.radius_at(part.low))
                else:
                    part = part._replace(low=below.high, radius_low=part.radius_at(below.high))
                stack.append(below)
            stack.append(part)
        radii = [radius for part in stack for radius in (part.radius_low, part.radius_high)]
        at = (radii.index(max(radii)) + 1) // 2
        grows, shrinks = radii[: 2 * at], radii[2 * at:]
        if (grows, shrinks) != (sorted(grows), sorted(shrinks, reverse=True)) or any(
                a.high != b.low for a, b in pairwise(stack)) or any(part.low >= part.high for part in stack):
            return None
        middle = stack[at].low if at < len(stack) else stack[-1].high
        return _Bulge(tuple(stack[:at]), middle, max(radii), tuple(stack[at:]))

    def swept(self, span: Interval, low: int, high: int) -> Region:
        """What it passes over from all positions of a span, its lower face from one height to another: what gets wider
        takes the most where it is lowest, what gets narrower where it is highest."""
        (left, right), wide = span, self.radius
        slabs = [*(_slab(part, low, left, right) for part in self.grows),
                 Slab(low + self.middle, high + self.middle,
                      (Span(left - wide, right + wide, left - wide, right + wide),)),
                 *(_slab(part, high, left, right) for part in self.shrinks)]
        return pile(slab for slab in slabs if slab.low < slab.high)


def _slab(part: Part, at: int, left: int, right: int) -> Slab:
    """A part from all positions between two at a height."""
    return Slab(at + part.low, at + part.high, (Span(left - part.radius_low, right + part.radius_low,
                                                     left - part.radius_high, right + part.radius_high),))


def cores(parts: Iterable[Part], by: int) -> Iterator[Part]:
    """What of some parts is there at every height of the lower face from nought to so much."""
    return (core for part in parts if (core := _part_core(part, by)))


def _part_core(part: Part, by: int) -> Part | None:
    name, begins, ends, narrow, wide, side, end = part
    if narrow == wide:
        low, high = begins - end + by, ends + end
        return Part(name, low, high, narrow, narrow, side, 0) if low < high else None
    low = begins + by
    if low >= ends:
        return None
    grows = narrow < wide
    return Part(name, low, ends, narrow if grows else part.radius_at(low),
                part.radius_at(ends - by) if grows else wide, side, 0)


def _apart(form: Silhouette) -> Iterator[Part]:
    """What must stay clear, under and over what removes: between its heights that takes what is in the way as it
    comes."""
    low, high = min(part.low for part in form.sure), form.height
    for part in form.clear:
        begins, ends = part.low - part.end, part.high + part.end
        if part.radius_low != part.radius_high:
            if part.low >= high or part.high <= low:
                yield part
            continue
        if begins < low:
            yield part._replace(low=begins, high=min(ends, low), end=0)
        if ends > high:
            yield part._replace(low=max(begins, high), high=ends, end=0)


def _grown(part: Part, by: int) -> Part:
    """A part drawn larger; one that leans only sideways, for there no end of it stands free."""
    if part.radius_low == part.radius_high:
        part = part._replace(low=part.low - by, high=part.high + by)
    return part._replace(radius_low=part.radius_low + by, radius_high=part.radius_high + by)


def _shrunk(part: Part, by: int) -> Part:
    """A part drawn smaller; one that leans only sideways."""
    if part.radius_low == part.radius_high:
        less = max(0, min(by, (part.high - part.low - 1) // 2))
        part = part._replace(low=part.low + less, high=part.high - less)
    return part._replace(radius_low=max(0, part.radius_low - by), radius_high=max(0, part.radius_high - by))
