"""Flats round a bar: what bar they want, in what order, how the work is turned, what comes of a thin bar."""

from __future__ import annotations

from dataclasses import replace
from math import cos, radians, sqrt, tan

import pytest
from hypothesis import given
from hypothesis import strategies as st

from crib.findings.errors import CribError
from crib.handbook import indexing
from crib.planning.advise import advise
from crib.planning.ask import read_request
from crib.planning.told.advice import Advice
from crib.shop import Shop, from_json
from tests.sheets import OWNED, SHOP
from tests.spelt import spelt

INCH = 25.4
ASKED = {"across": "1/2+0-.005", "number": "6", "length": "3/8", "stock": "5/8"}
BENCH = from_json(SHOP)


def asked(shop: Shop = BENCH, **more: str) -> Advice:
    texts = {key: text for key, text in (ASKED | more).items() if text}
    return advise(read_request("flats", texts, shop, "in"), OWNED, shop).advice


@given(st.integers(3, 12), st.floats(0.1, 4.0))
def test_a_bar_for_sharp_corners_is_the_polygons_circle(number: int, across: float) -> None:
    """Worked from the polygon itself: the corner is as far out as half of AF over and half a side aside."""
    side = across * tan(radians(180 / number))
    assert indexing.stock_for(across, number) == pytest.approx(2 * sqrt((across / 2) ** 2 + (side / 2) ** 2))
    assert indexing.flat_width(indexing.stock_for(across, number) + 1e-9, across, number) == pytest.approx(side)


@given(st.integers(2, 12))
def test_every_flat_is_cut_once_and_opposite_ones_follow(number: int) -> None:
    order = indexing.order_of(number)
    assert sorted(order) == list(range(1, number + 1)) and order[0] == 1
    if number % 2 == 0:
        assert all(abs(a - b) == number // 2 for a, b in zip(order[::2], order[1::2], strict=True))


@given(st.sampled_from([40, 60, 72, 90]), st.integers(1, 11), st.integers(2, 12))
def test_a_crank_turns_what_the_flats_want(ratio: int, flats: int, number: int) -> None:
    turns, holes, circle = indexing.crank(ratio, flats, number)
    if circle or not holes:
        assert turns + (holes / circle if circle else 0) == pytest.approx(ratio * flats / number)


def test_infeed_and_bar_are_told() -> None:
    """A hexagon of 1/2 wants .5774 (rules of the polygon); from a bar of 5/8 each flat lies half of .1275 in."""
    advice = asked()
    plan = advice.plans[0]
    figures = {str(one.what): (one.mm or 0.0) / INCH for one in plan.figures}
    assert figures["bar that leaves sharp corners"] == pytest.approx(0.4975 / cos(radians(30)), abs=1e-6)
    assert figures["let in from the bar's side"] == pytest.approx((0.625 - 0.4975) / 2)
    without = asked(stock="")
    assert without.feature["reckoned"]["stock_needed_mm"] / INCH == pytest.approx(0.4975 * 1.154701, abs=1e-5)
    assert any("leaves sharp corners" in spelt(text) for text in without.plans[0].assumed)


def test_the_mill_stands_its_radius_off_the_flat() -> None:
    """The axis is half of AF and half of the cutter from the bar's middle."""
    plan = asked().plans[0]
    across = plan.cutters[0].diameter_mm or 0.0
    last = [one for one in plan.passes if one.role == "finish"][-1]
    assert last.x_mm == pytest.approx(0.4975 / 2 * INCH + across / 2, abs=0.001)
    assert last.z_mm == pytest.approx(-0.375 * INCH) and plan.proof.gouge_mm == plan.proof.left_mm == 0.0


def test_opposite_flats_are_miked() -> None:
    plan = asked().plans[0]
    reads = {spelt(one.what): one for one in plan.checks}
    assert reads["across each two opposite flats"].low_mm == pytest.approx(0.495 * INCH)
    assert reads["first flat to the far side of the bar"].reads_mm == pytest.approx((0.625 + 0.4975) / 2 * INCH)
    assert not any("opposite" in spelt(one.what) for one in asked(number="3", stock="1").plans[0].checks)
    assert [one.flat for one in plan.indexed] == [1, 4, 2, 5, 3, 6]


@pytest.mark.parametrize(("shop", "number", "by", "says"), [
    ({}, "6", "vee block", "on by 180° by protractor"),
    ({"collet_blocks": True}, "6", "hexagon collet block", "on by 180°"),
    ({"collet_blocks": True}, "4", "square collet block", "on by 180°"),
    ({"collet_blocks": True, "dividing_turns": 40}, "8", "dividing head", "crank 20 turns"),
    ({"rotary_turns": 90}, "6", "rotary table", "table to 180°"),
])
def test_it_is_turned_by_what_the_shop_has(shop: dict[str, object], number: str, by: str, says: str) -> None:
    """A block only has its own faces; forty over n turns on a head of forty (common practice)."""
    advice = asked(replace(BENCH, **shop), number=number, stock="3/4")  # type: ignore[arg-type]
    plan = advice.plans[0]
    assert plan.index_by == by and says in spelt(plan.indexed[1].says)
    assert ("FL2" in {one.id for one in plan.warnings}) == (by == "vee block")
    assert any(line.what == "indexing" and line.minutes > 0 for line in plan.cost_lines)


def test_a_thin_bar_leaves_its_corners_round() -> None:
    """A square of 1/2 on a bar of 5/8: sharp corners want .7071; each lacks half the difference (geometry)."""
    thin = asked(across="1/2+.002-.002", number="4")
    [round_] = [one for one in thin.plans[0].warnings if one.id == "FL1"]
    lacks = (0.5 * sqrt(2) - 0.625) / 2
    assert f"{lacks:.3f}".lstrip("0") in spelt(round_.says)
    assert "FL1" not in {one.id for one in asked(across="1/2+.002-.002", number="4", stock="3/4").plans[0].warnings}


@pytest.mark.parametrize(("more", "says"), [
    ({"stock": "1/2"}, "no larger than"),
    ({"number": "1"}, "not a number of flats"),
    ({"number": "round"}, "not a number of flats"),
    ({"number": "13"}, "not a number of flats"),
])
def test_what_cannot_be_is_said(more: dict[str, str], says: str) -> None:
    with pytest.raises(CribError) as error:
        asked(**more)
    assert says in spelt(error.value.finding.says) and error.value.finding.fix


def test_by_name_it_is_the_same() -> None:
    assert asked(number="hex").plans[0].way == asked(number="6").plans[0].way == asked(number="hexagon").plans[0].way


@pytest.mark.parametrize(("band", "number", "answer", "with_care"), [
    ("+.002-0", "6", "as drawn", False), ("+.0015-0", "6", "as drawn", True), ("+.001-0", "2", "as drawn", True),
    ("+.0005-.0005", "4", "as drawn", True), ("+.0008-0", "6", "compromise", False),
    ("+.002-0", "3", "as drawn", False), ("+.0015-0", "3", "compromise", False),
])
def test_what_is_miked_across_is_told_across(band: str, number: str, answer: str, with_care: bool) -> None:
    """Both flats of a pair are cut at one setting, so its thou counts twice across them; they are measured over both,
    and the setting is mended by half of what is over, which holds half as much with care (common practice). A flat was
    told from the middle as if each had to hold half the band by itself: a hexagon to a thou asked for a yes. With an
    odd number nothing lies across, and a flat to the far side of the bar is all that there is to measure."""
    advice = asked(replace(BENCH, collet_blocks=True), across=f"1/2{band}", number=number, stock="3/4")
    plan = advice.plans[0]
    assert plan.answer == answer
    told = [spelt(one.says) for one in plan.warnings if one.id == "G12"]
    assert bool(told) == with_care and all(one.startswith("across the flats .") for one in told)
    if answer == "compromise":
        [beyond] = [one for one in plan.deviations if one.id == "G12"]
        over = 0.001 / 2 - 0.0008 / 2 if number == "6" else 0.0015 / 2 - 0.0015 / 4  # to the middle, by the dials
        assert beyond.has_mm / INCH == pytest.approx(over, abs=1e-7)


def test_a_flat_is_measured_where_a_micrometer_goes() -> None:
    """Nobody measures from a bar's middle, whichever side is up."""
    for plan in asked().plans:
        assert not [one for one in plan.checks if "middle" in spelt(one.what)]
