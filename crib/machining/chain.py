"""Cutters that come down an axis one after the other: a draft of its own sort, and what its method must tell."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cached_property
from itertools import count

from crib.cutters.base import Cutter, Down
from crib.findings.finding import Figure, Finding
from crib.findings.message import Text
from crib.findings.verdicts import Verdict
from crib.geometry.operation import Operation, Work
from crib.light.hints import TYPE_CHECKING, Protocol
from crib.light.records import dataclass
from crib.machining.draft import Draft
from crib.machining.methods.base import Limit
from crib.machining.methods.cuts import Cut, Job
from crib.shop import Shop
from crib.units import nm

if TYPE_CHECKING:
    from crib.machining.holes import Hole

ON_A_TABLE = "on the rotary table"


def dialled(z: int, shop: Shop) -> int:
    """A depth, negative downwards, as it is set: on a whole step of the readout, the deeper one [nm]."""
    step = nm(shop.readout_mm)
    return z // step * step


@dataclass(frozen=True)
class Chain(Draft):
    """Strokes in order, each a job of one cut, with what their method knows of them: the way in words, the verdict that
    they earn at the best, the hole that they make. `suits`: how far that hole is from the best one, the lowest first.
    `filed_mm2`: what is left to the file, of each. `held`, `brought`: how the work is held for it and the spindle
    brought over it, where that isn't as for its kind. `turned`: whether the work is turned on a rotary table;
    `is_ground`: whether a cutter is ground for it first."""

    way: str = ""
    at_best: Verdict = Verdict.AS_DRAWN
    hole: Hole | None = None
    warnings: tuple[Finding, ...] = ()
    beyond: tuple[Finding, ...] = ()
    figures: tuple[Figure, ...] = ()
    assumed: tuple[Text, ...] = ()
    suits: float = 0.0
    filed_mm2: float = 0.0
    held: Text = ""
    brought: tuple[Text, ...] = ()
    turned: bool = False
    is_ground: bool = False

    @property
    def is_round(self) -> bool:
        """They come down an axis."""
        return True

    @property
    def stands_on(self) -> str:
        """The rotary table, where the work is turned on one."""
        return ON_A_TABLE if self.turned else ""

    @cached_property
    def work(self) -> Work:
        """Its own section about the axis, and the others that strokes are proved in."""
        return Work(axes=(self.question.outline, *(cut.on for _, cut in self.passes() if cut.on)))

    @cached_property
    def operations(self) -> tuple[Operation, ...]:
        """The strokes as they are dialled, each about the axis of the section that it is proved in."""
        others = count(1)
        return tuple(self.operation(job, cut, self.dialled(cut), next(others) if cut.on else 0)
                     for job, cut in self.passes())

    def operation(self, job: Job, cut: Cut, z: int, axis: int = 0) -> Operation:
        """A stroke as it is proved with its lower end at z."""
        if cut.start is not None:
            return Operation.round(job.tool.form, cut.x, z, cut.start, job.tool.id, axis, cut.on_from)
        from crib.machining.cores import core_mm

        return Operation.down(job.tool.form, z, job.tool.id, axis, nm(core_mm(job.tool.owned) / 2) or None)

    def dialled(self, cut: Cut) -> int:
        """The depth of a stroke as it is set [nm]."""
        return dialled(cut.z, self.question.shop)


class DownTheAxis(Protocol):
    """How something round is made by so many cutters. Where nothing makes it, `answer` is the verdict and `says` what
    decides, both empty where the refusals tell; `without`: what it costs to do without the cutter that lacks.
    `calls_for`: what the cutters that it is made with do."""

    @property
    def calls_for(self) -> tuple[Down, ...]:
        """What the cutters that it is made with do."""

    @property
    def answer(self) -> Verdict | None:
        """The verdict where nothing makes it."""

    @property
    def says(self) -> Text:
        """What decides then."""

    @property
    def without(self) -> Text:
        """What it costs to do without."""

    def chains(self) -> Iterator[Chain]:
        """Every chain that may do, whatever rules and proof say of it."""

    def why_not(self, cutter: Cutter) -> Limit | None:
        """Why a cutter can have no part in any; None where the method knows of no reason."""

    def wanted(self) -> Text:
        """What would make it, where nothing that is owned comes near."""
