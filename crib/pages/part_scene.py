"""A part as it lies in each of its set-ups, seen from above, with what is cut there drawn and numbered."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from enum import StrEnum
from itertools import groupby

from crib.features.base import Feature
from crib.findings.message import templates
from crib.geometry.outline import Opening
from crib.geometry.region import FAR, Region
from crib.pages.part_lying import Sides, laid, point, sides_of, size_of
from crib.parts.part import Face, Part, Place, Placed, Runs
from crib.planning.parts.planned import PartOperation, PartSetup, PlannedPart
from crib.records import dataclass
from crib.units import NM


class Edge(StrEnum):
    """How an edge is seen: at the face that is up, or hidden by metal."""

    SEEN = "seen"
    HIDDEN = "hidden"


@dataclass(frozen=True)
class Box:
    """A rectangle from one corner to the other [mm]; `away` is the edge that lies farthest from who stands there."""

    left: float
    near: float
    right: float
    away: float


@dataclass(frozen=True)
class Ring:
    """A circle [mm]."""

    x: float
    y: float
    radius: float


@dataclass(frozen=True)
class Mark:
    """A feature that is cut there: its number, and its edges."""

    label: str
    edges: tuple[tuple[Edge, Box | Ring], ...]
    is_done: bool = False


@dataclass(frozen=True)
class PartScene:
    """A set-up from above: how wide and deep the work lies [mm], which of its faces is up and which lie to each side,
    and what is cut. `in_jaws`: whether a vice holds it, the fixed jaw away from whoever stands there."""

    number: int
    up: Face
    wide: float
    deep: float
    sides: Sides
    marks: tuple[Mark, ...]
    in_jaws: bool = False


@dataclass(frozen=True)
class PartScenes:
    """All of them."""

    those: tuple[PartScene, ...]


def scenes(planned: PlannedPart) -> PartScenes:
    """A scene for each set-up, in order."""
    return PartScenes(tuple(scene(planned, setup) for setup in planned.setups))


def scene(planned: PlannedPart, setup: PartSetup) -> PartScene:
    """One set-up."""
    mine = [one for one in planned.operations if one.setup_no == setup.no]
    sides, unmade = lying(setup), frozenset(one.feature for one in planned.unmade)
    return PartScene(setup.no, setup.face, *size_of(planned.part.stock, sides), sides,
                     tuple(_marks(planned.part, mine, setup.face, sides, unmade)),
                     "vise" in templates(setup.holds))


def lying(setup: PartSetup) -> Sides:
    """How the work lies in a set-up."""
    return sides_of(setup.face, getattr(setup, "runs", Runs.ALONG))


def _marks(part: Part, operations: Sequence[PartOperation], face: Face, sides: Sides, unmade: frozenset[str]
           ) -> Iterator[Mark]:
    placed = {one.name: one for one in part.features}
    order = dict.fromkeys(one.feature for one in operations)
    for name in order:
        mine = [one for one in operations if one.feature == name]
        if name in placed:
            edges = tuple(_edges(part, placed[name], mine[0].proved.draft.question.feature, face, sides))
            yield Mark(numbers([one.no for one in mine]), edges, all(one.done for one in mine))
    for one in part.features:
        if one.name in unmade:
            yield Mark("?", tuple((Edge.SEEN, Ring(*_laid(part, sides, place, place.along, place.across), 0.0))
                                  for place in one.places if place.face == face))


def numbers(those: Iterable[int]) -> str:
    """Numbers in short.

    >>> numbers([1, 2, 3, 5])
    '1-3, 5'
    """
    runs = [[number for _, number in run] for _, run in groupby(enumerate(those), lambda one: one[1] - one[0])]
    return ", ".join(f"{run[0]}-{run[-1]}" if len(run) > 1 else str(run[0]) for run in runs)


def _edges(part: Part, one: Placed, feature: Feature, face: Face, sides: Sides) -> Iterator[tuple[Edge, Box | Ring]]:
    for place in one.places:
        if place.face == face:
            yield from _at(part, place, feature, sides)


def _laid(part: Part, sides: Sides, place: Place, along: float, across: float) -> tuple[float, float]:
    return laid(part.stock, sides, point(part.stock, place.face, along, across))


def _at(part: Part, place: Place, feature: Feature, sides: Sides) -> Iterator[tuple[Edge, Box | Ring]]:
    """The edges of a feature at one of its places: what opens at its surface, and what runs wider below."""
    gone = feature.outline.aim
    if not gone:
        return
    top, whole = _at_surface(gone), gone.bounds()
    if feature.down is not None:
        for radius in sorted({_radius(top), _radius((whole[0], whole[2]))}, reverse=True):
            edge = Edge.HIDDEN if radius > _radius(top) else Edge.SEEN
            yield edge, Ring(*_laid(part, sides, place, place.along, place.across), radius)
        return
    yield Edge.SEEN, _box(part, place, feature, sides, top)
    if whole[0] < top[0] or whole[2] > top[1]:
        yield Edge.HIDDEN, _box(part, place, feature, sides, (whole[0], whole[2]))


def _radius(span: tuple[int, int]) -> float:
    return max(abs(span[0]), abs(span[1])) / NM


def _at_surface(gone: Region) -> tuple[int, int]:
    """From where to where it opens."""
    slab = gone.slabs[-1]
    return min(one.left_high for one in slab.spans), max(one.right_high for one in slab.spans)


def _box(part: Part, place: Place, feature: Feature, sides: Sides, span: tuple[int, int]) -> Box:
    """What a span of the section is along the feature, no farther than the stock goes."""
    flip = -1 if is_turned(part, place, feature) else 1
    ends = sorted(flip * max(-FAR, min(FAR, end)) / NM for end in span)
    if place.runs == Runs.ALONG:
        x, y = (place.along, place.along + feature.length), (place.across + ends[0], place.across + ends[1])
    else:
        x, y = (place.along + ends[0], place.along + ends[1]), (place.across, place.across + feature.length)
    wide, deep = size_of(part.stock, sides)
    corners = [_laid(part, sides, place, a, b) for a, b in zip(x, y, strict=True)]
    across, down = (sorted(max(0.0, min(at, most)) for at in ends) for ends, most in zip(
        zip(*corners, strict=True), (wide, deep), strict=True))
    return Box(across[0], down[0], across[1], down[1])


def is_turned(part: Part, place: Place, feature: Feature) -> bool:
    """Whether its drawing's right lies towards where the face is counted from: as it is said, else where it is open at
    that side alone and the edge there is the nearer one."""
    if place.turned is not None:
        return place.turned
    room = size_of(part.stock, sides_of(place.face))[0 if place.runs == Runs.ACROSS else 1]
    at = place.along if place.runs == Runs.ACROSS else place.across
    one_sided = any(each.opens(Opening.RIGHT) and not each.opens(Opening.LEFT) for each in feature.outline.rooms)
    return one_sided and at < room / 2
