"""Grooves in a face round an axis: a mill of the width, a smaller one at two settings, the work turned under it."""

from __future__ import annotations

from dataclasses import replace
from math import atan, degrees, pi

import pytest

from crib.cutters.base import Cutter
from crib.features import draw
from crib.features.down import RingGroove
from crib.findings.errors import CribError
from crib.parts.solids import _SECTORS
from crib.planning.advise import advise
from crib.planning.ask import read_request
from crib.planning.told.advice import Advice
from crib.shop import BoringHead, Shop
from tests.parts.test_every_kind import of_kind, solids
from tests.spelt import spelt

IN = 25.4
PLAIN = Shop(spindle_rpm=(80, 135, 325, 660, 1700), collets_mm=(6.35, 9.525, 12.7), chuck_mm=12.7)
TURNED = replace(PLAIN, rotary_turns=90)
MILL = Cutter(1, "end-mill", "1/4 mill", diameter_mm=0.25 * IN, flutes=2, shank_mm=9.525, length_of_cut_mm=0.5 * IN,
              centre_cutting=True, corner_radius_mm=0.0, material="hss", condition="sharp", measured=("diameter_mm",))
HEADED = replace(PLAIN, boring_heads=(BoringHead(12.7, 0.5 * IN, 4 * IN),))
TOOL = Cutter(2, "trepanning-tool", "1/4 tool", diameter_mm=12.7, face_mm=0.25 * IN, length_of_cut_mm=0.2 * IN,
              min_hole_mm=1.5 * IN, shank_mm=12.7, material="hss", condition="sharp")
TEXTS = {"outside": "2.000+.006-.006", "width": ".250+.004-0", "depth": "3/32", "material": "1018"}


def asked(shop: Shop, *cutters: Cutter, **texts: str) -> Advice:
    said = {key: text for key, text in (TEXTS | texts).items() if text}
    return advise(read_request("ring-groove", said, shop, "in"), cutters, shop).advice


def test_a_mill_of_the_width_stands_half_of_what_the_outside_is_wider_than_it() -> None:
    """(2.000 - .250) / 2 = .875, geometry; down a bite, round, and down again."""
    plan = asked(TURNED, MILL).plans[0]
    assert plan.answer == "as drawn" and {one.feed for one in plan.passes} == {"round"}
    assert all(one.dial_from_mm == pytest.approx(0.875 * IN) for one in plan.passes)
    depths = [one.dial_z_mm for one in plan.passes]
    assert depths == sorted(depths, reverse=True) and depths[-1] == pytest.approx(-IN * 3 / 32, abs=0.013)
    assert plan.proof.left_mm == plan.proof.gouge_mm == 0


def test_a_smaller_one_ends_with_each_wall_at_its_own_setting() -> None:
    """Outside (2.000 - .1875) / 2 = .90625, inside (1.496 + .1875) / 2 = .84175 for the middle of the width, .252."""
    plan = asked(TURNED, MILL.but(diameter_mm=0.1875 * IN)).plans[0]
    assert plan.answer == "extra passes" and [one.role for one in plan.passes[-2:]] == ["finish", "finish"]
    outer, inner = ((one.dial_from_mm or 0.0) / IN for one in plan.passes[-2:])
    assert outer == pytest.approx(0.90625, abs=0.0003) and inner == pytest.approx(0.84175, abs=0.0003)
    assert "clockwise" in spelt(plan.passes[-1].says) and "counter-clockwise" in spelt(plan.passes[-2].says)


def test_two_turns_a_hair_apart_are_one() -> None:
    """A 3/16 mill roughed a .200 groove at two places .002 apart, of which the second only rubs."""
    plan = asked(TURNED, MILL.but(diameter_mm=0.1875 * IN), outside="1.250", width=".200", depth="1/8").plans[0]
    rough = {one.dial_from_mm for one in plan.passes if one.role == "groove"}
    assert len(rough) == 1 and [one.role for one in plan.passes[-2:]] == ["finish", "finish"]


def test_a_turn_takes_no_less_than_a_hand_needs_for_the_crank() -> None:
    """90 turns of a crank in 85 seconds were asked of a hand; an even 40 a minute is common practice, no source."""
    slow, quick = (asked(replace(PLAIN, rotary_turns=turns), MILL).plans[0] for turns in (360, 40))
    assert "360 turns of its crank in about 540 seconds" in spelt(slow.passes[0].says)
    more = 360 / 40 - pi * 2 * IN / quick.passes[0].mm_per_min
    assert slow.minutes - quick.minutes == pytest.approx(more * len(slow.passes), rel=0.05)


def test_a_tooth_in_a_boring_head_makes_it_without_a_table() -> None:
    """Across the outside of the tooth, then for a wider groove as much in on the diameter as twice what it lacks."""
    plan = asked(HEADED, TOOL).plans[0]
    assert plan.answer == "as drawn" and len(plan.passes) == 1 and plan.passes[0].diameter_mm == pytest.approx(2 * IN)
    assert plan.proof.left_mm == plan.proof.gouge_mm == 0
    wider = asked(HEADED, TOOL, width=".400+.004-.004").plans[0]
    assert wider.answer == "extra passes"
    assert [one.diameter_mm for one in wider.passes] == pytest.approx([2.0 * IN, (2.0 - 2 * 0.15) * IN])


@pytest.mark.parametrize(("tool", "rule"), [
    (TOOL.but(min_hole_mm=2.1 * IN), "SZ3"), (TOOL.but(face_mm=0.26 * IN), "FC1"), (TOOL.but(face_mm=1.0), "FC2"),
    (TOOL.but(length_of_cut_mm=3.0), "RE1"), (TOOL.but(shank_mm=10.0), "HD1"), (TOOL.but(min_hole_mm=None), "G7")])
def test_what_such_a_tool_lacks_is_told(tool: Cutter, rule: str) -> None:
    """The heel of its tooth comes round behind it: ground for a larger groove it rubs on the outer wall."""
    found = asked(HEADED, tool)
    assert not found.plans and found.refused[0].id == rule


def test_by_the_inside_it_is_the_same_groove() -> None:
    """An inside of 1.496 and a width of .252 come to an outside of 2.000."""
    request = read_request("ring-groove", {"inside": "1.496", "width": ".252", "depth": "3/32"}, PLAIN, "in")
    assert draw(request).outline.rooms[0].aim.right == pytest.approx(1.0 * IN * 1e6, abs=2)


def test_by_its_outside_and_its_inside_it_is_as_wide_as_they_leave() -> None:
    """Geometry: its width is half of what the one is more than the other, and its limits are what theirs leave. A print
    of a seal's groove gives these two; the width was asked for."""
    request = read_request("ring-groove", {"outside": "2+.004-0", "inside": "1.5+0-.002", "depth": "3/32"}, PLAIN, "in")
    wide = draw(request).down
    assert isinstance(wide, RingGroove)
    assert (wide.width.lo, wide.width.hi) == pytest.approx((0.250 * IN, 0.253 * IN))
    assert (wide.outside.lo, wide.outside.hi) == pytest.approx((2 * IN, 2.004 * IN))


def test_what_does_not_cut_on_centre_is_let_down_on_its_way_round() -> None:
    """No steeper than 3 degrees, common practice: round a circle of 2 pi .875 it is far less."""
    plan = asked(TURNED, MILL.but(centre_cutting=False)).plans[0]
    first = plan.passes[0]
    assert "on its way round, 1 turn" in spelt(first.says)
    assert degrees(atan(-first.z_mm / (2 * pi * 0.875 * IN))) < 3
    assert first.minutes > asked(TURNED, MILL).plans[0].passes[0].minutes


@pytest.mark.parametrize(("mill", "rule"), [
    (MILL.but(diameter_mm=0.2656 * IN), "SZ3"), (MILL.but(corner_radius_mm=0.8), "G11"),
    (MILL.but(length_of_cut_mm=1.6), "RE1"), (MILL.but(condition="burnt"), "CD1"), (MILL.but(diameter_mm=None), "G7")])
def test_what_a_mill_lacks_is_told(mill: Cutter, rule: str) -> None:
    found = asked(TURNED, mill)
    assert not found.plans and found.refused[0].id == rule


def test_without_a_rotary_table_it_is_refused_with_what_the_slides_would_leave() -> None:
    """D/2 - [o cos(pi/k) + sqrt(r^2 - (o sin(pi/k))^2)] for 36 settings of .250 in 2.000: o = .875, r = .125; worked
    out by hand: 1 - (.871670 + .099063) = .0293."""
    refused = asked(PLAIN, MILL).refused[0]
    assert refused.id == "IG1" and ".0293 proud" in spelt(refused.says)


def test_a_mill_too_small_for_its_settings_to_meet_is_refused_in_words() -> None:
    """36 of .250 on a circle of 8 inches stand .70 apart: it was a domain error."""
    assert "don't even meet" in spelt(asked(PLAIN, MILL, outside="8").refused[0].says)


@pytest.mark.parametrize(("texts", "says"), [
    ({"outside": ""}, "needs the size that goes across it"), ({"inside": "1.5"}, "its outside and its inside given"),
    ({"inside": "2.5", "width": ""}, "not smaller than its outside"), ({"width": ""}, "needs its width"),
    ({"outside": ".5"}, "leaves nothing in the middle"), ({"floor_radius": ".2"}, "more than half of the groove")])
def test_what_cannot_be_is_said_in_one_sentence(texts: dict[str, str], says: str) -> None:
    said = {key: text for key, text in (TEXTS | texts).items() if text}
    with pytest.raises(CribError, match=says):
        draw(read_request("ring-groove", said, PLAIN, "in"))


def test_in_a_part_it_leaves_its_middle() -> None:
    """A port in the middle of its seal isn't met: the ring is told in pieces that hold all of it, and none of them the
    middle."""
    part, found = of_kind("ring-groove", at="8, 8")
    one = found.features["one"]
    pieces = solids(part, one.placed, one.feature)
    assert len(pieces) == _SECTORS
    for piece in pieces:
        (left, front, _), (right, back, _) = piece.body.bounds
        assert not (left < 8 * IN < right and front < 8 * IN < back)
    assert max(piece.body.bounds[1][0] for piece in pieces) >= (8 + 1) * IN


@pytest.mark.parametrize("count", [1, 2, 4])
def test_each_of_several_is_set_true_on_the_table(count: int) -> None:
    """Alike grooves lie about axes of their own: the table is put up once, and the work is moved on it and set true for
    each of the others, at half of what putting up both takes (from memory). It was reckoned once for all."""
    plan = asked(TURNED, MILL, count=str(count)).plans[0]
    minutes = {line.what: line.minutes for line in plan.cost_lines}
    assert minutes["rotary table"] == TURNED.index_setup_minutes
    assert minutes.get("moved on it", 0.0) == pytest.approx(TURNED.index_setup_minutes / 2 * (count - 1))
    assert any("set it true the same way" in spelt(one.says) for one in plan.touch_off) == (count > 1)
