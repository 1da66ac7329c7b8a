"""A plan while it is being made: jobs in order, before it is proved and put into words."""

from __future__ import annotations

from collections.abc import Hashable, Iterator, Sequence
from functools import cached_property
from math import inf

from crib.features.base import CLOSED_CORNER, Dimension, Feature
from crib.findings.message import Text
from crib.geometry.operation import Operation
from crib.geometry.outline import Outline, Room
from crib.geometry.region import Region
from crib.handbook.materials import Material
from crib.light.hints import TYPE_CHECKING
from crib.light.records import dataclass, field, replace
from crib.machining.methods.base import Limits
from crib.machining.methods.cuts import Cut, Job
from crib.machining.sizes import Sizing
from crib.machining.tool import Tool
from crib.setups.base import Setup
from crib.shop import Shop

if TYPE_CHECKING:
    from crib.geometry.cleared import Cleared
    from crib.geometry.layers import Layer, Layers
    from crib.machining.ends.entry import Opened
    from crib.machining.ends.roughed import Rougher

ZEROS = ("the picture's cross 0", "the surface")
"""What x and z count from in most plans."""

_DRAWN = ("outline", "layers", "dimensions")
"""What is drawn of a question by its feature, its set-up and what is clear alone."""

_SIZED = ("sizing",)
"""What hangs on its shop and its metal alone."""


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
        return self.setup.turn(self.feature.outline)

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
        return Limits(self.shop.most_levels, request.floor_radius, corner=corner.hi if corner else inf)


def _sort(dimension: Dimension, upright: set[str]) -> str:
    """The sort of a dimension by which of its faces stand upright; one between faces that lie unlike is set by the
    dials alone, as a depth is."""
    stand = {face in upright for face in dimension.faces}
    if stand == {True}:
        return "width"
    return "height" if stand == {False} and len(dimension.faces) > 1 else "depth"


@dataclass(frozen=True)
class Draft:
    """Jobs in order; consecutive jobs of one tool are one go with that tool. `grown_from`: the draft that has the first
    of its jobs, of which what was worked out stands."""

    question: Question
    jobs: tuple[Job, ...] = ()
    grown_from: Draft | None = field(default_factory=lambda: None, compare=False, repr=False)

    @property
    def removed(self) -> Region:
        return self.jobs[-1].removed if self.jobs else Region()

    @cached_property
    def lacking(self) -> tuple[Room, ...]:
        """The rooms that aren't clear yet, but for what an owner may let stand."""
        outline, gone = self.question.outline, self.removed
        return tuple(room for room in outline.rooms if not outline.is_waived(outline.rest(room, gone)))

    @property
    def is_round(self) -> bool:
        """Whether its cutters come down an axis."""
        return False

    @property
    def stands_on(self) -> str:
        """What the work is put on for it, where that isn't the table or the vise."""
        return ""

    @cached_property
    def tools(self) -> tuple[Tool, ...]:
        """The tools in the order in which they are put up; one twice where it comes back."""
        tools: list[Tool] = []
        for job in self.jobs:
            if not tools or tools[-1].id != job.tool.id:
                tools.append(job.tool)
        return tuple(tools)

    def passes(self) -> Iterator[tuple[Job, Cut]]:
        """Every pass with its job, in order."""
        for job in self.jobs:
            for cut in job.cuts:
                yield job, cut

    @cached_property
    def operations(self) -> tuple[Operation, ...]:
        """The passes as the proof wants them."""
        return (*self.grown_from.operations, *self._own_operations) if self.grown_from else self._own_operations

    @cached_property
    def _own_operations(self) -> tuple[Operation, ...]:
        """The passes that came since it was grown."""
        jobs = self.jobs[len(self.grown_from.jobs):] if self.grown_from else self.jobs
        return tuple(cut.operation(job.tool) for job in jobs for cut in job.cuts)

    @cached_property
    def cleared(self) -> Cleared:
        """What is clear between closed ends."""
        from crib.geometry.cleared import Cleared

        layers = self.question.layers
        assert layers is not None
        if self.grown_from is None:
            return Cleared.of(layers, self.operations)
        return self.grown_from.cleared.grown(self._own_operations)

    @cached_property
    def opened(self) -> Opened:
        """What is open to a cutter that comes down between closed ends."""
        from crib.machining.ends.entry import Opened

        layers = self.question.layers
        assert layers is not None
        return self.grown_from.opened.grown(self._own_operations) if self.grown_from else Opened.of(
            layers, self.operations)

    @property
    def state(self) -> Hashable:
        """What has come of the section, and of its ends where they are closed."""
        ended = self.operations if self.question.feature.layers else ()
        return (self.removed, frozenset((one.form.sure, one.path, one.z) for one in ended))

    def then(self, *jobs: Job) -> Draft:
        """This draft with more jobs."""
        return Draft(self.question, (*self.jobs, *jobs), self)
