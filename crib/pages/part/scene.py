"""A part as it lies in each of its set-ups, seen from above, with what is cut there drawn and numbered."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import groupby

from crib.features.base import Feature
from crib.findings.message import templates
from crib.geometry.outline import Opening
from crib.geometry.region import FAR, Region
from crib.light.choices import StrEnum
from crib.light.records import dataclass
from crib.parts.frame import Vector, frame_of
from crib.parts.part import Face, Part, Place, Placed
from crib.parts.sides import Sides, laid, sides_of, size_of
from crib.parts.solids import axes, run_of
from crib.planning.parts.lies import drawn_of
from crib.planning.parts.planned import PartOperation, PartSetup, PlannedPart
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

    @property
    def places(self) -> tuple[Box | Ring, ...]:
        """What its number stands at: each of its holes once, of what runs each piece that is seen."""
        rings = {(one.x, one.y): one for _, one in self.edges if isinstance(one, Ring)}
        return (*(one for edge, one in self.edges if isinstance(one, Box) and edge == Edge.SEEN), *rings.values())


def labelled(marks: Sequence[Mark]) -> Iterator[tuple[Box | Ring, Mark]]:
    """What numbers stand at: one for all that is made at the same axis, one for each piece of what runs."""
    rings: dict[tuple[float, float], list[tuple[Ring, Mark]]] = {}
    for mark in marks:
        for shape in mark.places:
            if isinstance(shape, Ring):
                rings.setdefault((round(shape.x, 2), round(shape.y, 2)), []).append((shape, mark))
            else:
                yield shape, mark
    for those in rings.values():
        yield max((shape for shape, _ in those), key=lambda one: one.radius), Mark(
            merged(mark.label for _, mark in those), (), all(mark.is_done for _, mark in those))


def merged(labels: Iterable[str]) -> str:
    """The numbers of several labels in one.

    >>> merged(["1-2", "3-5"]), merged(["9, 11", "14"]), merged(["?"])
    ('1-5', '9, 11, 14', '?')
    """
    words = [word for label in labels for word in label.split(", ")]
    ranges = [word.partition("-") for word in words if word[0].isdigit()]
    every = {number for low, _, high in ranges for number in range(int(low), int(high or low) + 1)}
    return ", ".join(filter(None, (numbers(sorted(every)), *dict.fromkeys(w for w in words if not w[0].isdigit()))))


@dataclass(frozen=True)
class PartScene:
    """A set-up from above: how wide and deep the work lies [mm], which of its faces is up and which lie to each side,
    and what is cut. `in_jaws`: whether a vise holds it, the fixed jaw away from whoever stands there."""

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
    return sides_of(setup.face, setup.runs, setup.turned)


def _marks(part: Part, operations: Sequence[PartOperation], face: Face, sides: Sides, unmade: frozenset[str]
           ) -> Iterator[Mark]:
    placed = {one.name: one for one in part.features}
    order = dict.fromkeys(one.feature for one in operations)
    for name in order:
        mine = [one for one in operations if one.feature == name]
        if name in placed:
            edges = tuple(_edges(part, placed[name], drawn_of(mine[0].proved.draft.question), face, sides))
            yield Mark(numbers([one.no for one in mine]), edges, all(one.done for one in mine))
    for one in part.features:
        if one.name in unmade:
            yield Mark("?", tuple((Edge.SEEN, Ring(*laid(part.stock, sides, _point(part, place)), 0.0))
                                  for place in one.places if place.face == face))


def _point(part: Part, place: Place) -> Vector:
    """Where a place lies in the part."""
    return frame_of(part.stock, place.face).at(place.along, place.across)


def numbers(those: Iterable[int]) -> str:
    """Numbers in short.

    >>> numbers([1, 2, 3, 5])
    '1-3, 5'
    """
    runs = [[number for _, number in run] for _, run in groupby(enumerate(those), lambda one: one[1] - one[0])]
    return ", ".join(f"{run[0]}-{run[-1]}" if len(run) > 1 else str(run[0]) for run in runs)


def _edges(part: Part, one: Placed, feature: Feature, face: Face, sides: Sides) -> Iterator[tuple[Edge, Box | Ring]]:
    if feature.down is not None:
        yield from _rings(part, one, feature, face, sides)
        return
    for place in one.places:
        yield from _at(part, place, feature, sides) if place.face == face else _over(part, place, feature, sides)


def _over(part: Part, place: Place, feature: Feature, sides: Sides) -> Iterator[tuple[Edge, Box | Ring]]:
    """What is cut on its side: as deep as it goes from its own face, hidden where metal stays over it."""
    _, low, _, high = feature.outline.aim.bounds()
    run = run_of(part.stock, place, feature)
    edge = Edge.SEEN if any(room.opens(Opening.RIGHT) for room in feature.outline.rooms) else Edge.HIDDEN
    yield edge, _between(part, sides, run.at(run.begin, 0.0, low / NM), run.at(run.end, 0.0, high / NM))


def _at(part: Part, place: Place, feature: Feature, sides: Sides) -> Iterator[tuple[Edge, Box | Ring]]:
    """The edges of what runs along or across at one of its places: what opens at its surface, what is wider below."""
    gone = feature.outline.aim
    if not gone:
        return
    top, whole = _at_surface(gone), gone.bounds()
    yield Edge.SEEN, _box(part, place, feature, sides, top)
    if whole[0] < top[0] or whole[2] > top[1]:
        yield Edge.HIDDEN, _box(part, place, feature, sides, (whole[0], whole[2]))


def _rings(part: Part, one: Placed, feature: Feature, face: Face, sides: Sides) -> Iterator[tuple[Edge, Box | Ring]]:
    """The same of what is made down an axis, at each of its places."""
    gone, frame = feature.outline.aim, frame_of(part.stock, face)
    if not gone:
        return
    top, whole = _at_surface(gone), gone.bounds()
    radii = sorted({_radius(top), _radius((whole[0], whole[2]))}, reverse=True)
    for axis in axes(part, one, feature):
        if all(abs(a + b) < 1e-6 for a, b in zip(axis.inward, frame.out, strict=True)):
            at = laid(part.stock, sides, axis.point)
            yield from ((Edge.HIDDEN if radius > _radius(top) else Edge.SEEN, Ring(*at, radius)) for radius in radii)


def _radius(span: tuple[int, int]) -> float:
    return max(abs(span[0]), abs(span[1])) / NM


def _at_surface(gone: Region) -> tuple[int, int]:
    """From where to where it opens."""
    slab = gone.slabs[-1]
    return min(one.left_high for one in slab.spans), max(one.right_high for one in slab.spans)


def _box(part: Part, place: Place, feature: Feature, sides: Sides, span: tuple[int, int]) -> Box:
    """What a span of the section is along its run, no farther than the stock goes."""
    run = run_of(part.stock, place, feature)
    first, last = (max(-FAR, min(FAR, end)) / NM for end in span)
    return _between(part, sides, run.at(run.begin, first, 0.0), run.at(run.end, last, 0.0))


def _between(part: Part, sides: Sides, one: Vector, other: Vector) -> Box:
    """From one corner to another as the work lies, no farther than the stock goes."""
    size, corners = size_of(part.stock, sides), [laid(part.stock, sides, at) for at in (one, other)]
    (left, right), (near, away) = (sorted(max(0.0, min(at, most)) for at in both)
                                   for both, most in zip(zip(*corners, strict=True), size, strict=True))
    return Box(left, near, right, away)
