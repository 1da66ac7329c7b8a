"""A shank that nobody measured refuses no cutter, and isn't taken for an inch one where the cutter is metric."""

from __future__ import annotations

import pytest

from crib.cutters import kind_of
from crib.cutters.base import Cutter
from crib.planning.advise import advise
from crib.planning.ask import read_request
from crib.planning.told.advice import Advice
from crib.shop import BoringHead, Shop
from tests.spelt import spelt

METRIC = Shop(units="mm", collets_mm=(6.0, 8.0, 10.0, 12.0, 16.0), spindle_rpm=(100, 200, 350, 600, 1000, 1800, 2800))
SLOT = {"width": "8.2±.1", "depth": "4", "length": "80", "material": "1018"}


def _asked(kind: str, texts: dict[str, str], cutters: list[Cutter], shop: Shop) -> Advice:
    return advise(read_request(kind, texts, shop, shop.units), cutters, shop).advice


@pytest.mark.parametrize(("diameter", "shank"), [(4.0, 6.0), (6.0, 6.0), (8.0, 10.0), (12.0, 12.0), (20.0, 20.0),
                                                 (6.35, 9.525), (9.525, 9.525), (15.875, 15.875)])
def test_metric_end_mills_are_on_metric_shanks(diameter: float, shank: float) -> None:
    """An 8 mm mill was refused for want of a 3/8 collet in a shop that has none but metric ones. Shanks by DIN 844,
    from memory; inch ones 3/8 up to 3/8, from memory."""
    cutter = Cutter(1, "end-mill", diameter_mm=diameter, flutes=4, material="hss")
    assert kind_of(cutter).fill(cutter).shank_mm == shank


def test_a_metric_mill_does_a_slot_in_a_metric_shop() -> None:
    """The whole way: the drawer has the cutter and the collet, so there is a plan."""
    mill = Cutter(1, "end-mill", diameter_mm=8.0, flutes=4, material="hss", condition="sharp")
    assert _asked("slot", SLOT, [mill], METRIC).answer in ("as drawn", "extra passes")


@pytest.mark.parametrize("assumed", [True, False])
def test_a_shank_that_nobody_measured_is_asked_about(assumed: bool) -> None:
    """`not from this drawer` rested on a shank that was only assumed: it may fit a collet that is there. One that was
    measured and fits none is refused still."""
    mill = Cutter(1, "end-mill", diameter_mm=8.0, flutes=4, material="hss", condition="sharp", length_of_cut_mm=19.0,
                  shank_mm=None if assumed else 10.0)
    found = _asked("slot", SLOT, [mill], Shop(units="mm", collets_mm=(6.0, 8.0, 12.0)))
    assert found.answer == ("measure first" if assumed else "cannot")
    [refusal] = found.refused
    assert refusal.answer == found.answer and refusal.id in ("HD1", "HD2")
    assert ("measure the shank" in spelt(refusal.fix)) is assumed


@pytest.mark.parametrize("assumed", [True, False])
def test_a_bar_whose_shank_nobody_measured_is_asked_about(assumed: bool) -> None:
    """The same of a boring bar, whose shank may be thicker than the bar."""
    bar = Cutter(1, "boring-bar", diameter_mm=9.525, min_hole_mm=10.2, material="hss",
                 shank_mm=None if assumed else 9.525)
    drill = Cutter(2, "drill", diameter_mm=12.7, material="hss", length_of_cut_mm=100.0)
    spot = Cutter(3, "spot-drill", diameter_mm=6.35, angle_deg=90.0, material="hss")
    shop = Shop(boring_heads=(BoringHead(12.7, 11.0, 100.0),), collets_mm=(12.7,))
    found = _asked("hole", {"diameter": "1.250+.001-0", "depth": "1"}, [bar, drill, spot], shop)
    assert found.answer == ("measure first" if assumed else "cannot")
    [about] = [refusal for refusal in found.refused if refusal.cutter.id == 1]
    assert spelt(about.says).startswith("no boring head"), "its name stands before it already"


@pytest.mark.parametrize(("width", "answer", "rule"), [
    (".640+.004-0", "measure first", "G7"), (".610+.004-0", "measure first", "G7"), (".500+.004-0", "cannot", "SZ3")])
def test_a_mark_says_what_a_reground_mill_was_and_not_what_it_is(width: str, answer: str, rule: str) -> None:
    """A 5/8 that was reground was refused for a slot of .610 by its mark, though it is smaller than that says, by
    .060 at the most (from memory): it may go in. One that can't be so small is refused."""
    mill = Cutter(1, "end-mill", nominal_mm=15.875, reground=True, length_of_cut_mm=30.0, shank_mm=15.875, flutes=2,
                  centre_cutting=True, material="hss", condition="sharp")
    found = _asked("slot", {"width": width, "depth": "1/4", "length": "3", "material": "1018"}, [mill], Shop())
    assert (found.answer, found.refused[0].id) == (answer, rule)
