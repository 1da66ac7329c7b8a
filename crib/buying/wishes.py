"""What to wish for: every question of the past against everything that could be bought for any of them."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Sequence
from datetime import date

from crib.buying.bench import Bench, Extra
from crib.buying.candidates import candidates
from crib.buying.compare import bill_of, is_better, saving, stake_of
from crib.buying.offers import bought, collets
from crib.buying.prices import is_same
from crib.buying.purchases import Choice, Use, best_purchases, serves
from crib.buying.uses import Past, expected_uses
from crib.cutters import and_stand_ins
from crib.cutters.base import Cutter
from crib.findings.message import Text, a
from crib.findings.verdicts import ANSWERS, Verdict
from crib.light.records import dataclass, replace
from crib.planning.hitting_sets import turning_sets
from crib.planning.search.watch import Trials
from crib.planning.told.advice import AnyPlan

_MOST_QUESTIONS = 12
_MOST_ASKED, _TOGETHER = 200, 2
"""How often a question is asked at the most to find what makes it, and how many are bought together for it."""

_CENT = 0.005


@dataclass(frozen=True)
class Wish:
    """Something that could be bought: what it saves over the uses expected of each question that it serves, and the
    jobs that it makes possible. `spent` is None where no price was seen."""

    extra: Extra
    serves: tuple[Past, ...]
    saves: float
    unlocks: float

    @property
    def label(self) -> str:
        return self.extra.offer.label

    @property
    def spent(self) -> float | None:
        """Price and shipping."""
        offer = self.extra.offer
        return None if offer.price is None else offer.price + offer.shipping


@dataclass(frozen=True)
class WishList:
    """What could be bought, what serves most first; the best choice of those with a price; and the owned cutters that
    one kind of work alone needs. `in_part`: something took longer to try than it may."""

    wishes: tuple[Wish, ...]
    choice: tuple[Wish, ...]
    chosen: Choice | None
    asked: tuple[Past, ...]
    only_for: tuple[tuple[Cutter, str], ...] = ()
    in_part: bool = False

    @property
    def most(self) -> Wish | None:
        """The one size that serves most of the work."""
        return max(self.wishes, key=lambda w: (len(w.serves), w.saves, w.unlocks), default=None)

    @property
    def gift(self) -> Wish | None:
        """What would make most possible that isn't; None where nothing would."""
        opening = [wish for wish in self.wishes if wish.unlocks]
        return max(opening, key=lambda w: (w.unlocks, w.saves), default=None)


def wish_list(bench: Bench, history: Sequence[Past], budget: float | None, today: date, trials: Trials | None = None
              ) -> WishList:
    """Everything of the latest questions, each with everything that could be bought for any of them. `trials`: for who
    wants to see how far it is; where it is stopped, of those that were tried."""
    asked = tuple(history[:_MOST_QUESTIONS])
    among = _among(bench, asked)
    uses = (trials or Trials()).each(asked, _named, lambda past: _uses(bench, past, among, today))
    asked = asked[:len(uses)]
    wishes = tuple(_wish(extra, place, uses, asked) for place, extra in enumerate(among))
    kept = [wish for wish in wishes if wish.serves]
    ranked = tuple(sorted(kept, key=lambda w: (-w.unlocks, -w.saves, -len(w.serves), w.label)))
    priced = [place for place, wish in enumerate(wishes) if wish.spent is not None]
    chosen = None
    if priced:
        chosen = best_purchases([wishes[place].spent or 0.0 for place in priced], _renumbered(uses, priced),
                                float("inf") if budget is None else budget)
    picked = tuple(wishes[priced[place]] for place in chosen.bought) if chosen else ()
    return WishList(ranked, picked, chosen, asked, _only_for(bench, asked), bool(bench.in_part))


def _named(past: Past) -> Text:
    return f"what could be bought for question {past.number}, {a(past.request.kind)}"


def _among(bench: Bench, asked: Sequence[Past]) -> list[Extra]:
    """Each thing once: what any question proposes, one of a kind and size, and the collets that lack."""
    found: list[Extra] = list(collets(bench))
    for past in asked:
        for wanted in candidates(bench.feature(past.request), bench.shop, bench.cutters):
            extra = bought(wanted, bench, past.request)
            if not any(other.cutters and is_same(other.cutters[0], wanted.cutter) for other in found):
                found.append(extra)
    return [_numbered(extra, place) for place, extra in enumerate(found)]


def _numbered(extra: Extra, place: int) -> Extra:
    """With a number of its own: two may be tried together."""
    cutters = tuple(cutter.but(id=2_000_000_000 + place) for cutter in extra.cutters)
    return Extra(replace(extra.offer, cutters=tuple(cutter.id for cutter in cutters)), cutters)


def _uses(bench: Bench, past: Past, among: Sequence[Extra], today: date) -> list[Use]:
    """What each purchase does for a question; and each two, where only both of them make it."""
    before = bench.best(past.request)
    if before is None and bench.unmade(past.request) == Verdict.MEASURE_FIRST:
        return []
    jobs = expected_uses([past], today, bench.shop) - 1 or 0.0
    kinds = {*and_stand_ins(kind for calls in bench.feature(past.request).calls_for.values() for kind in calls.kinds)}
    mine = [place for place, extra in enumerate(among) if _may_serve(bench, extra, kinds)]
    alone = [place for place in mine if before is not None or not among[place].cutters]
    found = [use for place in alone if (use := _use(bench, past, frozenset({place}), among[place], before, jobs))]
    if before is None:
        making = _making(bench, past, among, frozenset(mine) - frozenset(alone))
        singly = found or any(len(places) == 1 for places in making)
        found += [Use(places, 0.0, jobs) for places in making if len(places) == 1 or not singly]
    return found


def _making(bench: Bench, past: Past, among: Sequence[Extra], places: frozenset[int]) -> list[frozenset[int]]:
    """The smallest sets, of one or two of some cutters, with which a question that has no plan gets one. All of them
    are tried at once first: what they don't make together none of them makes."""
    asked = set[frozenset[int]]()

    def plan(some: frozenset[int]) -> AnyPlan | None:
        asked.add(some)
        cutters = tuple(cutter for place in sorted(some) for cutter in among[place].cutters)
        return bench.best(past.request, Extra(among[min(some)].offer, cutters)) if some else None

    def likely(some: frozenset[int]) -> frozenset[int]:
        used = {int(cutter.id) for cutter in found.cutters} if (found := plan(some)) else set()
        return frozenset(place for place in some if used & {cutter.id for cutter in among[place].cutters})

    sets = turning_sets(lambda some: plan(some) is not None, likely, places, lambda: len(asked) >= _MOST_ASKED)
    return sorted((one for one in sets if len(one) <= _TOGETHER), key=sorted)


def _may_serve(bench: Bench, extra: Extra, kinds: Collection[str]) -> bool:
    """Whether it, or a cutter that waits for it, is of a kind that is called for."""
    size = extra.offer.collet_mm
    mine = extra.cutters or [cutter for cutter in bench.cutters if size is not None and cutter.shank_mm == size]
    return any(cutter.kind in kinds for cutter in mine)


def _use(bench: Bench, past: Past, places: frozenset[int], extra: Extra, before: AnyPlan | None, jobs: float
         ) -> Use | None:
    after = bench.best(past.request, extra)
    if after is None:
        return None
    if before is None or is_better(after, before):
        return Use(places, 0.0, jobs)
    saves = saving(bill_of(before), bill_of(after), stake_of(bench.shop, past.request.hours))
    if saves <= _CENT or ANSWERS.index(after.answer) > ANSWERS.index(before.answer):
        return None
    return Use(places, jobs * saves)


def _wish(extra: Extra, place: int, uses: Sequence[Sequence[Use]], asked: Sequence[Past]) -> Wish:
    mine = serves(place, uses)
    return Wish(extra, tuple(asked[question] for question in mine), sum(use.saves for use in mine.values()),
                sum(use.unlocks for use in mine.values()))


def _renumbered(uses: Sequence[Sequence[Use]], kept: Sequence[int]) -> list[list[Use]]:
    """The uses that need nothing but what is kept, by the places there."""
    place = {old: new for new, old in enumerate(kept)}
    return [[replace(use, needs=frozenset(place[one] for one in use.needs)) for use in question
             if use.needs <= set(kept)] for question in uses]


def _only_for(bench: Bench, asked: Sequence[Past]) -> tuple[tuple[Cutter, str], ...]:
    """The cutters of the best plans that one kind of work alone has needed, where there was more than one kind."""
    kinds: dict[int, set[str]] = defaultdict(set)
    for past in asked:
        plan = bench.best(past.request)
        for cutter in plan.cutters if plan else ():
            kinds[cutter.id].add(past.request.kind)
    if len({past.request.kind for past in asked}) < 2:
        return ()
    return tuple((cutter, next(iter(kinds[cutter.id]))) for cutter in bench.cutters if len(kinds[cutter.id]) == 1)
