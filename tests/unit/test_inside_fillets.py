"""Inside fillets: by a ball or a bull nose of the radius, by a smaller ball setting by setting; who can't."""

from __future__ import annotations

from math import hypot

import pytest

from crib.cutters.base import Cutter
from crib.features import draw
from crib.findings.errors import CribError
from crib.handbook.deviations import walked_corner_left
from crib.planning.advise import Answered, advise
from crib.planning.ask import read_request
from crib.planning.search.watch import Watch
from crib.shop import Shop
from tests.spelt import spelt

IN = 25.4
SHOP = Shop(spindle_rpm=(80, 135, 325, 660, 1115), collets_mm=(6.35, 7.9375, 9.525, 12.7, 19.05))


def mill(inches: float, corner: float, number: int = 1, **more: object) -> Cutter:
    same = {"flutes": 2, "shank_mm": inches * IN, "length_of_cut_mm": IN, "centre_cutting": True, "material": "hss",
            "condition": "sharp", "measured": ("diameter_mm",)}
    return Cutter(number, "end-mill", f"{inches} mill, {corner} corner", diameter_mm=inches * IN,
                  corner_radius_mm=corner * IN, **{**same, **more})  # type: ignore[arg-type]


def asked(*cutters: Cutter, **texts: str) -> Answered:
    return advise(read_request("inside-fillet", {"radius": "3/16", "material": "6061"} | texts, SHOP, "in"), cutters,
                  SHOP)


def test_a_ball_of_the_radius_makes_a_cove_at_one_place() -> None:
    """Geometry: its middle over the edge, its end a radius down."""
    found = asked(mill(0.375, 0.1875)).advice
    plan = found.plans[0]
    assert found.answer == "as drawn" and {round(one.x_mm / IN, 4) for one in plan.passes} == {0.1875}
    assert plan.passes[-1].z_mm / IN == pytest.approx(-0.1875) and plan.proof.left_mm == plan.proof.gouge_mm == 0


def test_a_bull_nose_or_a_square_mill_and_a_ball_make_a_step_with_a_fillet() -> None:
    """A bull nose does both at once as far as its flat reaches, here from .1875 to .3125."""
    wide = {"width": "3/4", "depth": "3/8"}
    both = asked(mill(0.5, 0.1875), width="5/16", depth="3/8").advice
    assert both.answer == "as drawn" and {one.room for one in both.plans[0].passes} == {"step"}
    plan = asked(mill(0.75, 0.0), mill(0.375, 0.1875, 2), **wide).advice.plans[0]
    assert plan.answer == "as drawn" and [one.id for one in plan.cutters] == [1, 2]
    assert asked(mill(0.75, 0.0), **wide).advice.answer == "cannot"


@pytest.mark.parametrize(("ball", "band"), [(0.25, ".005"), (0.25, ".012"), (0.3125, ".005")])
def test_a_smaller_ball_goes_along_the_round_and_leaves_the_ridges_of_geometry(ball: float, band: str) -> None:
    """Geometry: R - [rho cos(a/2) + sqrt(r^2 - (rho sin(a/2))^2)] between two settings, measured on what is gone."""
    found = asked(mill(ball, ball / 2), radius=f"3/16+{band}-{band}")
    proved = found.proved[0]
    assert found.advice.answer == "extra passes" and proved.plan.proof.left_mm == proved.plan.proof.gouge_mm == 0
    count = len({one.x_mm for one in proved.plan.passes})
    radius, gone = 0.1875 * IN * 1e6, proved.draft.removed
    standing = (proved.draft.question.outline.stock - gone).slabs
    inside = [hypot(span.right_low - radius, slab.low) for slab in standing for span in slab.spans
              if -radius < slab.low < 0 and span.right_low > 0]
    ridge = (radius - min(inside)) / 1e6 / IN
    assert ridge == pytest.approx(walked_corner_left(ball / 2, 0.1875, count), abs=0.0002)
    assert any("ridge between" in spelt(one.what) for one in proved.plan.figures)


@pytest.mark.parametrize(("diameter", "corner", "radius"), [
    (0.375, 0.0625, ".0938+.001-0"), (0.5, 0.0625, ".094+.002-0"), (0.375, 0.03, ".05+.002-0"),
])
def test_a_corner_sharper_than_the_fillet_stands_as_low_as_its_round_lets_it(
        diameter: float, corner: float, radius: str) -> None:
    """Two circles, one in the other: their middles are no farther apart than their radii differ. It was set some
    micrometres lower, into the round, so that no plan could be proved and thousands were tried."""
    found = asked(mill(diameter, corner), mill(0.5, 0.0, 2), radius=radius, width="23/64", depth=".3078+.02-0")
    plan = found.advice.plans[0]
    last = min((one for one in plan.passes if one.cutter_id == 1), key=lambda one: (one.z_mm, one.x_mm))
    sharpest, wall, floor = float(radius.split("+")[0]) * IN, -0.005 * IN, -0.3278 * IN
    apart = hypot(last.x_mm - diameter / 2 * IN + corner * IN - wall - sharpest,
                  last.z_mm + corner * IN - floor - sharpest)
    assert apart <= sharpest - corner * IN + 2e-4 and plan.proof.gouge_mm == 0


def test_a_ball_larger_than_the_fillet_does_not_go_in() -> None:
    assert asked(mill(0.5, 0.25)).advice.answer == "cannot"


@pytest.mark.parametrize("texts", [{"width": "1/8"}, {"depth": "1/8"}])
def test_a_fillet_larger_than_its_step_is_said_in_one_sentence(texts: dict[str, str]) -> None:
    with pytest.raises(CribError, match="doesn't go into a step"):
        draw(read_request("inside-fillet", {"radius": "3/16"} | texts, SHOP, "in"))


CONVEX = Cutter(9, "form-cutter", "convex", radius_mm=IN / 8, diameter_mm=2.25 * IN, face_mm=IN / 4, bore_mm=IN,
                material="hss", condition="sharp", note="convex")


def test_a_convex_cutter_on_an_arbor_makes_a_cove_and_no_round() -> None:
    """Its lower quarter is the cove's. Where the step goes on under its flange, it can't get down: geometry, the flange
    of a 1 in bore is 1-3/4 across, so that it stands 1/4 behind the rim."""
    cove = asked(CONVEX, radius="1/8+.002-.002").advice
    assert cove.answer == "extra passes" and cove.plans[0].proof.left_mm == cove.plans[0].proof.gouge_mm == 0.0
    assert not asked(CONVEX, radius="1/8+.002-.002", width="3/8", depth="1/8").advice.plans
    assert not asked(CONVEX.but(radius_mm=IN / 16, face_mm=IN / 8), radius="1/8+.002-.002").advice.plans
    assert not asked(CONVEX.but(note="concave", face_mm=IN / 2), radius="1/8+.002-.002").advice.plans


@pytest.mark.parametrize("which, says", [("convex", "makes hollows"), ("concave", "both edges of what is 1/4 thick")])
def test_neither_convex_nor_concave_rounds_one_edge(which: str, says: str) -> None:
    """A concave cutter's other half stands in the wall below the edge: geometry."""
    texts = {"radius": "1/8", "length": "3", "material": "1018"}
    one = CONVEX.but(note=which, face_mm=IN / 2 if which == "concave" else IN / 4)
    advice = advise(read_request("corner-round", texts, SHOP, "in"), (one,), SHOP).advice
    assert not advice.plans and says in spelt(advice.refused[0].says)


def test_a_ball_whose_shank_meets_the_wall_is_no_ball_for_it() -> None:
    """Geometry: where the shank of 3/8 just stands off the wall, 3/16 out, the ball's end is .304 - .178 * .76 - 1/8 =
    .043 over the floor, .507 down; its shank begins 1/2 up. It was taken for one that does it, and every plan with it
    was proved in vain for half a minute."""
    ball = mill(0.25, 0.125, 16, shank_mm=0.375 * IN, length_of_cut_mm=0.5 * IN)
    mills = [mill(0.5, 0.0, number, length_of_cut_mm=1.25 * IN) for number in range(1, 5)]
    request = read_request("inside-fillet", {"radius": ".301+.005-0", "width": ".7621", "depth": ".55",
                                             "material": "6061"}, SHOP, "in")
    watch = Watch()
    assert not advise(request, (ball, *mills), SHOP, watch=watch).advice.plans and watch.tried == 0
    longer = ball.but(length_of_cut_mm=IN)
    assert advise(request, (longer, *mills), SHOP).advice.plans
