"""Whether others plainly hold a shape seen from above together. It is parted into its core, its sides and the quarters
at its corners, and these are halved until each lies in one of the others."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import product
from math import hypot, sqrt

from crib.geometry.rounded_box import HALF, RoundedBox, outside
from crib.light.tuples import NamedTuple

_PATIENCE = 300
"""After so many pieces it isn't plain."""


class _Piece(NamedTuple):
    """What lies between two corners; of a quarter, which is seen as the upper right one about nought, no more than what
    lies in the round."""

    left: float
    low: float
    right: float
    high: float
    is_round: bool

    def halves(self, radius: int) -> Iterator[_Piece]:
        """Parted across its longer side; of a quarter the boxes round what lies in the round."""
        left, low, right, high, is_round = self
        if right - left > high - low:
            middle = (left + right) / 2
            parts = ((left, low, middle, high), (middle, low, right, high))
        else:
            middle = (low + high) / 2
            parts = ((left, low, right, middle), (left, middle, right, high))
        for left, low, right, high in parts:
            if not is_round:
                yield _Piece(left, low, right, high, False)
            elif hypot(left, low) <= radius:
                yield _Piece(left, low, min(right, sqrt(radius * radius - low * low)),
                             min(high, sqrt(radius * radius - left * left)), True)


def is_held(shape: RoundedBox, shapes: Iterable[RoundedBox]) -> bool | None:
    """Whether others hold a shape together, where that is plain: pieces of it are halved until each lies in one of
    them. None where it isn't, as where they only touch, or it just fits.

    >>> ends = frozenset({RoundedBox(0, 0, 60_000, 0, 9_000), RoundedBox(50_000, 0, 90_000, 0, 9_100)})
    >>> [is_held(RoundedBox(0, 0, long, 0, 8_000), ends) for long in (90_000, 92_000)]
    [True, False]
    """
    patience = _PATIENCE
    largest = sorted(shapes, key=lambda one: one.left - one.right - one.radius)
    for whole, across, up in _pieces(shape):
        waiting = [(whole, list(_near(largest, whole, across, up)))]
        while waiting:
            piece, near = waiting.pop()
            left, low, right, high, is_round = piece
            near = [one for one in near if one[0] <= right and one[2] >= left and one[1] <= high and one[3] >= low]
            x, y = (left + right) / 2, (low + high) / 2
            is_seen = is_round and hypot(x, y) > shape.radius  # what lies beyond the round needn't be held
            for west, south, east, north, one in near:
                if (west <= left and east >= right and south <= low and north >= high
                        and _is_in(piece, one, shape.radius)):
                    break
                is_seen = is_seen or one.off(x, y) <= HALF
            else:
                if not is_seen:
                    return False
                patience -= 1
                if not patience:
                    return None
                waiting += [(half, near) for half in piece.halves(shape.radius)]
    return True


_Near = tuple[int, int, int, int, RoundedBox]
"""The box round a shape, and the shape."""

_AS_IT_IS = (1, 0)


def _pieces(shape: RoundedBox) -> Iterator[tuple[_Piece, tuple[int, int], tuple[int, int]]]:
    """The core of a shape, its sides, and the quarters at its corners, but those that are nothing; each with which way
    its own x and y go, and from where."""
    left, low, right, high, radius = shape
    if not radius or (right > left and high > low):
        yield _Piece(left, low, right, high, False), _AS_IT_IS, _AS_IT_IS
    if not radius:
        return
    for south, north in ((low - radius, low), (high, high + radius)) if right > left else ():
        yield _Piece(left, south, right, north, False), _AS_IT_IS, _AS_IT_IS
    for west, east in ((left - radius, left), (right, right + radius)) if high > low else ():
        yield _Piece(west, low, east, high, False), _AS_IT_IS, _AS_IT_IS
    for across, up in product(((-1, left), (1, right)), ((-1, low), (1, high))):
        yield _Piece(0, 0, radius, radius, True), across, up


def _near(shapes: Iterable[RoundedBox], piece: _Piece, across: tuple[int, int], up: tuple[int, int]
          ) -> Iterator[_Near]:
    """The shapes that come near a piece, from where that is seen."""
    (way, x), (turn, y) = across, up
    for left, low, right, high, radius in shapes:
        left, right = (left - x, right - x) if way > 0 else (x - right, x - left)
        low, high = (low - y, high - y) if turn > 0 else (y - high, y - low)
        west, south, east, north = left - radius, low - radius, right + radius, high + radius
        if west <= piece.right and east >= piece.left and south <= piece.high and north >= piece.low:
            yield west, south, east, north, RoundedBox(left, low, right, high, radius)


def _is_in(piece: _Piece, one: RoundedBox, radius: int) -> bool:
    """Whether a piece lies in a shape, half a nanometre round it too. Of a quarter its corners in the round are looked
    at, and what is farthest along its arc from the point of the core that is nearest to the arc's middle."""
    left, low, right, high, is_round = piece
    its_left, its_low, its_right, its_high, most = one
    if outside(its_left - left, right - its_right, its_low - low, high - its_high) <= most - HALF:
        return True
    if not is_round or right * right + high * high <= radius * radius or one.off(left, low) > -HALF:
        return False
    begin = right, sqrt(max(0.0, radius * radius - right * right))
    end = sqrt(max(0.0, radius * radius - high * high)), high
    if any(one.off(x, y) > -HALF for x, y in ((right, low), (left, high), begin, end)):
        return False
    core_x = min(max((begin[0] + end[0]) / 2, its_left), its_right)
    core_y = min(max((begin[1] + end[1]) / 2, its_low), its_high)
    if core_x <= 0 and core_y <= 0 and begin[1] * core_x >= begin[0] * core_y and end[0] * core_y >= end[1] * core_x:
        return radius + hypot(core_x, core_y) <= most - HALF  # it is farthest straight away from there
    return all(hypot(x - core_x, y - core_y) <= most - HALF for x, y in (begin, end))
