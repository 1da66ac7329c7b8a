"""Why not with a cutter, down an axis: what forbids the chains that it has a part in, else what it is itself."""

from __future__ import annotations

from functools import cached_property

from crib.cutters import KINDS, goes_down
from crib.cutters.base import Cutter, Down
from crib.findings.finding import Grade
from crib.findings.message import Mm, Text, joined, said, unaddressed
from crib.findings.verdicts import Verdict
from crib.geometry.axis_view import lowest
from crib.geometry.region import NOTHING
from crib.geometry.silhouette import Silhouette
from crib.light.records import dataclass, replace
from crib.machining.chain import Chain, DownTheAxis
from crib.machining.methods.base import Limit
from crib.planning.refused.case import in_hss
from crib.planning.refused.wrong_kind import wrong_kind
from crib.planning.search.jobs import Jobs
from crib.planning.search.weighed import Weighed, weigh
from crib.planning.told.advice import Refusal, refused

_SMOOTH = (Down.REAMING, Down.BORING)
"""What makes a hole as smooth as a reamed one. Common practice."""


@dataclass(frozen=True)
class RefusedDown:
    """All that is refused where so many cutters are used in the plans."""

    jobs: Jobs
    method: DownTheAxis
    used: frozenset[int]

    @cached_property
    def all(self) -> tuple[Refusal, ...]:
        """Each cutter that has a part in no chain that may be, the nearest miss first."""
        able = self.used | {tool.id for one in self._weighed if self.used and not one.stopped
                            for tool in one.draft.tools}
        told = {one.cutter.id: one for one in reversed(self._forbidden) if one.cutter.id not in able}
        for cutter in self.jobs.cutters:
            if cutter.id not in told and cutter.id not in able and (refusal := self._by_itself(cutter)):
                told[cutter.id] = refusal
        used = {int(number) for number in able}
        found = sorted((one for one in told.values() if int(one.cutter.id) not in used),
                       key=lambda one: (self._is_aside(one), one.short_mm, one.cutter.id))
        nearest = dict[int, Refusal]()
        for one in found:
            nearest.setdefault(int(one.cutter.id), one)
        return tuple(replace(one, helps=False) if self._is_aside(one) else one for one in nearest.values())

    @property
    def says(self) -> Text:
        """Where nothing makes it: what decides, what stopped the best chain, what measuring may show, else what came
        nearest and would do."""
        if self.method.says:
            return self.method.says
        maybe = next((one for one in self.all if one.answer == Verdict.MEASURE_FIRST and not one.short_mm), None)
        first = next((one for one in self._forbidden if not self._is_aside(one)), None)
        if first and (maybe is None or first.answer == Verdict.MEASURE_FIRST):
            return said("{cutter}: {says}", cutter=first.cutter.label, says=first.says)
        if not self.all or (self._is_reamed and not maybe and not _does(self.all[0].cutter, *_SMOOTH)):
            return self.method.wanted()
        if maybe:
            return said("as far as it is known nothing in the crib makes it; the {cutter} may: {fix}",
                        cutter=maybe.cutter.label, fix=maybe.fix or maybe.says)
        near = self.all[0]
        return joined("", (said("nothing in the crib makes it within its limits; nearest is the {cutter}: {says}",
                                cutter=near.cutter.label, says=near.says),
                           *(("; ", near.fix) if near.fix else ())))

    @property
    def _is_reamed(self) -> bool:
        from crib.machining.methods.down_the_axis.plain_holes import PlainHoles

        return isinstance(self.method, PlainHoles) and self.method.is_reamed

    def _is_aside(self, one: Refusal) -> bool:
        """Whether a hole that is to be reamed isn't made with such a cutter, however near it comes: one to plunge."""
        return self._is_reamed and not _does(one.cutter, *_SMOOTH, Down.DRILLING)

    @cached_property
    def _of_kind(self) -> dict[str, Refusal]:
        """Why not with cutters that aren't made for it, by their kind."""
        return {}

    @cached_property
    def _weighed(self) -> tuple[Weighed, ...]:
        return tuple(weigh(chain, True) for chain in self.jobs.chains)

    @cached_property
    def _forbidden(self) -> tuple[Refusal, ...]:
        """By the chains, each by the cutter that a stop is about; where there is no plan by the proof too."""
        pairs = zip(self._weighed, self.jobs.chains, strict=True)
        found = (self._stopped(one) if one.stopped else None if self.used else _too_short(chain)
                 for one, chain in pairs)
        return tuple(one for one in found if one)

    def _stopped(self, weighed: Weighed) -> Refusal:
        """With both numbers and the change of the first stop; what nobody measured is asked about."""
        stop, tools = next(one for one in weighed.warnings if one.grade == Grade.STOP), weighed.draft.tools
        tool = next((one for one in tools if one.id == stop.cutter_id), tools[-1])
        says = unaddressed(tool.held.says if stop.id == tool.held.rule else stop.says, tool.owned.label)
        return refused(tool.owned, stop.id, says, stop.has_mm, stop.needs_mm,
                       in_hss(self.jobs, tool, stop) or stop.fix, stop.short_mm, stop.unsure)

    def _by_itself(self, cutter: Cutter) -> Refusal | None:
        if miss := self.method.why_not(cutter):
            return _as_refusal(cutter, miss)
        if any(goes_down(cutter, what) for what in self.method.calls_for):
            return None
        if (known := self._of_kind.get(cutter.kind)) is None:
            known = self._of_kind[cutter.kind] = wrong_kind(cutter, [
                name for what in self.method.calls_for for name, kind in KINDS.items() if what in kind.down])
        return replace(known, cutter=cutter, cutter_id=cutter.id)


def _does(cutter: Cutter, *what: Down) -> bool:
    return any(goes_down(cutter, one) for one in what)


def _as_refusal(cutter: Cutter, miss: Limit) -> Refusal:
    return refused(cutter, miss.id, miss.says, miss.has, miss.needs, miss.fix, miss.short, miss.unsure)


def _too_short(chain: Chain) -> Refusal:
    """The cutter whose holder or shank comes down on the work: how far it stands out, and how far it would have to."""
    outline = chain.question.outline
    for job, cut in chain.passes():
        clear = job.tool.form.clear
        low = lowest(Silhouette((), (), clear), NOTHING,
                     outline.stock - outline.most) if clear and not cut.on else cut.z
        if low > cut.z:
            part, short = clear[-1], (low - cut.z) / 1e6
            has, needs = part.low / 1e6, part.low / 1e6 + short
            says = said("the {part} comes down on the work: it stands out {has}, {needs} is needed", part=part.name,
                        has=Mm(has), needs=Mm(needs))
            return refused(job.tool.owned, "G6", says, has, needs, "a longer one would go in", short)
    return refused(chain.jobs[-1].tool.owned, "G6", "the hole doesn't come out inside its limits with it", short_mm=0.0)
