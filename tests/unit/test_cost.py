"""The cost in the open: every weight is a setting that counts, every line has its why and its settings."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from itertools import chain
from math import prod

import pytest

from crib.cutters.base import Cutter
from crib.cutters.label import label
from crib.findings.finding import Finding, Grade
from crib.handbook.materials import find_material
from crib.intake.shop_settings import SETTINGS, WEIGHTS
from crib.pages.why import why
from crib.planning.advise import advise
from crib.planning.ask import read_request
from crib.planning.reckoning.cost import scrap_chance, wear_share
from crib.planning.told.advice import Plan
from crib.shop import SETTINGS as KEYS
from crib.shop import Own, Shop
from tests import test_sample_crib as sample
from tests.sheet_samples import INCH
from tests.shown import shown
from tests.spelt import spelt

CUTTERS = [cutter.but(label=label(cutter, "in")) for cutter in sample.CUTTERS]
BENCH = Shop(collets_mm=(6.35, 9.525, 12.7, 19.05), spindle_rpm=(80, 135, 210, 325, 660, 1115), dro=False,
             backlash_mm=0.2, hour_rate=20.0)
T_SLOT = {"throat": "5/8+.002-0", "depth": ".520", "head_width": ".975+.010-.010", "head_height": ".240+.005-.005",
          "length": "6", "material": "grey iron", "hours": "9"}
HOLES = {"thread": "1/4-20", "number": "4", "length": "6", "angle": "80", "height": "3/8", "gib": "1/8", "nut": "7/16",
         "material": "grey iron", "direction": "square"}


LEVEL = {**HOLES, "thread": "1/4-28", "angle": "60", "direction": "level"}


def best(kind: str, texts: dict[str, str], shop: Shop = BENCH, cutters: list[Cutter] = CUTTERS) -> Plan:
    return advise(read_request(kind, texts, shop, "in"), cutters, shop).advice.plans[0]


LONG = [CUTTERS[9].but(length_of_cut_mm=1.6 * INCH, overall_length_mm=None, diameter_mm=0.48 * INCH)]
STATED = [CUTTERS[9].but(length_of_cut_mm=None)]
DULL = [CUTTERS[9].but(condition="dull")]
DEEP = [Cutter(1, "drill", diameter_mm=6.35, length_of_cut_mm=70.0, condition="sharp", material="hss")]
SLOT = {"width": "1/2+.030-.030", "depth": ".2", "length": "4", "material": "mild steel"}
HEX = {"across": "1/2", "number": "6", "length": "3/8", "stock": "5/8", "material": "mild steel"}
PLANS = {
    "t-slot": ("t-slot", T_SLOT, CUTTERS),
    "level": ("gib-screw-holes", LEVEL, CUTTERS),
    "square": ("gib-screw-holes", HOLES, CUTTERS),
    "filed": ("gib-screw-holes", LEVEL, [c for c in CUTTERS if c.kind in ("drill", "tap", "countersink")]),
    "deep": ("hole", {"diameter": "1/4+.015-0", "depth": "2", "material": "mild steel"}, DEEP),
    "long": ("slot", SLOT, LONG),
    "stated": ("slot", SLOT, STATED), "dull": ("slot", SLOT, DULL), 
    "slit": ("slit", {"width": "1/16", "depth": "1/2", "length": "6", "material": "1018"}, CUTTERS),
    "tight": ("slot", {**SLOT, "width": "1/2+.001-0"}, LONG),
    "vee": ("flats", HEX, CUTTERS),
    "head": ("flats", {**HEX, "number": "8"}, CUTTERS),
    "stainless": ("slot", {**SLOT, "material": "304 stainless"}, LONG),
}


def plan_of(name: str, shop: Shop) -> Plan:
    """The best plan of one of them in a shop."""
    kind, texts, cutters = PLANS[name]
    return best(kind, texts, replace(shop, dividing_turns=40) if name == "head" else shop, cutters)


@cache
def as_it_is(name: str) -> Plan:
    """The same on the bench as it is, asked once."""
    return plan_of(name, BENCH)


OF_BUYING = ("trial_minutes", "grind_minutes", "borrow_minutes", "regrind_worth", "regrind_days",
             "years_ahead", "future_doubt")
"""Weights that no plan's cost hangs on: what a trial cut, or something to buy, is measured against."""


@pytest.mark.parametrize("key", [key for key in WEIGHTS if key not in OF_BUYING])
def test_every_weight_counts(key: str) -> None:
    """A weight that is raised makes some plan dearer, and the plan's lines name it."""
    raised = replace(BENCH, **{key: getattr(BENCH, key) * 1.5 + 0.001})
    dearer = []
    for name, (kind, _, _) in PLANS.items():
        before, after = as_it_is(name), plan_of(name, raised)
        if after.cost > before.cost + 1e-9:
            dearer.append(kind)
            assert key in {one for line in (*before.cost_lines, *after.cost_lines) for one in line.settings}
    assert dearer


def test_weights_are_settings_with_a_source() -> None:
    assert set(WEIGHTS) <= set(KEYS) == set(SETTINGS)
    assert all(SETTINGS[key].source in ("from memory", "common practice") and SETTINGS[key].help for key in WEIGHTS)


def test_lines_are_the_cost_largest_first() -> None:
    for kind, texts, cutters in PLANS.values():
        plan = best(kind, texts, BENCH, cutters)
        money = [line.money for line in plan.cost_lines]
        assert money == sorted(money, reverse=True) and all(line.why for line in plan.cost_lines)
        assert plan.cost == pytest.approx(sum(money))
        assert plan.minutes == pytest.approx(sum(line.minutes for line in plan.cost_lines))


def test_the_chance_of_scrap() -> None:
    """One less the product of what is left: base .01, each remark .01, each caution .03, held with care .04, a size
    assumed .04, a long overhang .03 (common practice, from memory; worked here)."""
    said = [Finding(rule, Grade(grave), "") for rule, grave in (
        ("X", "warn"), ("Y", "caution"), ("G12", "warn"), ("PR1", "warn"), ("RE4", "warn"), ("Z", "note"))]
    assert scrap_chance(said) == pytest.approx(1 - prod([0.99, 0.99, 0.97, 0.96, 0.96, 0.97]))
    assert scrap_chance([*said, Finding("S", Grade.STOP, "")]) == 1.0


def test_scrap_is_what_is_in_the_part() -> None:
    """The chance times the hours at the hour's worth and the blank (worked here: 9 h at 20 and 30)."""
    plan = best("t-slot", T_SLOT)
    line = next(line for line in plan.cost_lines if line.what == "chance of scrap")
    assert line.money == pytest.approx(plan.scrap_chance * (9 * 20 + 30))


def test_wear() -> None:
    """.5 percent of the price for easy work, 2 out of sight, 8 in metal that hardens (common practice, from memory)."""
    shares = [wear_share(buried, find_material(metal))[0] for buried, metal in
              ((False, "brass"), (True, "brass"), (True, "304 stainless"))]
    assert [getattr(Shop(), name) for name in shares] == [0.005, 0.02, 0.08]


def test_own_pace_is_minutes_and_money() -> None:
    """At 1.5 times the reckoned minutes, time costs 1.5 times as much; what is in the part is worth what it was."""
    own = replace(BENCH, own=Own(pace=1.5, timed=3))
    usual, slower = best("t-slot", T_SLOT), best("t-slot", T_SLOT, own)
    assert slower.minutes == pytest.approx(1.5 * usual.minutes)
    for one, other in zip(sorted(usual.cost_lines, key=lambda line: (line.what, line.why)),
                          sorted(slower.cost_lines, key=lambda line: (line.what, line.why)), strict=True):
        assert other.money == pytest.approx(one.money * (1.5 if one.minutes else 1.0))
    assert any("median of 3 jobs timed" in spelt(text) for text in slower.assumed)
    assert not any("jobs timed" in spelt(text) for text in usual.assumed)


def test_why_shows_every_line_and_setting() -> None:
    advice = advise(read_request("t-slot", T_SLOT, BENCH, "in"), CUTTERS, BENCH).advice
    plan = advice.plans[0]

    def page(shop: Shop, width: int = 100) -> list[str]:
        return shown(chain.from_iterable(why(advice, plan, shop)), width=width)

    text = "\n".join(page(BENCH))
    for line in plan.cost_lines:
        assert line.why.split(":")[0] in text
        assert all(name.replace("_", "-") in text for name in line.settings)
    assert "trial cut in scrap first, 15 min or 5.00" in text.replace("\n  ", " ")
    assert all(len(row) <= 60 for row in page(BENCH, 60))
    assert "trial" not in "\n".join(page(replace(BENCH, trial_minutes=500.0)))


MILLS = [Cutter(place, "end-mill", label=f"{across:g} mill", diameter_mm=across * INCH, flutes=2, shank_mm=9.525,
                length_of_cut_mm=max(0.5, 2 * across) * INCH, material="hss", condition="sharp",
                centre_cutting=True) for place, across in enumerate((0.125, 0.1875, 0.25, 0.375, 0.5), 1)]


@pytest.mark.parametrize(("kind", "texts"), [
    ("step", {"width": "1-1/4", "depth": "1/8", "length": "4", "material": "brass"}),
    ("facing", {"width": "3/4", "depth": ".1", "length": "2", "material": "mild steel"}),
    ("bevel", {"width": "1/2", "angle": "45", "length": "3", "material": "mild steel"}),
])
def test_of_ways_that_cost_the_same_the_quickest_is_told_first(kind: str, texts: dict[str, str]) -> None:
    """Where an hour is worth nothing, as at a school, an eighth mill faced a bar in 72 passes and 351 minutes before a
    half inch one that takes 48: they cost the same, so that the lowest number went first."""
    shop = replace(BENCH, hour_rate=0.0, collets_mm=(9.525,))
    plans = advise(read_request(kind, texts, shop, "in"), MILLS, shop).advice.plans
    cost = plans[0].cost
    assert all(abs(sum(line.money for line in plan.cost_lines if line.what not in ("chance of scrap", "wear"))) < 0.005
               for plan in plans)
    same = [plan.minutes for plan in plans if round(plan.cost, 2) == round(cost, 2)]
    assert len(same) > 1 and same == sorted(same)
    assert plans[0].cutters[0].id > 3
