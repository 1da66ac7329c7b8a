"""Why a reamer or a boring bar can't make a hole, where the drill before it doesn't reach."""

from __future__ import annotations

import pytest

from crib.cutters.base import Cutter
from crib.holders.base import Holding
from crib.holders.chucks import hold_down
from crib.light.records import replace
from crib.pages.answer import page
from crib.planning.advise import advise
from crib.planning.ask import read_request
from crib.planning.told.advice import Advice
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


IN = 25.4
THIN = Cutter(9, "boring-bar", label="boring bar, holes from .400", min_hole_mm=0.400 * IN, shank_mm=9.525,
              reach_mm=38.1, material="hss")


def test_a_bar_that_doesnt_go_into_the_hole_isnt_to_be_measured() -> None:
    """A bar for holes from .400 was to be miked for a hole of 5/16: however thin it is, it doesn't go in."""
    found = _asked("5/16+.005-0", "1", THIN)
    [bar] = [one for one in found.refused if one.cutter.id == 9]
    assert found.answer == "cannot" and bar.answer == "cannot" and "hole of .430 to go into" in spelt(bar.says)


def test_what_may_do_once_it_is_measured_is_what_is_told_first() -> None:
    """The answer was to measure first, and the sentence under it a mill that is too short."""
    mill = Cutter(8, "end-mill", label="1 in end mill", diameter_mm=25.4, length_of_cut_mm=12.7, centre_cutting=True,
                  shank_mm=12.7, material="hss", condition="sharp", flutes=2)
    shop = replace(SHOP, boring_heads=(BoringHead(9.525, 11.0, 101.6),))
    found = advise(read_request("hole", {"diameter": "1.0005/1.0015", "depth": "1"}, shop, "in"),
                   (mill, THIN, _drill(12.7, 76.2)), shop).advice
    assert found.answer == "measure first" and "boring bar, holes from .400 may" in spelt(found.says)


@pytest.mark.parametrize(("long", "answer"), [(12.0, "measure first"), (4.5, "cannot"), (None, "cannot")])
def test_how_far_the_flutes_of_an_extra_long_drill_go_has_to_be_seen(long: float | None, answer: str) -> None:
    """A 5/16 drill 12 in long was refused as too short for 5 in: a jobber's flutes were taken for its own. No series
    has longer ones. Its name stood twice before the reason, too."""
    drill = Cutter(1, "drill", label="5/16 drill", diameter_mm=7.9375, overall_length_mm=long and long * IN,
                   material="hss")
    found = _asked("5/16+.015-0", "5", drill)
    [one] = [one for one in found.refused if one.cutter.id == 1]
    assert found.answer == answer and one.id == "RE1"
    assert spelt(found.says).count("5/16 drill") == 1 and "5/16 drill" not in spelt(one.says)


@pytest.mark.parametrize(("across", "is_held"), [(0.5005, True), (0.75, False)])
def test_a_chucking_reamer_stands_on_a_thinner_shank(across: float, is_held: bool) -> None:
    """A half inch reamer that mikes .5005 was refused by a half inch chuck: `the shank is .501`, which nobody had said.
    Shanks of ASME B94.2, from memory: 7/16 for 1/2, 5/8 for 3/4; what nobody measured is asked about."""
    reamer = Cutter(1, "reamer", label="reamer", diameter_mm=across * IN, material="hss", condition="sharp", flutes=6)
    held = hold_down(reamer, Holding(collets=(6.35, 9.525), chuck=12.7))
    assert held.ok is is_held and (held.ok or (held.unsure and "measure the shank" in spelt(held.fix)))


@pytest.mark.parametrize(("diameter", "depth", "rule"), [
    ("6", "12", "RE3"), ("6+.01-0", "1", "HD1"), ("2+.01-0", "1-3/4", "RE3"), ("2+.01-0", "1", "G7"),
])
def test_a_bar_that_never_makes_it_isnt_to_be_measured(diameter: str, depth: str, rule: str) -> None:
    """Of a hole of 6, 12 deep, a bar that goes 1-1/2 deep was to be miked, in a head that goes to 4."""
    shop = replace(SHOP, boring_heads=(BoringHead(9.525, 11.0, 101.6),))
    found = advise(read_request("hole", {"diameter": diameter, "depth": depth}, shop, "in"),
                   (THIN, _drill(12.7, 76.2)), shop).advice
    [bar] = [one for one in found.refused if one.cutter.id == 9]
    assert bar.id == rule and (bar.answer == "measure first") is (rule == "G7")
