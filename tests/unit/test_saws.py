"""Cutters on an arbor, slits and undercuts: what flange, neck and noses let in, and what two cuts give away.

Sizes in inches; depths from geometry: the cutter's radius less that of what stands beside it, less its clearance."""

from __future__ import annotations

import pytest

from crib.cutters.base import Cutter
from crib.planning.advise import advise
from crib.planning.ask import read_request
from crib.planning.told.advice import Advice
from crib.shop import Arbor, Shop
from tests.spelt import spelt

IN = 25.4


def saw(number: int = 1, diameter: float = 3.0, thick: float = 1 / 16, bore: float = 1.0, **more: object) -> Cutter:
    return Cutter(number, "slitting-saw", f"saw {number}", diameter_mm=diameter * IN, face_mm=thick * IN,
                  bore_mm=bore * IN, flutes=30, material="hss", condition="sharp",
                  measured=("diameter_mm", "face_mm")).but(**more)


def disc(number: int = 1, **more: object) -> Cutter:
    return Cutter(number, "keyseat-cutter", f"disc {number}", diameter_mm=0.5 * IN, face_mm=0.125 * IN,
                  neck_mm=0.2 * IN, reach_mm=0.8 * IN, shank_mm=0.5 * IN, overall_length_mm=3 * IN, flutes=8,
                  material="hss", condition="sharp", measured=("diameter_mm",)).but(**more)


SHOP = Shop(arbors=(Arbor(1.0 * IN, 1.75 * IN),), spindle_rpm=(45, 80, 160))


def ask(kind: str, cutters: tuple[Cutter, ...], shop: Shop = SHOP, **texts: str) -> Advice:
    return advise(read_request(kind, {"material": "brass", **texts}, shop, "in"), cutters, shop).advice


def test_a_saw_in_its_own_width() -> None:
    """One cut, full depth, on its side; x from the face, z from the middle of the slit: R - d = 1.5 - .5, -t / 2."""
    plan = ask("slit", (saw(),), width="1/16", depth="1/2").plans[0]
    assert plan.answer == "as drawn" and spelt(plan.holders[0]) == "1 arbor, flange 1-3/4"
    [only] = plan.passes
    assert (only.role, only.direction) == ("saw", "conventional")
    assert (only.x_mm, only.z_mm) == (pytest.approx(1.0 * IN), pytest.approx(-IN / 32))
    assert plan.proof.left_mm == 0 and plan.proof.neck_gap_mm == pytest.approx((1.0 - 0.875) * IN)
    assert spelt(plan.setup).startswith("work on its side") and plan.zeros == ("the face that it opens at",
                                                                        "the middle of the slit")
    assert {"SW2"} <= {warning.id for warning in plan.warnings}


def test_a_saw_thinner_than_the_middle_of_the_band_stands_in_the_middle() -> None:
    """A slit .060 to .070 wide and a saw of .060: at the floor that is aimed at it would leave a hair at the other
    side; in the middle it leaves nothing that must go. Its wobble opens it to .061 to .063."""
    plan = ask("slit", (saw(thick=0.060),), width=".060+.010-0", depth="1/2").plans[0]
    assert len(plan.passes) == 1 and plan.passes[0].z_mm == pytest.approx(-0.030 * IN)
    assert plan.proof.left_mm == 0 and plan.answer == "as drawn"


def test_five_thou_short_of_its_depth_because_of_the_flange() -> None:
    """(3 - 1.75) / 2 - .030 = .595: a slit .600 deep at the least is .005 too deep; a flange of 1.740 lets it in."""
    advice = ask("slit", (saw(),), width="1/16", depth=".600+.010-0")
    refusal = advice.refused[0]
    assert advice.answer == "cannot" and refusal.id == "HD3"
    assert (refusal.has_mm, refusal.needs_mm) == (pytest.approx(1.75 * IN), pytest.approx(1.74 * IN))
    assert refusal.short_mm == pytest.approx(0.005 * IN)
    assert spelt(refusal.says) == ("the flange of its arbor meets the work .005 short of the depth: flange 1.750, "
                                   "1.740 is the most that clears")
    assert spelt(refusal.fix) == "a flange of 1.740 or less would do"
    narrower = Shop(arbors=(Arbor(1.0 * IN, 1.74 * IN),), spindle_rpm=(45,))
    assert ask("slit", (saw(),), narrower, width="1/16", depth=".600+.010-0").plans
    wider = Shop(arbors=(Arbor(1.0 * IN, 1.7405 * IN),), spindle_rpm=(45,))
    assert not ask("slit", (saw(),), wider, width="1/16", depth=".600+.010-0").plans


def test_the_thinner_saw_in_two_cuts_leans() -> None:
    """Two cuts shifted by W - t: a compromise, with the lean named (four thou in the inch, from memory)."""
    advice = ask("slit", (saw(1), saw(2, 4.0, 0.040)), width="1/16", depth=".600+.010-0")
    plan = advice.plans[0]
    assert advice.answer == "compromise" and [cutter.id for cutter in plan.cutters] == [2]
    low, high = plan.passes
    assert high.z_mm - low.z_mm == pytest.approx((1 / 16 - 0.040) * IN)
    [lean] = [one for one in plan.deviations if "leans" in spelt(one.says)]
    assert lean.has_mm == pytest.approx(0.004 * 0.605 * IN) and "from memory" in spelt(lean.says)
    assert advice.refused[0].id == "HD3" and advice.refused[0].cutter.id == 1


def test_no_arbor_for_the_bore() -> None:
    """Both bores are named; without arbors on record one is assumed, with its flange."""
    refusal = ask("slit", (saw(bore=0.875),), width="1/16", depth="1/4").refused[0]
    assert (refusal.id, refusal.has_mm, refusal.needs_mm) == ("HD1", 25.4, pytest.approx(0.875 * IN))
    assert spelt(refusal.says) == "no arbor for a bore of 7/8: the nearest is 1"
    assert spelt(refusal.fix) == "an arbor for 7/8"
    none = ask("slit", (saw(),), Shop(arbors=()), width="1/16", depth="1/4").refused[0]
    assert none.id == "HD1" and spelt(none.says).endswith("there are no arbors")
    assumed = ask("slit", (saw(),), Shop(), width="1/16", depth="1/4").plans[0].assumed
    assert any("flange 1-3/4 across: no arbors on record" in spelt(one) for one in assumed)
    bare = ask("slit", (saw(bore_mm=None),), width="1/16", depth="1/4").refused[0]
    assert (bare.id, spelt(bare.fix)) == ("HD1", "measure its bore")


def test_the_edge_of_the_work_decides_for_what_holds_it() -> None:
    """An arbor nose 3 across, .75 over the saw: it clears only where the work ends below it, by .030."""
    shop = Shop(arbors=(Arbor(1.0 * IN, 1.25 * IN, 3.0 * IN, 0.75 * IN),), spindle_rpm=(45,))
    near = {"width": "1/16", "depth": "3/4", "length": "2"}
    assert ask("slit", (saw(),), shop, edge=".700", **near).plans
    assert not ask("slit", (saw(),), shop, edge=".730", **near).plans
    refusal = ask("slit", (saw(),), shop, edge="1.5", **near).refused[0]
    assert refusal.id == "G6"
    assert spelt(refusal.says).startswith("the arbor nose, 3.000 across, comes down on the work")
    plain = ask("slit", (saw(),), width="1/16", depth="1/2")
    assert any("--edge says how far" in spelt(one) for one in plain.plans[0].assumed)


def test_an_undercut_is_as_deep_as_the_neck_lets_in() -> None:
    """(Dk - dn) / 2 - cn = (.500 - .250) / 2 - .010 = .115."""
    sizes = {"width": "1/8", "height": "1/4"}
    fat = disc(neck_mm=0.25 * IN)
    assert ask("undercut", (fat,), depth=".110+.005-0", **sizes).plans
    refusal = ask("undercut", (fat,), depth=".125+.005-0", **sizes).refused[0]
    assert refusal.id == "NK2" and " .010 short of the depth" in spelt(refusal.says)
    assert (refusal.has_mm, refusal.needs_mm) == (pytest.approx(0.25 * IN), pytest.approx(0.23 * IN))
    assert spelt(refusal.fix) == "a neck of .230 or less would clear"
    plan = ask("undercut", (disc(),), depth=".060", **sizes).plans[0]
    assert plan.answer == "as drawn"
    assert {one.z_mm for one in plan.passes} == {0.0}
    assert plan.passes[-1].x_mm == pytest.approx((0.25 - 0.060) * IN)
    assert plan.zeros == ("the wall", "the floor, level with the groove's lower side")


def test_a_saw_doesnt_go_into_a_corner() -> None:
    """Its arbor's flange is under it; with the floor an inch below it does."""
    wide = {"width": "1/16", "depth": "1/8", "height": "1/4"}
    refusal = ask("undercut", (saw(),), **wide).refused[0]
    assert refusal.id == "HD3" and "under it" in spelt(refusal.says)
    assert ask("undercut", (saw(),), floor="1", **wide).plans


def test_an_undercut_under_load_is_cautioned() -> None:
    plan = ask("undercut", (disc(),), width="1/8", depth=".060", use="load").plans[0]
    [said] = [warning for warning in plan.warnings if warning.id == "ST1"]
    assert said.grade == "caution" and "radius" in spelt(said.says)
    plain = ask("undercut", (disc(),), width="1/8", depth=".060").plans[0]
    assert [warning.grade for warning in plain.warnings if warning.id == "ST1"] == ["note"]


def test_only_the_drill_chuck_takes_it() -> None:
    mill = Cutter(1, "end-mill", "mill", diameter_mm=6.0, length_of_cut_mm=16.0, shank_mm=6.0, flutes=2,
                  material="hss", condition="sharp", measured=("diameter_mm",))
    shop = Shop(collets_mm=(9.525, 12.7), chuck_mm=12.7)
    refusal = ask("slot", (mill,), shop, width="6mm", depth="3mm").refused[0]
    assert refusal.id == "HD2" and "nothing cuts on its side in a drill chuck" in spelt(refusal.says)
    assert ask("slot", (mill,), Shop(collets_mm=(9.525,)), width="6mm", depth="3mm").refused[0].id == "HD1"


def test_the_collets_nose_counts() -> None:
    """A chuck 1.250 across over the shank of a mill that stands out .970 meets a wall that the shank clears."""
    mill = Cutter(1, "end-mill", "mill", diameter_mm=0.5 * IN, length_of_cut_mm=1.0 * IN, shank_mm=0.5 * IN,
                  overall_length_mm=2.5 * IN, flutes=4, material="hss", condition="sharp", measured=("diameter_mm",))
    asked = {"width": "1/2+.010-0", "depth": "1/4", "wall": "1.4@.5"}
    shop = Shop(nose_mm=0.9 * IN, collet_nose_mm=1.25 * IN, collet_nose_length_mm=1.5 * IN)
    assert ask("slot", (mill,), Shop(nose_mm=0.9 * IN), **asked).plans
    refusal = ask("slot", (mill,), shop, **asked).refused[0]
    assert refusal.id == "G6"
    assert spelt(refusal.says).startswith("the collet nose, 1.250 across, comes down on what stands beside the work: "
                                          "it stands out 1.500")


def test_a_thin_leaf_beside_a_slit() -> None:
    """A leaf .050 thick beside a slit .500 deep is thinner than an eighth of its height."""
    thin = ask("slit", (saw(),), width="1/16", depth="1/2", edge=".050").plans[0]
    assert "WL1" in {warning.id for warning in thin.warnings}
    assert "WL1" not in {warning.id for warning in ask("slit", (saw(),), width="1/16", depth="1/2").plans[0].warnings}
