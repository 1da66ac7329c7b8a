"""An end mill whose teeth don't reach its middle: the drill that opens its core goes first."""

from __future__ import annotations

from math import radians, tan
from typing import Any

import pytest

from crib.cutters.base import Cutter
from crib.geometry.prove import prove
from crib.planning.advise import advise, best_of, jobs_for
from crib.planning.ask import read_request
from crib.planning.told.advice import Advice
from crib.shop import Shop
from tests.property.test_frames_oracle import frames
from tests.spelt import spelt

IN = 25.4
SHOP = Shop(spindle_rpm=(80, 135, 325, 660, 1115), collets_mm=(6.35, 9.525, 12.7), chuck_mm=12.7)
SAME: dict[str, Any] = {"material": "hss", "condition": "sharp", "measured": ("diameter_mm",)}
MILL = Cutter(1, "end-mill", "1/2 mill", diameter_mm=0.5 * IN, flutes=4, shank_mm=12.7, length_of_cut_mm=25.0,
              corner_radius_mm=0.0, centre_cutting=False, **SAME)
HOLE = {"diameter": "1/2+.004-.002", "depth": "1/2"}
BORE = {"diameter": "1/2+.004-.002", "depth": "1/4+.010-.010"}


def drill(number: int, inches: float, **more: Any) -> Cutter:
    same = {"length_of_cut_mm": 70.0, "angle_deg": 118.0, "shank_mm": inches * IN} | SAME
    return Cutter(number, "drill", f"drill {inches}", diameter_mm=inches * IN, **same | more)


def flat(number: int, inches: float, **more: Any) -> Cutter:
    return drill(number, inches, angle_deg=180.0, **more)


def asked(kind: str, *cutters: Cutter, **texts: str) -> Advice:
    return advise(read_request(kind, {"material": "1018"} | texts, SHOP, "in"), cutters, SHOP).advice


@pytest.mark.parametrize("known", [False, None])
@pytest.mark.parametrize("through", ["yes", "no"])
def test_a_drill_for_the_core_lets_a_mill_plunge_that_does_not_cut_on_centre(known: bool | None, through: str) -> None:
    """Common practice, no source: two fifths of the diameter is core, .200 of 1/2, and .010 more is room for it. It was
    refused over a drill that was there."""
    plan = asked("hole", MILL.but(centre_cutting=known), drill(2, 0.4), **HOLE, through=through).plans[0]
    assert plan.answer == "extra passes" and [one.cutter_id for one in plan.passes] == [2, 1]
    assert [one.role for one in plan.passes] == ["drill", "plunge"] and plan.proof.left_mm == plan.proof.gouge_mm == 0
    assert any("taken as .200" in spelt(one) and "measure it" in spelt(one) for one in plan.assumed)


@pytest.mark.parametrize("inches", [0.2, 0.5])
def test_a_drill_that_leaves_the_core_or_no_wall_is_none_for_it(inches: float) -> None:
    found = asked("hole", MILL, drill(2, inches), diameter="1/2+.004-.004", depth="1/2")
    refused = next((one for one in found.refused if one.cutter.id == 1), None)
    assert all(plan.cutters[-1].id != 1 for plan in found.plans)
    assert refused is None or (refused.id == "EN1" and ".210 to .48" in spelt(refused.fix or ""))


def test_the_next_drill_is_tried_where_the_largest_may_not_be_used() -> None:
    """The largest is of carbon steel, which does not stand this metal: the next one goes before the mill."""
    stainless = {"material": "304", "diameter": "1/2+.004-.002", "depth": "1/2"}
    for on_centre in (True, False):
        mill = MILL.but(centre_cutting=on_centre, condition="sharp")
        plans = asked("hole", mill, drill(2, 0.45, material="carbon-steel"), drill(3, 0.375), **stainless).plans
        assert [one.cutter_id for one in plans[0].passes] == [3, 1]


@pytest.mark.parametrize(("hole", "drills", "numbers"), [
    (".250", [], [1]), (".190", [], None), (".190", [flat(2, 0.25)], [2, 1]), (".190", [drill(2, 0.213)], [2, 1]),
    (".130", [drill(2, 0.213)], None), (".130", [drill(2, 0.213), flat(3, 0.22)], [3, 1]),
    (".130", [flat(3, 0.205)], None)])
def test_a_counterbore_over_a_hole_bigger_and_smaller_than_the_core(hole: str, drills: list[Cutter],
                                                                    numbers: list[int] | None) -> None:
    """The core of 1/2 is .200 (common practice). A drill with a point leaves a cone on the floor from the hole to
    beyond the core: at 118 degrees .601 of that in height (geometry), inside .020 of depth from .190, not from .130."""
    assert (0.21 - 0.19) / 2 / tan(radians(59)) < 0.020 - 0.002 < (0.21 - 0.13) / 2 / tan(radians(59))
    found = asked("counterbore", MILL, *drills, **BORE, hole=hole + "+.000-.000")
    if numbers is None:
        assert found.answer == "cannot" and next(one.id for one in found.refused if one.cutter.id == 1) == "EN1"
        return
    plan = found.plans[0]
    assert [one.cutter_id for one in plan.passes] == numbers
    assert plan.answer == "extra passes"
    assert plan.proof.left_mm <= 0.01 * IN and plan.proof.gouge_mm == 0


def test_a_flat_drill_makes_the_middle_of_a_floor() -> None:
    """The ordinary drill stops short, the flat one makes the floor where the mill has no teeth, the mill the rest."""
    floor = {"diameter": "1/2+.006-0", "depth": "1/2+.010-.010"}
    plan = asked("flat-bottomed-hole", MILL, drill(2, 0.25), flat(3, 0.3125), **floor).plans[0]
    assert [one.cutter_id for one in plan.passes] == [2, 3, 1] and plan.answer == "extra passes"
    fine = asked("flat-bottomed-hole", MILL, drill(2, 0.25), flat(3, 0.3125), **floor | {"depth": "1/2+.002-.002"})
    assert "FB1" in {one.id for one in fine.plans[0].warnings}
    assert asked("flat-bottomed-hole", MILL, drill(2, 0.25), flat(3, 0.2), **floor).answer == "cannot"


@pytest.mark.parametrize(("kind", "drills", "texts"), [
    ("hole", [drill(2, 0.4)], HOLE | {"through": "yes"}), ("counterbore", [flat(2, 0.25)], BORE | {"hole": ".190"}),
    ("flat-bottomed-hole", [drill(2, 0.25), flat(3, 0.3125)], HOLE)])
def test_the_proof_sees_a_core_that_stands(kind: str, drills: list[Cutter], texts: dict[str, str]) -> None:
    """Left out, each drill that opened the core is missed by the proof and by a grid of cells alike."""
    proved = best_of(jobs_for(read_request(kind, {"material": "1018"} | texts, SHOP, "in"), [MILL, *drills], SHOP))
    assert proved is not None and proved.trace.holds
    spoilt = tuple(one for one in proved.trace.operations if one.tag != drills[-1].id)
    assert prove(proved.trace.work, spoilt).stuck == (len(spoilt) - 1,)
    for operations, forced in ((proved.trace.operations, False), (spoilt, True)):
        for view, _, found, _ in frames(proved.trace.work, operations):
            assert bool(found.forced) is forced is bool(view.stuck)


def test_pecks_of_a_plunge_from_solid_are_counted() -> None:
    """Its line says to clear it every half diameter (common practice): 1/2 deep at 1/4 is four halves, three times
    out."""
    mill = MILL.but(diameter_mm=0.25 * IN, shank_mm=9.525, centre_cutting=True)
    plan = asked("hole", mill, diameter="1/4+.004-.002", depth="1/2").plans[0]
    line = next(one for one in plan.cost_lines if one.what == "pecking")
    assert line.minutes == pytest.approx(3 * SHOP.peck_minutes)
    opened = asked("hole", mill, drill(2, 0.213), diameter="1/4+.004-.002", depth="1/2").plans[0]
    assert [one.cutter_id for one in opened.passes] == [2, 1] and "pecking" not in {
        one.what for one in opened.cost_lines}
