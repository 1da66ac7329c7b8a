"""The passes of a plan lie where their feature is: on every face, either way, whichever of its ends are open. Told from
what stands on the sheet and the sides to which the work lies alone."""

from __future__ import annotations

import pytest

from crib.pages.half_round import can_be_told
from crib.pages.part.scene import lying
from crib.pages.part.zero import corner_words, lies_half_round, step_to
from crib.parts.frame import SIDES
from crib.parts.part import Face, Part, Place, Placed, Runs, Stock
from crib.parts.sides import corner_of, size_of
from crib.planning.parts.asked import asked_of
from crib.planning.parts.known import Known
from crib.planning.parts.plan import plan_part
from crib.planning.parts.planned import PlannedPart
from crib.render.html.part_sheet import part_sheet_html
from crib.shop import Shop
from tests.sheets import OWNED, passes_of

STOCK = Stock(100.0, 80.0, 60.0)
SIZE = {"left": 100.0, "right": 100.0, "front": 80.0, "back": 80.0, "top": 60.0, "bottom": 60.0}
SHOP, KNOWN = Shop(units="mm"), Known()


def placed(face: Face, runs: Runs, ends: str, far: bool) -> Placed:
    """A slot 12 wide: right across, or 30 long from either edge, or 30 long in the middle."""
    extent = SIZE[SIDES[face][0 if runs is Runs.ALONG else 1][0]]
    begin = {"open": 0.0, "one": extent - 30 if far else 0.0, "closed": 15.0}[ends]
    texts = {"width": "12", "depth": "5"} | ({} if ends == "open" else {"length": "30", "ends": ends})
    at = (begin, 24.0) if runs is Runs.ALONG else (24.0, begin)
    return Placed("slot", "slot", texts, Place(face, *at, runs), "mm")


FEW = tuple(one for one in OWNED if one.id in (6, 8, 13, 16))
"""Those of the mills of which the best ways to make a fillet are: of these every way is found, of all of them no more
than there is time for, and less on a slower machine."""


def planned(one: Placed) -> PlannedPart:
    part = Part("block", STOCK, "1018", (one,), units="mm")
    cutters = FEW if one.kind == "inside-fillet" else OWNED
    return plan_part(part, asked_of(part, SHOP).requests, (), cutters, SHOP, known=KNOWN)


@pytest.mark.parametrize("ends, far", [("open", False), ("one", False), ("one", True), ("closed", False)])
@pytest.mark.parametrize("runs", Runs)
@pytest.mark.parametrize("face", Face)
def test_a_slot_is_cut_where_it_is(face: Face, runs: Runs, ends: str, far: bool) -> None:
    """Readings of the sheet counted from the corner, set on the part by which face lies to which side, reach where the
    drawing has the slot: across its two walls, along from stop to stop, and never past the closed end."""
    one = placed(face, runs, ends, far)
    plan = planned(one)
    assert not plan.unmade
    setup, operation = plan.setups[0], plan.operations[0]
    sides = lying(setup)
    page = part_sheet_html(plan, SHOP)
    assert page is not None and corner_words(plan.part, setup) in page
    come = step_to(plan.part, setup, one, operation.proved.draft.question, operation.proved.plan)
    assert come is not None
    nought = {each.slide: float(each.reading.mm) for task in come.tasks for each in task.settings}
    wide, deep = size_of(STOCK, sides)
    side, front = corner_of(plan.part, sides)
    left = (wide if side == sides.right else 0.0) + nought.get("table", 0.0)
    near = (deep if front == sides.away else 0.0) + nought["cross"]
    told = passes_of(page, 1.0)
    radius = max(each.diameter_mm or 0.0 for each in operation.proved.plan.cutters) / 2
    names = SIDES[face][1 if runs is Runs.ALONG else 0]
    middle = 24.0 if sides.near.value == names[0] else deep - 24.0
    xs = [each.read.x / 1e6 for each in told]
    assert near + (min(xs) + max(xs)) / 2 == pytest.approx(middle, abs=0.02)
    if ends == "open":
        return
    first = SIDES[face][0 if runs is Runs.ALONG else 1][0]
    begin = one.place.along if runs is Runs.ALONG else one.place.across
    low = begin if sides.left.value == first else wide - begin - 30
    alongs = [at for each in operation.proved.plan.passes for at, _ in each.dial_path_mm] + [
        each.stop_mm for each in operation.proved.plan.passes if each.stop_mm is not None]
    reach = max(alongs) + left
    assert reach == pytest.approx(low + 30 - radius, abs=1.0) and reach <= low + 30
    if ends == "one":
        assert low == pytest.approx(0.0), "its open end is at the edge to the left, from where its passes come in"
    else:
        assert min(alongs) + left >= low


@pytest.mark.parametrize("runs", Runs)
@pytest.mark.parametrize("face", Face)
@pytest.mark.parametrize("kind", ["step", "inside-fillet"])
@pytest.mark.parametrize("far", [False, True])
@pytest.mark.parametrize("turned", [False, True])
def test_what_has_a_right_and_one_closed_end(face: Face, runs: Runs, kind: str, far: bool, turned: bool) -> None:
    """Whatever is planned has its right away and its open end to the left; what no way to lay the part has so is
    unmade, and told why. Which of both: a plan's along, right and up are a right-handed three."""
    extent = SIZE[SIDES[face][0 if runs is Runs.ALONG else 1][0]]
    begin = extent - 30 if far else 0.0
    across = 12.0 if turned else SIZE[SIDES[face][1 if runs is Runs.ALONG else 0][0]] - 12.0
    at = (begin, across) if runs is Runs.ALONG else (across, begin)
    texts = {"step": {"width": "12", "depth": "5"}, "inside-fillet": {"radius": "5", "width": "12", "depth": "8"}}[kind]
    one = Placed("it", kind, {**texts, "length": "30", "ends": "one"}, Place(face, *at, runs, turned=turned), "mm")
    plan = planned(one)
    assert plan.setups or plan.unmade
    for setup in plan.setups:
        feature, sides = plan.operations[0].proved.draft.question.feature, lying(setup)
        names = SIDES[face][1 if runs is Runs.ALONG else 0]
        ends = SIDES[face][0 if runs is Runs.ALONG else 1]
        assert sides.away.value == names[0 if turned else 1]
        assert sides.left.value == ends[1 if far else 0]
        assert not lies_half_round(plan.part, setup, one, feature) or can_be_told(plan.operations[0].proved.plan)
