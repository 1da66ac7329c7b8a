"""Grooves round the wall of a bore: by a disc with the work turned on a rotary table, by a grooving bar in a boring
head; what goes in and comes out again, what can't."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import pytest

from crib.cutters.base import Cutter
from crib.features import draw
from crib.findings.errors import CribError
from crib.geometry.operation import Operation, Work
from crib.geometry.outline import Outline
from crib.geometry.prove import prove
from crib.geometry.region import box
from crib.geometry.silhouette import Part, Silhouette
from crib.intake.shop_settings import SETTINGS
from crib.parts.order import order_of
from crib.parts.toml import part_from_toml
from crib.planning.advise import advise
from crib.planning.ask import read_request
from crib.planning.parts.asked import asked_of
from crib.planning.parts.plan import plan_part
from crib.planning.told.advice import Advice
from crib.shop import BoringHead, Shop, from_json
from tests.spelt import spelt

IN = 25.4
PLAIN = Shop(spindle_rpm=(80, 135, 325, 660), collets_mm=(9.525, 12.7), chuck_mm=12.7)
TURNED = replace(PLAIN, rotary_turns=72)
HEADED = replace(PLAIN, boring_heads=(BoringHead(12.7, 0.5 * IN, 4 * IN),))
DISC = Cutter(1, "keyseat-cutter", "3/4 disc", diameter_mm=0.75 * IN, face_mm=0.1875 * IN, neck_mm=0.4 * IN, flutes=8,
              reach_mm=0.75 * IN, shank_mm=12.7, overall_length_mm=60.0, material="hss", condition="sharp",
              measured=("diameter_mm", "face_mm", "neck_mm"))
BAR = Cutter(2, "grooving-bar", "1/2 bar", diameter_mm=12.7, face_mm=0.056 * IN, length_of_cut_mm=0.08 * IN,
             min_hole_mm=0.6 * IN, reach_mm=IN, shank_mm=12.7, material="hss", condition="sharp")
TEXTS = {"bore": "1+.001-0", "diameter": "1.250+.006-.006", "width": ".1875+.004-0", "from_face": "1/4",
         "material": "1018"}
RING = TEXTS | {"diameter": "1.066+.006-0", "width": ".056+.004-0"}


def asked(shop: Shop, *cutters: Cutter, **texts: str) -> Advice:
    return advise(read_request("internal-groove", TEXTS | texts, shop, "in"), cutters, shop).advice


def by_a_head(*cutters: Cutter, shop: Shop = HEADED, **texts: str) -> Advice:
    return asked(shop, *cutters, **{**RING, **texts})


def test_the_axis_goes_out_by_half_of_what_the_groove_is_wider_than_the_disc() -> None:
    """o = (Dg - Dk) / 2, geometry: 1.250 and .750 make .250; the lower face stands at the groove's lower side."""
    plan = asked(TURNED, DISC).plans[0]
    assert plan.answer == "as drawn" and {one.feed for one in plan.passes} == {"round"}
    assert plan.passes[-1].dial_from_mm == pytest.approx(0.250 * IN, abs=1e-6)
    assert all(one.dial_z_mm == pytest.approx(-(0.25 + 0.1875) * IN, abs=1e-6) for one in plan.passes)
    first = (1.0 - 0.75) / 2 * IN
    reached = [one.dial_from_mm or 0.0 for one in plan.passes]
    assert reached == sorted(reached) and reached[0] > first and plan.proof.left_mm == plan.proof.gouge_mm == 0
    assert all(set(one.locks) == {"table", "cross", "knee", "quill"} for one in plan.passes)
    assert "back to table 0" in spelt(plan.passes[-1].says)


@pytest.mark.parametrize(("neck", "can"), [(0.48, True), (0.482, False)])
def test_the_neck_decides_how_deep_a_groove_may_be(neck: float, can: bool) -> None:
    """Depth <= (Dk - dn) / 2 - cn, geometry: .125 deep with a disc of .750 and .010 of air leaves a neck of .480."""
    found = asked(TURNED, DISC.but(neck_mm=neck * IN))
    assert bool(found.plans) is can
    if not can:
        refused = found.refused[0]
        assert refused.id == "NK2" and "a neck of .480 or less" in spelt(refused.fix or "")


@pytest.mark.parametrize(("diameter", "can"), [(0.980, True), (0.982, False)])
def test_a_disc_goes_down_the_bore_with_twenty_thou_to_spare(diameter: float, can: bool) -> None:
    """Dk <= bore - .020, common practice."""
    found = asked(TURNED, DISC.but(diameter_mm=diameter * IN))
    assert bool(found.plans) is can and (can or found.refused[0].id == "SZ3")


def test_without_a_rotary_table_no_disc_goes_round_and_what_would_do_is_said() -> None:
    """By coordinates there are facets: 36 plunges of .750 on a round of 1.250 leave
    D/2 - [o cos(pi/k) + sqrt(r^2 - (o sin(pi/k))^2)], o = .250, r = .375: .0016, worked out by hand."""
    refused = asked(PLAIN, DISC).refused[0]
    assert refused.id == "IG1" and ".0016 proud" in spelt(refused.says) and "--rotary-turns" in spelt(refused.fix or "")


def test_a_neck_that_nobody_measured_is_asked_about_only_where_it_decides() -> None:
    """Without a table to turn the work on no neck helps."""
    unknown = DISC.but(neck_mm=None, measured=())
    assert asked(TURNED, unknown).answer == "measure first" and "mic the neck" in spelt(asked(TURNED, unknown).says)
    assert asked(PLAIN, unknown).answer == "cannot"


def test_a_narrow_disc_takes_the_groove_in_levels_each_begun_in_the_middle() -> None:
    plan = asked(TURNED, DISC.but(face_mm=0.125 * IN)).plans[0]
    heights = list(dict.fromkeys(one.dial_z_mm for one in plan.passes))
    assert heights[0] == pytest.approx(-(0.25 + 0.1895) * IN, abs=0.013) and len(heights) == 2
    assert heights[1] + 0.125 * IN == pytest.approx(-0.25 * IN, abs=0.013)


def test_a_bar_goes_in_below_the_bore_and_is_set_out_three_thou_a_side_at_most() -> None:
    """The head isn't turned while the spindle runs; common practice, no source."""
    plan = by_a_head(BAR).plans[0]
    assert plan.answer == "extra passes" and "IG2" in {one.id for one in plan.warnings}
    enters, *steps = plan.passes
    assert enters.role == "go in" and (enters.diameter_mm or 9) <= 0.980 * IN + 1e-6
    sizes = [one.diameter_mm or 0.0 for one in steps]
    assert sizes[-1] == pytest.approx(1.069 * IN) and sizes == sorted(sizes)
    cuts = [b - a for a, b in zip([1.0 * IN, *sizes], sizes, strict=False)]
    assert max(cuts) <= 2 * 0.003 * IN + 1e-6 and plan.proof.left_mm == plan.proof.gouge_mm == 0
    assert "back to .980 across" in spelt(steps[-1].says) and "only then up" in spelt(steps[-1].says)


@pytest.mark.parametrize(("bar", "rule"), [
    (BAR.but(length_of_cut_mm=0.035 * IN), "NK2"), (BAR.but(face_mm=0.0625 * IN), "FC1"),
    (BAR.but(face_mm=0.01 * IN), "FC2"), (BAR.but(diameter_mm=0.95 * IN, min_hole_mm=None), "SZ3"),
    (BAR.but(reach_mm=0.3 * IN), "RE3"), (BAR.but(condition="chipped"), "CD1"), (BAR.but(shank_mm=10.0), "HD1")])
def test_what_a_bar_lacks_is_told_with_both_numbers(bar: Cutter, rule: str) -> None:
    found = by_a_head(bar)
    assert not found.plans and found.refused[0].id == rule
    assert rule == "CD1" or (found.refused[0].has_mm is not None and found.refused[0].needs_mm is not None)


def test_a_head_that_does_not_reach_the_groove_is_refused() -> None:
    small = replace(PLAIN, boring_heads=(BoringHead(12.7, 0.5 * IN, 1.05 * IN),))
    wide = replace(PLAIN, boring_heads=(BoringHead(12.7, 1.0 * IN, 4 * IN),))
    for shop in (small, wide, PLAIN):
        assert by_a_head(BAR, shop=shop).refused[0].id == "HD1"


def test_what_is_to_be_measured_is_named_and_not_what_can_not() -> None:
    """`Measure first` was headed by the disc that no table turns, for its number was the lower one."""
    narrow = DISC.but(face_mm=0.056 * IN, diameter_mm=0.5 * IN, neck_mm=0.2 * IN)
    advice = by_a_head(narrow, BAR.but(length_of_cut_mm=None))
    assert advice.answer == "measure first"
    assert "1/2 bar may: " in spelt(advice.says) and "rotary" not in spelt(advice.says)


def test_a_seal_wants_its_groove_smooth() -> None:
    assert "IG3" in {one.id for one in asked(TURNED, DISC, seal="yes").plans[0].warnings}


@pytest.mark.parametrize(("texts", "says"), [
    ({"diameter": ".990"}, "no wider than its bore"),
    ({"bore_depth": ".4"}, "goes under the floor of the bore"),
    ({"floor_radius": ".1"}, "more than half of the groove")])
def test_what_cannot_be_is_said_in_one_sentence(texts: dict[str, str], says: str) -> None:
    with pytest.raises(CribError, match=says):
        draw(read_request("internal-groove", TEXTS | texts, PLAIN, "in"))


MM = 1_000_000
TEETH = (Part("teeth", 0, 4 * MM, 8 * MM, 8 * MM),)
NECKED = Silhouette(TEETH, TEETH, (Part("neck", 4 * MM, 60 * MM, 4 * MM, 4 * MM, MM // 4, MM // 4),))


def _bored(groove_mm: int) -> Work:
    """A bore of 20 with a groove 4 wide, 6 down."""
    far, air = 900 * MM, box(-10 * MM, -90 * MM, 10 * MM, 0)
    groove = box(-groove_mm * MM, -10 * MM, groove_mm * MM, -6 * MM)
    stock = box(-far, -90 * MM, far, 0) - air
    return Work(axes=(Outline(stock, groove - air, groove - air, groove | air, ()),))


def test_out_and_round_is_proved_and_up_again_only_from_the_middle() -> None:
    """A disc that comes down, or up, with its axis where the groove is made takes the lip with it."""
    out = Operation.round(NECKED, 5 * MM, -10 * MM, 0)
    assert prove(_bored(13), [out]).holds
    assert not prove(_bored(13), [out._replace(start=5 * MM)]).holds


def test_a_neck_that_comes_to_the_wall_on_the_way_round_is_seen() -> None:
    """The bore is 10 mm from the axis; a neck of 4, 6 out with a quarter of a millimetre of air, is in it."""
    trace = prove(_bored(14), [Operation.round(NECKED, 6 * MM, -10 * MM, 0)])
    assert not trace.holds and {spot.part.name for spot in trace.elevation.rubs} == {"neck"}


def test_what_goes_on_goes_on_from_where_it_stopped() -> None:
    first = Operation.round(NECKED, 3 * MM, -10 * MM, 0)
    then = Operation.round(NECKED, 5 * MM, -10 * MM, 3 * MM, on=True)
    assert prove(_bored(13), [first, then]).holds
    for broken in ([then], [first, then._replace(start=4 * MM)], [first, then._replace(z=-9 * MM)]):
        assert not prove(_bored(13), broken).holds


SLEEVE = """
name = "sleeve"
stock = "3 x 3 x 1"
material = "1018"
[[feature]]
name = "bore"
kind = "hole"
at = "1.5, 1.5"
diameter = "63/64+.01-.01"
depth = "1"
through = "yes"
[[feature]]
name = "groove"
kind = "internal-groove"
at = "1.5, 1.5"
bore = "63/64+.01-.01"
diameter = "1.2+.006-.006"
width = ".1875+.004-0"
from-face = "1/4"
"""


def test_in_a_part_the_rotary_table_is_a_set_up_of_its_own() -> None:
    """The bore is made in the vise, the groove with the work on the rotary table: it was told as one set-up."""
    drill = Cutter(3, "drill", "31/32 drill", diameter_mm=0.96875 * IN, angle_deg=118.0, length_of_cut_mm=100.0,
                   shank_mm=12.7, material="hss", condition="sharp")
    part = part_from_toml(SLEEVE, "part.toml").part
    found = asked_of(part, TURNED)
    assert not found.faults
    planned = plan_part(part, found.requests, order_of(part, found.drawn), (drill, DISC.but(id=2)), TURNED)
    assert [(one.feature, one.setup_no) for one in planned.operations] == [("bore", 1), ("groove", 2)]
    assert "rotary table" in spelt(planned.setups[1].holds) and "rotary table" not in spelt(planned.setups[0].holds)
    assert planned.setups[1].minutes == TURNED.setup_minutes + TURNED.index_setup_minutes


@pytest.mark.parametrize("face", [0.028, 0.0145, 0.02])
def test_the_levels_of_a_tooth_overlap_and_leave_no_fin(face: float) -> None:
    """A tooth of half the width took two levels that met to a step of the dial, or didn't."""
    found = by_a_head(BAR.but(face_mm=face * IN))
    if found.plans:
        heights = sorted({one.dial_z_mm for one in found.plans[0].passes})
        assert all(b - a < face * IN for a, b in pairwise(heights))
    else:
        needs = found.refused[0].needs_mm
        assert found.refused[0].id == "FC2" and needs is not None and by_a_head(BAR.but(face_mm=needs)).plans


_SLOW = BoringHead(12.7, 0.5 * IN, 4 * IN, 400, faces=True)
FACING = replace(HEADED, boring_heads=(*(HEADED.boring_heads or ()), _SLOW))


def test_a_facing_head_feeds_out_in_one_go() -> None:
    """A plain head is dialled out with the spindle stopped, .003 a side at a time in steel; one that feeds out
    by itself goes to its stop in one go, a thou a turn (from memory): the groove comes out as drawn, no warning."""
    plain, faces = by_a_head(BAR, **RING).plans[0], by_a_head(BAR, shop=FACING, **RING).plans[0]
    assert "a facing head feeds out" in spelt(faces.way) and "a boring head sets out" in spelt(plain.way)
    assert (plain.answer, faces.answer) == ("extra passes", "as drawn")
    assert "IG2" in {one.id for one in plain.warnings} and "IG2" not in {one.id for one in faces.warnings}
    [cut] = [one for one in faces.passes if one.role == "groove"]
    enters = next(one.mm or 0.0 for one in faces.figures if "to go in" in spelt(one.what))
    turns = (1.069 * IN - enters) / 2 / (0.001 * IN) + 3  # to the middle of 1.066 + .006
    assert cut.minutes == pytest.approx(turns / cut.rpm + FACING.pass_minutes, abs=1.1 / cut.rpm)
    assert faces.proof.left_mm == faces.proof.gouge_mm == 0.0 and faces.minutes < plain.minutes


def test_a_narrow_tooth_takes_levels_on_a_facing_head_too() -> None:
    plan = by_a_head(BAR.but(face_mm=0.03 * IN), shop=FACING, **RING).plans[0]
    assert plan.answer == "extra passes" and len([one for one in plan.passes if one.role == "groove"]) == 3


@pytest.mark.parametrize(("text", "faces", "dial"), [
    ("1/2:3/8:5:1000:radius:facing", True, "radius"), ("1/2:3/8:5:facing", True, "diameter"),
    ("1/2:3/8:5:600", False, "diameter")])
def test_a_facing_head_is_told_by_a_word(text: str, faces: bool, dial: str) -> None:
    [head] = SETTINGS["boring_heads"].read(text, "in", "boring heads")
    assert head.get("faces", False) is faces and head["dial"] == dial
    assert from_json({"boring_heads": [head]}).boring_heads == (BoringHead(**head),)


@pytest.mark.parametrize("text", ["1/2:facing", "facing", "1/2:3/8:5:1000:facing:radius"])
def test_a_head_that_is_told_wrongly_is_asked_again(text: str) -> None:
    with pytest.raises(CribError):
        SETTINGS["boring_heads"].read(text, "in", "boring heads")


def test_a_groove_told_by_how_deep_it_is_is_the_one_told_by_its_diameter() -> None:
    """As drawings of reliefs and keepers have it, common practice, no source."""
    sizes = {"bore": "1+.001-0", "width": ".125", "from_face": "3/8", "material": "brass"}
    deep = draw(read_request("internal-groove", sizes | {"depth": "1/16"}, Shop(), "in"))
    across = draw(read_request("internal-groove", sizes | {"diameter": "1.1255±.010"}, Shop(), "in"))
    assert deep.outline.rooms == across.outline.rooms
    for given in ({}, {"depth": "1/16", "diameter": "1-1/8"}):
        with pytest.raises(CribError, match=r"internal groove (has|needs)"):
            draw(read_request("internal-groove", sizes | given, Shop(), "in"))
