"""What a bench makes of a question, with a purchase and without; what was worked out for one is there for the next."""

from __future__ import annotations

from collections.abc import Sequence

from crib.buying.compare import Offer
from crib.buying.prices import Price
from crib.cutters.base import Cutter
from crib.cutters.two_ends import each_end
from crib.features import draw
from crib.features.base import Feature
from crib.features.request import Request
from crib.findings.verdicts import Verdict
from crib.handbook.materials import DEFAULT_MATERIAL, find_material
from crib.light.hints import Any
from crib.light.records import dataclass, field, replace
from crib.machining.draft import Draft
from crib.machining.tool import Tool
from crib.planning.advise import answered, granted, jobs_for, unmade
from crib.planning.again import Elsewhere, at_shop, best_at, best_with, drills_alike, with_tools
from crib.planning.best_plans import Best, find_best
from crib.planning.least_missed import least_missed
from crib.planning.search.jobs import Jobs
from crib.planning.search.set_ups import Asked, Readied, usable
from crib.planning.search.watch import PATIENCE, Watch
from crib.planning.told.advice import Advice, AnyPlan, Plan
from crib.shop import Shop


@dataclass(frozen=True)
class Bench:
    """What is there: the cutters that are owned, the shop, the prices seen, and friends' cutters by friend. `plans`
    keeps what was reckoned, so that nothing is reckoned twice; `in_part`: what took longer than it may, so that there
    may be better."""

    cutters: tuple[Cutter, ...]
    shop: Shop
    prices: tuple[Price, ...] = ()
    lent: tuple[tuple[str, Cutter], ...] = ()
    plans: dict[Any, tuple[Request, Best | None]] = field(default_factory=dict, compare=False, repr=False)
    begun: dict[Any, tuple[Asked, Best | None]] = field(default_factory=dict, compare=False, repr=False)
    asked: dict[Any, Asked] = field(default_factory=dict, compare=False, repr=False)
    grown: dict[Any, Asked] = field(default_factory=dict, compare=False, repr=False)
    known: dict[int, list[Draft]] = field(default_factory=dict, compare=False, repr=False)
    elsewhere: dict[Any, Elsewhere] = field(default_factory=dict, compare=False, repr=False)
    readied: Readied = field(default_factory=Readied, compare=False, repr=False)
    shops: Shops = field(default_factory=lambda: Shops(), compare=False, repr=False)
    drawn: dict[int, tuple[Request, Feature]] = field(default_factory=dict, compare=False, repr=False)
    in_part: list[Request] = field(default_factory=list, compare=False, repr=False)

    def best(self, request: Request, extra: Extra | None = None) -> AnyPlan | None:
        """What the best plan for a question comes to with what is owned, and with an extra if there is one."""
        found = self._found(request, extra)
        return found.gist if found else None

    def plan(self, request: Request) -> Plan | None:
        """The best plan with what is owned."""
        found = self._found(request)
        return granted(found.proved.plan, request, self.shop) if found and found.proved else None

    def feature(self, request: Request) -> Feature:
        """The feature that is asked for, drawn once."""
        if id(request) not in self.drawn:
            self.drawn[id(request)] = request, feature_of(request)
        return self.drawn[id(request)][1]

    def _found(self, request: Request, extra: Extra | None = None) -> Best | None:
        more = extra.cutters if extra else ()
        shop = extra.shop(self) if extra else self.shop
        key = (id(request), self.shops.number(shop), more)
        if key not in self.plans:
            known = self.known.setdefault(id(request), [])
            watch = Watch(patience=PATIENCE)
            found = self._best_with(request, more, shop, known, watch)
            self.in_part.extend([request] if watch.ran_out else [])
            if found and found.holds:
                known.append(found.weighed.draft)
            self.plans[key] = (request, found)
        return self.plans[key][1]

    def goes_on_from(self, request: Request, asked: Asked) -> None:
        """Take what was worked out for an answer with all cutters, where those that are here are some of them; between
        closed ends what goes down first hangs on all."""
        if asked and not asked[0].down and not asked[0].question.layers:
            mine = {cutter.id for cutter in self.cutters}
            tools = [tool for tool in asked[0].tools if int(tool.id) in mine]
            self.asked[self._place(request, self.shop)] = with_tools(asked, tools)

    def unmade(self, request: Request) -> Verdict:
        """The verdict where nothing that is owned makes it."""
        return unmade(self._begun(request, self.shop, ())[0], self.cutters)

    def why_not(self, request: Request) -> Advice:
        """The whole answer with what is owned."""
        asked, found = self._begun(request, self.shop, ())
        return answered(asked, request, self.cutters, 1, is_none=found is not None and found.is_none).advice

    def _best_with(self, request: Request, more: tuple[Cutter, ...], shop: Shop, known: Sequence[Draft], watch: Watch
                   ) -> Best | None:
        jobs, before = self._begun(request, self.shop, known)
        if not more and shop is self.shop:
            return least_missed(jobs, before, watch)
        if jobs[0].down or not drills_alike(jobs, self.cutters, more, shop):
            every = jobs_for(request, (*self.cutters, *more), shop, self.readied, self.feature(request))
            return least_missed(every, find_best(every, known, watch), watch, more)
        again = self._with(request, jobs, more, shop)
        place = (*self._place(request, shop), tuple(cutter.but(price=None) for cutter in more))
        found = best_with(jobs, before, again, known, self.elsewhere.get(place), watch)
        self.elsewhere.setdefault(place, (again, found))
        return least_missed(again, found, watch, more)

    def _with(self, request: Request, jobs: Asked, more: tuple[Cutter, ...], shop: Shop) -> Asked:
        """What can be done with more cutters, or in a shop with a collet more: as `jobs`, what can be done without."""
        place = (*self._place(request, shop), more)
        if place not in self.grown:
            self.grown[place] = with_tools(jobs, self._tools(jobs[0], more, shop))
        again = self.grown[place]
        is_here = all(one.question.shop is jobs[0].question.shop for one in again)
        return again if is_here else at_shop(again, self.shop, jobs)

    def _tools(self, jobs: Jobs, more: Sequence[Cutter], shop: Shop) -> list[Tool]:
        question = jobs.question
        tools = jobs.tools if shop is self.shop else self.readied.held_in(shop, question, jobs.tools)
        return [*tools, *usable(question, each_end(more))]

    def _begun(self, request: Request, shop: Shop, known: Sequence[Draft]) -> tuple[Asked, Best | None]:
        """What can be done with what is owned, and the best of it."""
        place = (id(request), self.shops.number(shop))
        if place not in self.begun:
            jobs, alike = self._jobs(request, shop), self._place(request, shop)
            watch = Watch(patience=PATIENCE)
            self.begun[place] = (jobs, best_at(jobs, known, self.elsewhere.get(alike), watch))
            self.in_part.extend([request] if watch.ran_out else [])
            self.elsewhere.setdefault(alike, self.begun[place])
        return self.begun[place]

    def _jobs(self, request: Request, shop: Shop) -> Asked:
        """What can be done with what is owned: worked out once, whatever an hour is worth."""
        place = self._place(request, shop)
        if place not in self.asked:
            asked = jobs_for(request, self.cutters, shop, self.readied, self.feature(request))
            self.asked[place] = tuple(replace(jobs, grown={}) for jobs in asked)
        return at_shop(self.asked[place], shop)


    def _place(self, request: Request, shop: Shop) -> tuple[int, int]:
        """What is worked out of the metal goes by: whatever an hour is worth."""
        return id(request), self.shops.bare(shop)


class Shops:
    """Shops by number, so that of one with its seventy settings only the first look compares them all."""

    def __init__(self) -> None:
        self.numbers: dict[Shop, int] = {}
        self.seen: dict[int, tuple[Shop, int, int]] = {}
        self.more: dict[tuple[int, float], Shop] = {}

    def number(self, shop: Shop) -> int:
        """The same for those that are equal."""
        return self._seen(shop)[1]

    def bare(self, shop: Shop) -> int:
        """The same for those that differ only in what an hour is worth."""
        return self._seen(shop)[2]

    def with_collet(self, shop: Shop, mm: float) -> Shop:
        """A shop with a collet more [mm]."""
        place = (self.number(shop), mm)
        if place not in self.more:
            self.more[place] = replace(shop, collets_mm=tuple(sorted({*(shop.collets_mm or ()), mm})))
        return self.more[place]

    def _seen(self, shop: Shop) -> tuple[Shop, int, int]:
        if id(shop) not in self.seen:  # nothing else gets its place: it is kept too
            own, bare = (self.numbers.setdefault(one, len(self.numbers))
                         for one in (shop, replace(shop, hour_rate=0.0)))
            self.seen[id(shop)] = (shop, own, bare)
        return self.seen[id(shop)]


@dataclass(frozen=True)
class Extra:
    """An offer with the cutters that it brings, or the collet."""

    offer: Offer
    cutters: tuple[Cutter, ...] = ()

    def shop(self, bench: Bench) -> Shop:
        """The shop with it."""
        shop, size = bench.shop, self.offer.collet_mm
        if size is None or shop.collets_mm is None:
            return shop
        return bench.shops.with_collet(shop, size)


def feature_of(request: Request) -> Feature:
    """The feature that is asked for, drawn."""
    material = find_material(request.material or DEFAULT_MATERIAL)
    return draw(replace(request, material=material.name))
