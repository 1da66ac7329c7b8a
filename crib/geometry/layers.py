"""What is asked from above: a feature with ends is a stack of layers, each the plan shape of a room at some heights. x
runs along the feature and y across; all lengths are whole nanometres."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import pairwise

from crib.geometry.arcs import quarter
from crib.geometry.region import FAR, Region, box
from crib.geometry.rounded_box import RoundedBox
from crib.light.records import dataclass, field, replace
from crib.light.tuples import NamedTuple


class Layer(NamedTuple):
    """A room between two heights, seen from above."""

    low: int
    high: int
    shape: RoundedBox


class Corners(NamedTuple):
    """The radius that a room's inside corners have as seen from above, at the least, as it is aimed at and at the most;
    `waived`: the most that an owner may let them have."""

    least: int
    aim: int
    most: int
    waived: int


class Ends(NamedTuple):
    """From where to where a room runs along, as it is aimed at, and at the least and at the most as a length; `kept`:
    at the least where an owner lets its ends stand short, None where they may not."""

    left: int
    right: int
    least: int = 0
    most: int = FAR
    kept: int | None = None

    @property
    def middle(self) -> int:
        """Half-way along."""
        return (self.left + self.right) // 2

    @property
    def half(self) -> int:
        """Half the length that is aimed at."""
        return (self.right - self.left) // 2


@dataclass(frozen=True)
class Layers:
    """A feature seen from above: what must go, what may go, and what was free before, of which `holes` are rounds down
    to the floor. `ends`: where each room ends. `corners`: how round a room's inside corners are, where they aren't just
    as its ends come out. `fillet`: the radius that the floor's edge may have; `waived`: the radius that an owner may
    let stand there. `kept`: what must go where an owner lets ends or corners stand, None where that is all. `top`:
    above it nothing stands."""

    least: tuple[Layer, ...]
    most: tuple[Layer, ...]
    before: tuple[Layer, ...] = ()
    fillet: int = 0
    waived: int = 0
    holes: tuple[RoundedBox, ...] = ()
    ends: Mapping[str, Ends] = field(default_factory=dict)
    corners: Mapping[str, Corners] = field(default_factory=dict)
    top: int = 0
    kept: tuple[Layer, ...] | None = None

    @property
    def must(self) -> tuple[Layer, ...]:
        """What must go whatever an owner lets stand."""
        return self.least if self.kept is None else self.kept

    @property
    def air(self) -> int:
        """How high what was free before reaches; far down where nothing was."""
        return max((layer.high for layer in self.before), default=-FAR)


def air_beside(stock: Region, low: int, top: int = 0) -> tuple[Layer, ...]:
    """What is free all along between two heights, where the metal before is narrower than all that is: beside a round
    one, in steps that stay outside of it."""
    return tuple(Layer(slab.low, slab.high, RoundedBox(-FAR, left, FAR, right, 0))
                 for slab in (box(-FAR, low, FAR, top) - stock).slabs for s in slab.spans
                 if (left := max(s.left_low, s.left_high)) < (right := min(s.right_low, s.right_high)))


def laid_over(layers: Layers, dx: int = 0, dz: int = 0) -> Layers:
    """The same with across and up changed over, then moved: as `rotate.laid_over` does with the section. What is as
    round as a circle from above is then a stack of slices within the error of `quarter`: what must go comes out a
    little more, what may go and what is free a little less. A fillet of the floor's edge is asked for no more.

    >>> laid_over(Layers((Layer(-5, 0, RoundedBox(-9, -2, 9, 2, 0)),), ())).least
    (Layer(low=-2, high=2, shape=RoundedBox(left=-9, low=-5, right=9, high=0, radius=0)),)
    """
    least, most, before = (
        tuple(piece for layer in some for piece in _slices(layer, dx, dz, outside))
        for some, outside in ((layers.least, True), (layers.most, False), (layers.before, False)))
    kept = None if layers.kept is None else tuple(
        piece for layer in layers.kept for piece in _slices(layer, dx, dz, True))
    return replace(layers, least=least, most=most, before=before, fillet=0, waived=0, holes=(), kept=kept)


def _slices(layer: Layer, dx: int, dz: int, outside: bool) -> Iterator[Layer]:
    left, low, right, high, radius = layer.shape

    def slice_(begin: int, end: int, out: int) -> Layer:
        return Layer(begin + dz, end + dz, RoundedBox(left - out, layer.low + dx, right + out, layer.high + dx, 0))

    if high > low:
        yield slice_(low, high, radius)
    for (out, up), (farther, over) in pairwise(quarter(radius)):
        wide = farther if outside else out
        yield slice_(low - radius + up, low - radius + over, wide)
        yield slice_(high + radius - over, high + radius - up, wide)
