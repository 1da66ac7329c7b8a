"""A whole part on a screen and as JSON: the answer first, what goes in in order, drawn as it lies."""

from __future__ import annotations

import json
import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from crib.light.records import replace
from crib.pages.more import More
from crib.pages.part.page import part_page
from crib.pages.part.scene import Box, PartScene, Ring, labelled, numbers, scenes
from crib.parts.part import Face, Part, Place, Runs, Stock
from crib.parts.sides import Sides, corner_of, from_corner, sides_of, size_of
from crib.render.json.part import part_json
from crib.render.svg import part as svg_part
from crib.render.terminal.lines import lines
from crib.render.terminal.part_view import of_scenes, title
from tests.part_samples import IN, PARTS, one_after_the_other, placed, planned


@pytest.mark.parametrize("width", [60, 80, 100])
@pytest.mark.parametrize("drawn", [True, False], ids=["lines", "plain"])
@pytest.mark.parametrize("name", PARTS)
def test_on_one_screen(name: str, drawn: bool, width: int) -> None:
    """Forty lines at a hundred columns and at eighty; no line is wider than the terminal; plain letters where only
    those can be shown."""
    told = lines(part_page(planned(name)), "in", width, drawn, most=40)
    assert max(map(len, told)) <= width
    assert len(told) <= (40 if width > 60 else 56)
    assert drawn or all(line.isascii() for line in told)
    assert told[0].startswith("Answer: ")


@given(st.lists(st.tuples(st.floats(10, 300), st.floats(10, 300)), min_size=1, max_size=4), st.integers(44, 120))
@settings(max_examples=100, deadline=None)
def test_no_picture_is_cut_off(sizes: list[tuple[float, float]], width: int) -> None:
    """Two that lie side by side had half of the room each, however wide they were: the right edge of the wider one was
    cut off. Each that is drawn has its four corners, and none is wider than there is room for."""
    sides = sides_of(Face.TOP)
    told = of_scenes([PartScene(at, Face.TOP, wide, deep, sides, ()) for at, (wide, deep) in enumerate(sizes, 1)],
                     width)
    counts = {corner: "".join(told).count(corner) for corner in "┌┐└┘"}
    assert set(counts.values()) == {" ".join(told).count("Set-up ")} != {0}
    assert max(map(len, told)) <= width


def test_what_changed_is_parted_where_it_shares_a_paragraph() -> None:
    """On a page that is full what changed stands in one paragraph; without anything between, one cutter's work ran into
    the next cutter's number. What ends with a full stop needs none."""
    news = [f"no. {number} isn't used now: it was to do slot {number}" for number in range(40, 52)]
    care = ["one thing to mind", "another"]
    told = " ".join(" ".join(lines(part_page(planned(), news=news, cautions=care), "in", 100, True, most=40)).split())
    assert "Changed: " + "; ".join(news) in told
    assert "One thing to mind. Another." in told


def test_says_what_goes_in_in_order() -> None:
    """Each cutter stands with its number, where it lies, what holds it and which operations it does, in order."""
    plan = planned()
    told = " ".join(" ".join(lines(part_page(plan), "in", 100, True)).split())
    at = [told.index(f"no. {one.cutter.id},") for one in plan.operations if one.setup_no == 1]
    assert at == sorted(at)
    assert "1 lay slot: throat" in told and "2 lay slot: head" in told
    assert "at most 6 min more than the best there can be" in told
    assert "one feature at a time: 6 set-ups (here 3)" in told


def test_says_what_it_lacks() -> None:
    """A feature that nothing makes is named in the answer; the rest is planned."""
    plan = planned("deep slide")
    told = " ".join(lines(part_page(plan), "in", 100, True))
    assert "nothing in it makes oil hole" in told and "Lacks a drill" in told
    assert part_json(plan, "in")["answer"] == "cannot"
    assert [one["name"] for one in part_json(plan, "in")["unmade"]] == ["oil hole"]


def test_more_tells_every_pass() -> None:
    """With the steps every pass of every operation is told; without what is done."""
    plan = planned()
    told = "\n".join(lines(part_page(plan, (More.STEPS, More.WHY)), "in", 100, True))
    for one in plan.operations:
        assert f"{one.no}. {one.feature}" in told
    done = replace(plan, operations=tuple(replace(one, done=one.no < 3) for one in plan.operations))
    again = "\n".join(lines(part_page(done, (More.STEPS,)), "in", 100, True))
    assert "done: 1. lay slot" in again and "done: 2." in again and "done: 3." not in again
    assert len(again) < len(told)


def test_the_agreed_keys() -> None:
    """What other programs rely on is there, lengths in mm, and every pass as `crib make --json` has it."""
    found = part_json(planned(), "in")
    assert list(found)[:11] == ["part", "setups", "operations", "setup_changes", "holder_changes", "cutter_changes",
                                "minutes", "least_minutes", "proven", "lacking", "blank"]
    assert {"no", "setup", "holds", "datum"} <= set(found["setups"][0])
    assert {"no", "feature", "setup_no", "cutter_id", "holder", "passes", "minutes", "done"} <= set(
        found["operations"][0])
    assert found["part"] == "slide" and found["drawing"]["stock"]["length_mm"] == pytest.approx(152.4)
    for one, told in zip(planned().operations, found["operations"], strict=True):
        assert [each["no"] for each in told["passes"]] == [each.no for each in one.passes]
    json.dumps(found, allow_nan=False)


def test_numbers_in_short() -> None:
    assert numbers([1]) == "1" and numbers([2, 3]) == "2-3" and numbers([1, 3, 4, 9]) == "1, 3-4, 9"


@pytest.mark.parametrize("up", Face)
@pytest.mark.parametrize("runs", Runs)
def test_no_face_is_a_mirror_image(up: Face, runs: Runs) -> None:
    """Right, away and up make a right-handed frame however the work lies: away from right by a quarter turn to the
    left, seen from above. A picture that were a mirror image would put holes on the wrong side."""
    way = {Face.RIGHT: (1, 0, 0), Face.LEFT: (-1, 0, 0), Face.BACK: (0, 1, 0), Face.FRONT: (0, -1, 0),
           Face.TOP: (0, 0, 1), Face.BOTTOM: (0, 0, -1)}
    sides = sides_of(up, runs)
    (a, b, c), (d, e, f) = way[sides.right], way[sides.away]
    assert (b * f - c * e, c * d - a * f, a * e - b * d) == way[up]
    assert way[sides.left] == tuple(-one for one in way[sides.right])
    assert way[sides.near] == tuple(-one for one in way[sides.away])


def test_counts_from_the_corner() -> None:
    """From the front left corner what lies 3 in from the left and 1.25 from the front reads so with the top up; over
    with its bottom up the front is away, and cross counts down from there."""
    part = Part("slide", Stock(6 * IN, 2.5 * IN, IN))
    top, bottom = sides_of(Face.TOP), sides_of(Face.BOTTOM)
    assert corner_of(part, top) == (Face.LEFT, Face.FRONT) and corner_of(part, bottom) == (Face.LEFT, Face.FRONT)
    assert from_corner(part, top, (3 * IN, 1.25 * IN)) == (3 * IN, 1.25 * IN)
    assert from_corner(part, bottom, (3 * IN, 2 * IN)) == pytest.approx((3 * IN, -0.5 * IN))
    right = replace(part, datum="back right")
    assert from_corner(right, top, (5 * IN, 2 * IN)) == pytest.approx((-IN, -0.5 * IN))


def test_drawn_where_it_lies() -> None:
    """The T-slot runs the whole length about 1.25 in from the front, its head hidden; the bolt holes stand where the
    drawing has them; the slot across the bottom lies along the
    table, its wall 3/4 in from the left end, which is near then."""
    top, bottom, front = scenes(planned()).those
    slot = next(mark for mark in top.marks if mark.label == "1-2")
    (_, seen), (_, hidden) = slot.edges
    assert isinstance(seen, Box) and isinstance(hidden, Box)
    assert (seen.left, seen.right) == (0, pytest.approx(6 * IN))
    assert (seen.near + seen.away) / 2 == pytest.approx(1.25 * IN) and seen.away - seen.near == pytest.approx(
        0.626 * IN, abs=0.002)
    assert hidden.away - hidden.near == pytest.approx(0.975 * IN, abs=0.3)
    rings = {(round(one.x / IN, 3), round(one.y / IN, 3)) for mark in top.marks for one in mark.places
             if isinstance(one, Ring)}
    assert {(0.5, 0.4), (5.5, 0.4)} <= rings
    (key,) = bottom.marks
    box = key.places[0]
    assert isinstance(box, Box) and box.near == pytest.approx(0.75 * IN, abs=0.1)
    assert (box.left, box.right) == pytest.approx((0, 2.5 * IN)) and bottom.sides.near == Face.LEFT
    assert (front.wide, front.deep) == pytest.approx((6 * IN, 1.25 * IN))


def test_pictures_have_every_number() -> None:
    """In the terminal and on paper; on paper each drawing is well formed and to the scale that it tells."""
    those = scenes(planned()).those
    for scene in those:
        told = "\n".join(of_scenes([scene], 80))
        assert len(told.splitlines()) <= 14
        drawn = svg_part.part(scene)
        for _, mark in labelled(scene.marks):
            assert mark.label in told and f">{mark.label}</text>" in drawn
        scale = re.search(r"(\d+) : (\d+)</text>", drawn)
        stock = re.search(r'class="stock"[^>]* width="([\d.]+)" height="([\d.]+)"', drawn)
        assert scale and stock
        times = int(scale[1]) / int(scale[2])
        assert float(stock[1]) == pytest.approx(scene.wide * times) and float(stock[2]) == pytest.approx(
            scene.deep * times)


@pytest.mark.parametrize("size", [(42.0, 32.0), (120.0, 62.0), (30.0, 20.0)])
@pytest.mark.parametrize("crowd", [1, 4, 9])
def test_no_two_labels_overlap(size: tuple[float, float], crowd: int) -> None:
    """Nor does one leave the drawing, nor cover the words at the sides: also where holes stand close together."""
    holes = tuple(replace(placed(f"hole {at}", "hole", (0.5 + 0.6 * at, 0.3), diameter="1/4", depth="1/4"),
                          more=(Place(Face.TOP, (0.5 + 0.6 * at) * IN, 2.2 * IN),)) for at in range(crowd))
    part = replace(PARTS["slide"], features=(*PARTS["slide"].features[:2], *holes))
    plan = one_after_the_other(part, planned().operations[0].proved.draft.question.shop)
    for scene in scenes(plan).those:
        drawn = svg_part.part(scene, *size, is_titled=False)
        wide, high = map(float, re.findall(r'(?:width|height)="([\d.]+)mm"', drawn)[:2])
        pills = [tuple(map(float, found)) for found in re.findall(
            r'class="ground" x="([-\d.]+)" y="([-\d.]+)" width="([\d.]+)" height="([\d.]+)"', drawn)]
        assert {f">{mark.label}</text>" in drawn for _, mark in labelled(scene.marks)} == {True}
        assert all(
            x >= 0 and y >= 0 and x + w <= wide and y + h <= high for x, y, w, h in pills)
        for at, (x, y, w, h) in enumerate(pills):
            assert not any(x < a + c and a < x + w and y < b + d and b < y + h for a, b, c, d in pills[:at])


def test_sizes_as_it_lies() -> None:
    """A quarter turn changes length and width over."""
    flat = sides_of(Face.TOP)
    assert size_of(Stock(150, 60, 30), flat) == (150, 60)
    assert size_of(Stock(150, 60, 30), flat.turned_a_quarter) == (60, 150)
    assert flat.turned_a_quarter == Sides(Face.BACK, Face.FRONT, Face.LEFT, Face.RIGHT)


def test_work_that_is_turned_end_for_end_is_said_to_be() -> None:
    """The second of two set-ups with the same face up read as the first once more."""
    whole = planned("slide")
    turned = replace(whole, setups=tuple(replace(one, turned=True) for one in whole.setups))
    page = " ".join(" ".join(lines(part_page(turned), "in", 100, True)).split())
    assert page.count("end for end") == len(turned.setups)
    assert "end for end" not in " ".join(lines(part_page(whole), "in", 100, True))


@pytest.mark.parametrize("width", [26, 40, 60, 80])
@pytest.mark.parametrize("wide", [1.0, 1.3, 1.5])
@pytest.mark.parametrize("at", [0.4, 0.5, 0.6])
def test_no_number_runs_over_the_edge_of_the_part(width: int, wide: float, at: float) -> None:
    """`11-12` stood across the right-hand edge of a narrow block, where it could have stood above its hole."""
    holes = replace(placed("feet holes", "tapped-hole", (at * wide, 0.4), thread="1/4-20", depth="1/4"),
                    more=(Place(Face.TOP, at * wide * IN, 3.1 * IN),))
    part = replace(PARTS["slide"], stock=Stock(wide * IN, 3.5 * IN, 2 * IN), features=(holes,))
    plan = one_after_the_other(part, planned().operations[0].proved.draft.question.shop)
    for scene in scenes(plan).those:
        _, top, *rows = of_scenes([scene], width)
        edge = top.index("┐")
        assert all(len(row) <= edge or not row[edge].isalnum() for row in rows), "\n".join([top, *rows])


@pytest.mark.parametrize("width", [26, 40, 60])
def test_numbers_that_are_told_arent_told_again_out_of_their_row(width: int) -> None:
    """`11, 13 o 10, 12, 15`: the second stood there for a hole in the row under it, and again in the upper edge."""
    along = tuple(Place(Face.TOP, (0.4 + 0.25 * at) * IN, 0.3 * IN) for at in range(1, 8))
    holes = replace(placed("feet holes", "tapped-hole", (0.4, 0.3), thread="1/4-20", depth="1/4"), more=along)
    part = replace(PARTS["slide"], stock=Stock(3 * IN, 1.5 * IN, 1 * IN), features=(holes,))
    plan = one_after_the_other(part, planned().operations[0].proved.draft.question.shop)
    for scene in scenes(plan).those:
        _, *rows = of_scenes([scene], width)
        for label in (mark.label for mark in scene.marks if len(mark.places) > 1):
            told = [row for row in rows if label in row]
            assert told and sum("o" not in row for row in told) <= 1 and len(told) <= 2, "\n".join(rows)


def test_right_away_is_no_hurry() -> None:
    """`Set-up 3: top up, right away`: the right face lies away from you."""
    for scene in scenes(planned()).those:
        for width in (60, 40, 30):
            told = title(scene, width)
            assert len(told) <= width or told.endswith(" up")
            assert " away" not in told or f"{scene.sides.away} face away" in told
