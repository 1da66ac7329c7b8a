"""One line about money under an answer: what the right cutter would save. Only what is quick is reckoned: the cutter
made for the work, with those of the best plan; `crib worth` reckons with everything."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from crib.buying.bench import Bench, Extra, feature_of
from crib.buying.candidates import candidates
from crib.buying.compare import CENT, Way, Worth
from crib.buying.offers import borrowed, bought, collets, idle, pairs, worths
from crib.buying.prices import Price
from crib.cutters.base import Cutter
from crib.cutters.proposals import TO_ORDER, Wanted
from crib.features.base import Feature
from crib.features.request import Request
from crib.light.hints import Any
from crib.planning.search.set_ups import Asked
from crib.planning.told.advice import Advice, Plan
from crib.shop import Shop

_MOST = 4
_NEAR, _TRIED = 4, 3
"""How many cutters are tried, and how many owned ones beside each of them where nothing owned makes the whole."""


def hint(request: Request, advice: Advice, cutters: Sequence[Cutter], shop: Shop, prices: Sequence[Price] = (),
         lent: Sequence[tuple[str, Cutter]] = (), asked: Asked = ()) -> dict[str, Any] | None:
    """What is said of buying under an answer that isn't as drawn, and of borrowing what a friend would lend; None where
    nothing is gained. `asked`: what was worked out for the answer."""
    plan = advice.plans[0] if advice.plans else None
    feature = feature_of(request)
    wanted = list(dict.fromkeys(_first(candidates(feature, shop, cutters), feature, plan)))[:_MOST]
    bench = Bench(tuple(_beside(feature, plan, cutters, shop)), shop, tuple(prices), tuple(lent))
    bench.goes_on_from(request, asked)
    idling = () if feature.down else collets(bench)
    among = [bought(one, bench, request) for one in wanted]
    found = worths(request, bench, plan, [*among, *idling, *_lent(bench, feature)])
    if plan is None and not found:
        found = worths(request, bench, plan, pairs(among))
    best = max(found, key=_gain, default=None)
    if best is None or (best.each is not None and best.each <= CENT):
        return None
    return _said(best, shop.currency)


def _gain(worth: Worth) -> tuple[bool, float, float]:
    """What a use saves; what a friend would lend for nothing comes before what costs money."""
    gain = worth.each if worth.each is not None else -worth.plan.cost
    return worth.offer.way == Way.BORROW and (worth.each is None or gain > CENT), gain, -worth.plan.minutes


def _lent(bench: Bench, feature: Feature) -> list[Extra]:
    """Friends' cutters of a kind that a room calls for."""
    kinds = {kind for calls in feature.calls_for.values() for kind in calls.kinds}
    return [extra for extra in borrowed(bench) if extra.cutters[0].kind in kinds]


def _beside(feature: Feature, plan: Plan | None, cutters: Sequence[Cutter], shop: Shop) -> Sequence[Cutter]:
    """The owned cutters that are reckoned with: all of them where that is quick, else those of the best plan, or those
    that are nearest, and in one room alone the one that waits for a collet."""
    if feature.down:
        return cutters
    alone = len(feature.outline.rooms) == 1
    beside = plan.cutters if plan else tuple(_near(feature, cutters))
    return tuple(dict.fromkeys((*beside, *(_waiting(feature, cutters, shop) if alone else ()))))


def _waiting(feature: Feature, cutters: Sequence[Cutter], shop: Shop) -> tuple[Cutter, ...]:
    """The widest owned cutter of a kind that is called for and fits, but lies idle for want of a collet."""
    lacking = idle(cutters, shop)
    found: list[Cutter] = []
    for room in feature.outline.rooms:
        kinds, width = feature.calls_for[room.name].kinds, room.most.width / 1e6
        mine = [c for c in cutters if c.kind in kinds and c.shank_mm in lacking and 0 < (c.diameter_mm or 0.0) <= width]
        found += sorted(mine, key=lambda c: (-(c.diameter_mm or 0.0), c.id))[:1]
    return tuple(found)


def _first(wanted: Sequence[Wanted], feature: Feature, plan: Plan | None) -> Iterator[Wanted]:
    """Those of the kind that a room calls for, the last room's first, made to size before the others."""
    is_round = feature.down is not None
    for name in list(feature.calls_for)[::-1]:
        kinds, limits = feature.calls_for[name].kinds, feature.calls_for[name].diameter
        if plan is None or limits is not None or not _is_at_work(kinds, plan, is_round):
            mine = [one for one in wanted if one.cutter.kind in kinds and (is_round or _within(one.cutter, limits))]
            yield from sorted(mine, key=lambda one: one.source != TO_ORDER)[:1 if plan else _TRIED]


def _is_at_work(kinds: Sequence[str], plan: Plan, is_round: bool) -> bool:
    """Whether one of the kinds makes it already; down an axis the last of them gives the size, what goes before only
    opens the way."""
    return any(cutter.kind in kinds for cutter in (plan.cutters[-1:] if is_round else plan.cutters))


def _within(cutter: Cutter, limits: tuple[float, float] | None) -> bool:
    return limits is None or limits[0] - 1e-6 <= (cutter.diameter_mm or 0.0) <= limits[1] + 1e-6


def _near(feature: Feature, cutters: Sequence[Cutter]) -> Iterator[Cutter]:
    """Of the kinds that rooms call for, the few owned ones that are nearest under the room's width."""
    for room in feature.outline.rooms:
        kinds, width = feature.calls_for[room.name].kinds, room.most.width / 1e6
        fitting = [c for c in cutters if c.kind in kinds and c.diameter_mm is not None and c.diameter_mm <= width]
        yield from sorted(fitting, key=lambda c: width - (c.diameter_mm or 0.0))[:_NEAR]


def _said(worth: Worth, currency: str) -> dict[str, Any]:
    from crib.buying.decide import Advised, times  # most answers have no such line

    label, borrows = worth.offer.label, worth.offer.way == Way.BORROW
    pays = worth.uses_to_break_even
    if borrows:
        saves = "make it" if worth.each is None else f"save {worth.each:.2f} {currency} a time"
        says = f"{worth.offer.named} would {saves}, the way there and back counted"
    elif worth.each is None:
        spent = "" if worth.spent is None else f" at {worth.spent:.2f} {currency}"
        says = f"{worth.offer.named} would make it{spent}"
    elif pays is None or worth.spent is None:
        says = f"{worth.offer.named} would save {worth.each:.2f} {currency} a time; no price was seen"
    else:
        at = f"{worth.offer.named} at {worth.spent:.2f} {currency}"
        says = f"{at} would save {worth.each:.2f} a time and pay after {times(pays)}"
    buys = worth.each is None or (worth.net(1.0) or 0.0) > 0
    return {
        "advice": Advised.BORROW if borrows else Advised.BUY if buys else Advised.WORK_AROUND,
        "says": says + ": crib worth tells more",
        "label": label,
        "price": worth.offer.price,
        "currency": currency,
        "saving_per_use": worth.each,
        "uses_to_break_even": pays,
        "break_even_price": worth.pays_up_to(1.0),
    }
