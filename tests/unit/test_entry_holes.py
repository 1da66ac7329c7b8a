"""A hole that would let a disc in between closed ends is offered where nothing makes it without."""

from __future__ import annotations

from typing import Any

import pytest

from crib.cutters.base import Cutter
from crib.findings.verdicts import Verdict
from crib.light.records import replace
from crib.pages.answer import page
from crib.planning import entry_hole
from crib.planning.advise import advise, best_plan
from crib.planning.ask import read_request
from crib.planning.entry_hole import way_in
from crib.planning.search.watch import Watch
from crib.planning.told.advice import WayIn
from crib.render.json.answer import advice_json
from crib.render.terminal.lines import lines
from crib.shop import Shop

IN = 25.4
SAME: dict[str, Any] = {"material": "hss", "condition": "sharp", "measured": ("diameter_mm", "face_mm", "neck_mm")}
THROAT = Cutter(1, "end-mill", "throat mill", diameter_mm=0.499 * IN, flutes=2, shank_mm=0.5 * IN, centre_cutting=True,
                length_of_cut_mm=IN, corner_radius_mm=0.0, **SAME)
DISC = Cutter(2, "keyseat-cutter", "disc", diameter_mm=0.625 * IN, face_mm=0.188 * IN, neck_mm=0.25 * IN,
              reach_mm=1.5 * IN, shank_mm=0.5 * IN, **SAME)
DRILL = Cutter(3, "drill", "drill", diameter_mm=0.484 * IN, length_of_cut_mm=70.0, angle_deg=118.0,
               shank_mm=0.484 * IN, **SAME)
WIDE = THROAT.but(id=4, label="wide mill", diameter_mm=0.75 * IN, shank_mm=0.75 * IN)
SHOP = Shop(spindle_rpm=(80, 135, 210, 325, 660, 1115), collets_mm=(12.7, 19.05), chuck_mm=12.7)
SLOT = {"throat": ".500+.004-.004", "depth": ".520+.004-.004", "head_width": ".812+.010-.010",
        "head_height": ".240+.005-.005", "length": "6", "ends": "closed", "material": "grey iron"}


def offered(*cutters: Cutter, than: Verdict = Verdict.CANNOT, **texts: str) -> WayIn | None:
    return way_in(read_request("t-slot", SLOT | texts, SHOP, "in"), than, cutters, SHOP, Watch())


def test_the_least_hole_is_offered_with_what_it_lets_in_and_how_it_is_made() -> None:
    """Common practice, no source: the hole is .020 wider than the disc, .645 for 5/8. Nothing was said of it but that
    nothing clears the head."""
    cutters = (THROAT, DISC, DRILL, WIDE)
    assert advise(read_request("t-slot", SLOT, SHOP, "in"), cutters, SHOP).advice.answer == "cannot"
    found = offered(*cutters)
    assert found is not None and found.change.after == pytest.approx(0.645 * IN)
    assert {one.id for one in found.change.plan.cutters} == {1, 2} and found.made is not None
    assert [one.id for one in found.made.cutters] == [3, 4]
    assert found.minutes == pytest.approx(found.change.plan.minutes + found.made.minutes)


def test_what_is_offered_is_what_is_planned_with_that_hole_and_a_lesser_one_does_not_do() -> None:
    found = offered(THROAT, DISC, DRILL, WIDE)
    assert found is not None
    again = best_plan(read_request("t-slot", SLOT | {"entry_hole": ".645+.125-0"}, SHOP, "in"),
                      (THROAT, DISC, DRILL, WIDE), SHOP)
    assert again is not None and again.way == found.change.plan.way
    assert best_plan(read_request("t-slot", SLOT | {"entry_hole": ".644+.001-0"}, SHOP, "in"),
                     (THROAT, DISC, DRILL, WIDE), SHOP) is None


def test_it_is_told_where_there_was_no_time_to_look_for_one(monkeypatch: pytest.MonkeyPatch) -> None:
    """Nothing was offered then, and nothing said, as if none would do."""
    watch, request = Watch(), read_request("t-slot", SLOT, SHOP, "in")
    assert way_in(request, Verdict.CANNOT, (THROAT, DISC), SHOP, watch) is not None and not watch.ran_out
    monkeypatch.setattr(entry_hole, "CHANGES", -1.0)
    assert way_in(request, Verdict.CANNOT, (THROAT, DISC), SHOP, watch) is None and watch.ran_out


@pytest.mark.parametrize("texts", [{"ends": "open"}, {"ends": "one"}, {"entry_hole": ".7"}, {"length": ".6"}])
def test_nothing_is_offered_where_no_hole_is_wanted_or_none_would_do(texts: dict[str, str]) -> None:
    assert offered(THROAT, DISC, DRILL, WIDE, **texts) is None


def test_a_disc_that_is_lowered_in_the_throat_wants_none() -> None:
    small = DISC.but(diameter_mm=0.48 * IN, neck_mm=0.12 * IN)
    plan = best_plan(read_request("t-slot", SLOT, SHOP, "in"), (THROAT, small), SHOP)
    assert plan is not None and offered(THROAT, small, than=plan.answer) is None


def test_it_is_told_where_nothing_owned_makes_the_hole() -> None:
    found = offered(THROAT, DISC)
    assert found is not None and found.made is None
    advice = advise(read_request("t-slot", SLOT, SHOP, "in"), (THROAT, DISC), SHOP).advice
    text = "\n".join(lines(page(replace(advice, way_in=found)), SHOP.units))
    assert "With an entry hole first" in text and "--entry-hole .645+.125-0" in text
    assert "no mill or flat drill that is owned makes it" in text
    told = advice_json(replace(advice, way_in=found), "in")["way_in"]
    assert told["what"] == "entry_hole" and told["made"] is None and told["plan"]["way"] == found.change.plan.way
