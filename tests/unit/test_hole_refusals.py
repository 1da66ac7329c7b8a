"""Why a reamer or a boring bar can't make a hole, where the drill before it doesn't reach."""

from __future__ import annotations

import pytest

from crib.cutters.base import Cutter
from crib.pages.answer import page
from crib.planning.advice import Advice
from crib.planning.advise import advise
from crib.planning.ask import read_request
from crib.shop import BoringHead, Shop
from tests.shown import shown
from tests.spelt import spelt

SHOP = Shop(boring_heads=(BoringHead(12.7, 11.0, 100.0),), collets_mm=(12.7,), chuck_mm=12.7)
BAR = Cutter(1, "boring-bar", label="1/2 boring bar", diameter_mm=12.7, shank_mm=12.7, min_hole_mm=15.24,
             material="hss")
HEAD = Cutter(4, "boring-head", label="2 boring head", diameter_mm=50.8, bore_mm=12.7)
REAMER = Cutter(5, "reamer", label="3/8 reamer", diameter_mm=9.525, material="hss")


def _asked(diameter: str, depth: str, *cutters: Cutter) -> Advice:
    return advise(read_request("hole", {"diameter": diameter, "depth": depth}, SHOP, "in"), cutters, SHOP).advice


def _drill(size: float, flutes: float | None) -> Cutter:
    return Cutter(2, "drill", label="drill", diameter_mm=size, shank_mm=min(size, 12.7), length_of_cut_mm=flutes,
                  material="hss", condition="sharp")


@pytest.mark.parametrize(("last", "drill", "diameter"), [(BAR, 19.05, "2.000+.002-0"), (REAMER, 9.128, "3/8+.001-0")])
def test_the_drill_before_it_is_too_short(last: Cutter, drill: float, diameter: str) -> None:
    """It said that no drill in the crib makes the hole that a bar begins in, though one does: its flutes are short,
    and that is what to look for."""
    found = _asked(diameter, "2", last, _drill(drill, 40.0))
    [about] = [one for one in found.refused if one.cutter.id == last.id]
    assert found.answer == "cannot" and about.id == "RE1"
    assert "no. 2" in spelt(about.says) and "flutes of 1.575" in spelt(about.says)
    assert about.needs_mm == pytest.approx(50.8) and spelt(about.fix) == "a longer drill"


def test_flutes_before_it_that_nobody_measured_are_asked_about() -> None:
    """A 3/8 drill may be a jobber's or a taper length's: 3-5/8 of flutes are usual, more are made."""
    found = _asked("3/8+.001-0", "4", REAMER, _drill(9.128, None))
    [about] = [one for one in found.refused if one.cutter.id == REAMER.id]
    assert about.answer == "measure first" and found.answer == "measure first"
    assert "not measured" in spelt(about.says)


def test_a_boring_head_is_no_cutter_that_lacks() -> None:
    """`What would do` named the boring head, with a drill as the kind for it."""
    found = _asked("2.000+.002-0", "2", BAR, _drill(19.05, 40.0), HEAD)
    text = "\n".join(shown(page(found), width=200))
    assert "isn't for this work" not in text and "sets a boring bar out" in text
    would_do = text.split("What would do, nearest first")[1].split("\n\n")[0]
    assert "no. 4" not in would_do and "no. 1" in would_do
