"""A groove in a wall is a plain slot once the wall is turned up: what an end mill makes of a slot it makes of that."""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st

from crib.cutters.base import Cutter
from crib.planning.advise import advise
from crib.planning.ask import read_request
from crib.planning.told.advice import Advice
from crib.shop import Shop
from tests.spelt import spelt

INCH = 25.4


def mill(diameter: float, flutes_long: float = 0.5) -> Cutter:
    return Cutter(1, "end-mill", "mill", diameter_mm=diameter * INCH, length_of_cut_mm=flutes_long * INCH, flutes=2,
                  shank_mm=0.375 * INCH, corner_radius_mm=0.0, centre_cutting=True, material="hss", condition="sharp",
                  measured=("diameter_mm",), overall_length_mm=2.5 * INCH)


def ask(kind: str, cutter: Cutter, **texts: str) -> Advice:
    shop = Shop()
    request = read_request(kind, {"material": "mild steel", "length": "2", **texts}, shop, "in")
    return advise(request, (cutter,), shop, 1, 3).advice


def test_an_eighth_groove_by_an_eighth_mill() -> None:
    """.125 x .090 was "mic it before you cut", with a 1/8 end mill in the drawer."""
    advice = ask("undercut", mill(0.125), width=".125", depth=".090")
    [plan] = advice.plans
    assert advice.answer == "as drawn"
    assert spelt(plan.setup).startswith("work on its side")
    assert {one.x_mm for one in plan.passes} == {0.0}
    assert min(one.z_mm for one in plan.passes) == -2.286
    assert (plan.proof.left_mm, plan.proof.gouge_mm) == (0.0, 0.0)
    assert any(warning.id == "SU1" for warning in plan.warnings)
    assert any("--floor says" in spelt(one) for one in plan.assumed)


def test_the_floor_stands_up_beside_it() -> None:
    """A floor .25 under the groove and the shank's half of .1875 over the mill's of .0625 clear each other; the
    holder's doesn't clear a floor that comes out 2 in, nor one without an end, and does one of .25 (geometry)."""
    groove = {"width": ".125", "depth": ".090", "floor": ".25"}
    assert not ask("undercut", mill(0.125), **groove).plans
    assert not ask("undercut", mill(0.125), floor_out="2", **groove).plans
    assert ask("undercut", mill(0.125), floor_out=".25", **groove).plans
    assert ask("undercut", mill(0.125), width=".125", depth=".090", floor="3").plans


@settings(max_examples=60, deadline=None)
@given(width=st.integers(60, 400), depth=st.integers(20, 300), off=st.integers(-30, 8), long=st.integers(-20, 200))
def test_whatever_makes_the_slot_makes_the_groove(width: int, depth: int, off: int, long: int) -> None:
    """The same passes as for a slot of the sizes, for any mill, with nothing beside it."""
    cutter = mill((width + off) / 1000, max(20, depth + long) / 1000)
    sizes = {"width": f".{width:03d}", "depth": f".{depth:03d}"}
    slot, groove = ask("slot", cutter, **sizes), ask("undercut", cutter, **sizes)
    assert bool(slot.plans) == bool(groove.plans)
    for one, other in zip(slot.plans, groove.plans, strict=True):
        assert [(p.x_mm, p.z_mm, p.role) for p in one.passes] == [(p.x_mm, p.z_mm, p.role) for p in other.passes]
        assert (slot.answer, one.proof.left_mm) == (groove.answer, other.proof.left_mm)
