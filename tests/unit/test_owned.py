"""What is owned isn't offered, whatever it is called; a hole that nothing makes names the drill that is missing."""

from __future__ import annotations

import pytest

from crib.buying.bench import Bench
from crib.buying.decide import Terms
from crib.buying.offers import extras
from crib.buying.owned import owned_one
from crib.buying.prices import Price, price_of
from crib.buying.worth import reckon
from crib.cutters.base import Cutter
from crib.cutters.label import label
from crib.intake.lists.files import read_file
from crib.pages.worth_page import worth_page
from crib.planning.ask import read_request
from crib.sample import folder, shop_settings
from crib.shop import Shop, from_json
from tests.shown import shown
from tests.spelt import spelt

IN = 25.4


def sample() -> Bench:
    settings = shop_settings()
    taken = read_file(folder() / "cutters.json", settings["units"], settings["currency"]).taken
    return Bench(tuple(one.cutter.but(id=n, label=label(one.cutter, "in")) for n, one in enumerate(taken, start=1)),
                 from_json(settings))


@pytest.mark.parametrize(("kind", "texts"), [
    ("slot", {"width": "3/8", "depth": "1/4", "length": "2"}),
    ("slot", {"width": "13/32", "depth": "1/4", "length": "2"}),
    ("undercut", {"width": "5/32", "depth": "1/16", "length": "2"}), ("hole", {"diameter": "1/4+.006-0", "depth": "1"}),
    ("t-slot", {"throat": "5/8", "depth": ".52", "head_width": ".975", "head_height": ".24", "length": "6"}),
    ("tapped-hole", {"thread": "1/4-20", "depth": "1/2"}), ("step", {"width": "1/2", "depth": "1/4", "length": "3"})])
def test_what_is_owned_is_not_offered(kind: str, texts: dict[str, str]) -> None:
    """A second 3/8 mill, and a 5/8 x 5/32 keyseat cutter that lay in the drawer, were on the list."""
    bench = sample()
    for extra in extras(read_request(kind, texts, bench.shop, "in"), bench):
        if extra.offer.way == "buy" and not extra.offer.label.startswith("second-hand"):
            assert all(owned_one(cutter, bench.cutters) is None for cutter in extra.cutters), extra.offer.label


def test_the_same_size_by_another_name() -> None:
    """A letter E drill is a 1/4 drill; a 3/8 mill of .3751 is a 3/8 mill; dull, reground and shorter are others."""
    quarter, mill = Cutter(1, "drill", diameter_mm=6.35), Cutter(2, "end-mill", diameter_mm=0.3751 * IN, shank_mm=9.525)
    assert owned_one(Cutter(0, "drill", diameter_mm=0.250 * IN, marking="E"), [quarter]) is quarter
    wanted = Cutter(0, "end-mill", diameter_mm=9.525, shank_mm=9.525, length_of_cut_mm=25.4)
    assert owned_one(wanted, [mill]) is mill
    for other in ({"condition": "dull"}, {"diameter_mm": 9.4}, {"length_of_cut_mm": 19.0}, {"corner_radius_mm": 1.5},
                  {"diameter_mm": None, "nominal_mm": 9.525}, {"shank_mm": 12.7}):
        assert owned_one(wanted, [mill.but(**other)]) is None


def test_a_hole_that_nothing_makes() -> None:
    """It said "work around with what you own". A 23/64 (.3594) is the usual drill under a 3/8 reamer: 1/64 under.
    Common practice, no source."""
    reamer = Cutter(1, "reamer", diameter_mm=9.525, shank_mm=9.525, condition="sharp", material="hss", flutes=6)
    bench = Bench((reamer.but(label="3/8 reamer"),), Shop())
    asked = read_request("hole", {"diameter": "3/8+.0005-0", "depth": "3/4", "finish": "reamed"}, Shop(), "in")
    found = reckon(asked, bench, Terms(1, said=True, price=4))
    assert found.decision.advice == "buy" and "drill would" in spelt(found.decision.says)
    assert any("23/64" in worth.offer.label for worth in found.worths)
    nothing = reckon(read_request("hole", {"diameter": "3.2+.001-0", "depth": "3/4"}, Shop(), "in"), bench, Terms())
    page = shown(worth_page(nothing, "USD"))
    assert nothing.decision.advice != "work around" and not page[0].endswith("work around with what you own")
    if nothing.decision.worth is None:
        assert page[0] == "Answer: not with this crib - nothing in it makes this"


def test_second_hand_at_a_noted_price() -> None:
    """Beside the new one, at its own price, with used edges; what a used one cost is no price of a new one."""
    cutter = Cutter(0, "drill", diameter_mm=0.201 * IN)
    prices = (Price(3.0, 0.0, "2026-01-01", "#7 drill", cutter=cutter),
              Price(0.5, 0.0, "2026-02-01", "used #7 drill", "flea market", cutter=cutter))
    assert price_of(cutter, prices) == prices[0]
    bench = Bench((), Shop(), prices)
    asked = read_request("hole", {"diameter": ".201+.006-0", "depth": "1/2"}, Shop(), "in")
    offers = {extra.offer.label: (extra.offer.price, extra.cutters[0].condition) for extra in extras(asked, bench)}
    assert offers["second-hand #7 drill"] == (0.5, "used") and offers["#7 drill"] == (3.0, "sharp")


@pytest.mark.parametrize(("units", "texts", "first", "source"), [
    ("in", {"width": "1/4", "depth": "1"}, "1/4 end mill, 2 flutes, 1-1/4 length of cut", "ASME B94.19, from memory"),
    ("in", {"width": "1/4", "depth": "1.5"}, "1/4 end mill, 2 flutes, 1-3/4 length of cut", "ASME B94.19, from memory"),
    ("in", {"width": "3 mm", "depth": "1/8"}, "3 mm end mill, 2 flutes", "ISO 1641, from memory"),
    ("mm", {"width": "9", "depth": "12"}, "9 mm end mill, 2 flutes", "ISO 1641, from memory"),
    ("mm", {"width": "9", "depth": "30"}, "9 mm end mill, 2 flutes, 38 mm length of cut", "ISO 1641, from memory"),
    ("mm", {"width": "1/4\"", "depth": "10"}, "6.35 mm end mill, 2 flutes", "ASME B94.19, from memory"),
    ("in", {"width": ".240+-.001", "depth": "1/8"}, ".239 end mill, 2 flutes", "made to size"),
    ("in", {"width": "1/4", "depth": "2"}, ".249 end mill, 2 flutes, 2-1/16 length of cut", "made to size")])
def test_what_is_made_is_offered_before_what_would_be_made_to_size(
        units: str, texts: dict[str, str], first: str, source: str) -> None:
    """A deep slot asked for a mill of .249 made to size, where long ones are made; one of 3 mm for .117 in an inch
    shop. Standards from memory, as they are told."""
    bench = Bench((), Shop(units=units))
    request = read_request("slot", {"length": "2", "material": "brass", **texts}, bench.shop, units)
    found = {one.offer.label: one.offer.source for one in extras(request, bench) if "end mill" in one.offer.label}
    assert found[first] == source
    assert (source == "made to size") == ("made to size" in found.values())


@pytest.mark.parametrize(("inches", "price"), [(None, None), (1.0, None), (1.25, 12.0), (1.75, 12.0)])
def test_the_price_of_a_usual_mill_is_none_of_a_long_one(inches: float | None, price: float | None) -> None:
    """A long one is dearer. Common practice, no source."""
    mill = Cutter(0, "end-mill", diameter_mm=0.25 * IN, length_of_cut_mm=inches and inches * IN)
    bench = Bench((), Shop(), (Price(12.0, 0.0, "2026-01-01", "1/4 end mill", cutter=mill),))
    request = read_request("slot", {"length": "2", "width": "1/4", "depth": "1"}, bench.shop, "in")
    found = {one.offer.label: one.offer.price for one in extras(request, bench)}
    assert found["1/4 end mill, 2 flutes, 1-1/4 length of cut"] == price
