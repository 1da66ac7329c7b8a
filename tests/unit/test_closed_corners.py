"""A wide slot with corners of a stated radius at its one closed end: what people mean by a pocket with an open side."""

from __future__ import annotations

import pytest

from crib.findings.errors import CribError
from crib.planning.advise import advise
from crib.planning.ask import read_request
from crib.planning.told.advice import Advice
from crib.shop import Shop
from tests.slant_samples import IN, end_mill
from tests.spelt import spelt

SHOP = Shop()
ASKED = {"width": "1.5", "depth": ".5", "length": "2", "ends": "one", "material": "6061"}
MILLS = (end_mill(1, 0.25), end_mill(2, 0.375), end_mill(3, 0.5), end_mill(4, 1.0))


def asked(*mills: int, **texts: str) -> Advice:
    cutters = [mill for mill in MILLS if mill.id in (mills or (1, 2, 3, 4))]
    return advise(read_request("slot", ASKED | texts, SHOP, "in"), cutters, SHOP).advice


def test_only_mills_that_go_into_the_corners_are_used() -> None:
    """Geometry: a corner comes out as round as the mill. Without a radius the widest may be the best."""
    for corner, most, able in (("1/8", 0.125, {1}), ("3/16", 0.1875, {1, 2}), ("1/4", 0.25, {1, 2, 3})):
        plans = asked(corner_radius=corner).plans
        assert plans and {cutter.id for plan in plans for cutter in plan.cutters} <= able
        (told,) = [one for one in plans[0].figures if one.what == "radius of the corners at the closed end"]
        wide = next(mill.diameter_mm for mill in MILLS if mill.id == plans[0].cutters[-1].id)
        assert told.mm == pytest.approx((wide or 0.0) / 2) and (told.mm or 99.0) <= most * IN + 1e-6
    assert asked().plans[0].cutters[-1].id == 4


def test_a_mill_that_is_too_round_says_so_with_both_numbers() -> None:
    found = asked(3, 4, corner_radius="3/16")
    assert found.answer == "cannot"
    near = found.refused[0]
    assert near.cutter_id == 3 and near.id == "SZ3" and near.has_mm == pytest.approx(0.5 * IN)
    assert near.needs_mm == pytest.approx(0.375 * IN) and "corners at the closed end" in spelt(near.says)


@pytest.mark.parametrize(("texts", "says"), [
    ({"ends": "open"}, "--ends one"), ({"ends": "closed"}, "make pocket"), ({"corner_radius": "7/8"}, "at most half"),
])
def test_corners_that_cannot_be_are_one_sentence(texts: dict[str, str], says: str) -> None:
    with pytest.raises(CribError) as raised:
        asked(**{"corner_radius": "3/16", **texts})
    assert says in spelt(raised.value.finding.fix or "")


def test_of_many_mills_those_that_go_in_are_found() -> None:
    """The sieve of bare sizes knows of the corners too."""
    many = [end_mill(10 + k, 0.5 + 0.001 * k) for k in range(310)]
    plans = advise(read_request("slot", ASKED | {"corner_radius": "3/16"}, SHOP, "in"), [*many, *MILLS], SHOP
                   ).advice.plans
    assert plans and plans[0].cutters[-1].id in (1, 2)
