"""What could be got for a question: bought, borrowed, ground from a blank, or held at last by a collet that lacks."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from itertools import combinations

from crib.buying.bench import Bench, Extra
from crib.buying.candidates import candidates
from crib.buying.compare import Offer, Stake, Way, Worth, bill_of, saving
from crib.buying.needs import FIRST_ID
from crib.buying.prices import collet_price, is_same, price_of
from crib.cutters import kind_of
from crib.cutters.base import Cutter
from crib.cutters.proposals import Wanted
from crib.features.request import Request
from crib.findings.message import Text, joined, said
from crib.handbook.materials import DEFAULT_MATERIAL, Material, find_material
from crib.holders import hold
from crib.holders.base import Holding
from crib.holders.heads import is_head
from crib.light.records import replace
from crib.planning.reckoning.cost import wear_share
from crib.planning.search.watch import Trials
from crib.planning.told.advice import AnyPlan
from crib.shop import Shop
from crib.units import in_words

_SOFT = frozenset({"aluminium", "brass", "bronze", "copper", "plastic", "magnesium"})
"""Groups of metal that a one-tooth cutter ground at the bench may be asked to cut (common practice)."""

_GROUND_USES = 2
_LENT_FROM = FIRST_ID + 500_000_000
_USED_FROM = FIRST_ID + 600_000_000
_GROUND_FROM = FIRST_ID + 700_000_000


def extras(request: Request, bench: Bench) -> tuple[Extra, ...]:
    """Everything that could be got for a question."""
    material = find_material(request.material or DEFAULT_MATERIAL)
    wanted = candidates(bench.feature(request), bench.shop, bench.cutters)
    return (*(bought(one, bench, request) for one in wanted), *_second_hand(wanted, bench, request), *borrowed(bench),
            *ground(wanted, bench, material), *_reground(bench), *collets(bench))


def bought(wanted: Wanted, bench: Bench, request: Request) -> Extra:
    """A cutter that could be bought, at the price seen last for such a one."""
    material = find_material(request.material or DEFAULT_MATERIAL)
    seen = price_of(wanted.cutter, bench.prices, wanted.long_mm)
    share: float = getattr(bench.shop, wear_share(kind_of(wanted.cutter).buried, material)[0])
    priced = wanted.cutter.but(price=seen.price if seen else None)
    return Extra(Offer(Way.BUY, priced.label, (priced.id,), price=seen.price if seen else None,
                       shipping=seen.shipping if seen else 0.0, wear=share,
                       source="; ".join(filter(None, (wanted.source, seen.source if seen else ""))), ask=wanted.ask),
                 (priced,))


def _second_hand(wanted: Sequence[Wanted], bench: Bench, request: Request) -> Iterator[Extra]:
    """What was seen second-hand at a price that was noted, beside the new one: its edges are used."""
    for place, one in enumerate(wanted):
        fitting = [seen for seen in bench.prices if seen.second_hand and seen.cutter is not None
                   and is_same(seen.cutter, one.cutter)]
        if fitting:
            seen = min(fitting, key=lambda price: price.price + price.shipping)
            new = bought(one, bench, request)
            used = one.cutter.but(id=_USED_FROM + place, condition="used", price=seen.price,
                                  label=f"second-hand {one.cutter.label}")
            yield Extra(replace(new.offer, label=used.label, cutters=(used.id,), price=seen.price,
                                shipping=seen.shipping, source=seen.source), (used,))


def together(*those: Extra) -> Extra:
    """Purchases as one, where nothing less makes it."""
    first, offers = those[0].offer, [extra.offer for extra in those]
    prices, labels = [offer.price for offer in offers], [_in_a_row(offer.label) for offer in offers]
    offer = replace(first, label=" and ".join((", ".join(labels[:-1]), labels[-1])),
                    price=None if None in prices else sum(price or 0.0 for price in prices),
                    cutters=tuple(number for offer in offers for number in offer.cutters),
                    shipping=sum(offer.shipping for offer in offers),
                    source="; ".join(dict.fromkeys(offer.source for offer in offers if offer.source)),
                    ask=joined("; ", [offer.ask for offer in offers if offer.ask]))
    return Extra(offer, tuple(cutter for extra in those for cutter in extra.cutters))


def _in_a_row(label: str) -> str:
    """A name that stands among others: what is said more of it in brackets.

    >>> _in_a_row("3/8 boring bar, holes from 7/16")
    '3/8 boring bar (holes from 7/16)'
    """
    name, _, more = label.partition(", ")
    return f"{name} ({more})" if more else name


def pairs(among: Sequence[Extra], number: int = 2) -> tuple[Extra, ...]:
    """Every two purchases of different kinds, together, or every so many."""
    bought = [extra for extra in among if extra.offer.way == Way.BUY and extra.cutters]
    return tuple(together(*these) for these in combinations(bought, number)
                 if len({one.cutters[0].kind for one in these}) == number)


def borrowed(bench: Bench) -> Iterator[Extra]:
    """Friends' cutters, each a plan of its own; none of them is ever owned."""
    for place, (friend, cutter) in enumerate(bench.lent):
        lent = cutter.but(id=_LENT_FROM + place, price=None, label=f"{friend}'s {cutter.label}")
        yield Extra(Offer(Way.BORROW, lent.label, (lent.id,), price=0.0, again=bench.shop.borrow_minutes,
                          source=friend),
                    (lent,))


def ground(wanted: Sequence[Wanted], bench: Bench, material: Material) -> Iterator[Extra]:
    """One tooth on a blank that is owned and at least as thick, in soft metal, for a use or two."""
    blanks = [c for c in bench.cutters if kind_of(c).is_blank and c.diameter_mm is not None]
    if material.group not in _SOFT:
        return
    for place, one in enumerate(wanted):
        thick = [blank for blank in blanks if (blank.diameter_mm or 0.0) >= (one.cutter.diameter_mm or 0.0)]
        if kind_of(one.cutter).is_ground_from_blanks and thick:
            blank = min(thick, key=lambda c: (c.diameter_mm or 0.0, c.id))
            label = f"one-tooth {one.cutter.label} ground from no. {blank.id}"
            tooth = one.cutter.but(id=_GROUND_FROM + place, label=label, flutes=1, shank_mm=blank.shank_mm,
                                   condition="used", price=None)
            yield Extra(Offer(Way.GRIND, label, (tooth.id,), price=0.0, minutes=bench.shop.grind_minutes,
                              most_uses=_GROUND_USES, source="a blank that is owned"), (tooth,))


def _reground(bench: Bench) -> Iterator[Extra]:
    """What is owned and dull or chipped, sent out to be ground."""
    from crib.buying.elsewhere import regrinds

    return (Extra(offer, (back,)) for offer, back in regrinds(bench.cutters, bench.shop))


def collets(bench: Bench) -> Iterator[Extra]:
    """The collets that lack, each with how many owned cutters lie idle for it."""
    for size, count in sorted(idle(bench.cutters, bench.shop).items()):
        seen = collet_price(size, bench.prices)
        label = f"{in_words(size, bench.shop.units)} collet"
        yield Extra(Offer(Way.HOLDER, label, collet_mm=size, price=seen.price if seen else None,
                          shipping=seen.shipping if seen else 0.0, source=seen.source if seen else "", idle=count))


def idle(cutters: Sequence[Cutter], shop: Shop) -> Mapping[float, int]:
    """How many cutters lie idle for want of a collet, by its size [mm]."""
    if shop.collets_mm is None:
        return {}
    holding = Holding(shop.collets_mm)
    lacking = [c for c in cutters if c.shank_mm and c.bore_mm is None and not kind_of(c).in_chuck and kind_of(c).form]
    return Counter(c.shank_mm or 0.0 for c in lacking if not hold(c, holding).ok)


def worths(request: Request, bench: Bench, work: AnyPlan | None, among: Sequence[Extra], wait: float = 0.0,
           day_cost: float = 0.0, trials: Trials | None = None) -> tuple[Worth, ...]:
    """Each extra that the best plan makes use of, by the same planner; those that change nothing aren't among them.
    What goes by the same name (a mill on either of two shanks) is there once, as it saves most. `wait`: days until what
    is ordered is there; `day_cost`: what each costs; `trials`: for who waits."""
    found: dict[tuple[str, str], Worth] = {}
    stake = Stake(bench.shop.real_hour, request.hours, bench.shop.blank_cost)
    plans = (trials or Trials()).each(among, _tried, lambda extra: bench.best(request, extra))
    for extra, plan in zip(among, plans, strict=False):
        if plan is not None and _uses(plan, extra, work):
            worth = _worth(extra.offer, plan, work, stake, extra.offer.wait(wait) * day_cost)
            named = (worth.offer.way, worth.offer.label)
            if named not in found or worth.plan.cost < found[named].plan.cost:
                found[named] = worth
    return tuple(found.values())


def _tried(extra: Extra) -> Text:
    return said("what there is to get: {label}", label=extra.offer.label)


def _uses(plan: AnyPlan, extra: Extra, work: AnyPlan | None) -> bool:
    """Whether a plan has a cutter of an extra at work; one that only holds, a collet or a boring head, is used where
    others work than without it."""
    ids = {int(cutter.id) for cutter in plan.cutters}
    working = {cutter.id for cutter in extra.cutters if not is_head(cutter)}
    if working:
        return bool(ids & working)
    return work is None or ids != {int(cutter.id) for cutter in work.cutters}


def _worth(offer: Offer, plan: AnyPlan, work: AnyPlan | None, stake: Stake, waiting: float) -> Worth:
    each = None
    if work is not None:
        each = saving(bill_of(work), bill_of(plan), stake) - offer.each_time(stake)
    free = None if each is None else each + offer.wear * (offer.price or 0.0)
    return Worth(offer, plan, each, free, stake, waiting)
