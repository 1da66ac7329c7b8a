"""Chain drilling: a row of holes down a deep narrow slot, the webs broken out by the mill."""

from __future__ import annotations

import re
from itertools import pairwise
from typing import Any

import pytest

from crib.cutters.base import Cutter
from crib.pages.passes import table
from crib.planning.advise import advise
from crib.planning.ask import read_request
from crib.planning.told.advice import Plan
from crib.render.terminal.lines import lines
from crib.shop import Shop
from tests.spelt import spelt

IN = 25.4
SHOP = Shop(spindle_rpm=(80, 135, 325, 660, 1115), collets_mm=(6.35, 9.525, 12.7), chuck_mm=12.7)
SAME: dict[str, Any] = {"material": "hss", "condition": "sharp", "measured": ("diameter_mm",)}
MILL = Cutter(1, "end-mill", "1/4 mill", diameter_mm=0.25 * IN, flutes=2, shank_mm=0.25 * IN, centre_cutting=True,
              length_of_cut_mm=1.1 * IN, corner_radius_mm=0.0, **SAME)
DEEP = {"width": "1/4", "length": "1.3", "depth": "1", "ends": "closed", "material": "304"}


def drill(inches: float, number: int = 2, **more: Any) -> Cutter:
    same = {"length_of_cut_mm": 70.0, "angle_deg": 118.0, "shank_mm": inches * IN} | SAME
    return Cutter(number, "drill", f"drill {inches}", diameter_mm=inches * IN, **same | more)


def best(*cutters: Cutter, **texts: str) -> Plan:
    return advise(read_request("slot", DEEP | texts, SHOP, "in"), cutters, SHOP).advice.plans[0]


def holes_of(plan: Plan) -> list[float]:
    return [round((one.x_mm or 0.0) / IN, 4) for one in plan.passes if one.role == "drill"]


def test_a_deep_narrow_slot_is_chain_drilled_where_that_takes_less_time() -> None:
    """Common practice, no source: holes .010 narrower than the slot or more, a web of 1/64 or more to the next, the
    ends of the row in the slot's round ends; the mill breaks the webs out."""
    alone, plan = best(MILL), best(MILL, drill(0.2344))
    assert plan.answer == alone.answer and plan.minutes < alone.minutes and "a chain of holes" in plan.way
    assert [one.id for one in plan.cutters] == [2, 1] and plan.proof.left_mm == plan.proof.gouge_mm == 0
    at = holes_of(plan)
    assert at[0] >= 0.125 - 1e-4 and at[-1] <= 1.3 - 0.125 + 1e-4
    assert all(b - a >= 0.2344 + 1 / 64 - 2e-3 for a, b in pairwise(at)) and len(at) == 5
    assert all(one.z_mm == pytest.approx(-IN, abs=0.013) and one.y_mm == 0.0 for one in plan.passes
               if one.role == "drill")
    says = spelt(next(one.says for one in plan.passes if one.role == "drill"))
    assert "spot them all first" in says and "every other hole" in says and "web" in says


def test_the_mill_takes_its_usual_bites_where_the_points_leave_all_of_the_metal() -> None:
    """The point of a 118 degree drill is .300 of its width high (geometry): .070 over the floor."""
    plan, alone = best(MILL, drill(0.2344)), best(MILL)
    bite = max(b - a for a, b in pairwise([0.0, *(-one.z_mm for one in alone.passes if one.role == "rough")]))
    heights = [0.0, *(-one.z_mm for one in plan.passes if one.role == "rough")]
    for a, b in pairwise(heights):
        assert b - a <= (bite if b > (1 - 0.069) * IN else 1.5 * 0.25 * IN) + 0.03
    assert len(heights) < len([one for one in alone.passes if one.role == "rough"])


@pytest.mark.parametrize("other", [drill(0.2422), drill(0.17), drill(0.2344, length_of_cut_mm=20.0)])
def test_a_drill_too_wide_too_thin_or_too_short_makes_no_chain(other: Cutter) -> None:
    assert "chain" not in best(MILL, other).way


def test_a_shallow_slot_is_milled() -> None:
    assert "chain" not in best(MILL, drill(0.2344), depth="1/8", material="6061").way


def test_pecks_of_the_holes_are_counted() -> None:
    """Over four diameters deep every diameter (common practice): 1 in of .2344 is 4.27, four times out for each."""
    plan = best(MILL, drill(0.2344))
    (line,) = [one for one in plan.cost_lines if one.what == "pecking"]
    assert line.minutes == pytest.approx(4 * len(holes_of(plan)) * SHOP.peck_minutes)


def test_every_hole_has_its_own_table_and_the_cross_of_the_slot() -> None:
    """Where it is along the slot was printed for the cross slide too, of a hole to get in by as well: it would have
    been drilled beside the slot."""
    plan = best(MILL, drill(0.2344))
    text = lines(table(plan.passes, plan.zeros), "in")
    rows = [re.split(r"\s{2,}", one.strip()) for one in text if "drill slot" in one]
    assert [float(row[3]) for row in rows] == [0.0] * 5
    assert [float(row[5]) for row in rows] == pytest.approx(holes_of(plan), abs=0.0006)
