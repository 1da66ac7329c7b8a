"""What is told of cutters in all set-ups, before a tool is made of them: those that are alike but for their sizes
together, as they were put together for the search."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cached_property
from math import inf

from crib.cutters.base import Cutter, Kind, Motion
from crib.light.hints import TYPE_CHECKING
from crib.light.records import dataclass, field
from crib.machining.batches import Batch, batched
from crib.machining.methods import method_of
from crib.machining.sizes import Sizing
from crib.machining.tool import at_kindest, at_worst
from crib.machining.tools import Tools
from crib.planning.large_cribs.sieve import NEAREST, Least, Out, Sieve

if TYPE_CHECKING:
    from crib.planning.large_cribs.sieve import Told

ALIKE = 16
"""So many that are alike but for their sizes are told together."""


@dataclass
class Sieves:
    """The sieves of all set-ups. `wants_some`: whether there are rooms that nothing does."""

    all: Sequence[Sieve]
    wants_some: bool
    motions: dict[str, bool] = field(default_factory=dict)

    @cached_property
    def sizing(self) -> Sizing:
        """What is told of bare sizes."""
        return self.all[0].sizing

    @cached_property
    def is_overruled(self) -> bool:
        """Whether the shop's words overrule rules, so that nothing is told beforehand."""
        shop = self.sizing.shop
        return bool(shop.overruled or shop.this_time)

    @cached_property
    def of_another_kind(self) -> Least:
        """Where the refusal of a cutter stands that moves as no room wants it."""
        return self.wants_some, len(self.all[0].rooms), inf

    def told(self, cutters: Sequence[Cutter]) -> list[Told]:
        """Of each cutter where its refusal stands at the least in whatever set-up; False where it surely does a room in
        one, None where that can't be told."""
        found: list[Told] = [None] * len(cutters)
        if self.is_overruled:
            return found
        tools = self.all[0].jobs.tools
        rest: Sequence[int] = range(len(cutters))
        if isinstance(tools, Tools):
            rest = self._of_tools(cutters, tools, found)
        doubtful: list[int] = []
        for batch in batched([cutters[at] for at in rest]):
            kind, places = batch.kind, [rest[place] for place in batch.places]
            if kind is None or batch.one.overruled:
                continue
            known = [at for at, cutter in enumerate(batch.cutters) if not kind.unknowns(cutter)]
            if len(known) < len(batch.cutters) and kind.form is not None and self._moves_so(kind):
                unsure = set(range(len(batch.cutters))).difference(known)
                doubtful += [places[at] for at in unsure if batch.diameters[at] or kind.stem]
                batch, places = batch.of(known), [places[at] for at in known]
            for place, least in zip(places, self._of_batch(batch), strict=True):
                found[place] = least
        self._tell_doubtful(cutters, doubtful, found)
        return found

    def _of_tools(self, cutters: Sequence[Cutter], tools: Tools, found: list[Told]) -> list[int]:
        """Tell of those of which no size lacks, in the batches of the search; where the others are."""
        told: list[Told] = [None] * len(tools)
        for batch in self.sizing.batches(tools):
            for at, least in zip(batch.places, self._of_batch(batch), strict=True):
                told[at] = least
        rest, where, owned, known = [], tools.places, tools.owned, tools.known
        for at, cutter in enumerate(cutters):
            place = where.get(cutter.id)
            if place is not None and owned[place] is cutter and known[place] is cutter:
                found[at] = told[place]
            else:
                rest.append(at)
        return rest

    def _of_batch(self, batch: Batch) -> Sequence[Told]:
        """What is told of a batch of which no size lacks."""
        kind = batch.kind
        if kind is None or not batch.cutters or batch.one.overruled:
            return [None] * len(batch.cutters)
        if kind.form is None or not self._moves_so(kind):
            return [self.of_another_kind if kind.form is None or across else None for across in batch.diameters]
        return self._of(batch, kind)

    def _moves_so(self, kind: Kind) -> bool:
        """Whether a kind moves in a way that some room wants, or along, of which it is told why it can't."""
        if kind.name not in self.motions:
            ways = [method_of(room) for sieve in self.all for _, _, room in sieve.rooms]
            self.motions[kind.name] = Motion.ALONG in kind.motions or any(
                way.motion in kind.motions or way.also in kind.motions for way in ways)
        return self.motions[kind.name]

    def _tell_doubtful(self, cutters: Sequence[Cutter], places: Sequence[int], found: list[Told]) -> None:
        """Tell of those of which some size isn't known. One that can't as it is at its worst, or isn't planned with at
        all, is refused, if only until it is measured: where, that hangs on what it is at its kindest."""
        wanted = self.all[0].jobs.question.feature.kindest
        kindest = self._of_each([at_kindest(cutters[place], wanted) for place in places])
        worst = {place: known for place in places if (known := at_worst(cutters[place]))}
        as_known = dict(zip(worst, self._of_each(list(worst.values())), strict=True))
        for place, least in zip(places, kindest, strict=True):
            at_its_worst = as_known.get(place, NEAREST)
            found[place] = (least or NEAREST) if at_its_worst else at_its_worst

    def _of_each(self, cutters: Sequence[Cutter]) -> list[Told]:
        """What is told of cutters of which no size lacks."""
        found: list[Told] = [None] * len(cutters)
        for batch in batched(cutters):
            assert batch.kind is not None
            for place, least in zip(batch.places, self._of(batch, batch.kind), strict=True):
                found[place] = least
        return found

    def _of(self, batch: Batch, kind: Kind) -> list[Told]:
        """What is told of a batch of which no size lacks, in all set-ups; None for what has no diameter."""
        by_limits = [sieve.by_limits(batch, kind) for sieve in self.all]
        if len(by_limits) == 1:
            found: list[Told] = list(by_limits[0])
        else:
            found = [None if None in each else min(each) for each in zip(*by_limits, strict=True)]
        outs = [sieve.out(batch.one) for sieve in self.all]
        fast = [Out.DULL if out is Out.IN else out for out in outs]
        widest = self.sizing.widest(batch.one, kind) if batch.is_bare else inf
        together: list[int] = []
        is_plain = all(sieve.is_open for sieve in self.all) and all(out is Out.IN for out in outs)
        for at, least in enumerate(found):
            if least is None and (across := batch.diameters[at]):
                if is_plain and across <= widest and len(found) >= ALIKE:
                    together.append(at)
                else:
                    found[at] = self._closer(batch.cutters[at], kind, [each[at] for each in by_limits],
                                             fast if across > widest else outs)
        if together:
            self._together(batch, kind, together, by_limits, found)
        return found

    def _together(self, batch: Batch, kind: Kind, where: Sequence[int], by_limits: Sequence[Sequence[Least | None]],
                  found: list[Told]) -> None:
        """What is told of those that break no limit in some set-up and have nothing but their sizes against them."""
        from crib.planning.large_cribs.sieve_columns import told_together

        least: dict[int, list[Least | None]] = {at: [] for at in where}
        for sieve, known in zip(self.all, by_limits, strict=True):
            for at, leasts in least.items():
                leasts.append(known[at])
            told = told_together(sieve, batch, kind, [at for at in least if not known[at]])
            for at, one in told.items():
                if one is False:
                    del least[at]
                    found[at] = False
                else:
                    least[at][-1] = one
        for at, leasts in least.items():
            found[at] = None if None in leasts else min(filter(None, leasts))

    def _closer(self, cutter: Cutter, kind: Kind, by_limits: Sequence[Least | None], outs: Sequence[Out]) -> Told:
        """What is told of a cutter that breaks no limit in some set-up."""
        sizes = self.sizing.at_a_glance(cutter)
        found: list[Least] = []
        for sieve, known, out in zip(self.all, by_limits, outs, strict=True):
            least = known or sieve.least(cutter, kind, sizes, out)
            if least is False:
                return False
            if least:
                found.append(least)
        return min(found) if len(found) == len(self.all) else None
