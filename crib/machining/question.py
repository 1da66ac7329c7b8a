"""What is asked, as everything that plans it looks at it: the feature as a set-up turns it, in a shop and a metal."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cached_property
from math import inf

from crib.features.base import CLOSED_CORNER, Dimension, Feature
from crib.findings.message import Text
from crib.geometry.outline import Opening, Outline
from crib.handbook.materials import Material
from crib.light.hints import TYPE_CHECKING
from crib.light.records import dataclass, replace
from crib.machining.methods.base import Limits
from crib.machining.methods.cuts import Job
from crib.machining.sizes import Sizing
from crib.machining.tool import Tool
from crib.setups.base import Setup
from crib.shop import Shop

if TYPE_CHECKING:
    from crib.geometry.layers import Layer, Layers
    from crib.machining.ends.way_down import Doorway

ZEROS = ("the picture's cross 0", "the surface")
"""What x and z count from in most plans."""

_DRAWN = ("outline", "layers", "dimensions")
"""What is drawn of a question by its feature, its set-up and what is clear alone."""

_SIZED = ("sizing",)
"""What hangs on its shop and its metal alone."""


@dataclass(frozen=True)
class Rougher:
    """A mill too round for a room's corners, with its passes there from solid; what it adds to the minutes and the
    cost, and what the rules say of it that makes scrap likelier."""

    job: Job
    minutes: float
    money: float
    said: frozenset[object]

    @cached_property
    def low(self) -> int:
        """How deep it goes."""
        return min(cut.z for cut in self.job.cuts)

    def leaves_no_more(self, other: Rougher) -> bool:
        """Whether it goes as deep as another and is no rounder."""
        return self.low <= other.low and self.job.tool.form.radius <= other.job.tool.form.radius


@dataclass(frozen=True)
class Question:
    """What is asked, in which shop and metal, with the section as the set-up turns it."""

    feature: Feature
    shop: Shop
    material: Material
    setup: Setup
    rooms_an_end_mill_opens: frozenset[str] = frozenset()
    """Rooms that an owned cutter opens from above that is made to (see the rule BU1)."""
    drills: tuple[Tool, ...] = ()
    """What can drill a way in between closed ends, the cheapest first."""
    roughers: tuple[Rougher, ...] = ()
    """What can rough a room with round corners that it doesn't go into, the cheapest first."""
    clear: tuple[Layer, ...] = ()
    """What is taken as clear from above besides what the feature says."""

    def but(self, shop: Shop | None = None, opens: frozenset[str] | None = None,
            roughers: tuple[Rougher, ...] | None = None) -> Question:
        """The same in another shop, or with other cutters; what is drawn stays drawn."""
        again = replace(self, shop=shop or self.shop,
                        rooms_an_end_mill_opens=self.rooms_an_end_mill_opens if opens is None else opens,
                        roughers=self.roughers if roughers is None else roughers)
        again.keep(self, (*_DRAWN, *(() if shop else _SIZED)))
        return again

    def keep(self, other: Question, keys: Sequence[str] = _SIZED) -> None:
        """Keep what was worked out for another question that hangs on nothing else: of one in the same shop and metal
        the sizes of its cutters."""
        self.__dict__.update({key: other.__dict__[key] for key in keys if key in other.__dict__})

    @cached_property
    def sizing(self) -> Sizing:
        """What is told of bare sizes in this shop and metal."""
        return Sizing(self.shop, self.material)

    @property
    def has_corners(self) -> bool:
        """Whether some room is round in its corners, seen from above: there one mill may rough for another."""
        return bool(self.layers and self.layers.corners)

    @cached_property
    def outline(self) -> Outline:
        return self.feature.lies(self.setup.turn)

    @cached_property
    def between_walls(self) -> frozenset[str]:
        """The rooms that are open at the top and lie between two walls: these may stand nearer their limits than their
        aim."""
        if self.feature.down is not None:
            return frozenset()
        return frozenset(room.name for room in self.outline.rooms if room.opens(Opening.TOP)
                         and not room.opens(Opening.LEFT) and not room.opens(Opening.RIGHT))

    @cached_property
    def layers(self) -> Layers | None:
        """What is seen of it from above as it lies, with what is taken as clear; None where its ends aren't closed."""
        drawn = self.feature.layers
        if drawn is None:
            return None
        assert self.setup.lay is not None
        laid = self.setup.lay(drawn, self.feature.outline)
        return replace(laid, before=(*laid.before, *self.clear), top=self.outline.stock.bounds()[3])

    @cached_property
    def dimensions(self) -> tuple[Dimension, ...]:
        """The feature's dimensions, each of the sort that it is as the work lies: a width between upright faces, a
        height between level ones, a depth to one of these."""
        if self.outline is self.feature.outline:
            return self.feature.dimensions
        upright = {face.name for face in self.outline.faces if face.upright}
        return tuple(replace(one, sort=_sort(one, upright)) if one.faces else one for one in self.feature.dimensions)

    @cached_property
    def rows(self) -> dict[str, tuple[float, float, int] | None]:
        """What the rows of holes that its drills make come to at the least, by the rooms that it was asked of."""
        return {}

    @cached_property
    def doorways(self) -> dict[str, Doorway | None]:
        """What lets tools down in its rooms between closed ends, as far as it was asked."""
        return {}

    @property
    def zeros(self) -> tuple[Text, Text]:
        """What x and z count from."""
        return self.setup.zeros(self.outline) or self.feature.zeros or ZEROS

    @property
    def extra_minutes(self) -> float:
        """What the set-up takes beyond the usual one: clampings, and tilts of the head with their tramming back."""
        return self.setup.clampings * self.shop.setup_minutes + self.setup.tilts * self.shop.tilt_minutes

    @cached_property
    def limits(self) -> Limits:
        """What the shop and the drawing allow."""
        request = self.feature.request
        corner = request.sizes.get(CLOSED_CORNER) if request.ends == "one" else None
        return Limits(self.shop.most_levels, request.floor_radius, corner=corner.hi if corner else inf,
                      ends=request.ends)


def _sort(dimension: Dimension, upright: set[str]) -> str:
    """The sort of a dimension by which of its faces stand upright; one between faces that lie unlike is set by the
    dials alone, as a depth is."""
    stand = {face in upright for face in dimension.faces}
    if stand == {True}:
        return "width"
    return "height" if stand == {False} and len(dimension.faces) > 1 else "depth"
