"""Under a disc with teeth on its periphery alone the floor of the throat is cut from nothing to .005 deeper than its
lower face (common practice, no source); one with end teeth cleans the floor itself."""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st

from crib.cutters.base import Cutter
from crib.features.request import Request
from crib.planning.advise import advise
from crib.planning.told.advice import Plan
from crib.shop import Shop
from crib.units import Size

INCH = 25.4
FLOOR = "throat: floor below the disc's lower face, which has no teeth"


def around(nominal: float, band: float) -> Size:
    return Size(nominal * INCH, (nominal - band) * INCH, (nominal + band) * INCH, f"{nominal:g}")


def slot(kind: str, depth: float, band: float, flutes_long: float = 1.0, ends: str = "open") -> Plan:
    """A T-slot .563 by .250 x .975 below, by a half-inch end mill and a disc of a kind."""
    mill = Cutter(1, "end-mill", "mill", diameter_mm=0.5 * INCH, length_of_cut_mm=flutes_long * INCH, flutes=2,
                  shank_mm=0.625 * INCH, corner_radius_mm=0.0, centre_cutting=True, material="hss", condition="sharp",
                  measured=("diameter_mm",))
    across, head = (0.55, 0.7) if ends == "closed" else (0.75, 0.975)
    disc = Cutter(2, kind, "disc", diameter_mm=across * INCH, face_mm=0.25 * INCH, neck_mm=0.3 * INCH,
                  reach_mm=1.1 * INCH, shank_mm=0.5 * INCH, flutes=8, material="hss", condition="sharp",
                  measured=("diameter_mm",))
    sizes = {"throat": around(0.563, 0.002), "depth": around(depth, band), "head_width": around(head, 0.015),
             "head_height": around(0.25, 0.01)}
    if ends == "closed":
        sizes["length"] = around(3.0, 0.015)
    request = Request("t-slot", sizes, "grey iron", ends=ends)
    return advise(request, (mill, disc), Shop(), 1, 0).advice.plans[0]


def depths(plan: Plan) -> tuple[float, float]:
    """The floor of the throat and of the head as they are dialled [in]."""
    low = {room: -min(one.dial_z_mm for one in plan.passes if one.room == room) / INCH for room in ("throat", "head")}
    return round(low["throat"], 4), round(low["head"], 4)


def test_below_a_toothless_disc() -> None:
    """Throat and head were cut to one depth, so that the toothless face of a keyseat cutter rubbed on the floor."""
    plan = slot("keyseat-cutter", 0.75, 0.010)
    throat, head = depths(plan)
    assert (throat, head) == (0.753, 0.75)
    assert next(figure.mm for figure in plan.figures if figure.what == FLOOR) == 0.003 * INCH
    assert (plan.proof.left_mm, plan.proof.gouge_mm) == (0.0, 0.0)
    depth = next(check for check in plan.checks if check.what == "depth")
    assert abs(depth.reads_mm - 0.753 * INCH) < 1e-6


def test_end_teeth_clean_the_floor() -> None:
    """A T-slot cutter has teeth on its end: nothing is asked of the floor before it."""
    plan = slot("t-slot-cutter", 0.75, 0.010)
    assert depths(plan) == (0.75, 0.75)
    assert FLOOR not in {figure.what for figure in plan.figures}


def test_not_where_the_mill_reaches_no_deeper() -> None:
    """The shoulder above the flutes would stand nearer the surface than is left between them."""
    assert depths(slot("keyseat-cutter", 0.75, 0.010, flutes_long=0.781)) == (0.75, 0.75)


def test_between_closed_ends() -> None:
    """The floor goes down alike where the disc is lowered in."""
    assert depths(slot("keyseat-cutter", 0.75, 0.010, ends="closed")) == (0.753, 0.75)


@settings(max_examples=15, deadline=None)
@given(depth=st.integers(600, 900), band=st.sampled_from([0, 1, 2, 4, 5, 8, 15]))
def test_inside_the_limits(depth: int, band: int) -> None:
    """From nothing to .005 deeper, never past the drawing's limit, and the half of what its band leaves at the most."""
    throat, head = depths(slot("keyseat-cutter", depth / 1000, band / 1000))
    assert head <= throat <= head + 0.005
    assert round(throat, 4) <= round((depth + band) / 1000, 4)
    assert throat > head or band <= 1
