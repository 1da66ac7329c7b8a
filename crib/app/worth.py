"""Whether something is worth buying for a feature: the question and its terms read once, reckoned with all that could
be got."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date

from crib.app.asking import Reply, answer, read
from crib.app.remembered import bench_of, history_of, today
from crib.buying.bench import Bench, Extra
from crib.buying.candidates import said_cutter
from crib.buying.decide import Terms
from crib.buying.offers import bought
from crib.buying.worth import Answer, reckon
from crib.features.request import Request
from crib.intake.money import read_days, read_deadline, read_money, read_price, read_uses
from crib.light.records import dataclass
from crib.planning.search.watch import Trials
from crib.safety.refer import refer
from crib.shop import Shop
from crib.store import Crib

TERMS = ("price", "shipping", "uses", "wait", "deadline", "day_cost", "cutter")
"""What may be said beside the question."""


@dataclass(frozen=True)
class Reckoned:
    """The whole answer, and the shop whose money it is in."""

    found: Answer
    shop: Shop


def worth(crib: Crib, kind: str, texts: Mapping[str, str], accept: bool = False,
          trials: Trials | None = None) -> Reckoned | Reply:
    """Buy, borrow, grind or work around. `texts`: what is asked, and its terms, as they are typed; `accept`: what the
    work-around gives away will do; `trials`: for who waits. A part that is referred gets what `ask` says of it. Raises
    `CribError`."""
    enquiry = read(crib, kind, {key: text for key, text in texts.items() if key not in TERMS})
    request, shop = enquiry.request, enquiry.shop
    terms = read_terms(texts, shop, today(), accept)
    if refer(request.use, request.mating) is not None:
        return answer(enquiry)
    bench = bench_of(enquiry.there, shop)
    only = _only(texts["cutter"], bench, request) if "cutter" in texts else None
    return Reckoned(reckon(request, bench, terms, history_of(crib.questions(), shop), today(), only, trials), shop)


def read_terms(texts: Mapping[str, str], shop: Shop, today: date, accept: bool = False) -> Terms:
    """The terms from what was typed. Raises `CribError` for what can't be read or can't be."""
    price, shipping = read_price(texts["price"], shop.currency) if "price" in texts else (None, None)
    if "shipping" in texts:
        shipping = read_money(texts["shipping"], shop.currency, "shipping")
    wait = read_days(texts["wait"], "wait") if "wait" in texts else 0.0
    cost = read_money(texts["day_cost"], shop.currency, "day cost") if "day_cost" in texts else 0.0
    uses = read_uses(texts["uses"], shop.years_ahead) if "uses" in texts else None
    deadline = read_deadline(texts["deadline"], today) if "deadline" in texts else None
    return Terms(1.0 if uses is None else uses, wait, deadline, accept, uses is not None, price, shipping, cost)


def _only(words: str, bench: Bench, request: Request) -> Extra:
    """The cutter that is asked about, as if it could be bought."""
    from crib.intake.priced import read_one

    return bought(said_cutter(read_one(words, bench.shop), bench.shop), bench, request)
