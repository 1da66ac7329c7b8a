"""What is said of a part step by step counts from the faces as they lie. Common practice, no source."""

from __future__ import annotations

import pytest

from crib.pages.blocks import Paragraph
from crib.pages.part.scene import lying
from crib.pages.part.steps import steps
from crib.pages.part.zero import corner_words, step_to, touch_off_corner
from crib.parts.part import Face, Part, Place, Placed, Runs, Stock
from crib.parts.sides import corner_of, sides_of
from crib.planning.parts.asked import asked_of
from crib.planning.parts.known import Known
from crib.planning.parts.plan import plan_part
from crib.render.words import words
from crib.shop import from_json
from tests.part_samples import PARTS, planned
from tests.sheets import OWNED, SHOP
from tests.shown import shown
from tests.spelt import spelt


@pytest.mark.parametrize("dro", [True, False])
@pytest.mark.parametrize("name", PARTS)
def test_the_corner_is_touched_off_by_the_parts_own_faces_wherever_they_lie(name: str, dro: bool) -> None:
    """Turned a quarter, the part's front lies to the right: `edge finder on the front face: set cross -.100` had each
    feature counted from another corner than the sheet does, and as in a mirror."""
    part = planned(name, "in", dro)
    told = [" ".join(" ".join(shown(tuple(group))).split()) for group in steps(part)]
    for setup in part.setups:
        head = next(one for one in told if one.startswith(f"Set-up {setup.no}:"))
        shop = next(one.proved.draft.question.shop for one in part.operations if one.setup_no == setup.no)
        assert f"at the corner of {corner_words(part.part, setup)}" in head
        for task in touch_off_corner(part.part, setup, shop).tasks:
            assert spelt(task.text).rstrip(".").lower() in head.lower()
    for one in part.operations:
        at = next(text for text in told if text.startswith((f"{one.no}. ", f"done: {one.no}. ")))
        assert "on the front face" not in at and "left-hand face" not in at, at


@pytest.mark.parametrize("name", PARTS)
def test_a_feature_is_come_to_once_and_by_the_same_settings_as_on_its_sheet(name: str) -> None:
    part = planned(name)
    told = {no: text for text in (" ".join(" ".join(shown(tuple(group))).split()) for group in steps(part))
            for no in (text.partition(".")[0],)}
    before = None
    for one in part.operations:
        setup = next(each for each in part.setups if each.no == one.setup_no)
        placed = next(each for each in part.part.features if each.name == one.feature)
        come = step_to(part.part, setup, placed, one.proved.draft.question, one.proved.plan)
        is_first, before = (setup.no, one.feature) != before, (setup.no, one.feature)
        assert ("Come to it: " in told[str(one.no)]) is (is_first and come is not None)
        for setting in (each for task in come.tasks for each in task.settings) if come and is_first else ():
            assert f"{setting.slide} {words(setting.reading, 'in')}" in told[str(one.no)]
        assert corner_of(part.part, lying(setup)) and sides_of(setup.face)


@pytest.mark.parametrize("name", PARTS)
def test_a_remark_is_told_once_in_a_set_up(name: str) -> None:
    """Each of four operations of a tapped hole said again that the easy hole breaks the class, and that a drill chuck
    holds nothing that cuts sideways."""
    part = planned(name)
    for setup in part.setups:
        mine = {one.no: one for one in part.operations if one.setup_no == setup.no}
        told: dict[str, set[str]] = {}
        for group in steps(part):
            title = shown(tuple(group))[0].removeprefix("done: ").partition(".")[0]
            said = [spelt(one.text) for one in group if isinstance(one, Paragraph) and one.label in ("Note", "Mind")]
            assert len(said) == len(set(said))
            if (one := mine.get(int(title)) if title.isdigit() else None):
                for text in said:
                    assert one.feature not in told.setdefault(text, set()), f"{one.no}: {text}"
                    told[text].add(one.feature)
        notes = {spelt(each.says) for one in mine.values() if not one.done for each in one.proved.plan.warnings
                 if each.cutter_id in (None, one.cutter.id) and each.grade == "note"}
        assert {text for text in notes if not text.startswith("chips ")} <= set(told), "and none is left out"


def test_a_part_that_lies_turned_is_indicated_by_the_face_that_lies_there() -> None:
    """A slot across a block: `its front face indicated along the table`, and the front lay to the right."""
    slot = Placed("slot", "slot", {"width": "1/2", "depth": "1/4"}, Place(Face.TOP, 38.1, 0.0, Runs.ACROSS, 0.0, False),
                  "in")
    part = Part("block", Stock(101.6, 50.8, 19.05), "6061", (slot,), units="in")
    shop = from_json(SHOP)
    asked = asked_of(part, shop)
    found = plan_part(part, asked.requests, [], OWNED, shop, known=Known())
    [setup] = found.setups
    assert lying(setup).near is not Face.FRONT and "the face toward you indicated" in words(setup.holds, "in")
