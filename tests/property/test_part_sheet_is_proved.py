"""The sheet of a whole part is its proved plans: what stands on it, read back, is proved feature by feature; and where
each feature stands is where the drawing has it."""

from __future__ import annotations

import dataclasses
import re

import pytest

from crib.features import KINDS
from crib.findings.verdicts import Verdict
from crib.geometry.prove import prove
from crib.light.records import replace
from crib.pages.half_round import half_round
from crib.pages.part.scene import lying
from crib.pages.part.zero import lies_half_round
from crib.parts.order import order_of
from crib.parts.part import Face, Part, Place, Placed, Runs, Stock
from crib.parts.toml import part_from_toml
from crib.planning.advise import Answered, advise
from crib.planning.ask import read_request
from crib.planning.parts.asked import asked_of
from crib.planning.parts.plan import plan_part
from crib.planning.parts.planned import PartOperation, PlannedPart
from crib.planning.told.advice import Advice
from crib.render.html.part_sheet import key_of, part_sheet_html
from crib.sample import folder
from crib.shop import from_json
from crib.units import nm
from tests.part_samples import IN, PARTS, one_after_the_other, planned
from tests.printed import Read
from tests.property.test_sheet_is_proved import UNITS, as_told, dials_are_the_readings, half_a_step, moved
from tests.sheets import OWNED, SHOP, OnSheet, Page, passes_of
from tests.test_sample_crib import CUTTERS


@pytest.mark.parametrize("units", ["in", "mm"])
@pytest.mark.parametrize("dro", [True, False], ids=["readout", "dials"])
def test_the_slide(units: str, dro: bool) -> None:
    """Every pass of every operation stands on the sheet, in order, with its cutter; read back they make the part."""
    holds(planned("slide", units, dro))


NONE = Advice({}, Verdict.AS_DRAWN)


@pytest.mark.parametrize("name", ["slide", "index-plate", "bearing-block"])
def test_the_parts_of_the_sample(name: str) -> None:
    """As the planner puts them: cutters that stay up, features that run across, holes round a circle."""
    text = (folder() / "parts" / f"{name}.toml").read_text(encoding="utf-8")
    shop = from_json(SHOP)
    part = part_from_toml(text, name).whole
    asked = asked_of(part, shop)
    order = [(one.first, one.then) for one in order_of(part, asked.drawn)]
    plan = plan_part(part, asked.requests, order, CUTTERS, shop)
    assert plan.operations and not plan.unmade
    holds(plan)


def holds(plan: PlannedPart) -> None:
    shop = plan.operations[0].proved.draft.question.shop
    page = part_sheet_html(plan, shop)
    assert page is not None
    told = passes_of(page, UNITS[shop.units])
    wanted = [(each.no, one.cutter.id) for one in plan.operations if not one.done for each in one.passes]
    assert [(one.read.number, one.read.cutter) for one in told] == wanted
    for feature in dict.fromkeys(one.feature for one in plan.operations):
        proves(feature, plan, told)


def proves(feature: str, plan: PlannedPart, told: list[OnSheet]) -> None:
    """One feature's passes as they are read; those that lie half round are turned back."""
    mine = [one for one in plan.operations if one.feature == feature]
    proved, shop = mine[0].proved, mine[0].proved.draft.question.shop
    at, read = 0, []
    for one in plan.operations:
        read += told[at:at + len(one.passes)] if one.feature == feature else []
        at += len(one.passes)
    if not shop.dro:
        for each in read:
            if each.dials:
                dials_are_the_readings(each, shop, feature)
    if turned(plan, mine[0]):
        read = [turned_back(one) for one in read]
    spared = [each for each in proved.plan.passes if each.no not in {one.read.number for one in read}]
    assert all(each.role == "spot" for each in spared)  # the hole that is there guides the drill
    read = sorted([*read, *(OnSheet(Read(each.no, each.cutter_id, 0, nm(each.dial_z_mm), "down", ""), [])
                            for each in spared)], key=lambda one: one.read.number)
    found = Answered(NONE, (proved,))
    work, ways = as_told(found, 0, read, UNITS[shop.units])
    coarse = any(one.id == "RO1" for one in proved.plan.warnings)
    assert coarse or any(prove(work, moved(ways, by)).holds for by in (0, half_a_step(shop), -half_a_step(shop)))


def turned(plan: PlannedPart, one: PartOperation) -> bool:
    setup = next(each for each in plan.setups if each.no == one.setup_no)
    return lies_half_round(plan.part, setup, plan.part.feature(one.feature), one.proved.draft.question.feature)


def turned_back(one: OnSheet) -> OnSheet:
    feed = {"right": "left", "left": "right"}.get(one.read.feed, one.read.feed)
    return OnSheet(dataclasses.replace(one.read, x=-one.read.x, feed=feed), one.dials)


def test_what_is_done_has_no_steps() -> None:
    """What is done is named, and nothing of it is told again; the rest still is, with its boxes as they were."""
    plan = planned()
    half = replace(plan, operations=tuple(replace(one, done=one.no <= 2) for one in plan.operations))
    shop = plan.operations[0].proved.draft.question.shop
    page, again = part_sheet_html(plan, shop), part_sheet_html(half, shop)
    assert page and again
    for one in plan.operations:
        key = f'value="{key_of(one.key)}"'
        assert page.count(key) == again.count(key) == 1
        first = f'value="{key_of(one.key)}.1.1"'
        assert (first in again) == (one.no > 2) and first in page
    assert again.count(">done</span>") == 2


def test_stands_where_the_drawing_has_it() -> None:
    """From the corner to the slot's centre line 1.250 as drawn; to the holes .500, .400 and 5.500, .400; to the screw
    in the front face 3.000 along, .600 down from the top, which lies away."""
    plan = planned()
    page = part_sheet_html(plan, plan.operations[0].proved.draft.question.shop)
    assert page
    told = {title.text.strip(): step for step in Page(page).root.all("step")
            if (title := step.first("h4")) is not None}

    def read(step: str) -> list[str]:
        return [value.text for one in told[step].all("set") if (value := one.first("b"))]

    assert read("Come to lay slot") == ["+1.250"]
    assert read("Places of bolt holes, from the corner") == ["+.500", "+.400", "+5.500", "+.400"]
    assert read("Come to stop screw") == ["+3.000", "-.600"]


@pytest.mark.parametrize("face", Face)
@pytest.mark.parametrize("at", [0.0, 1.0])
def test_an_edge_on_any_face(face: Face, at: float) -> None:
    """A step along either edge of any face: where its drawing's right lies toward you, signs and ways are the other
    ones, so that what was cut conventionally still is; the wall stands as far from the corner as drawn."""
    stock = Stock(4 * IN, 2 * IN, 1.5 * IN)
    across = {Face.TOP: 2, Face.BOTTOM: 2}.get(face, 1.5)
    wall = 0.5 if at == 0.0 else across - 0.5
    step = Placed("step", "step", {"width": "1/2", "depth": "1/4", "length": "4"},
                  Place(face, 0, wall * IN, Runs.ALONG))
    shop = planned().operations[0].proved.draft.question.shop
    plan = one_after_the_other(Part("block", stock, "1018", (step,)), shop)
    holds(plan)
    setup, one = plan.setups[0], plan.operations[0]
    toward = turned(plan, one)
    near = lying(setup).near
    flat = face in (Face.TOP, Face.BOTTOM)
    opens_at = (Face.FRONT, Face.BACK) if flat else (Face.TOP, Face.BOTTOM)
    assert toward == (opens_at[0 if at == 0.0 else 1] == near)


def test_half_round_twice_is_as_it_was() -> None:
    """Turning work half round twice changes nothing."""
    shop = planned().operations[0].proved.draft.question.shop
    for kind in ("step", "chamfer", "slot"):
        request = read_request(kind, dict(KINDS[kind].example), shop, "in")
        found = advise(request, OWNED, shop)
        plan = found.proved[0].plan
        again = half_round(half_round(plan, 64.0, shop), 64.0, shop)
        for was, one in zip(plan.passes, again.passes, strict=True):
            assert (one.feed, one.direction, one.dial_x_mm, one.dial_z_mm) == (
                was.feed, was.direction, was.dial_x_mm, was.dial_z_mm)
            assert [each.reading_mm for each in one.dials] == pytest.approx([each.reading_mm for each in was.dials])


HOSTILE = "<script>alert(1)</script>\"'&\u202e#{x}"


def test_hostile_names_are_only_words() -> None:
    """A name that is a tag, a quote or a sign that turns words round stays words, on paper and in the keys of boxes."""
    part = PARTS["slide"]
    named = replace(part, name=HOSTILE, fits=HOSTILE, material="grey iron", features=tuple(
        replace(one, name=f"{HOSTILE} {at}") for at, one in enumerate(part.features)))
    plan = one_after_the_other(named, planned().operations[0].proved.draft.question.shop)
    page = part_sheet_html(plan, plan.operations[0].proved.draft.question.shop)
    assert page and "<script" not in page and "\u202e" not in page
    Page(page)
    assert not re.search(r'value="[^"]*[<>\']', page)
