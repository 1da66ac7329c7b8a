"""Why not with a cutter, down an axis: what forbids the chains that it has a part in, else what it is itself."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from crib.cutters import KINDS, goes_down
from crib.cutters.base import Cutter
from crib.cutters.drill import flutes_of
from crib.findings.finding import NO_CHANGE, Finding
from crib.findings.message import Mm, Text, joined, said
from crib.geometry.axis_view import lowest
from crib.geometry.region import NOTHING
from crib.geometry.silhouette import Form
from crib.handbook.boring import STOP_OVER
from crib.machining.chain import Chain, DownTheAxis
from crib.machining.methods.base import Cut, Limit
from crib.machining.methods.down_the_axis.boring import stands_out
from crib.machining.tool import Tool
from crib.planning.advice import Refusal
from crib.planning.branch_and_bound import Weighed, weigh
from crib.planning.jobs import Jobs
from crib.planning.wrong_kind import wrong_kind
from crib.rules.rounds import is_guessed


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
            if cutter.id not in told.keys() | able and (refusal := self._by_itself(cutter)):
                told[cutter.id] = refusal
        return tuple(sorted(told.values(), key=lambda one: (one.short_mm, one.cutter.id)))

    @property
    def says(self) -> Text:
        """Where nothing makes it: what decides, what stopped the best chain, else what came nearest and would do."""
        if self.method.says or self._forbidden:
            return self.method.says or self._forbidden[0].says
        if not self.all:
            return self.method.wanted()
        near = self.all[0]
        return joined("", (said("nothing in the crib makes it within its limits; nearest is the {cutter}: {says}",
                                cutter=near.cutter.label, says=near.says),
                           *(("; ", near.fix) if near.fix else ())))

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
        stop = next(warning for warning in weighed.warnings if warning.severity == "stop")
        strokes = [(job.tool, cut) for job, cut in weighed.draft.passes()]
        mine = [one for one in strokes if one[0].id == stop.cutter_id]
        deepest = max(mine, key=lambda one: one[1].deep_mm) if mine else strokes[-1]
        return _of_stroke(*deepest, stop)

    def _by_itself(self, cutter: Cutter) -> Refusal | None:
        if miss := self.method.why_not(cutter):
            return _as_refusal(cutter, miss)
        if any(goes_down(cutter, what) for what in self.method.calls_for):
            return None
        return wrong_kind(cutter, [name for what in self.method.calls_for for name, kind in KINDS.items()
                                   if what in kind.down])


def _as_refusal(cutter: Cutter, miss: Limit) -> Refusal:
    return Refusal(cutter, "measure first" if miss.unsure else "cannot", miss.id, miss.says, miss.has, miss.needs,
                   miss.fix or NO_CHANGE, miss.short)


def _of_stroke(tool: Tool, cut: Cut, stop: Finding) -> Refusal:
    """The refusal that a stop comes to, with both its numbers; flutes that nobody measured are asked about."""
    held, cutter, deep = tool.held, tool.owned, cut.deep_mm
    if stop.rule == "RE1":
        cut_mm, unsure = tool.cutter.length_of_cut_mm or 0.0, is_guessed(tool) and deep <= flutes_of(cutter).longest
        fix = said("measure its flutes: {needs} would do" if is_guessed(tool) else "flutes of {needs}", needs=Mm(deep))
        return Refusal(cutter, "measure first" if unsure else "cannot", "RE1", stop.says, cut_mm, deep, fix,
                       0.0 if unsure else deep - cut_mm)
    if stop.rule == "RE3" and cutter.reach_mm is not None and cutter.reach_mm < deep:
        return Refusal(cutter, "cannot", "RE3", stop.says, cutter.reach_mm, deep, "a longer bar",
                       deep - cutter.reach_mm)
    if stop.rule == "RE3":
        out = stands_out(tool.cutter, deep)
        return Refusal(cutter, "cannot", "RE3", stop.says, out, STOP_OVER * (cutter.diameter_mm or 0.0),
                       said("a bar of {least} or more", least=Mm(out / STOP_OVER)), 0.0)
    if not held.ok:
        return Refusal(cutter, "measure first" if held.unsure else "cannot", held.rule, held.says, held.has, held.needs,
                       held.fix or NO_CHANGE, 0.0)
    return Refusal(cutter, "cannot", stop.rule, stop.says, fix=NO_CHANGE, short_mm=0.0)


def _too_short(chain: Chain) -> Refusal:
    """The cutter whose holder or shank comes down on the work: how far it stands out, and how far it would have to."""
    outline = chain.question.outline
    for job, cut in chain.passes():
        clear = job.tool.form.clear
        low = lowest(Form((), (), clear), NOTHING, outline.stock - outline.most) if clear and not cut.on else cut.z
        if low > cut.z:
            part, short = clear[-1], (low - cut.z) / 1e6
            has, needs = part.low / 1e6, part.low / 1e6 + short
            says = said("{cutter}: the {part} comes down on the work: it stands out {has}, {needs} is needed",
                        cutter=job.tool.owned.label, part=part.name, has=Mm(has), needs=Mm(needs))
            return Refusal(job.tool.owned, "cannot", "G6", says, has, needs, "a longer one would go in", short)
    return Refusal(chain.jobs[-1].tool.owned, "cannot", "G6", "the hole doesn't come out inside its limits with it",
                   fix=NO_CHANGE, short_mm=0.0)
