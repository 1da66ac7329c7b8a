"""How the faces of a section came out: which steps made each, in how many pieces, how far off, and whether what leans
was made by edges that lie along it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from crib.geometry.outline import Face, Lean
from crib.geometry.region import Region
from crib.geometry.slabs import Slab, Span, along
from crib.light.records import dataclass
from crib.light.tuples import NamedTuple

FINE = 50
"""Distances are found to this many nanometres."""

_LEAST_PIECE, _ROUNDING = 2_000, 4
"""An edge shorter than this has no direction worth telling, and the ends of any are good to so much [nm]."""


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
    lie along anything; nor is a rounded corner at the face's low end, of the step that made the face.
    """
    edges = list(_pieces(face, removed))
    off = max((max(abs(e.begins), abs(e.ends)) for e in edges), default=abs(face.most - face.least))
    tags: list[int] = []
    pieces = set()
    makers: dict[_Piece, set[int]] = {edge: set() for edge in edges}
    for number, step in enumerate(steps):
        for mine in _pieces(face, step.cut):
            own = [edge for edge in edges if _lies_on(mine, edge)]
            for edge in own:
                makers[edge].add(number)
            if own:
                pieces.add((0 if face.lean else mine.begins, step.z if face.upright else step.x))
                if step.tag not in tags:
                    tags.append(step.tag)
    asked = _asked(face, edges, left)
    if face.lean:
        asked = asked[_foot(face, face.lean, asked, makers):]
    runs = [_run(face, face.lean, edge) for edge in asked if face.lean]
    return Made(face, tuple(tags), max(0, len(pieces) - 1), off, (min(runs), max(runs)) if runs else None,
                all(_lies_along(face, face.lean, edge) for edge in asked if face.lean))


def is_along(face: Face, steps: Sequence[Standing], removed: Region, left: Region) -> bool:
    """Whether a face was made by edges that lie along it, as `made` tells: mostly all do, whoever made them."""
    return not face.lean or all(_lies_along(face, face.lean, edge) for edge in _asked(
        face, list(_pieces(face, removed)), left)) or made(face, steps, removed, left).is_along


def _asked(face: Face, edges: Sequence[_Piece], left: Region) -> list[_Piece]:
    """The pieces of a face that leans that are to lie along it."""
    return [edge for edge in edges if face.lean and _has_direction(edge) and not _is_left_beside(edge, left)]


def _foot(face: Face, lean: Lean, edges: Sequence[_Piece], makers: Mapping[_Piece, set[int]]) -> int:
    """How many pieces from the low end up are a rounded corner: the very step that made the face above made them."""
    first = next((n for n, edge in enumerate(edges) if _lies_along(face, lean, edge)), 0)
    return first if all(makers[edge] & makers[edges[first]] for edge in edges[:first]) else 0


def _run(face: Face, lean: Lean, edge: _Piece) -> float:
    """How far a piece of a leaning face runs over the rise of its lean."""
    return lean.run - face.metal * (edge.ends - edge.begins) * lean.rise / (edge.high - edge.low)


def _lies_along(face: Face, lean: Lean, edge: _Piece) -> bool:
    """Whether a piece lies along its face, as far as ends on whole nanometres can tell."""
    spare = _ROUNDING * lean.rise / (edge.high - edge.low)
    return lean.least - spare <= _run(face, lean, edge) <= lean.most + spare


def _has_direction(edge: _Piece) -> bool:
    return edge.high - edge.low >= _LEAST_PIECE


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
