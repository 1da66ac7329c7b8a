"""Keyseats in a bore: broached, or slotted with one point and the spindle locked. Expected numbers are geometry, worked
out here, or the standard's; how much a stroke takes is common practice, no source."""

from __future__ import annotations

from math import ceil, sqrt
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from crib.cutters.base import Cutter
from crib.findings.errors import CribError
from crib.handbook.keys import parallel_hub
from crib.intake.questions import read_question
from crib.intake.shorthand import Shop as Spoken
from crib.intake.shorthand import read_line
from crib.planning.advise import advise
from crib.planning.ask import read_request
from crib.shop import Shop
from tests.spelt import spelt

IN = 25.4
SHOP = Shop()
SAME: dict[str, Any] = {"material": "hss", "condition": "sharp"}
TOOL = Cutter(1, "slotting-tool", "slotting tool", face_mm=0.251 * IN, diameter_mm=0.5 * IN, min_hole_mm=0.69 * IN,
              shank_mm=12.7, reach_mm=2 * IN, **SAME)
BROACH = Cutter(2, "broach", "1/4 broach", diameter_mm=0.251 * IN, **SAME)
BLANK = Cutter(3, "blank", "3/4 blank", diameter_mm=0.75 * IN, overall_length_mm=4 * IN, **SAME)
ASKED = {"bore": "1", "width": "1/4+.002-0", "depth": ".130+.010-0", "hub": "3/4", "material": "1018"}


def asked(*cutters: Cutter, **texts: str) -> Any:
    return advise(read_request("bore-keyseat", ASKED | texts, SHOP, "in"), cutters, SHOP).advice


def edge(bore: float, width: float) -> float:
    """How far the edges of a seat are from the bore's axis: Pythagoras."""
    return sqrt((bore / 2) ** 2 - (width / 2) ** 2)


@pytest.mark.parametrize("shaft, far", [("1", 1.1141), ("3/4", 0.8369)])
def test_a_hubs_seat_is_measured_to_the_far_wall(shaft: str, far: float) -> None:
    """ANSI B17.1-1967: T = (D - S-ish chord) as the standard reckons it: D - Y + H/2 + C with C .005 and
    Y = (D - sqrt(D^2 - W^2)) / 2; worked by hand here for square keys of 1/4 and 3/16: 1.1141 and .8369."""
    request = read_request("bore-keyseat", {"shaft": shaft, "hub": "3/4"}, SHOP, "in")
    bore, key, deep = (request.size(name) for name in ("bore", "width", "depth"))
    diameter, wide = bore.mid / IN, key.lo / IN
    by_hand = diameter - (diameter - sqrt(diameter**2 - wide**2)) / 2 + wide / 2 + 0.005
    assert by_hand == pytest.approx(far, abs=6e-5)
    assert diameter / 2 + edge(diameter, wide) + deep.lo / IN == pytest.approx(far, abs=6e-5)


@pytest.mark.parametrize("shaft, wide, deep", [(25.0, 8, 3.3), (12.0, 4, 1.8), (50.0, 14, 3.8), (20.0, 6, 2.8)])
def test_metric_hubs(shaft: float, wide: int, deep: float) -> None:
    """ISO 773 / DIN 6885-1, t2 and b (two public tables)."""
    key, (low, high), (least, most) = parallel_hub(shaft)
    assert (key, least) == (wide, deep) and low + high == pytest.approx(2 * wide) and most > least


def test_slotting_is_told_stroke_by_stroke() -> None:
    """.0025 a stroke to .004 before the floor, four of .001, two for the spring; the spindle stands still."""
    plan = asked(TOOL).plans[0]
    rough, last = plan.passes
    depth = 0.135
    assert f"{ceil((depth - 0.004) / 0.0025 - 1e-9)} strokes" in spelt(rough.says) and "4 strokes of .001" in spelt(
        last.says)
    assert rough.role == last.role == "slot" and rough.rpm is None and rough.mm_per_min == 0
    assert last.dial_x_mm / IN == pytest.approx(depth, abs=1e-6)
    assert last.diameter_mm / IN == pytest.approx(2 * (edge(1.0, 0.251) + depth), abs=1e-5)
    assert plan.minutes > 30 and plan.proof.left_mm == plan.proof.gouge_mm == 0.0
    assert any(one.id == "SL1" for one in plan.warnings)
    assert set(plan.locks) == {"table", "knee"}


def test_a_broach_goes_before_a_tool_and_a_tool_before_a_blank() -> None:
    advice = asked(BLANK, TOOL, BROACH)
    assert [plan.cutters[0].id for plan in advice.plans] == [2, 1, 3]
    assert advice.answer == "as drawn" and advice.plans[0].holders == ("arbor press",)
    assert not any("spindle" in spelt(step.says) for step in advice.plans[0].touch_off)
    ground = advice.plans[2]
    assert any("grinding" in line.what for line in ground.cost_lines)
    assert any(one.id == "SL3" and "eye protection" in spelt(one.says) for one in ground.warnings)


@pytest.mark.parametrize("tool, rule", [
    (TOOL.but(face_mm=0.245 * IN), "SZ3"), (TOOL.but(face_mm=None), "G7"), (TOOL.but(min_hole_mm=None), "G7"),
    (TOOL.but(min_hole_mm=0.6 * IN), "RE2"), (TOOL.but(diameter_mm=0.8 * IN, min_hole_mm=IN), "SZ3"),
    (TOOL.but(reach_mm=0.7 * IN), "RE3"), (BROACH.but(diameter_mm=0.2 * IN), "SZ3"),
    (BLANK.but(diameter_mm=0.2 * IN), "SZ3"), (TOOL.but(condition="chipped"), "CD1"),
    (Cutter(4, "end-mill", "1/4 end mill", diameter_mm=6.35, flutes=2, **SAME), "KD1"),
])
def test_who_cannot_is_told_why(tool: Cutter, rule: str) -> None:
    advice = asked(tool)
    assert not advice.plans and [one.id for one in advice.refused] == [rule]


@pytest.mark.parametrize("hub, rule", [("1-3/4", "SL2"), ("3", "SL2")])
def test_a_slender_stem_springs(hub: str, rule: str) -> None:
    """Three thicknesses out it is cautioned, five it is refused (from memory)."""
    advice = asked(TOOL.but(reach_mm=100.0), hub=hub)
    told = [one.id for plan in advice.plans for one in plan.warnings] + [one.id for one in advice.refused]
    assert rule in told and bool(advice.plans) is (hub == "1-3/4")


@pytest.mark.parametrize("texts, says", [
    ({"width": "9/16"}, "half of the bore"), ({"depth": ".010"}, "out of the bore's round"),
    ({"depth": ".6"}, "half of the bore"),
])
def test_what_cannot_be_is_one_sentence(texts: dict[str, str], says: str) -> None:
    with pytest.raises(CribError) as found:
        asked(TOOL, **texts)
    assert says in str(found.value)


@settings(max_examples=40)
@given(st.floats(0.4, 2.5), st.floats(0.15, 0.35), st.floats(0.4, 0.7), st.floats(0.1, 1.5), st.floats(0.3, 0.75),
       st.floats(0.02, 0.5))
def test_the_tool_fits_by_raw_numbers(bore: float, share: float, half: float, hub: float, bar: float, out: float
                                      ) -> None:
    """A brute oracle: the bar inside the bore at the first touch and at the last stroke, its point out beyond the bar
    by the whole seat and .02 of air, its stem no longer than five thicknesses; nothing else decides."""
    width, deep = round(share * bore, 3), round(half * share * bore + 0.02, 3)
    bore, hub, bar, out = (round(one, 3) for one in (bore, hub, bar * bore, out))
    tool = TOOL.but(face_mm=(width + 0.001) * IN, diameter_mm=bar * IN, min_hole_mm=(bar + out) * IN, reach_mm=None)
    advice = asked(tool, bore=f"{bore}", width=f"{width}+.002-0", depth=f"{deep}+.010-0", hub=f"{hub}")
    air, past = 0.5 / IN, 2.5 / IN
    fits = [out - (deep + 0.010 + air), bore - air - (bar + out), 5 * bar - (hub + past)]
    if min(abs(one) for one in fits) > 1e-4:
        assert bool(advice.plans) is (min(fits) > 0)
    for plan in advice.plans:
        assert plan.proof.left_mm == plan.proof.gouge_mm == 0.0


@pytest.mark.parametrize("said, kind, fields", [
    ("slotting tool 1/4 wide 1/2 diameter holes from .690 shank 1/2", "slotting-tool",
     {"face_mm": 0.25, "diameter_mm": 0.5, "min_hole_mm": 0.69}),
    ("keyway slotting tool 3/16 wide", "slotting-tool", {"face_mm": 0.1875}),
    ("3/16 keyway broach", "broach", {"diameter_mm": 0.1875}),
    ("key broach 3/16 no bushing", "broach", {"diameter_mm": 0.1875}),
    ("1/4 keyseat broach", "broach", {"diameter_mm": 0.25}),
])
def test_they_are_taken_in_by_words(said: str, kind: str, fields: dict[str, float]) -> None:
    line = read_line(said, Spoken("in"))
    (taken,) = line.taken
    assert taken.cutter.kind == kind
    assert {key: round((getattr(taken.cutter, key) or 0.0) / IN, 4) for key in fields} == fields


@pytest.mark.parametrize("words", [
    "keyway in a bore, shaft 1, hub 3/4", "internal keyway 1/4 wide .130 deep bore 1 hub 3/4",
    "broach a keyway in the bore, bore 1, width 1/4, depth .130, hub 3/4",
])
def test_it_is_asked_in_words(words: str) -> None:
    assert read_question(words).kind == "bore-keyseat"
