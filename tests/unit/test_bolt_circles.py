"""Holes round a circle: where each stands by table and cross, what is checked, which circles can't be."""

from __future__ import annotations

import json
import re
from collections.abc import Mapping
from dataclasses import replace
from math import atan2, degrees, hypot

import pytest
from hypothesis import given
from hypothesis import strategies as st

from crib.features import draw
from crib.findings.errors import CribError
from crib.handbook import circles
from crib.intake.questions import read_question
from crib.pages.setup_sheet import setup_sheet
from crib.planning.advise import Answered, advise
from crib.planning.ask import read_request
from crib.planning.process.dials import lead_mm
from crib.planning.told.advice import Advice
from crib.render.html.setup_sheet import picture_svg, sheet_html
from crib.render.json.answer import advice_json
from crib.shop import Shop, from_json
from tests.sheets import OWNED, SHOP

INCH = 25.4
ASKED = {"diameter": "3", "number": "6", "hole": ".316+.005-0", "depth": "1/2"}


def asked(shop: Shop | None = None, **more: str) -> Answered:
    shop = shop or from_json(SHOP)
    return advise(read_request("bolt-circle", ASKED | more, shop, "in"), OWNED, shop)


def found(shop: Shop | None = None, **more: str) -> Advice:
    advice = asked(shop, **more).advice
    assert advice.plans
    return advice


@given(st.integers(2, 40), st.floats(-360, 360), st.floats(1.0, 300.0))
def test_neighbours_stand_the_chord_apart_and_all_on_the_circle(number: int, start: float, circle: float) -> None:
    """Recomputed from the places alone: distances by Pythagoras, angles by the arc tangent."""
    where = circles.places(circle, number, start)
    for place, (x, y) in enumerate(where):
        other = where[(place + 1) % number]
        assert hypot(x, y) == pytest.approx(circle / 2, abs=1e-6)
        assert hypot(x - other[0], y - other[1]) == pytest.approx(circles.chord(circle, number), abs=1e-6)
        off = (degrees(atan2(y, x)) - start - 360 * place / number + 180) % 360 - 180
        assert abs(off) < 1e-4


def test_places_are_dialled_from_the_middle_or_from_two_faces() -> None:
    """2 in a circle of 3 from 30 degrees: 1.5 cos 30 = 1.299, 1.5 sin 30 = .750, worked by hand."""
    by_faces = found(number="2", start="30", x="2", y="1.75").plans[0]
    assert [(round(one.dial_x_mm / INCH, 3), round(one.dial_y_mm / INCH, 3)) for one in by_faces.places] == [
        (3.299, 2.5), (0.701, 1.0)]
    middle = found(number="2", start="30").plans[0]
    assert [(round(one.dial_x_mm / INCH, 3), round(one.dial_y_mm / INCH, 3)) for one in middle.places] == [
        (1.299, 0.75), (-1.299, -0.75)]
    assert "middle" in str(middle.places_from) and "face" in str(by_faces.places_from)
    assert found(number="2", x="0", y="-1").plans[0].places[0].y_mm == pytest.approx(-INCH)


@pytest.mark.parametrize("units", ["in", "mm"])
def test_the_handwheels_come_to_the_same_places(units: str) -> None:
    """Turns of the screw and divisions give the reading; the slack is taken from the left and from the front."""
    shop = replace(from_json(SHOP), units=units, dro=False)
    plan = found(shop, number="7", start="11").plans[0]
    division = 0.0254 if units == "in" else 0.01
    for one in plan.places:
        table, cross = one.dials
        for dial, mm in ((table, one.dial_x_mm), (cross, one.dial_y_mm)):
            assert dial.turns * lead_mm(dial.slide, shop) + dial.divisions * division == pytest.approx(mm, abs=0.002)
        assert (table.slack_from, cross.slack_from) == ("left", "front")
        assert abs(one.dial_x_mm - one.x_mm) <= shop.readout_mm / 2 + 1e-9
    assert plan.handwheels


def test_pins_in_two_neighbours_check_it() -> None:
    """6 in a circle of 3 stand 1.500 apart: over pins that fill two holes it reads that and a hole."""
    plan = found().plans[0]
    check = next(one for one in plan.checks if "neighbours" in str(one.what))
    hole = next(one for one in plan.checks if one.what == "hole diameter")
    assert check.reads_mm == pytest.approx(1.5 * INCH + hole.reads_mm, abs=1e-6)
    figures = {str(one.what): one.mm for one in plan.figures}
    assert figures["chord from a hole to the next"] == pytest.approx(1.5 * INCH)
    assert figures["web left between the holes"] == pytest.approx((1.5 - .321) * INCH)


def test_each_hole_costs_what_one_costs() -> None:
    """Six holes are six times the strokes of one: the planner is the one for a hole by itself."""
    one = advise(read_request("hole", {"diameter": ".316+.005-0", "depth": "1/2"}, Shop(), "in"), OWNED, Shop()).advice
    six = advise(read_request("bolt-circle", ASKED, Shop(), "in"), OWNED, Shop()).advice
    assert [p.role for p in six.plans[0].passes] == [p.role for p in one.plans[0].passes]
    assert [p.minutes for p in six.plans[0].passes] == pytest.approx([6 * p.minutes for p in one.plans[0].passes])


def test_tapped_and_for_a_screw() -> None:
    """A thread's own way, or the hole that a screw goes through: ASME B18.2.8, 1/4 close .266 in, from memory."""
    texts = {"diameter": "3", "number": "4", "depth": "1/2"}
    tapped = advise(read_request("bolt-circle", texts | {"thread": "1/4-20"}, Shop(), "in"), OWNED, Shop()).advice
    assert any(one.role == "tap" for one in tapped.plans[0].passes) and len(tapped.plans[0].places) == 4
    request = read_request("bolt-circle", texts | {"screw": "1/4", "fit": "close"}, Shop(), "in")
    assert draw(request).down is not None and request.source and round(request.size("hole").lo / INCH, 3) == 0.266


REFUSED: list[tuple[Mapping[str, str], str]] = [
    ({"number": "16", "diameter": "1"}, r"16 holes .* across .* run into one another: they stand \.195 apart"),
    ({"number": "1"}, "not a number of holes"),
    ({"number": "six"}, "not a number of holes"),
    ({"start": "north"}, "no angle"),
    ({"x": "2"}, "its x and not its y"),
    ({"x": "two", "y": "1"}, "x 'two'"),
    ({"thread": "1/4-20"}, "not both"),
]


@pytest.mark.parametrize(("more", "says"), REFUSED, ids=str)
def test_what_cannot_be_is_said_in_a_sentence(more: Mapping[str, str], says: str) -> None:
    from crib.render.words import words

    with pytest.raises(CribError) as error:
        draw(read_request("bolt-circle", ASKED | dict(more), Shop(), "in"))
    assert re.search(says, words(error.value.finding.says, "in"))
    assert error.value.finding.fix


def test_program_sheet_and_picture_have_every_hole() -> None:
    answered = asked(x="2", y="2")
    shape = advice_json(answered.advice, "in")["plans"][0]
    assert [one["no"] for one in shape["places"]] == [1, 2, 3, 4, 5, 6] and json.dumps(shape)
    assert shape["places"][0]["dials"][0]["slide"] == "table"
    sheet = setup_sheet(answered)
    assert sheet and [str(one.text) for step in sheet.steps if step.title == "Where the holes stand"
                      for one in step.tasks if hasattr(one, "text")] == [f"hole {n}" for n in range(1, 7)]
    drawing, page = picture_svg(answered), sheet_html(answered)
    assert drawing and page and drawing.count('class="hole"') == 6
    centres = re.findall(r'class="hole" cx="([\d.]+)" cy="([\d.]+)"', drawing)
    xs, ys = [float(x) for x, _ in centres], [float(y) for _, y in centres]
    assert hypot(xs[1] - xs[0], ys[1] - ys[0]) == pytest.approx(hypot(xs[2] - xs[1], ys[2] - ys[1]), rel=0.01)


@pytest.mark.parametrize("count", [2, 4, 6, 12])
@pytest.mark.parametrize("sort", ["", "bolt ", "drilled ", "clearance "])
def test_a_count_of_holes_is_no_size(count: int, sort: str) -> None:
    """"4 bolt holes #10 on a 2-1/4 in bolt circle" was read as a circle of 4 with holes 2-1/4 deep: the count stood for
    the circle, and the circle for the depth."""
    asked = read_question(f"{count} {sort}holes #10 on a 2-1/4 in bolt circle, 1/2 thick")
    assert asked.kind == "bolt-circle"
    assert {key: asked.texts[key] for key in ("number", "hole", "diameter", "depth")} == {
        "number": str(count), "hole": "#10", "diameter": "2-1/4in", "depth": "1/2"}
