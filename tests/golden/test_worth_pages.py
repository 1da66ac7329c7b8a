"""Pages about money, for the sample bench: kept as the other pages are."""

from __future__ import annotations

import os
from datetime import date
from itertools import chain
from pathlib import Path

import pytest

from crib.buying.bench import Bench
from crib.buying.decide import Terms
from crib.buying.prices import Price
from crib.buying.uses import Past
from crib.buying.wishes import wish_list
from crib.buying.worth import reckon
from crib.cutters.label import label
from crib.intake.money import read_price
from crib.intake.priced import read_collet, read_one
from crib.pages.blocks import Blocks
from crib.pages.why import why as cost
from crib.pages.wish_page import wish_page
from crib.pages.worth_page import worth_page
from crib.planning.advise import advise
from crib.planning.ask import read_request, texts_of
from crib.safety.refer import refer
from crib.sample import prices, questions, shop_settings
from crib.shop import Shop, from_json
from tests import test_sample_crib as sample
from tests.shown import shown

HERE = Path(__file__).parent
DAY = date(2026, 6, 1)


def bench() -> Bench:
    shop = from_json(shop_settings())
    seen = tuple(price(shop, one) for one in prices())
    return Bench(tuple(cutter.but(label=label(cutter, "in")) for cutter in sample.CUTTERS), shop, seen)


def price(shop: Shop, one: dict[str, str]) -> Price:
    collet = read_collet(one["words"], "in")
    cutter = read_one(one["words"], shop) if collet is None else None
    return Price(*read_price(one["price"], shop.currency), one["seen"], one["words"], one["where"], cutter, collet)


def history(shop: Shop) -> tuple[Past, ...]:
    asked = [read_request(one.make[0], texts_of(one.make[1:]), shop, "in") for one in questions()]
    return tuple(Past(number, one, 1, DAY, DAY) for number, one in enumerate(asked, start=1) if not refer(one.use))


def worth() -> Blocks:
    there = bench()
    asked = history(there.shop)
    return worth_page(reckon(asked[0].request, there, Terms(4.0, said=True), asked, DAY), "USD")


def wishes() -> Blocks:
    there = bench()
    return wish_page(wish_list(there, history(there.shop), 60.0, DAY), there.shop, 60.0)


def why() -> Blocks:
    there = bench()
    advice = advise(history(there.shop)[0].request, there.cutters, there.shop).advice
    return tuple(chain.from_iterable(cost(advice, advice.plans[0], there.shop)))


@pytest.mark.parametrize(("name", "made"), [("worth.txt", worth), ("wish_list.txt", wishes), ("why.txt", why)])
def test_as_kept(name: str, made: object) -> None:
    assert callable(made)
    blocks = made()
    for width in (60, 80, 100):
        lines = shown(blocks, width=width)
        assert all(len(line) <= width for line in lines), width
    text = "\n".join(lines) + "\n"
    kept = HERE / name
    if os.environ.get("CRIB_UPDATE_GOLDEN"):
        kept.write_text(text, encoding="utf-8")
    assert text == kept.read_text(encoding="utf-8"), "CRIB_UPDATE_GOLDEN=1 writes it anew"
