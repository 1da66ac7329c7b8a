"""Where the faces of the stock lie in the part's frame, and which way places count on them."""

from __future__ import annotations

from crib.light.tuples import NamedTuple
from crib.parts.part import Face, Runs, Stock

Vector = tuple[float, float, float]


class Frame(NamedTuple):
    """A face: the corner from which places count, the ways in which along and across grow, and the way out of the
    metal; how long it is both ways, and how deep the stock is behind it [mm]."""

    origin: Vector
    along: Vector
    across: Vector
    out: Vector
    length: float
    width: float
    depth: float

    def at(self, along: float, across: float, out: float = 0.0) -> Vector:
        """A point so far along, across and out of the face, in the part's frame."""
        return tuple(  # type: ignore[return-value]
            o + along * u + across * v + out * n
            for o, u, v, n in zip(self.origin, self.along, self.across, self.out, strict=True))


_X, _Y, _DOWN, _UP = (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, -1.0), (0.0, 0.0, 1.0)
_LEFT, _FRONT = (-1.0, 0.0, 0.0), (0.0, -1.0, 0.0)


def frame_of(stock: Stock, face: Face) -> Frame:
    """The frame of a face.

    >>> frame_of(Stock(100, 50, 20), Face.FRONT).at(10, 5, -2)
    (10.0, 2.0, 15.0)
    """
    length, width, height = stock.length, stock.width, stock.height
    return {
        Face.TOP: Frame((0, 0, height), _X, _Y, _UP, length, width, height),
        Face.BOTTOM: Frame((0, 0, 0), _X, _Y, _DOWN, length, width, height),
        Face.FRONT: Frame((0, 0, height), _X, _DOWN, _FRONT, length, height, width),
        Face.BACK: Frame((0, width, height), _X, _DOWN, _Y, length, height, width),
        Face.LEFT: Frame((0, 0, height), _Y, _DOWN, _LEFT, width, height, length),
        Face.RIGHT: Frame((length, 0, height), _Y, _DOWN, _X, width, height, length),
    }[face]


SIDES: dict[Face, tuple[tuple[str, str], tuple[str, str]]] = {
    **dict.fromkeys((Face.TOP, Face.BOTTOM), (("left", "right"), ("front", "back"))),
    **dict.fromkeys((Face.FRONT, Face.BACK), (("left", "right"), ("top", "bottom"))),
    **dict.fromkeys((Face.LEFT, Face.RIGHT), (("front", "back"), ("top", "bottom"))),
}
"""Between which sides of the part each face reaches along, and across: from the one that places count from."""


def across_its_run(face: Face, runs: Runs) -> tuple[str, str]:
    """The two sides between which a feature that runs so has its width: its drawing's right is the second of them."""
    return SIDES[face][1 if runs is Runs.ALONG else 0]
