"""The blank: allowances and weight by hand; weights of a cubic inch from usual tables, from memory."""

from __future__ import annotations

import pytest

from crib.handbook.densities import density
from crib.handbook.materials import find_material, materials
from crib.light.records import replace
from crib.parts.blank import blank_of
from crib.parts.part import Part, Stock
from crib.render.words import words
from crib.shop import Shop

IN = 25.4
PART = Part("p", Stock(4 * IN, 2 * IN, 1 * IN), "1018")


def test_a_block_is_sawn_longer_wider_and_thicker() -> None:
    """An eighth of an inch each way: a sixteenth a side cleans up sawn and rolled faces. Common practice."""
    blank = blank_of(PART, Shop())
    assert (blank.length, blank.width, blank.height) == pytest.approx((4.125 * IN, 2.125 * IN, 1.125 * IN))
    assert blank.as_json()["length_mm"] == 104.775 and "diameter_mm" not in blank.as_json()
    assert blank_of(PART, Shop(), hold=True).length == pytest.approx(4.875 * IN)
    shop = replace(Shop(), saw_allowance_mm=1.0, square_allowance_mm=2.0, hold_allowance_mm=3.0)
    tight = blank_of(PART, shop, hold=True)
    assert (tight.length, tight.width, tight.height) == pytest.approx((4 * IN + 4, 2 * IN + 2, IN + 2))


def test_a_bar_keeps_its_diameter_and_has_no_sides_to_square() -> None:
    bar = blank_of(Part("p", Stock(4 * IN, IN, IN, IN), "1018"), Shop())
    assert (bar.diameter, bar.for_squaring, len(bar.squaring)) == (IN, 0.0, 2)
    assert bar.weight_kg == pytest.approx(0.283 * 0.45359237 * 4.125 * 3.14159 / 4, rel=0.01)


@pytest.mark.parametrize(("material", "pounds"), [("1018", 0.283), ("grey iron", 0.26), ("6061", 0.098), ("360", 0.307),
                                                  ("304", 0.289), ("copper", 0.323)])
def test_a_cubic_inch_weighs_what_tables_say(material: str, pounds: float) -> None:
    shop = replace(Shop(), saw_allowance_mm=0.0, square_allowance_mm=0.0)
    cube = blank_of(Part("p", Stock(IN, IN, IN), material), shop)
    assert cube.weight_kg == pytest.approx(pounds * 0.45359237, rel=0.012)


def test_every_material_weighs_something_and_an_unknown_one_is_not_weighed() -> None:
    assert all(0.9 < (density(one) or 0) < 9 for one in materials())
    assert blank_of(replace(PART, material=""), Shop()).weight_kg is None
    assert find_material("1018").group == "steel"


def test_six_sides_go_the_usual_way_and_a_long_block_is_not_stood_on_end() -> None:
    """Each new face goes by one that is flat already, the rod until both jaws bear on flat ones. Common practice."""
    steps = [words(step, "in") for step in blank_of(PART, Shop()).squaring]
    assert len(steps) == 6 and "largest" in steps[0] and [("rod" in step) for step in steps[1:4]] == [True, True, True]
    assert "no rod" in steps[3] and "2.000" in steps[2] and "1.000" in steps[3] and "4.000" in steps[5]
    assert "on end" not in " ".join(steps) and "end up" in steps[4]
    long = [words(step, "in") for step in blank_of(replace(PART, stock=Stock(8 * IN, 2 * IN, IN)), Shop()).squaring]
    assert "side of an end mill" in long[4]


def test_a_vise_is_spelt_one_way() -> None:
    """The sheet had the work in the vise and squared an end from the vice's bed."""
    told = " ".join(words(one, "in") for one in blank_of(PART, Shop()).squaring)
    assert "vise's bed" in told and "vice" not in told
