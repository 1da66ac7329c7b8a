"""What is dialled comes as near to the aim as whole steps of the readout let it, and never leaves the limits where
a setting inside them exists. Every sum here is made anew from the settings that are told."""

from __future__ import annotations

from math import ceil, floor

import pytest
from hypothesis import given, note, settings
from hypothesis import strategies as st

from crib.cutters.base import Cutter
from crib.features.request import Request
from crib.planning.advise import advise
from crib.planning.told.advice import Plan
from crib.shop import Shop
from crib.units import Size

INCH = 25.4


def mill(diameter: float) -> Cutter:
    return Cutter(1, "end-mill", "mill", diameter_mm=round(diameter * INCH, 6), length_of_cut_mm=25.4, flutes=4,
                  shank_mm=12.7, corner_radius_mm=0.0, material="hss", condition="sharp", measured=("diameter_mm",))


def disc(diameter: float, face: float) -> Cutter:
    return Cutter(2, "t-slot-cutter", "disc", diameter_mm=round(diameter * INCH, 6), face_mm=round(face * INCH, 6),
                  neck_mm=5.0, reach_mm=60.0, shank_mm=12.7, neck_fillet_mm=0.0, flutes=8, material="hss",
                  condition="sharp", measured=("diameter_mm",))


def limits(lo: float, hi: float) -> Size:
    return Size(round((lo + hi) / 2 * INCH, 6), round(lo * INCH, 6), round(hi * INCH, 6), f"{lo:g}")


def dialled(plan: Plan, room: str, own: float) -> tuple[float, float]:
    """The width that is reckoned and the one that is dialled, from the outermost places of the lowest passes [in]."""
    mine = [one for one in plan.passes if one.room == room]
    low = min(one.z_mm for one in mine)
    mine = [one for one in mine if one.z_mm == low]
    reckoned = max(one.x_mm for one in mine) - min(one.x_mm for one in mine)
    set_ = max(one.dial_x_mm for one in mine) - min(one.dial_x_mm for one in mine)
    return reckoned / INCH + own, set_ / INCH + own


def is_nearest(reckoned: float, given_: float, lo: float, hi: float, own: float, step: float) -> None:
    """Within half a step of the aim, or as near as the limits let it; inside them where a setting is."""
    inside = [n for n in range(floor((lo - own) / step), ceil((hi - own) / step) + 1)
              if lo - 1e-7 <= own + n * step <= hi + 1e-7]
    if inside:
        assert lo - 1e-7 <= given_ <= hi + 1e-7
        assert abs(given_ - reckoned) <= min(abs(own + n * step - reckoned) for n in inside) + 1e-7
    else:
        assert abs(given_ - reckoned) <= step / 2 + 1e-7


@settings(max_examples=120)
@given(st.integers(5000, 9000), st.integers(1, 60), st.integers(5, 400), st.booleans(),
       st.sampled_from(["open", "closed", "one"]))
def test_a_slot(width: int, band: int, under: int, dro: bool, ends: str) -> None:
    """Widths, tolerances and cutters by the tenth of a thou."""
    lo, hi, own = width / 1e4, (width + band) / 1e4, (width - under) / 1e4
    shop = Shop(dro=dro)
    sizes = {"width": limits(lo, hi), "depth": limits(0.2451, 0.2562)}
    if ends != "open":
        sizes["length"] = limits(3.0, 3.02)
    advice = advise(Request("slot", sizes, "mild steel", ends=ends), (mill(own).but(centre_cutting=True),), shop).advice
    for plan in advice.plans:
        note(plan.way)
        reckoned, given_ = dialled(plan, "slot", own)
        if reckoned > own:
            is_nearest(reckoned, given_, lo, hi, own, shop.readout_mm / INCH)
            told = next(f.mm for f in plan.figures if f.what == "slot: width that the dials give")
            assert told == pytest.approx(given_ * INCH, abs=1e-6)
        deepest = -min(one.dial_z_mm for one in plan.passes) / INCH
        assert 0.2451 <= deepest <= 0.2562
        if not dro and ends == "closed":
            walls = {y for one in plan.passes for _, y in one.dial_path_mm}
            assert max(walls) - min(walls) == pytest.approx((given_ - own) * INCH, abs=1e-6)


@settings(max_examples=60)
@given(st.integers(9500, 9900), st.integers(10, 300), st.integers(2400, 2600), st.integers(15, 100), st.booleans(),
       st.integers(1200, 2300))
def test_a_head(width: int, band: int, height: int, tall: int, dro: bool, face: int) -> None:
    """The head of a T-slot, in one level and in more: its width, and its height from floor to ceiling."""
    own = 0.875
    sizes = {"throat": limits(0.62, 0.63), "depth": limits(0.745, 0.755),
             "head_width": limits(width / 1e4, (width + band) / 1e4),
             "head_height": limits(height / 1e4, (height + tall) / 1e4)}
    shop = Shop(dro=dro)
    advice = advise(Request("t-slot", sizes, "grey iron"), (mill(0.5), disc(own, face / 1e4)), shop).advice
    step = shop.readout_mm / INCH
    for plan in advice.plans:
        reckoned, given_ = dialled(plan, "head", own)
        is_nearest(reckoned, given_, width / 1e4, (width + band) / 1e4, own, step)
        head = [one for one in plan.passes if one.room == "head"]
        levels = {one.z_mm for one in head}
        if len(levels) > 1:
            aimed = (max(levels) - min(levels)) / INCH + face / 1e4
            set_ = (max(one.dial_z_mm for one in head) - min(one.dial_z_mm for one in head)) / INCH + face / 1e4
            is_nearest(aimed, set_, height / 1e4, (height + tall) / 1e4, face / 1e4, step)


@pytest.mark.parametrize(("own", "lo", "hi", "width"), [
    (0.499, 0.625, 0.627, 0.626), (0.5, 0.876, 0.878, 0.877), (0.375, 0.4365, 0.4385, 0.4375)])
def test_without_a_readout(own: float, lo: float, hi: float, width: float) -> None:
    """Rounded alike on both sides of the middle these once came out at a limit, or past it."""
    request = Request("slot", {"width": limits(lo, hi), "depth": limits(0.245, 0.255)}, "mild steel")
    plan = advise(request, (mill(own),), Shop(dro=False)).advice.plans[0]
    _, given_ = dialled(plan, "slot", own)
    assert abs(given_ - width) <= 0.0005 + 1e-7
    assert lo <= given_ <= hi
    if own == 0.499:
        places = [round(one.dial_x_mm / INCH, 4) for one in plan.passes if one.role == "finish"]
        assert places == [0.064, -0.063]
