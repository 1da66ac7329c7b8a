"""Whether a drawing that is changed comes out better than as it was, told sooner than how it does."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import cached_property

from crib.cutters.base import Cutter
from crib.features import draw
from crib.features.base import Feature
from crib.features.request import Request
from crib.findings.verdicts import ANSWERS, Verdict
from crib.light.records import dataclass, field, replace
from crib.machining.metal import metal_of
from crib.planning.advise import granted, opened_to_beat, still_to_beat
from crib.planning.best_plans import better_of
from crib.planning.dialled.finish import distinct, is_proved
from crib.planning.search.jobs import Jobs
from crib.planning.search.set_ups import Asked, Readied, at_walls, merged
from crib.planning.search.shortlist import Shortlist
from crib.planning.search.watch import Watch
from crib.planning.told.advice import Plan
from crib.shop import Shop

_LIKELY = 6
"""So many cutters that made a drawing changed otherwise are tried before all the others."""


@dataclass
class DrawingChanges:
    """Changes of one drawing, asked one after the other: which of them come out better `than` it does as it is.
    `likely`: the cutters that made one last, by their numbers, the latest first."""

    request: Request
    cutters: Sequence[Cutter]
    shop: Shop
    than: Verdict
    watch: Watch
    readied: Readied = field(default_factory=Readied)
    likely: dict[int, None] = field(default_factory=dict)

    @cached_property
    def drawn(self) -> Feature:
        """The drawing as it is."""
        return draw(replace(self.request, material=metal_of(self.request, self.shop).name))

    def asked(self, changed: Request) -> Better | None:
        """What comes of a change; None where nothing better does. Raises `OutOfPatience`, and `CribError` where it
        can't be drawn so."""
        self.watch.check()
        every = opened_to_beat(changed, self.cutters, self.shop, self.than, self.readied, self.drawn)
        if not every:
            return None
        better = Better(self, changed, every)
        if self._is_made_by_likely(every):
            return better
        comes_out = self._comes_out(better.every) if better.every else False
        return better if comes_out or (comes_out is None and better.plan) else None

    def _is_made_by_likely(self, every: Asked) -> bool | None:
        """Whether those cutters make it that made another change: what few of them make with walls at their aim is
        among what all do, so that nobody else is looked at."""
        if every[0].down:
            return None
        some, told_by = tuple(map(self._with_likely, every)), self.watch.told_by
        if not all(jobs.tools for jobs in some):
            return None
        is_made = self._is_made(some)
        self.watch.told_by = told_by
        return is_made

    def _comes_out(self, every: Asked) -> bool | None:
        """Whether anything better comes out, whatever is best; nearer the limits it is looked for only where nothing at
        all is made with walls at their aim. None where the best must be looked for to tell it: proofs refuse what may
        have hidden others."""
        if every[0].down:
            return None
        aimed = self._is_made(every)
        return self._is_made(at_walls(every, True), True) if aimed is False else aimed

    def _is_made(self, some: Sequence[Jobs], widened: bool = False) -> bool | None:
        """Whether any plan is made of these that is better; None where that isn't sure, as a proof didn't hold.
        `widened`: none is with all walls at their aim."""
        told = Shortlist(least=ANSWERS.index(self.than), any_does=True, holds=is_proved, watch=self.watch,
                         widened=widened)
        found = next(distinct(merged(some, told, False), told, 1), None)
        if found is not None:
            self.made_by(found.cutters)
            return True
        return None if told.unproved else False

    def _with_likely(self, jobs: Jobs) -> Jobs:
        return replace(jobs, tools=[tool for tool in jobs.tools if tool.id in self.likely], all_discs=jobs.discs)

    def made_by(self, cutters: Iterable[Cutter]) -> None:
        """One that came out, by its cutters."""
        now = dict.fromkeys(int(cutter.id) for cutter in cutters)
        self.likely = dict.fromkeys([*now, *self.likely][:_LIKELY])


@dataclass
class Better:
    """A change that comes out better, with what was worked out for it."""

    of: DrawingChanges
    request: Request
    opened: Asked

    @cached_property
    def every(self) -> Asked:
        """The question in each set-up in which something better may come out."""
        return still_to_beat(self.opened, self.of.than)

    @cached_property
    def plan(self) -> Plan | None:
        """The best plan; None where there is none that is better. Raises `OutOfPatience`."""
        found = better_of(self.every, self.of.than, watch=self.of.watch)
        self.of.watch.check()
        if found is None or found.proved is None:
            return None
        plan = granted(found.proved.plan, self.request, self.of.shop)
        self.of.made_by(plan.cutters)
        return plan
