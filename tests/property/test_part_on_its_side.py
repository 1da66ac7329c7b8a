"""What is cut on its side lies where the drawing has it: on every face, either way, opening to either side. Told from
what stands on the sheet and the sides to which the work lies alone."""

from __future__ import annotations

import pytest

from crib.pages.part.scene import Box, lying, scene
from crib.pages.part.steps import steps
from crib.pages.part.zero import lies_half_round, step_to
from crib.parts.frame import SIDES
from crib.parts.order import order_of
from crib.parts.part import Face, Part, Place, Placed, Runs, Stock
from crib.parts.sides import corner_of, size_of
from crib.planning.parts.asked import asked_of
from crib.planning.parts.known import Known
from crib.planning.parts.plan import plan_part
from crib.planning.parts.planned import PlannedPart
from crib.render.html.part_sheet import part_sheet_html
from crib.shop import Shop
from tests.sheets import OWNED, OnSheet, Page, passes_of

STOCK = Stock(100.0, 80.0, 60.0)
SIZE = {"left": 100.0, "right": 100.0, "front": 80.0, "back": 80.0, "top": 60.0, "bottom": 60.0}
SHOP, KNOWN = Shop(units="mm"), Known()
STEP = {"width": "10", "depth": "10"}

CASES = {
    "step": ({"width": "20", "depth": "6"}, 20.0, 6.0, 20.0),
    "slit": ({"width": "1.6", "depth": "8"}, 24.0, 8.0, 24.8),
    "undercut": ({"width": "4", "depth": "2", "height": "6"}, 10.0, 10.0, 12.0),
}
"""What is typed; how far from the side that is right in its drawing it is placed, how far from its own face in it is
cut, and how far down from that side, all as drawn [mm]."""


def planned(kind: str, face: Face, runs: Runs, turned: bool) -> PlannedPart:
    """One feature; an undercut in the wall of a step, level with its floor."""
    texts, at, *_ = CASES[kind]
    extent = SIZE[SIDES[face][1 if runs is Runs.ALONG else 0][0]]
    across = at if turned else extent - at
    where = (0.0, across) if runs is Runs.ALONG else (across, 0.0)
    level = 10.0 if kind == "undercut" else 0.0
    one = Placed("it", kind, texts, Place(face, *where, runs, level, turned), "mm")
    first = Placed("first", "step", STEP, Place(face, *where, runs, 0.0, turned), "mm")
    part = Part("block", STOCK, "1018", (first, one) if level else (one,), units="mm")
    asked = asked_of(part, SHOP)
    order = [(each.first, each.then) for each in order_of(part, asked.drawn)]
    return plan_part(part, asked.requests, order, OWNED, SHOP, known=KNOWN)


def told_of(plan: PlannedPart, page: str, feature: str) -> list[OnSheet]:
    told, at, found = passes_of(page, 1.0), 0, []
    for one in plan.operations:
        found += told[at:at + len(one.passes)] if one.feature == feature else []
        at += len(one.passes)
    return found


@pytest.mark.parametrize("turned", [False, True])
@pytest.mark.parametrize("runs", Runs)
@pytest.mark.parametrize("face", Face)
@pytest.mark.parametrize("kind", CASES)
def test_is_cut_where_it_is(kind: str, face: Face, runs: Runs, turned: bool) -> None:
    """It was printed with no place at all, and as though its own face lay away where that lay toward whoever stands
    there. Its right is up and its own face away, as the set-up says; from the corner its passes reach in from its face
    and down from its side as far as drawn."""
    plan = planned(kind, face, runs, turned)
    assert not plan.unmade
    operation = next(each for each in plan.operations if each.feature == "it")
    setup = next(each for each in plan.setups if each.no == operation.setup_no)
    question, sides, one = operation.proved.draft.question, lying(setup), plan.part.feature("it")
    assert question.setup.name == "on its side" and not lies_half_round(plan.part, setup, one, question.feature)
    assert sides.away == face and setup.face.value == SIDES[face][1 if runs is Runs.ALONG else 0][0 if turned else 1]

    come = step_to(plan.part, setup, one, question, operation.proved.plan)
    page = part_sheet_html(plan, SHOP)
    assert come is not None and page is not None
    assert "Come to it" in [title.text.strip() for title in Page(page).root.all("h4")]
    nought = {each.slide: float(each.reading.mm) for task in come.tasks for each in task.settings}
    (z_zero,) = [dict(note.facts)["deep"].mm for task in come.tasks for note in task.notes if "Z 0" in note.template]
    _, deep = size_of(STOCK, sides)
    from_away = deep - nought["cross"] - (deep if corner_of(plan.part, sides)[1] == sides.away else 0.0)
    told = told_of(plan, page, "it")
    axes = [from_away - each.read.x / 1e6 for each in told]
    lows = [z_zero - each.read.z / 1e6 for each in told]

    _, _, inwards, down = CASES[kind]
    assert max(lows) == pytest.approx(down, abs=0.02)
    if kind == "undercut":
        assert (min(axes) + max(axes)) / 2 == pytest.approx(inwards - 2, abs=0.02)
    else:
        radius = max(each.diameter_mm or 0.0 for each in operation.proved.plan.cutters) / 2
        assert max(axes) + radius == pytest.approx(inwards, abs=0.02)

    seen = scene(plan, setup).marks[-1].places or [edge for _, edge in scene(plan, setup).marks[-1].edges]
    assert all(isinstance(box, Box) for box in seen)
    (box,) = seen
    assert isinstance(box, Box) and deep - box.near == pytest.approx(inwards)


@pytest.mark.parametrize("at", [50.0, 70.0])
def test_what_does_not_end_at_its_side_is_not_counted_from_it(at: float) -> None:
    """On its side a step's heights count from the edge of its drawing, at which its cutter is touched off: where the
    face that is up lies over that edge, or under it, every height would be off by so much."""
    one = Placed("it", "step", CASES["step"][0], Place(Face.TOP, 0.0, at, Runs.ALONG, turned=False), "mm")
    part = Part("block", STOCK, "1018", (one,), units="mm")
    plan = plan_part(part, asked_of(part, SHOP).requests, (), OWNED, SHOP, known=KNOWN)
    assert all(each.proved.draft.question.setup.name == "upright" for each in plan.operations)


@pytest.mark.parametrize("face", Face)
@pytest.mark.parametrize("kind", ["v-groove", "bevel"])
def test_tilted_work_is_touched_off_by_itself(kind: str, face: Face) -> None:
    """From a corner of work that is tilted, or under a tilted head, no reading says where anything is: the sheet had
    the readings of work that lies flat. What has a right has it away there too, whichever end of it is to the left."""
    texts = {"v-groove": {"width": "12", "angle": "90"}, "bevel": {"width": "6", "angle": "30"}}[kind]
    mills = [one for one in OWNED if one.kind == "end-mill"]
    for turned in (False, True):
        extent = SIZE[SIDES[face][1][0]]
        at = 30.0 if kind == "v-groove" else 0.0 if turned else extent
        one = Placed("it", kind, texts, Place(face, 0.0, at, Runs.ALONG, turned=turned), "mm")
        part = Part("block", STOCK, "1018", (one,), units="mm")
        plan = plan_part(part, asked_of(part, SHOP).requests, (), mills, SHOP, known=KNOWN)
        page = part_sheet_html(plan, SHOP)
        assert page is not None and "Touch off it" in page
        assert "Touch off the corner" not in page and "Come to" not in page and "at the corner of" not in page
        (setup,) = plan.setups
        if kind == "bevel":
            assert lying(setup).away.value == SIDES[face][1][0 if turned else 1]


def test_every_place_of_what_runs_is_told() -> None:
    """The sheet told the first place alone, and the others were never cut: slots 20 and 50 from the front, with the
    cross nought at the front."""
    one = Placed("it", "slot", {"width": "12", "depth": "5"}, Place(Face.TOP, 0.0, 20.0), "mm",
                 more=(Place(Face.TOP, 0.0, 50.0),))
    part = Part("block", STOCK, "1018", (one,), units="mm")
    plan = plan_part(part, asked_of(part, SHOP).requests, (), OWNED, SHOP, known=KNOWN)
    page = part_sheet_html(plan, SHOP)
    assert page is not None
    operation = plan.operations[0]
    come = step_to(part, plan.setups[0], one, operation.proved.draft.question, operation.proved.plan)
    assert come is not None and len(come.tasks) == 2 and "place 2" in page
    assert [each.reading.mm for task in come.tasks for each in task.settings] == [20.0, 50.0]


def test_steps_mind_what_lies_half_round() -> None:
    """A step along the near edge, as its plan has it, opens away: the steps on the screen said so without a word. From
    the edge at the back they hold as they are."""
    for at, is_minded in ((12.0, True), (68.0, False)):
        one = Placed("it", "step", {"width": "12", "depth": "5"}, Place(Face.TOP, 0.0, at), "mm")
        part = Part("block", STOCK, "1018", (one,), units="mm")
        plan = plan_part(part, asked_of(part, SHOP).requests, (), OWNED, SHOP, known=KNOWN)
        told = [block for those in steps(plan) for block in those if getattr(block, "label", "") == "Mind"]
        assert plan.operations[0].proved.draft.question.setup.name == "upright"
        assert any("end for end" in str(block) for block in told) == is_minded


@pytest.mark.parametrize("width", ["20", "12"])
def test_a_step_that_opens_at_no_edge_is_not_made(width: str) -> None:
    """Twenty and more beyond its edge stand metal: the mill that runs over that edge would run into it."""
    one = Placed("it", "step", {"width": width, "depth": "6"}, Place(Face.TOP, 0.0, 40.0, turned=False), "mm")
    part = Part("block", STOCK, "1018", (one,), units="mm")
    plan = plan_part(part, asked_of(part, SHOP).requests, (), OWNED, SHOP, known=KNOWN)
    assert not plan.operations
    assert "meets what stands beside it" in str(plan.unmade[0].advice.says)
