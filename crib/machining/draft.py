"""A plan while it is being made: jobs in order, before it is proved and put into words."""

from __future__ import annotations

from collections.abc import Hashable, Iterator
from functools import cached_property

from crib.geometry.operation import Operation
from crib.geometry.outline import Room
from crib.geometry.region import Region
from crib.light.hints import TYPE_CHECKING
from crib.light.records import dataclass, field
from crib.machining.methods.cuts import Cut, Job
from crib.machining.question import Question
from crib.machining.tool import Tool

if TYPE_CHECKING:
    from crib.geometry.cleared import Cleared
    from crib.machining.ends.entry import Opened


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
