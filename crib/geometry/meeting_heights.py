"""Between which heights of a body a part of it meets a piece of metal. Both are convex, so they meet at all between."""

from __future__ import annotations

from crib.geometry.silhouette import Part
from crib.geometry.slabs import Slab, Span

Heights = tuple[int, int]
"""They meet between the two and not at them; nowhere where the second isn't above the first."""

NOWHERE = (0, 0)

_LESS = 2
"""A part is taken so much narrower, for crossings of edges that lean are rounded to the nanometre."""

_Shape = tuple[float, float, float, float, float, float]
"""A piece whose lower and upper edges are level: their heights, then where they begin and end."""


def meeting_heights(part: Part, slab: Slab, span: Span, x: int) -> Heights:
    """Between which heights of the lower face a part, standing at x, surely meets a span of metal with the clearance
    that it asks for; one that leans asks for none at its ends.

    >>> meeting_heights(Part("teeth", 1, 4, 3, 3), Slab(-9, 0, (Span(0, 9, 0, 9),)), Span(0, 9, 0, 9), 0)
    (-13, -1)
    """
    if part.radius_low == part.radius_high:
        reach = part.radius_low + part.side - _LESS
        low, high = _passed(slab, span, x - reach, x + reach)
        return (round(low - part.high - part.end), round(high - part.low + part.end)) if low < high else NOWHERE
    below, above = (max(0, radius + part.side - _LESS) for radius in (part.radius_low, part.radius_high))
    return _apart((part.low, part.high, x - below, x + below, x - above, x + above), (slab.low, slab.high, *span))


def _passed(slab: Slab, span: Span, left: int, right: int) -> tuple[float, float]:
    """Between which heights a span has anything between two uprights."""
    low, high, _ = slab
    begins, ends, begins_high, ends_high = span
    under: float = low
    over: float = high
    for at_low, at_high in ((right - begins, right - begins_high), (ends - left, ends_high - left)):
        if at_low > 0 < at_high:
            continue
        if at_low <= 0 >= at_high:
            return low, low
        at = low + (high - low) * at_low / (at_low - at_high)
        under, over = (under, min(over, at)) if at_low > 0 else (max(under, at), over)
    return under, over


def _apart(body: _Shape, metal: _Shape) -> Heights:
    """Between which heights, added to a body's own, it meets metal: at one of the corners it is rid of it last."""
    left = max(min(body[2], body[4]), min(metal[2], metal[4]))
    right = min(max(body[3], body[5]), max(metal[3], metal[5]))
    if left >= right:
        return NOWHERE
    at = [left, right, *(x for x in (*body[2:], *metal[2:]) if left < x < right)]
    return (round(min(_edge(metal, x, False) - _edge(body, x, True) for x in at)),
            round(max(_edge(metal, x, True) - _edge(body, x, False) for x in at)))


def _edge(shape: _Shape, x: float, upper: bool) -> float:
    """The height of a shape's upper or lower edge at a place within it."""
    low, high, begins, ends, begins_high, ends_high = shape
    if upper:
        low, high, begins, ends, begins_high, ends_high = high, low, begins_high, ends_high, begins, ends
    if x < begins:
        return low + (high - low) * (begins - x) / (begins - begins_high)
    return low if x <= ends else low + (high - low) * (x - ends) / (ends_high - ends)
