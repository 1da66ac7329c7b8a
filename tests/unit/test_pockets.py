"""Pockets: how round their corners come out, how a mill gets in and round, and what can't be asked."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from math import hypot, sqrt

import pytest

from crib.cutters.base import Cutter
from crib.features import draw
from crib.findings.errors import CribError
from crib.geometry.box_outline import Arc, outline
from crib.geometry.cleared import Cleared
from crib.geometry.rounded_box import RoundedBox
from crib.handbook.deviations import corner_left, walked_corner_left
from crib.machining.ends.cornered import Walls
from crib.planning.advise import Answered, advise
from crib.planning.ask import read_request
from crib.planning.told.advice import Plan
from crib.shop import Shop
from tests.spelt import spelt

IN = 25.4
SHOP = Shop(spindle_rpm=(80, 135, 325, 660, 1000, 1750), collets_mm=(3.175, 4.7625, 6.35, 7.9375, 9.525, 12.7, 15.875))


def mill(inches: float, number: int = 1, flute: float = 1.25, **more: object) -> Cutter:
    same = {"flutes": 2, "shank_mm": inches * IN, "length_of_cut_mm": flute * IN, "centre_cutting": True,
            "corner_radius_mm": 0.0, "material": "hss", "condition": "sharp", "measured": ("diameter_mm",)}
    return Cutter(number, "end-mill", f"{inches} mill", diameter_mm=inches * IN, **{**same, **more})  # type: ignore[arg-type]


def asked(*cutters: Cutter, **texts: str) -> Answered:
    texts = {"width": "1-1/4", "length": "2", "depth": "1/2", "corner_radius": ".1875", "material": "6061"} | texts
    return advise(read_request("pocket", texts, SHOP, "in"), cutters, SHOP)


def best(*cutters: Cutter, **texts: str) -> Plan:
    return asked(*cutters, **texts).advice.plans[0]


def test_a_mill_rounder_than_the_corner_leaves_what_geometry_says_of_the_diagonal() -> None:
    """Geometry, (r - R)(sqrt 2 - 1): r .250 in a corner of .1875 leaves .0259 in; the proof, which knows nothing of the
    formula, finds it where the corner has no tolerance."""
    plan = best(mill(0.5), corner_radius=".1875+0-0", width="1-1/4+0-0", length="2+0-0")
    (told,) = [one for one in plan.deviations if one.id == "LF1"]
    assert plan.answer == "compromise" and (told.has_mm or 0) / IN == pytest.approx(0.0259, abs=0.00005)
    assert plan.proof.left_mm / IN == pytest.approx(0.0625 * (sqrt(2) - 1), rel=0.012)
    assert corner_left(0.250, 0.1875) == pytest.approx(0.0259, abs=0.00005)


@pytest.mark.parametrize(("inches", "count"), [(0.3125, 3), (0.25, 3), (0.25, 5)])
def test_what_a_mill_walked_round_a_corner_leaves_is_found_by_the_proof(inches: float, count: int) -> None:
    """Geometry, R - [rho cos(a/2) + sqrt(r^2 - (rho sin(a/2))^2)]: r .15625 walked round R .1875 in three settings
    leaves .0028 in."""
    band = {3: ".0400", 5: ".0100"}[count] if inches == 0.25 else ".0100"
    found = asked(mill(inches), corner_radius=f".1875+{band}-{band}", depth="1/4", width="1-1/4+0-0", length="2+0-0")
    proved = found.proved[0]
    layers = proved.draft.question.layers
    assert layers is not None
    walls = Walls.of(layers, proved.draft.question.outline.rooms[0])
    finish = [one for one, cut in zip(proved.trace.operations, proved.plan.passes, strict=True) if cut.role == "finish"]
    cleared = Cleared.of(layers, finish).just_over(-1)
    left = max(walls.corners.aim - out for out in _cusps(cleared, walls)) / 1e6 / IN
    told = walked_corner_left(inches / 2, 0.1875, count)
    assert left == pytest.approx(told, abs=2e-6)
    assert any(one.id == "PK2" and f"in {count} settings" in spelt(one.says) for one in proved.plan.warnings)
    if (inches, count) == (0.3125, 3):
        assert told == pytest.approx(0.0028, abs=0.00005)


def _cusps(cleared: frozenset[RoundedBox], walls: Walls) -> Iterator[float]:
    """How far from a corner's middle two arcs of what is cleared meet, outside of it both ways."""
    for piece in outline(cleared):
        for x, y in (piece.at(piece.start), piece.at(piece.end)) if isinstance(piece, Arc) else ():
            along, across = x - walls.aim.right, y - walls.aim.high
            if min(along, across) > 0 and hypot(along, across) > 0.8 * walls.corners.aim:
                yield hypot(along, across)


def test_a_deep_corner_wants_a_mill_that_reaches_all_the_way() -> None:
    """A .1875 corner 1.10 deep: a 3/8 mill with as much flute goes into it and dwells; one with 3/4 of flute and a
    shank of its own size meets the top; a 1/2 leaves .0259."""
    deep = {"depth": "1.10"}
    plan = best(mill(0.375), mill(0.5, 2), mill(0.375, 3, 0.75), **deep)
    assert plan.answer == "as drawn" and [one.id for one in plan.cutters] == [1]
    assert {"PK1", "RE4"} <= {one.id for one in plan.warnings}
    assert plan.passes[-1].axial_mm == pytest.approx(1.10 * IN, abs=0.03)
    short = asked(mill(0.375, 1, 0.75), mill(0.5, 2), **deep).advice
    assert short.answer == "compromise" and short.plans[0].cutters[0].id == 2
    refused = next(one for one in short.refused if one.cutter.id == 1)
    assert refused.id == "RE1" and refused.needs_mm is not None and refused.needs_mm >= 1.10 * IN


def test_a_mill_far_rounder_than_the_corner_is_told_both_numbers() -> None:
    """Half as round again is the most that an owner is asked to let stand."""
    found = asked(mill(0.625)).advice
    refused = found.refused[0]
    assert found.answer == "cannot" and refused.id == "SZ3"
    assert refused.has_mm == pytest.approx(0.625 * IN) and refused.needs_mm == pytest.approx(0.385 * IN)
    assert ".0518" in spelt(refused.says)


def test_the_walls_are_finished_clockwise_at_full_depth() -> None:
    """Common practice: inside a pocket clockwise seen from above is conventional with a right-hand cutter."""
    plan = best(mill(0.375))
    assert plan.answer == "as drawn"
    last = [one for one in plan.passes if one.role == "finish"]
    assert len(last) == 2 and all(one.z_mm == pytest.approx(-0.5 * IN, abs=0.013) for one in last)
    way = [*last[0].path_mm, *last[1].path_mm]
    assert sum(a[0] * b[1] - b[0] * a[1] for a, b in pairwise([*way, way[0]])) < 0


def test_without_centre_teeth_it_goes_down_a_ramp_or_a_drilled_hole() -> None:
    """Common practice: entry by centre teeth, by a hole, on a ramp."""
    blunt = mill(0.375, centre_cutting=False, flutes=4)
    drill = Cutter(2, "drill", "11/32 drill", diameter_mm=11 / 32 * IN, angle_deg=118.0, material="hss",
                   condition="sharp", length_of_cut_mm=70.0, shank_mm=11 / 32 * IN)
    assert "plunge" in {one.entry for one in best(mill(0.375)).passes}
    assert "ramp" in {one.entry for one in best(blunt).passes}
    assert best(blunt, drill.but(angle_deg=180.0), length=".75", width=".7").passes[0].role == "drill"
    assert asked(blunt, length=".75", width=".7").advice.answer == "cannot"


@pytest.mark.parametrize(("texts", "says"), [
    ({"corner_radius": ".7"}, "more than half of the width"),
    ({"corner_radius": ".45", "length": ".8", "width": "2"}, "more than half of the length"),
    ({"islands": "a boss"}, "an island"),
    ({"ends": "open"}, "can't be asked")])
def test_what_cannot_be_is_said_in_one_sentence(texts: dict[str, str], says: str) -> None:
    asking = {"width": "1", "length": "2", "depth": "3/8", "corner_radius": "1/8"} | texts
    with pytest.raises(CribError, match=says):
        draw(read_request("pocket", asking, SHOP, "in"))


def drill(inches: float, number: int) -> Cutter:
    return Cutter(number, "drill", f"{inches} drill", diameter_mm=inches * IN, angle_deg=118.0, material="hss",
                  condition="sharp", length_of_cut_mm=70.0, shank_mm=inches * IN)


BIG = {"width": "2", "length": "3", "depth": "1/2", "corner_radius": "1/8"}


def test_a_big_mill_takes_most_of_it_and_a_small_one_the_corners() -> None:
    """Common practice, no source: rough with what is too round for the corners, off the walls and down to the floor;
    then once round for each bite that the small one takes in a corner, and its finishing pass. It was cleared by the
    small one alone, strip by strip."""
    alone = best(mill(0.25), **BIG)
    plan = best(mill(0.25), mill(0.625, 2), **BIG)
    assert plan.answer == alone.answer == "as drawn" and plan.minutes < 0.8 * alone.minutes
    assert [one.id for one in plan.cutters] == [2, 1] and "roughed" in plan.way
    assert plan.proof.left_mm == plan.proof.gouge_mm == 0
    by = {number: [one for one in plan.passes if one.cutter_id == number] for number in (1, 2)}
    assert {one.role for one in by[2]} == {"rough", "floor"} and {one.role for one in by[1]} == {"rough", "finish"}
    off = 0.625 / 2 * IN + 0.01 * IN
    for one in by[2]:
        assert all(abs(y) <= IN - off + 1e-6 and off <= x <= 3 * IN - off + 1e-6 for x, y in one.path_mm)
    assert {one.entry for one in by[1]} <= {"free", "on"}
    steps = sorted({-one.z_mm for one in by[1] if one.role == "rough"})
    assert max(b - a for a, b in pairwise([0.0, *steps])) <= alone.passes[0].axial_mm + 0.03
    assert "JN1" in {one.id for one in plan.warnings}


def test_one_that_goes_into_the_corners_and_is_big_enough_does_it_alone() -> None:
    """Nothing is gained where the strips are few."""
    assert [one.id for one in best(mill(0.375), mill(0.5, 2), width=".9", length="1.2", depth="1/8").cutters] == [1]


def test_deep_corners_are_drilled_first_where_that_takes_fewer_rounds() -> None:
    """Common practice, no source: a drill .010 narrower than the corner or more, in the middle of its round, the point
    at the floor; what stands beside it is a side cut, as deep as one and a half diameters."""
    deep = BIG | {"depth": "1-1/8"}
    cutters = [mill(0.25, flute=1.5), mill(0.5, 2, flute=1.5)]
    without, plan = best(*cutters, **deep), best(*cutters, drill(0.2344, 3), **deep)
    assert "corners drilled" in plan.way and "corners drilled" not in without.way
    assert plan.minutes < without.minutes and plan.proof.left_mm == plan.proof.gouge_mm == 0
    holes = [one for one in plan.passes if one.role == "drill"]
    assert [one.id for one in plan.cutters] == [3, 2, 1] and holes == list(plan.passes[:4])
    places = {(round(one.x_mm / IN, 4), round((one.y_mm or 0) / IN, 4)) for one in holes}
    assert places == {(x, y) for x in (0.125, 2.875) for y in (-0.875, 0.875)}
    assert all(one.z_mm == pytest.approx(-1.125 * IN, abs=0.013) and "table" in one.locks and "cross" in one.locks
               for one in holes)
    rounds = [one for one in plan.passes if one.cutter_id == 1 and one.role == "rough"]
    assert 0 < len(rounds) < len([one for one in without.passes if one.cutter_id == 1 and one.role == "rough"])


@pytest.mark.parametrize("inches", [0.25, 0.2422, 0.17])
def test_a_drill_as_wide_as_the_corner_or_much_less_leaves_it_to_the_mill(inches: float) -> None:
    found = best(mill(0.25, flute=1.5), mill(0.5, 2, flute=1.5), drill(inches, 3), **BIG | {"depth": "1-1/8"})
    assert "corners drilled" not in found.way


def test_a_mill_whose_edges_only_rough_or_that_leaves_no_wall_is_none_for_it() -> None:
    for other in (mill(0.625, 2, condition="chipped"), mill(1.999, 2)):
        assert [one.id for one in best(mill(0.25), other, **BIG).cutters][-1] == 1
        assert "roughed and its floor made" not in best(mill(0.25), other, **BIG).way


def test_a_pocket_that_is_open_at_a_side_is_sent_to_what_it_is() -> None:
    with pytest.raises(CribError) as told:
        draw(read_request("pocket", {"width": "1", "length": "2", "depth": "3/8", "corner_radius": "1/8",
                                     "ends": "one"}, SHOP, "in"))
    assert "a slot with one closed end (make slot --ends one)" in spelt(told.value.finding.fix or "")
