"""Face mills and shell mills: faces and steps, how deep the shoulder of their arbor lets them go, how inserts stand."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from crib.cutters.base import Cutter
from crib.intake.shorthand import Shop as Spoken
from crib.intake.shorthand import read_line
from crib.planning.advise import advise
from crib.planning.ask import read_request
from crib.shop import Arbor, Shop

INCH = 25.4
SAME: dict[str, Any] = {"material": "hss", "condition": "sharp", "measured": ("diameter_mm",)}
SHELL = Cutter(1, "face-mill", "1-1/2 shell mill", diameter_mm=1.5 * INCH, face_mm=0.75 * INCH, bore_mm=12.7, flutes=8,
               note="shell mill", **SAME)
FACE = Cutter(2, "face-mill", "2-1/2 face mill", diameter_mm=2.5 * INCH, bore_mm=25.4, flutes=5, **SAME)


def asked(kind: str, *cutters: Cutter, shop: Shop | None = None, **texts: str) -> Any:
    shop = shop or Shop()
    return advise(read_request(kind, {"material": "1018", "length": "3", **texts}, shop, "in"), cutters, shop).advice


@pytest.mark.parametrize("said, label, angle", [
    ("1-1/2 shell mill 3/4 face 1/2 bore", "1-1/2 shell mill, 1/2 bore", None),
    ("1-1/4 shell mill, 1/2 arbor", "1-1/4 shell mill, 1/2 bore", None),
    ("2 inch 90 degree face mill 3/4 bore 5 inserts", '2" face mill, 5 flutes, 3/4 bore', 90.0),
    ("2-1/2 square shoulder face mill 1 bore", "2-1/2 face mill, 1 bore", 90.0),
    ("2-1/2 face mill 45 degree 1 bore", "2-1/2 face mill, 1 bore", 45.0),
    ("2-1/2 face mill 1 bore", "2-1/2 face mill, 1 bore", None),
])
def test_they_are_read_as_they_are_said(said: str, label: str, angle: float | None) -> None:
    from crib.cutters.label import label as named

    (taken,) = read_line(said, Spoken("in")).taken
    assert taken.cutter.kind == "face-mill" and named(taken.cutter, "in") == label
    assert taken.cutter.angle_deg == angle
    assert any("lean" in question for question in taken.cutter.questions) is (angle is None and "shell" not in said)


def test_a_shell_mill_makes_a_step_and_a_face() -> None:
    step = asked("step", SHELL, width="3/4", depth="1/2")
    assert step.answer == "as drawn" and step.plans[0].proof.left_mm == step.plans[0].proof.gouge_mm == 0.0
    face = asked("facing", SHELL, width="1-1/4", depth=".05")
    assert face.answer == "as drawn" and len(face.plans[0].passes) == 1


@pytest.mark.parametrize("deep, shoulder, goes", [
    ("1/2", 1.5, True), ("1-1/4", 0.875, True), ("1-1/4", 1.5, False), ("2", 0.875, True), ("2-1/2", 0.875, False),
])
def test_a_deep_step_wants_a_shoulder_that_stays_clear_of_the_wall(deep: str, shoulder: float, goes: bool) -> None:
    """Geometry: teeth 3/4 high reach 1/2 deep by themselves; deeper the arbor's shoulder goes along the wall, and over
    it the spindle's nose, here 2-1/4 in up, comes down on the work."""
    shop = Shop(arbors=(Arbor(12.7, shoulder * INCH),))
    assert bool(asked("step", SHELL, shop=shop, width="2-3/4", depth=deep).plans) is goes


def test_without_an_arbor_for_its_bore_it_stays_in_the_drawer() -> None:
    advice = asked("step", SHELL, shop=Shop(arbors=(Arbor(25.4, 40.0),)), width="3/4", depth="1/2")
    assert not advice.plans and advice.refused[0].id == "HD1"


def test_inserts_of_an_unknown_lead_face_and_make_no_wall() -> None:
    """An insert that leans leaves no upright wall; most face mills lean (common practice, no source)."""
    assert asked("facing", FACE, width="2", depth=".05").answer == "as drawn"
    step = {"width": "1/2", "depth": ".1", "floor_radius": ".04"}
    assert not asked("step", FACE, **step).plans
    assert not asked("step", FACE.but(angle_deg=45.0), **step).plans
    assert asked("step", FACE.but(angle_deg=90.0), **step).plans


@settings(max_examples=30)
@given(st.floats(0.5, 2.4), st.floats(0.01, 0.12), st.sampled_from((None, 45.0, 90.0)))
def test_a_face_within_its_swing_is_clean_and_whole(width: float, off: float, angle: float | None) -> None:
    """Whatever its lead: nothing is left of the face, nothing under it is touched. A leaning or unknown insert is at
    its narrowest at the lower end, and that still covers the face where strips are laid side by side."""
    advice = asked("facing", FACE.but(angle_deg=angle), width=f"{width:.3f}", depth=f"{off:.3f}")
    plan = advice.plans[0]
    assert plan.proof.left_mm == 0.0 and plan.proof.gouge_mm == 0.0
    low = FACE.diameter_mm - 2 * 5.0 if angle is None else FACE.diameter_mm
    assert low is not None and len({one.x_mm for one in plan.passes}) >= -(-width * INCH // low)


def test_a_hand_stays_away_from_it() -> None:
    assert any("chips" in one for one in map(str, asked("facing", FACE, width="2", depth=".05").cautions))
