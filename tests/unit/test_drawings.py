"""Drawings and pages for a browser, read back: sizes to a thousandth of a millimetre, words whole, nothing let in."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace
from html.parser import HTMLParser
from math import hypot
from xml.etree import ElementTree

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from crib.features import KINDS as FEATURES
from crib.features.base import FeatureKind
from crib.geometry.region import NOTHING
from crib.pages.answer import page
from crib.pages.blocks import Heading, Lineup, Paragraph, TickList, table
from crib.pages.drawer_page import drawer_page
from crib.pages.scenes import scene_of, steps
from crib.planning.advise import advise
from crib.planning.ask import read_request
from crib.render.html import page as html
from crib.render.svg import drawing as svg
from crib.render.svg.plan import plan
from crib.shop import Shop, from_json
from tests.sheet_samples import ADVICE, CANNOT, KEYSEAT, MEASURE, REFER, from_above, mm, scene
from tests.sheets import OWNED, SHOP
from tests.shown import shown
from tests.test_sample_crib import CUTTERS

NUMBER = r"-?[\d.]+"
PIECE = re.compile(rf"M({NUMBER}) ({NUMBER})L({NUMBER}) ({NUMBER})")


def scale_of(drawing: str) -> float:
    """What the title says, paper to life."""
    found = re.search(r"([\d.]+) : ([\d.]+)<", drawing)
    assert found, "a usual scale"
    return float(found[1]) / float(found[2])


def path(drawing: str, name: str) -> str:
    for one in ElementTree.fromstring(drawing).iter():
        if one.get("class") == name:
            return str(one.get("d"))
    raise AssertionError(f"nothing is drawn as {name}")


def lines(d: str) -> list[tuple[float, ...]]:
    return [tuple(map(float, found)) for found in PIECE.findall(d)]


@settings(max_examples=30, deadline=None)
@given(throat=st.floats(0.1, 1.5), more=st.floats(0.02, 1.0), depth=st.floats(0.1, 2.0), part=st.floats(0.1, 0.9))
def test_the_section_is_the_geometry(throat: float, more: float, depth: float, part: float) -> None:
    """A T-slot's corners are known from its four sizes alone: each edge of the drawing is as long as it is."""
    height = depth * part
    drawing = svg.section(scene(throat, depth, throat + more, height, 0.0, -depth), "in")
    scale = scale_of(drawing)
    edges = lines(path(drawing, "edge"))
    upright = sorted({round(a, 4) for a, _, c, _ in edges if abs(a - c) < 1e-9})
    level = sorted({round(b, 4) for _, b, _, d in edges if abs(b - d) < 1e-9})
    inside = [x for x in upright if abs(x - sum(upright) / len(upright)) < mm(throat + more) * scale]
    expected = [-(throat + more) / 2, -throat / 2, throat / 2, (throat + more) / 2]
    assert [(x - inside[0]) / scale for x in inside] == pytest.approx([mm(x - expected[0]) for x in expected], abs=1e-3)
    surface = level[0]
    assert [(z - surface) / scale for z in level[:3]] == pytest.approx([0, mm(depth - height), mm(depth)], abs=1e-3)


def test_the_cutter_stands_where_it_stands() -> None:
    """5/8 across and 3/16 high, its axis .175 behind the middle of a .975 head."""
    drawing = svg.section(scene(), "in")
    scale = scale_of(drawing)
    points = [tuple(map(float, one)) for one in re.findall(rf"({NUMBER}) ({NUMBER})", path(drawing, "teeth"))]
    across, up = [x for x, _ in points], [y for _, y in points]
    assert (max(across) - min(across)) / scale == pytest.approx(mm(0.625), abs=1e-3)
    assert (max(up) - min(up)) / scale == pytest.approx(mm(0.1875), abs=1e-3)
    neck = [float(x) for x, _ in re.findall(rf"({NUMBER}) ({NUMBER})", path(drawing, "neck"))]
    axis = (max(across) + min(across)) / 2
    assert (max(neck) + min(neck)) / 2 == pytest.approx(axis)
    edges = sorted({round(a, 4) for a, _, c, _ in lines(path(drawing, "edge")) if abs(a - c) < 1e-9})
    assert any((axis - (left + right) / 2) / scale == pytest.approx(mm(0.175), abs=1e-3) for left in edges
               for right in edges if (right - left) / scale == pytest.approx(mm(0.975), abs=1e-3))


@pytest.mark.parametrize(("units", "unit", "said"), [("in", 25.4, "throat .625"), ("mm", 1.0, "throat 15.875 mm")])
def test_every_size_is_as_long_as_it_says(units: str, unit: float, said: str) -> None:
    drawing = svg.section(scene(), units)
    assert said in drawing
    scale = scale_of(drawing)
    lengths = [hypot(c - a, d - b) / scale / unit for a, b, c, d in lines(drawing)]
    told = re.findall(r">(?:throat|head|depth|head height) ([\d.]+)(?: mm)?</text>", drawing)
    assert len(told) == 4
    for number in told:
        assert any(abs(length - float(number)) < 0.0006 for length in lengths), number


def test_a_view_from_above_is_as_long_and_as_round_as_the_feature() -> None:
    """4 long and .625 wide with round ends: half circles of .3125, and the disc of 5/8."""
    drawing = plan(from_above(), "in")
    scale = scale_of(drawing)
    edge = path(drawing, "edge")
    radii = [float(one) / scale for one in re.findall(rf"A({NUMBER}) ", edge)]
    assert radii == pytest.approx([mm(0.3125)] * len(radii), abs=1e-3) and radii
    across = [float(x) for x, _ in re.findall(rf"({NUMBER}) ({NUMBER})(?=[MLA]|$)", edge)]
    assert (max(across) - min(across)) / scale == pytest.approx(mm(4.0), abs=1e-3)
    disc = next(one for one in ElementTree.fromstring(drawing).iter() if one.get("class") == "teeth")
    assert float(str(disc.get("r"))) / scale == pytest.approx(mm(0.3125), abs=1e-3)
    assert "neck clears by" in drawing and "length 4.000" in drawing and "pass 15" in drawing


@pytest.mark.parametrize(("kind", "texts"), [
    ("t-slot", {"throat": "5/8+.002-0", "depth": ".520", "head_width": ".975+.010-.010",
                "head_height": ".240+.005-.005"}),
    ("dovetail", {"angle": "60", "width": "1.200", "depth": ".280"}),
    ("step", {"width": "3/4", "depth": "1/4"}),
])
def test_what_the_passes_take_is_all_that_goes(kind: str, texts: dict[str, str]) -> None:
    """One after the other they take what isn't gone yet, and together what the proof says is gone (areas)."""
    proved = advise(read_request(kind, texts, Shop(), "in"), CUTTERS, Shop()).proved[0]
    shown_ = list(steps(proved.trace))
    assert [one.pass_no for one in shown_] == [one.no for one in proved.plan.passes]
    before = NOTHING
    for one in shown_:
        assert not one.taken & before
        before = before | one.taken
        assert (one.finished - before).area == (before - one.finished).area == 0
    assert before.area == proved.trace.elevation.removed.area
    tight = proved.plan.proof.tight
    assert tight is not None
    there = shown_[tight.pass_no - 1].tight
    assert proved.trace.elevation.is_tight_inside is (there is not None and there.gap_mm == tight.gap_mm)
    assert all("taken" in svg.section(one, "in") for one in shown_ if one.taken)


@pytest.mark.parametrize("kind", FEATURES.values(), ids=lambda kind: kind.name)
def test_every_kind_of_feature_is_drawn(kind: FeatureKind) -> None:
    """Its plan, where the sample's cutters make it, pass for pass and as a whole page, in either unit; each drawing is
    proper XML at a usual scale, and its edges stand for metal that is there."""
    found = advise(read_request(kind.name, kind.example, Shop(), "in"), CUTTERS, Shop())
    scenes = [*map(scene_of, found.proved[:1])]
    passes = [one for proved in found.proved[:1] for one in steps(proved.trace)]
    for units in ("in", "mm"):
        for one in (*scenes, *passes):
            drawing = svg.section(one, units)
            assert scale_of(drawing) and lines(path(drawing, "edge")) and path(drawing, "metal")
        told = " ".join(Words(html.page(page(found.advice, scenes), units, kind.words)).told)
        for row in shown(page(found.advice), units, 400):
            assert all(word in told for word in re.sub(r"^  (-|\d+\.) ", "", row).split()), row


class Words(HTMLParser):
    """The words of a page, and whether its tags close as they open."""

    EMPTY = ("meta", "path", "rect", "circle")

    def __init__(self, text: str) -> None:
        super().__init__()
        self.open: list[str] = []
        self.told: list[str] = []
        self.feed(text)
        assert not self.open

    def handle_starttag(self, tag: str, attrs: object) -> None:
        assert tag not in ("script", "link", "img", "iframe")
        if tag not in self.EMPTY:
            self.open.append(tag)

    def handle_endtag(self, tag: str) -> None:
        if tag not in self.EMPTY:
            assert self.open.pop() == tag

    def handle_data(self, data: str) -> None:
        if "style" not in self.open and "title" not in self.open:
            self.told += data.split()


@pytest.mark.parametrize("units", ["in", "mm"])
@pytest.mark.parametrize("advice", [ADVICE, CANNOT, MEASURE, REFER], ids=lambda advice: advice.answer)
def test_a_page_says_in_a_browser_what_it_says_in_a_terminal(advice: object, units: str) -> None:
    """Every word of it, pictures aside."""
    blocks = page(advice)  # type: ignore[arg-type]
    told = " ".join(Words(html.page(blocks, units, "an answer")).told)
    for line in shown(blocks, units, 400):
        for word in re.sub(r"^  (-|\d+\.) ", "", line).split():
            assert word in told, line


def test_nothing_that_was_typed_becomes_a_tag() -> None:
    """Whatever a label holds stands there as it is."""
    hostile = '<script>alert("&")</script>'
    blocks = (Heading(hostile), Paragraph(hostile, hostile), table((hostile,), [(hostile,)]),
              TickList(hostile, (hostile,), ((1, hostile),), hostile), Lineup(hostile, ((hostile, None),)),
              *drawer_page(hostile, [KEYSEAT.but(label=hostile)]))
    told = Words(html.page(blocks, "in", hostile)).told
    assert "".join(told).count('<script>alert("&")</script>'.replace(" ", "")) >= 9


def test_a_page_needs_nothing_else() -> None:
    """No address but the name of the drawings' language, and every drawing with names of its own."""
    text = html.page(page(ADVICE, (replace(scene(), above=from_above()),)), "in", "an answer")
    assert set(re.findall(r"https?://[^\"<]*", text)) <= {"http://www.w3.org/2000/svg"}
    names = re.findall(r' id="([^"]+)"', text)
    assert len(names) == len(set(names)) == 6
    assert set(re.findall(r"url\(#([^)]+)\)", text)) <= set(names)


def areas(d: str) -> Iterator[float]:
    """The areas of a path's polygons."""
    for one in d.split("Z"):
        points = [tuple(map(float, found)) for found in re.findall(rf"({NUMBER}) ({NUMBER})", one)]
        yield abs(sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(points, points[1:] + points[:1], strict=True))) / 2


def test_cutters_are_drawn_to_one_scale() -> None:
    """As large as it fits and life-size at the most: their areas are length times width (a disc and its shank)."""
    [lineup] = drawer_page("B2", [KEYSEAT])
    assert isinstance(lineup, Lineup)
    shape = lineup.items[0][1]
    assert shape is not None and svg.common_scale([shape]) == 1
    drawing = svg.silhouette(shape, 0.5)
    found = [area for one in ElementTree.fromstring(drawing) for area in areas(str(one.get("d"))) if area]
    assert max(found) <= mm(2.0) * mm(0.5) / 4 + 1 and any(
        area == pytest.approx(mm(0.625) * mm(0.1875) / 4, abs=1e-3) for area in found)


def test_a_land_that_is_let_stand_is_no_size_of_the_picture() -> None:
    """It was drawn with the land's width and depth where no cutter makes one."""
    texts = {"thread": "1/4-28", "number": "4", "angle": "60", "height": "3/8", "gib": "3/16", "nut": "7/16"}
    found = advise(read_request("gib-screw-holes", texts, Shop(), "in"), OWNED, from_json(SHOP), most=9)
    named = {tuple(one.name for one in scene_of(proved).dimensions): [each.role for each in proved.plan.passes]
             for proved in found.proved}
    assert len(named) > 1
    for names, roles in named.items():
        assert ("land" in names) is ("spotface" in roles), (names, roles)
