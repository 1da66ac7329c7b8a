"""How the faces of a section came out: which steps made each, in how many pieces, how far off, and whether what leans
was made by edges that lie along it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from crib.section.outline import Face
from crib.section.region import Region, Slab, Span, along

FINE = 50
"""Distances are found to this many nanometres."""

_LEAST_PIECE = 2_000
"""An edge shorter than this [nm] has no direction worth telling: rounding turns it."""


class Standing(NamedTuple):
    """What a step took away by itself, standing at x with its lower face at z; `tag` says whose step it is."""

    tag: int
    x: int
    z: int
    cut: Region


@dataclass(frozen=True)
class Made:
    """How a face came out: the tags of the steps that made it, the number of pieces it is in less one, and the
    greatest distance from its aim. Of a face that leans `runs` are the least and the most that its pieces run over the
    rise of its lean, and `is_along` tells whether all of them lie along it."""

    face: Face
    tags: tuple[int, ...]
    joints: int
    off: int
    runs: tuple[float, float] | None = None
    is_along: bool = True


class _Piece(NamedTuple):
    """A piece of an edge: along the face from low to high; how far from the aim it begins and ends; where it stands
    half-way."""

    low: int
    high: int
    begins: int
    ends: int
    middle: int


def made(face: Face, steps: Sequence[Standing], removed: Region, left: Region) -> Made:
    """Who made a face: the steps whose own edge lies where the finished edge is.

    Where something that had to go is left beside the face, that is told as left, and the edge of it isn't asked to
    lie along anything.
    """
    edges = list(_pieces(face, removed))
    off = max((max(abs(e.begins), abs(e.ends)) for e in edges), default=abs(face.most - face.least))
    tags: list[int] = []
    pieces = set()
    for step in steps:
        for mine in _pieces(face, step.cut):
            if any(_lies_on(mine, edge) for edge in edges):
                pieces.add((0 if face.lean else mine.begins, step.z if face.upright else step.x))
                if step.tag not in tags:
                    tags.append(step.tag)
    runs = _runs(face, edges, left)
    return Made(face, tuple(tags), max(0, len(pieces) - 1), off, runs, _is_along(face, runs))


def _is_along(face: Face, runs: tuple[float, float] | None) -> bool:
    return face.lean is None or runs is None or (face.lean.holds(runs[0]) and face.lean.holds(runs[1]))


def _runs(face: Face, edges: Sequence[_Piece], left: Region) -> tuple[float, float] | None:
    """The least and the most that the pieces of a leaning face run over its rise."""
    if face.lean is None:
        return None
    found = []
    for edge in edges:
        if edge.high - edge.low < _LEAST_PIECE or _is_left_beside(edge, left):
            continue
        more = -face.metal * (edge.ends - edge.begins)
        found.append(face.lean.run + more * face.lean.rise / (edge.high - edge.low))
    return (min(found), max(found)) if found else None


def _is_left_beside(edge: _Piece, left: Region) -> bool:
    spans = left.spans_at((edge.low + edge.high) // 2)
    return any(abs(edge.middle - end) <= FINE for span in spans for end in span)


def _lies_on(mine: _Piece, edge: _Piece) -> bool:
    """Whether a piece lies on another where both are, along the face."""
    low, high = max(mine.low, edge.low), min(mine.high, edge.high)
    if low >= high:
        return False
    return all(abs(_off(mine, at) - _off(edge, at)) <= FINE for at in (low, high))


def _off(piece: _Piece, at: int) -> int:
    return along(piece.begins, piece.ends, piece.low, piece.high, at)


def _pieces(face: Face, region: Region) -> Iterator[_Piece]:
    """The edge of a region that answers to a face, piece by piece."""
    if face.upright:
        yield from _upright(face, region)
        return
    rows = region.slabs if face.metal < 0 else region.slabs[::-1]
    for slab in rows:
        for s in slab.spans:
            left, right = max(min(s[::2]), face.low), min(max(s[1::2]), face.high)
            if left < right:
                off = (slab.low if face.metal < 0 else slab.high) - face.aim
                yield _Piece(left, right, off, off, off)
                return


def _upright(face: Face, region: Region) -> Iterator[_Piece]:
    for slab in region.slabs:
        low, high = max(slab.low, face.low), min(slab.high, face.high)
        if low >= high or not slab.spans:
            continue
        ends = [end for s in slab.spans for end in _ends(face, slab, s, low, high)]
        begins, finishes, middle = min(ends, key=lambda end: abs(end[0]) + abs(end[1]))
        yield _Piece(low, high, begins, finishes, middle)


def _ends(face: Face, slab: Slab, s: Span, low: int, high: int) -> Iterator[tuple[int, int, int]]:
    """The side of a span that answers to a face: how far off it is at low and at high, and where it is half-way."""
    at_low, at_high = (s.right_low, s.right_high) if face.metal > 0 else (s.left_low, s.left_high)
    if face.lean is None:
        yield from ((at - face.aim, at - face.aim, at) for at in (at_low, at_high))
        return
    here, there = (along(at_low, at_high, slab.low, slab.high, z) for z in (low, high))
    yield here - face.aim_at(low), there - face.aim_at(high), (here + there) // 2
