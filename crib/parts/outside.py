"""How the features of a part lie to the faces of its stock: outside of it, or so near to a face that little is left."""

from __future__ import annotations

from collections.abc import Iterator
from shlex import quote

from crib.features.base import Comes
from crib.findings.errors import failure
from crib.findings.finding import Finding, Grade
from crib.findings.message import Mm, said
from crib.parts.lying import SLACK_MM, Lying
from crib.parts.part import Stock
from crib.parts.walls import least_wall

SIDES = (("left", "right"), ("front", "back"), ("bottom", "top"))
"""The faces across x, y and z: where it counts from, and the far one."""


def size_of(stock: Stock) -> tuple[float, float, float]:
    """How far the stock goes in x, y and z [mm]."""
    return stock.length, stock.width, stock.height


def outside(one: Lying) -> Iterator[Finding]:
    """What of a feature lies outside the stock, and where it comes out of a side; nothing is asked of a face that is
    milled all over."""
    if one.comes is Comes.FIRST:
        return
    worst: dict[str, float] = {}
    for side, out in _sticking_out(one):
        worst[side] = max(worst.get(side, 0.0), out)
    for side, out in worst.items():
        if _is_off(one, side):
            yield failure("part-outside", said("{feature}: lies outside the stock, {out} beyond its {side}",
                                               feature=one.name, out=Mm(out), side=side), one.name,
                          f"a place within the stock (crib part {quote(one.part.name)} move), or larger stock")
        else:
            yield Finding("part-edge", Grade.CAUTION,
                          said("{feature}: breaks out of the {side}, by {out}", feature=one.name, side=side,
                               out=Mm(out)), "geometry", has_mm=-out, needs_mm=0.0,
                          fix="leave it so where an open edge does no harm, or move it inwards", read=one.name)


def _sticking_out(one: Lying) -> Iterator[tuple[str, float]]:
    """The sides beyond which pieces of it reach, and how far; open ends run out as they may, and beyond the face that
    it is cut from there is air."""
    sizes = size_of(one.part.stock)
    run = _open_run(one)
    own = str(one.placed.place.face)
    for piece in one.solids:
        low, high = piece.body.bounds
        for axis, (near, far) in enumerate(SIDES):
            if axis == run and low[axis] < sizes[axis] and high[axis] > 0:
                continue
            if low[axis] < -SLACK_MM and near != own:
                yield near, -low[axis]
            if high[axis] > sizes[axis] + SLACK_MM and far != own:
                yield far, high[axis] - sizes[axis]


def _open_run(one: Lying) -> int | None:
    """The axis along which it runs, where both of its ends are open."""
    if one.feature.down is not None or one.feature.request.ends != "open":
        return None
    along, across = one.frame.along, one.frame.across
    way = along if one.placed.place.runs == "along" else across
    return max(range(3), key=lambda axis: abs(way[axis]))


def _is_off(one: Lying, side: str) -> bool:
    """Whether what sticks out there is no mere rim of a hole: its axis lies outside, it comes out where it has no
    business to, or it is no hole."""
    if one.feature.down is None:
        return True
    sizes = size_of(one.part.stock)
    if any(not -SLACK_MM <= at <= size + SLACK_MM for axis in one.axes
           for at, size in zip(axis.point, sizes, strict=True)):
        return True
    axis = next(at for at, pair in enumerate(SIDES) if side in pair)
    inward = abs(one.axes[0].inward[axis]) > 0.5
    return inward and not getattr(one.feature.down, "through", False)


def near_faces(one: Lying) -> Iterator[Finding]:
    """Where so little is left between a feature and a face of the stock that it springs or breaks out."""
    if one.comes is not Comes.ANYWHERE:
        return
    sizes = size_of(one.part.stock)
    found: dict[str, tuple[float, float, str]] = {}
    touched = {side for piece in one.solids for side, gap in _gaps(piece.body.bounds, sizes) if gap <= SLACK_MM}
    for piece in one.solids:
        for side, gap in _gaps(piece.body.bounds, sizes):
            axis = next(at for at, pair in enumerate(SIDES) if side in pair)
            if side in touched or _is_floor(one, axis):
                continue
            least = least_wall(one, None, piece.body.bounds, _slab(piece.body.bounds, axis))
            if SLACK_MM < gap < least and gap < found.get(side, (gap + 1,))[0]:
                found[side] = gap, least, piece.room
    for side, (gap, least, room) in found.items():
        yield Finding("part-near-face", Grade.CAUTION,
                      said("{feature}: leaves {gap} to the {side} of the stock beside its {room}; under {least} it "
                           "springs away, or breaks out", feature=one.name, gap=Mm(gap), side=side, room=room,
                           least=Mm(least)), "from memory", has_mm=gap, needs_mm=least,
                      fix="farther in, or a smaller one; or wider stock, brought down to size last", read=one.name)


def _is_floor(one: Lying, axis: int) -> bool:
    """Whether that is the way in which it is cut: what is left there is its floor, of which its plan tells."""
    return abs(one.frame.out[axis]) > 0.5


def _gaps(bounds: tuple[tuple[float, ...], tuple[float, ...]], sizes: tuple[float, ...]
          ) -> Iterator[tuple[str, float]]:
    low, high = bounds
    for axis, (near, far) in enumerate(SIDES):
        yield near, low[axis]
        yield far, sizes[axis] - high[axis]


def _slab(bounds: tuple[tuple[float, ...], tuple[float, ...]], axis: int) -> tuple[float, ...]:
    """How far the metal between a piece and a face reaches in the two other ways."""
    low, high = bounds
    return tuple(high[at] - low[at] for at in range(3) if at != axis)
