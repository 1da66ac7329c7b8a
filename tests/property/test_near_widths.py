"""A cutter a few thou under the width is a plan, with a caution where it rubs, and never a refusal; a plan with a
caution stands behind every plan of its verdict without. The long run: `python -m tests.trials.near_widths`."""

from __future__ import annotations

import random

import pytest

from crib.cutters.base import Cutter
from crib.features.request import Request
from crib.planning.advise import advise
from crib.shop import Shop
from crib.units import Size
from crib.units.angles import Angle
from tests.trials.near_widths import pair, planned

INCH = 25.4


def inches(lo: float, hi: float) -> Size:
    return Size((lo + hi) / 2 * INCH, lo * INCH, hi * INCH, f"{lo}-{hi}")


def mill(number: int, diameter: float) -> Cutter:
    return Cutter(number, "end-mill", f"mill {diameter}", diameter_mm=diameter * INCH, length_of_cut_mm=12.7, flutes=4,
                  shank_mm=12.7, corner_radius_mm=0.0, material="hss", condition="sharp", measured=("diameter_mm",))


def test_a_sample_of_pairs() -> None:
    """However little is between a cutter and the width: what is clear and held makes it."""
    missed = [number for number in range(400) if planned(*pair(random.Random(number))) is None]
    assert not missed


@pytest.mark.parametrize(("diameter", "lo", "hi"), [
    (0.624, 0.625, 0.627), (0.499, 0.500, 0.502), (0.250, 0.2502, 0.2512), (0.250, 0.2525, 0.2535),
    (0.250, 0.255, 0.256)])
def test_a_hair_a_side_is_cautioned(diameter: float, lo: float, hi: float) -> None:
    """Refused once as "not from this drawer"; a machinist takes the rest a thou a side (common practice, no source)."""
    request = Request("slot", {"width": inches(lo, hi), "depth": inches(0.24, 0.26)}, "mild steel")
    alone = advise(request, (mill(1, diameter),), Shop()).advice
    assert [w.grade for w in alone.plans[0].warnings if w.id == "SZ2"] == ["caution"]
    both = advise(request, (mill(1, diameter), mill(2, round(diameter - 0.03, 4))), Shop()).advice
    assert [cutter.id for cutter in both.plans[0].cutters] == [2]


def test_a_caution_never_comes_first() -> None:
    """A spot drill run along a groove once stood before the end mill on the work tilted, of the same verdict."""
    request = Request("v-groove", {"width": inches(0.245, 0.255)}, "mild steel", angles={"angle": Angle(90.0, "90")})
    spot = Cutter(2, "spot-drill", "spot", diameter_mm=12.7, angle_deg=90.0, flutes=2, shank_mm=12.7, tip_mm=0.0,
                  material="hss", condition="sharp")
    plans = advise(request, (mill(1, 0.5), spot), Shop()).advice.plans
    assert [cutter.id for cutter in plans[0].cutters] == [1]
    assert not [w for w in plans[0].warnings if w.grade == "caution"]
