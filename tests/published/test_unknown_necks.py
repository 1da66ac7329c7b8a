"""A neck that isn't known clears nothing, however thin the shank is that stands over it."""

from __future__ import annotations

import pytest

from crib.cutters.base import Cutter
from crib.planning.advise import advise
from crib.planning.ask import read_request
from crib.planning.told.advice import Advice
from crib.shop import Shop
from tests.spelt import spelt

SHOP = Shop(units="mm")
MILL = Cutter(1, "end-mill", "the mill", diameter_mm=14.0, shank_mm=12.0, flutes=4, length_of_cut_mm=30.0,
              material="hss", condition="sharp")
ASKED = {"bolt": "M12", "length": "100", "material": "grey iron"}


def _with(**sizes: float) -> Advice:
    disc = Cutter(2, "keyseat-cutter", "the disc", diameter_mm=22.0, face_mm=6.0, material="hss", condition="sharp")
    return advise(read_request("t-slot", ASKED, SHOP, "mm"), (MILL, disc.but(**sizes)), SHOP).advice


@pytest.mark.parametrize("shank", [{}, {"shank_mm": 6.0}, {"shank_mm": 10.0}, {"shank_mm": 12.0}, {"shank_mm": 16.0}])
def test_a_thin_shank_is_no_thin_neck(shank: dict[str, float]) -> None:
    """The disc went 25 mm down into a throat of 14 because its shank of 10, or the usual one of 12, clears: nothing was
    known of its neck, and a neck as fat as .98 of the teeth (from memory) meets the lip (geometry)."""
    found = _with(**shank)
    assert (found.answer, found.plans) == ("measure first", ())
    assert any("mic the neck" in spelt(one.says) for one in found.refused)


def test_a_usual_shank_is_not_taken_for_what_stands_behind_the_teeth() -> None:
    """With a thin neck of unknown length and a shank that isn't known, the shank may stand anywhere."""
    found = _with(neck_mm=8.0)
    assert (found.answer, found.plans) == ("measure first", ())
    assert any("measure the reach" in spelt(one.says) for one in found.refused)


@pytest.mark.parametrize("known", [{"neck_mm": 8.0, "shank_mm": 10.0}, {"neck_mm": 8.0, "reach_mm": 30.0}])
def test_what_is_known_to_clear_is_not_asked_for(known: dict[str, float]) -> None:
    """A neck of 8 under a shank of 10 clears the lips of a 14 throat, the wall reached by 1 (geometry), whatever the
    reach; with a reach beyond the depth the shank stays outside."""
    assert _with(**known).plans
