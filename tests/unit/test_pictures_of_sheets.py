"""The pictures of every kind's sheet, read back: outlines and sizes are the geometry's to a thousandth of a
millimetre."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from xml.etree import ElementTree

import pytest

from crib.geometry.region import FAR, Region
from crib.pages.scene import CutterScene, FromAbove, Scene, Strip
from crib.pages.setup_sheet import setup_sheet
from crib.render.svg import drawing as svg
from crib.render.svg import paper as svg_paper
from crib.render.svg.cutter import cutter
from crib.render.svg.plan import plan
from crib.render.svg.strip import strip
from crib.render.window import Pane
from tests.sheets import ALL, answered
from tests.unit.test_drawings import NUMBER, lines, path, scale_of

NEAR = 1e-3
SVG = "{http://www.w3.org/2000/svg}"
UNIT = {"in": 25.4, "mm": 1.0}

Point = tuple[float, float]


@dataclass(frozen=True)
class Read:
    """A drawing that was read back: how large it is, and where its nought is [mm]."""

    root: ElementTree.Element
    scale: float
    x0: float = 0.0
    z0: float = 0.0

    @staticmethod
    def of(drawing: str) -> Read:
        root, scale = ElementTree.fromstring(drawing), scale_of(drawing)
        (_, z0, _, _), (x0, _, _, _) = lines("".join(d(one) for one in named(root, "zero")[0]))
        return Read(root, scale, x0, z0)

    def at(self, x: float, y: float) -> Point:
        return (x - self.x0) / self.scale, (self.z0 - y) / self.scale

    def corners(self, name: str) -> list[Point]:
        """Where the lines of a path begin and end [mm]."""
        found = lines("".join(d(one) for one in named(self.root, name)))
        return [self.at(x, y) for a, b, c, e in found for x, y in ((a, b), (c, e))]


def named(root: ElementTree.Element, name: str) -> list[ElementTree.Element]:
    return [one for one in root.iter() if one.get("class") == name]


def d(one: ElementTree.Element) -> str:
    return str(one.get("d"))


def near(point: Point, those: list[Point]) -> bool:
    return any(abs(point[0] - x) <= NEAR and abs(point[1] - z) <= NEAR for x, z in those)


def corners(region: Region, pane: Pane) -> Iterator[Point]:
    """The corners of a region inside a window, but for those that only part its slabs [mm]."""
    for slab in region.slabs:
        for s in slab.spans:
            for x, z in ((s.left_low, slab.low), (s.right_low, slab.low), (s.left_high, slab.high),
                         (s.right_high, slab.high)):
                if pane.left < x < pane.right and pane.bottom < z < pane.top:
                    yield x / 1e6, z / 1e6


def scenes(name: str) -> list[Scene]:
    sheet = setup_sheet(answered(name))
    assert sheet is not None
    return [*(one for one in sheet.pictures if isinstance(one, Scene)),
            *(step.scene for step in sheet.steps if step.scene)]


@pytest.mark.parametrize("units", UNIT)
@pytest.mark.parametrize("name", ALL)
def test_outlines_are_the_geometry(name: str, units: str) -> None:
    """Every corner of what stands is drawn, and no line ends where none is but at the edge of the drawing; the cutter
    stands where it stands, as wide as it is."""
    for scene in scenes(name):
        pane = svg.pane_of(scene)
        read = Read.of(svg.section(scene, units))
        standing = scene.stock - scene.finished
        drawn, there = read.corners("edge"), list(corners(standing, pane))
        assert there and all(near(point, drawn) for point in there)
        edge = [pane.left / 1e6, pane.right / 1e6, pane.bottom / 1e6, pane.top / 1e6]
        for x, z in drawn:
            outside = not (edge[0] + NEAR < x < edge[1] - NEAR and edge[2] + NEAR < z < edge[3] - NEAR)
            assert outside or near((x, z), there), (x, z)
        teeth = [read.at(float(x), float(y)) for one in named(read.root, "teeth")
                 for x, y in re.findall(rf"({NUMBER}) ({NUMBER})", d(one))]
        wide = max(x for x, _ in teeth) - min(x for x, _ in teeth)
        assert wide == pytest.approx(2 * scene.form.radius / 1e6, abs=NEAR)
        assert min(z for _, z in teeth) == pytest.approx(scene.z_nm / 1e6, abs=NEAR)
        assert (max(x for x, _ in teeth) + min(x for x, _ in teeth)) / 2 == pytest.approx(scene.x_nm / 1e6, abs=NEAR)


@pytest.mark.parametrize("units", UNIT)
@pytest.mark.parametrize("name", ALL)
def test_sizes_are_as_long_as_they_say_and_are_there(name: str, units: str) -> None:
    """The number is the distance between its two lines, and these stand where corners of the finished section are."""
    scene = scenes(name)[0]
    read = Read.of(svg.section(scene, units))
    there = list(corners(scene.stock - scene.finished, Pane(-FAR, FAR, -FAR, FAR)))
    found = named(read.root, "size")
    assert len(found) == len(scene.dimensions) > 0
    for one in found:
        said = " ".join(text for text in one.itertext())
        first, second = lines("".join(map(d, one.iter(f"{SVG}path"))))[:2]
        across = abs(first[0] - first[2]) < 1e-9
        ends = [read.at(first[0], 0)[0], read.at(second[0], 0)[0]] if across else [read.at(0, first[1])[1],
                                                                                    read.at(0, second[1])[1]]
        assert abs(ends[1] - ends[0]) == pytest.approx(number(said) * UNIT[units], abs=0.0006 * UNIT[units] + NEAR)
        if "entry" not in said:
            places = [point[0 if across else 1] for point in there] + ([0.0] if across else underside(scene.stock))
            assert all(any(abs(end - place) <= NEAR for place in places) for end in ends), (said, ends)


def underside(stock: Region) -> list[float]:
    """The surface, and where the metal before ends on the axis: a hole that leaves by a slope has no corner there
    [mm]."""
    steps = range(-40_000_000, 0, 25_000)
    inside = [any(left <= 0 <= right for left, right in stock.spans_at(z)) for z in steps]
    return [0.0, *(z / 1e6 for z, here, below in zip(steps[1:], inside[1:], inside, strict=False) if here != below)]


def number(said: str) -> float:
    """The length at the end of some words, a fraction too."""
    found = re.search(r"(?:(\d+)-)?(\d+)/(\d+)$|(\d*\.?\d+)(?: mm)?$", said.strip())
    assert found, said
    if found[3]:
        return int(found[1] or 0) + int(found[2]) / int(found[3])
    return float(found[4])


@pytest.mark.parametrize("name", ALL)
def test_cutters_are_as_they_are_on_record(name: str) -> None:
    """Each size beside a cutter is that of the record, and as long as it says."""
    found = answered(name)
    sheet = setup_sheet(found)
    assert sheet is not None
    owned = {tool.id: tool.cutter for tool in found.proved[0].draft.tools}
    for card in sheet.cutters:
        assert isinstance(card.scene, CutterScene)
        drawing = cutter(card.scene, "mm")
        root, scale = ElementTree.fromstring(drawing), scale_of(drawing)
        sizes = [getattr(owned[card.number], key) for key in ("diameter_mm", "neck_mm", "face_mm", "reach_mm")]
        for one in named(root, "size"):
            said = number(" ".join(one.itertext()))
            a, b = lines("".join(map(d, one.iter(f"{SVG}path"))))[:2]
            assert max(abs(a[0] - b[0]), abs(a[1] - b[1])) / scale == pytest.approx(said, abs=0.0005 + NEAR)
            assert any(size and abs(size - said) <= 0.0005 + NEAR for size in sizes), (said, sizes)


@pytest.mark.parametrize("name", [name for name in ALL if "hole" not in name and name != "counterbore"])
def test_from_above_the_wall_that_is_cut_is_an_edge(name: str) -> None:
    """It lies where an edge of what stands is seen or hidden (but for what leans, whose teeth lie along it), and the
    arrow goes as the cutter does."""
    sheet = setup_sheet(answered(name))
    assert sheet is not None
    for step in sheet.steps:
        if not isinstance(step.above, Strip):
            continue
        drawing = strip(step.above, Pane(-30_000_000, 30_000_000, -20_000_000, 5_000_000), "strip")
        root = ElementTree.fromstring(drawing)
        ways = [lines(d(one))[0] for one in named(root, "way")]
        assert [("right" if c > a else "left") for a, _, c, _ in ways] == list(step.above.feeds)
        assert step.above.seen or step.above.hidden
        edges = (*step.above.seen, *step.above.hidden)
        assert all(any(abs(cut - edge) <= 1000 for edge in edges) for cut in step.above.cut)
        if not any(word in name for word in ("dovetail", "chamfer", "v-groove", "facing")):
            assert step.above.cut


@pytest.mark.parametrize("name", ["closed slot", "slot with one closed end"])
def test_between_ends_the_walls_are_the_slots(name: str) -> None:
    """A slot of 5/8, 3 long: the walls that are drawn thick at last lie .3125 off its middle, within a thou, and end
    before its end; each pass that cuts one has one."""
    sheet = setup_sheet(answered(name))
    assert sheet is not None
    above = [step.above for step in sheet.steps if isinstance(step.above, FromAbove)]
    assert above and all(one.cut and one.path for one in above)
    level = [abs(b) / 25.4e6 for one in above for _, b, _, d in one.cut if b == d]
    assert max(level) == pytest.approx(0.3125, abs=0.001)
    assert all(c - one.zero <= 3.001 * 25.4e6 for one in above for _, _, c, _ in one.cut)
    drawn = ElementTree.fromstring(plan(above[-1], "in"))
    assert len(lines(d(named(drawn, "cut")[0]))) == len(above[-1].cut)


def test_the_hatching_is_that_of_a_section() -> None:
    """Metal is hatched at 45 degrees in thin lines, outlines are twice as thick as dimension lines (ISO 128-2, -3)."""
    drawing = svg.section(scenes("t-slot")[0], "in")
    assert "rotate(45)" in drawing and svg_paper.THICK == 2 * svg_paper.THIN
    root = ElementTree.fromstring(drawing)
    assert float(str(named(root, "edge")[0].get("stroke-width"))) == svg_paper.THICK
    assert float(str(root.get("stroke-width"))) == svg_paper.THIN
    assert path(drawing, "metal")
    assert all(svg_paper.CHAIN in str(one.get("stroke-dasharray")) for one in named(root, "zero")[0])
    assert list(root.iter(f"{SVG}text")) and not list(root.iter(f"{SVG}image"))
