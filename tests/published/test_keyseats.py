"""Keyseats in a shaft: the key that a shaft takes, and what stays under its seat."""

from __future__ import annotations

import pytest

from crib.cutters.base import Cutter
from crib.findings.errors import CribError
from crib.handbook.keys import crown, parallel_key, square_key
from crib.planning.advise import advise
from crib.planning.ask import read_request
from crib.shop import Shop

INCH = 25.4
MILL = Cutter(1, "end-mill", "1/4 end mill", diameter_mm=6.35, flutes=2, length_of_cut_mm=12.0, shank_mm=9.525,
              centre_cutting=True, corner_radius_mm=0.0, material="hss", condition="sharp", measured=("diameter_mm",))


@pytest.mark.parametrize(("shaft", "key"), [
    (0.4375, 0.09375), (0.5, 0.125), (0.5625, 0.125), (0.75, 0.1875), (0.875, 0.1875), (1.0, 0.25), (1.25, 0.25),
    (1.375, 0.3125), (1.5, 0.375), (2.0, 0.5), (2.5, 0.625), (3.0, 0.75), (3.5, 0.875), (4.5, 1.0)])
def test_the_key_for_a_shaft(shaft: float, key: float) -> None:
    """ANSI B17.1-1967 (R1998), Table 1: over one size up to and including the other [in]."""
    assert square_key(shaft * INCH) / INCH == pytest.approx(key)


@pytest.mark.parametrize("shaft", [0.25, 0.3125, 4.6])
def test_a_shaft_without_a_key_is_told_so(shaft: float) -> None:
    with pytest.raises(CribError):
        square_key(shaft * INCH)


@pytest.mark.parametrize(("shaft", "left"), [(0.5, 0.430), (0.75, 0.644), (1.0, 0.859), (1.5, 1.289), (2.0, 1.718)])
def test_what_stays_under_the_seat(shaft: float, left: float) -> None:
    """S, from the floor to the far side, as the standard's appendix prints it to three places (from memory)."""
    key = square_key(shaft * INCH)
    assert shaft - (crown(shaft * INCH, key) + key / 2) / INCH == pytest.approx(left, abs=0.0006)


@pytest.mark.parametrize("ends", ["open", "one", "closed"])
def test_a_seat_is_planned_in_vee_blocks(ends: str) -> None:
    """An end mill was said to risk its neck, and a shaft to lie flat: both came of tables that named other kinds."""
    texts = {"shaft": "1", "length": "2", "ends": ends, "material": "1018"}
    advice = advise(read_request("keyseat", texts, Shop(), "in"), (MILL,), Shop()).advice
    assert advice.plans and any("rolls" in line for line in advice.cautions)
    assert not any("neck" in line for line in advice.cautions)
    assert "vee blocks" in str(advice.plans[0])


@pytest.mark.parametrize("texts", [
    {"width": "1/2", "depth": "1/4", "shaft": "1/2"}, {"width": "1/4", "depth": "1/2", "shaft": "1"}])
def test_a_seat_that_the_shaft_has_no_room_for_is_refused(texts: dict[str, str]) -> None:
    with pytest.raises(CribError) as caught:
        advise(read_request("keyseat", {**texts, "material": "1018"}, Shop(), "in"), (MILL,), Shop())
    assert caught.value.finding.id == "feature"


@pytest.mark.parametrize(("shaft", "wide", "deep"), [
    (8, 2, 1.2), (10, 3, 1.8), (12, 4, 2.5), (17, 5, 3.0), (22, 6, 3.5), (25, 8, 4.0), (30, 8, 4.0), (38, 10, 5.0),
    (50, 14, 5.5), (65, 18, 7.0), (110, 28, 10.0)])
def test_the_key_for_a_metric_shaft(shaft: float, wide: float, deep: float) -> None:
    """ISO 773 / DIN 6885-1, two public tables: width, and depth from the crown [mm]."""
    key, _, (least, _) = parallel_key(shaft)
    assert (key, least) == (wide, deep)
    request = read_request("keyseat", {"shaft": f"{shaft}mm"}, Shop(), "in")
    assert request.sizes["depth"].lo + crown(shaft, wide) == pytest.approx(deep)
    assert "DIN 6885" in (request.source or "")


def test_the_depth_is_the_one_at_the_side_of_the_seat() -> None:
    """ANSI B17.1: half of a 1/4 key, .125, lies below the edges; a 1 in shaft's crown stands .0159 over them."""
    typed = {"width": "1/4+.002-0", "depth": "1/8+.015-0", "shaft": "1", "material": "1018"}
    for texts in ({"shaft": "1", "material": "1018"}, typed):
        plan = advise(read_request("keyseat", texts, Shop(), "in"), (MILL,), Shop()).advice.plans[0]
        low, high = ((mm + 0.0159) * INCH for mm in (0.125, 0.140))
        assert low - 0.01 <= -min(one.z_mm for one in plan.passes) <= high + 0.01
    assert read_request("keyseat", typed, Shop(), "in").source is None


def test_a_size_of_ones_own_is_said_on_the_first_screen() -> None:
    """What was typed went over the standard's in silence but for the reasons, which nobody had asked for."""
    from crib.pages.answer import page
    from crib.render.terminal.lines import lines

    def shown(**texts: str) -> str:
        asked = read_request("keyseat", {"shaft": "1", "material": "1018", **texts}, Shop(), "in")
        found = advise(asked, (MILL,), Shop())
        return " ".join(" ".join(lines(page(found.advice, more=()), "in", 100)).split())

    assert "its width is .252+.002-0 as you gave it, not the standard's" in shown(width=".252+.002-0")
    assert "as you gave it" not in shown()
