"""What shape closed ends get, from where z is touched off on its side, and what the pictures and words of such plans
show."""

from __future__ import annotations

from math import hypot

import pytest

from crib.cutters.base import Cutter
from crib.cutters.shapes import cylinder
from crib.findings.finding import Finding, Grade
from crib.geometry.region import box
from crib.geometry.silhouette import Silhouette
from crib.pages.remarks import warnings
from crib.planning.advise import advise
from crib.planning.ask import read_request
from crib.planning.told.advice import Plan
from crib.render.terminal.canvas import Canvas
from crib.render.terminal.picture import key
from crib.render.terminal.strokes import LINES
from crib.render.window import choose
from crib.shop import Arbor, Shop
from crib.units import nm
from tests.shown import shown
from tests.spelt import spelt

IN = 25.4
SHOP = Shop(arbors=(Arbor(1.0 * IN, 1.75 * IN),), spindle_rpm=(45, 80, 160))
SAW = Cutter(1, "slitting-saw", "saw", diameter_mm=3 * IN, face_mm=IN / 16, bore_mm=IN, flutes=30, material="hss",
             condition="sharp", measured=("diameter_mm", "face_mm"))
DISC = Cutter(2, "keyseat-cutter", "disc", diameter_mm=0.75 * IN, face_mm=0.25 * IN, neck_mm=0.25 * IN,
              reach_mm=IN, shank_mm=0.5 * IN, flutes=8, material="hss", condition="sharp",
              measured=("diameter_mm", "face_mm", "neck_mm", "reach_mm"))


def mill(diameter: float) -> Cutter:
    return Cutter(3, "end-mill", "mill", diameter_mm=diameter * IN, length_of_cut_mm=1.5 * IN, shank_mm=0.5 * IN,
                  flutes=2, centre_cutting=True, material="hss", condition="sharp", measured=("diameter_mm",))


def plan_of(kind: str, cutter: Cutter, **texts: str) -> Plan:
    request = read_request(kind, {"material": "brass", **texts}, SHOP, "in")
    return advise(request, (cutter,), SHOP).advice.plans[0]


def test_an_end_that_comes_out_flat_is_told() -> None:
    """A .750 mill in a closed slot 1.000 wide goes straight across at its stop: a page that said nothing of it let a
    part with a round end of .500 be spoiled. The corner's centre is .125 along and across from that of the round end,
    its radius .375: sqrt(2) .125 + .375 - .500 = .052 too far out (geometry, worked here)."""
    said = {one.id: spelt(one.says) for one in plan_of("slot", mill(0.75), width="1", depth="1/4", length="2",
                                                  ends="closed").warnings}
    assert round(hypot(0.125, 0.125) + 0.375 - 0.5, 3) == 0.052
    assert "flat, with corners of .375 radius, .052 outside of a round end of .500" in said["EN5"]


@pytest.mark.parametrize(("width", "ends"), [("1/2", "closed"), ("1", "open")])
def test_a_round_or_open_end_is_not(width: str, ends: str) -> None:
    """A cutter as wide as the slot leaves a true half round, and an open end has no shape (geometry)."""
    plan = plan_of("slot", mill(0.5), width=width, depth="1/4", length="2", ends=ends)
    assert "EN5" not in {one.id for one in plan.warnings}


def test_a_slit_is_touched_off_on_the_edge_that_lies_up() -> None:
    """The middle of a slit isn't there yet to touch off on: the near edge is, .500 and half of .0625 above it (worked
    here). An edge that wasn't given isn't made up."""
    assert "the middle of the slit, .531 below the near edge, which lies up" in spelt(plan_of(
        "slit", SAW, width="1/16", depth="1/2", edge="1/2").setup)
    assert spelt(plan_of("slit", SAW, width="1/16", depth="1/2").setup).endswith("the middle of the slit")


def test_an_undercut_is_touched_off_on_the_top_of_its_wall() -> None:
    """Its lower side is cut last of all: the top of the wall is .250 and .250 above it (worked here)."""
    sizes = {"width": "1/4", "depth": "1/8", "floor": "1/8"}
    seen = plan_of("undercut", DISC, height="1/4", **sizes)
    assert spelt(seen.setup).endswith("side, .500 below the top of the wall")
    assert spelt(plan_of("undercut", DISC, **sizes).setup).endswith("the groove's lower side")


def test_the_neck_that_is_near_is_in_the_picture() -> None:
    """A holder far above is wider than the neck and stands over the work; it made the picture end at the wall, and the
    neck whose clearance was told wasn't in it."""
    teeth, neck = cylinder("teeth", 0.0, 6.35, 19.05), cylinder("neck", 6.35, 20.0, 6.35)
    form = Silhouette((teeth,), (teeth,), (neck, cylinder("collet nose", 40.0, 80.0, 40.0)))
    gone = box(nm(-3.175), 0, 0, nm(6.35))
    stock = box(-10**9, -10**9, 0, nm(12.7))
    grid = choose(stock, gone, form, nm(6.35), 0, 80, 25)
    assert grid.x(grid.columns) > nm(6.35 - 3.175) + grid.cell


def test_teeth_in_half_cells_alone_are_named() -> None:
    """A thin saw fills only halves of cells; the words under its picture left out what they are."""
    sheet = Canvas(10, 1)
    sheet.put(0, 2, "▄▄▄")
    assert "██ teeth" in key(sheet, LINES)
    sheet.put(0, 2, "   ")
    assert "teeth" not in key(sheet, LINES)


def test_a_source_that_nobody_can_look_up_is_left_to_json() -> None:
    """`(geometry)` behind a sentence helps nobody at the machine; a book or standard can be opened."""
    lines = shown(warnings([Finding("A1", Grade.NOTE, "mind the neck", "geometry"),
                            Finding("A2", Grade.NOTE, "mind the fit", "ISO 299")]))
    assert lines == ["Note: mind the neck", "Note: mind the fit (ISO 299)"]
