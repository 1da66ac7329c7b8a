"""The view from above, read back: sizes in proportion, the disc where it stands, what is left out, nothing too wide."""

from __future__ import annotations

from dataclasses import replace
from math import cos, hypot, pi, sin
from typing import Any

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from crib.cutters.base import Cutter
from crib.features.request import Request
from crib.geometry.box_outline import nearest_edge
from crib.geometry.rounded_box import RoundedBox, oblong
from crib.pages.above import seen_from_above
from crib.pages.scene import FromAbove
from crib.planning.advise import Answered, advise
from crib.render.terminal import plan_view
from crib.render.terminal.plan_view import of_scene
from crib.render.terminal.pointer import said
from crib.render.terminal.stretch import BREAK
from tests.sheet_samples import from_above, nm
from tests.unit.test_closed_ends import DISC, INCH, OWN, SHOP, mill, size, slot, t_slot

EIGHTHS = {"█": 8, "▛": 6, "▜": 6, "▙": 6, "▟": 6, "▌": 4, "▐": 4, "▀": 4, "▄": 4, "▚": 4, "▞": 4, "▘": 2, "▝": 2,
           "▖": 2, "▗": 2}


def drawn(scene: FromAbove, width: int = 100) -> list[str]:
    """The rows of the view itself, without headings, sizes and key."""
    rows = of_scene(scene, "in", width)
    first = next(at for at, row in enumerate(rows) if row.strip() == "▼") + 1
    last = next(at for at, row in enumerate(rows) if row.strip() == "table 0" or "length" in row)
    return rows[first:last]


def open_slot(**more: Any) -> FromAbove:
    """The disc in a slot so wide that its edge hides nothing of it, and of which nothing is said."""
    return replace(from_above(throat=1.5, head=1.5, teeth=0.6, neck=0.0, **more), spot=None, tight=None, body=None)


@pytest.mark.parametrize("width", [60, 100])
def test_the_disc_is_round_and_to_scale(width: int) -> None:
    """Its area is pi r^2 and its middle the axis (geometry), to what quarters of a cell can show."""
    scene = open_slot(x=1.2, y=0.15)
    grid = plan_view.choose(scene, width, said(scene, "in"))
    weights = [(r, c, EIGHTHS[glyph] / 8) for r, row in enumerate(drawn(scene, width)) for c, glyph in enumerate(row)
               if glyph in EIGHTHS]
    area = sum(weight for *_, weight in weights)
    assert area * 2 * grid.cell**2 == pytest.approx(pi * nm(0.3) ** 2, rel=0.12)
    middle = sum(c * weight for _, c, weight in weights) / area
    assert abs(middle - grid.column(scene.x_nm)) <= 0.75
    high, low = min(r for r, *_ in weights), max(r for r, *_ in weights)
    assert abs((high + low) / 2 - grid.row(scene.y_nm)) <= 1


@pytest.mark.parametrize(("length", "width"), [(0.98, 60), (0.98, 100), (2.0, 60), (3.5, 100)])
def test_a_whole_one_is_as_long_as_it_is_drawn(length: float, width: int) -> None:
    scene = from_above(length, x=length / 2 - 0.3125)
    grid = plan_view.choose(scene, width, said(scene, "in"))
    assert not grid.breaks
    rows = of_scene(scene, "in", width)
    sized = next(row for row in rows if "length" in row)
    assert abs(len(sized) - 1 - sized.index("├") - nm(length) / grid.cell) <= 1
    across = [r for r, row in enumerate(drawn(scene, width)) if "╌╌╌╌╌╌" in row]
    assert abs((max(across) - min(across)) - nm(0.975) / (2 * grid.cell)) <= 1, "the head, a row twice a column"


@pytest.mark.parametrize("width", [60, 100])
@pytest.mark.parametrize("length", [6.0, 12.0, 400.0])
def test_a_long_one_is_broken_and_its_deciding_end_shown(length: float, width: int) -> None:
    """However long: the scale is that of the widths, the disc and both kinds of outline at its end are there."""
    scene = from_above(length, x=length / 2 - 0.3125)
    grid = plan_view.choose(scene, width, said(scene, "in"))
    assert grid.breaks and not grid.shows(0)
    assert grid.shows(scene.x_nm - scene.teeth) and grid.shows(nm(length / 2))
    assert grid.rows >= 11
    rows = drawn(scene, width)
    for start in grid.breaks:
        zigzag = {row[start:start + BREAK] for row in (one.ljust(width) for one in rows)}
        assert {"╲  ╲", "╱  ╱"} <= zigzag
    assert of_scene(scene, "in", width)[-1].endswith("╲╱ left out")


def test_the_hole_is_shown_before_the_other_end() -> None:
    scene = from_above(12.0, x=5.6875, hole=0.7)
    wide, narrow = plan_view.choose(scene, 100), plan_view.choose(scene, 60)
    assert len(wide.pieces) == 3 and wide.shows(0) and wide.shows(scene.zero)
    assert len(narrow.pieces) == 2 and narrow.shows(0) and not narrow.shows(scene.zero) and narrow.from_break
    rows = of_scene(scene, "in", 60)
    assert any("entry hole" in row and "├" in row for row in rows) and any("·" in row for row in rows)
    assert not any("table 0" in row for row in rows), "the end that it counts from isn't there"
    assert next(row for row in rows if "length" in row).lstrip().startswith("─")


@pytest.mark.parametrize(("more", "arrow"), [
    ({}, "▼"), ({"y": -0.175}, "▲"), ({"x": 1.83, "y": 0.0}, "◄"), ({"x": -1.83, "y": 0.0}, "►"),
])
@pytest.mark.parametrize("width", [60, 100])
def test_the_arrow_stands_in_the_metal_and_points_at_the_neck(more: dict[str, float], arrow: str, width: int) -> None:
    scene = from_above(**more)  # type: ignore[arg-type]
    rows = drawn(scene, width)
    assert sum(row.count(arrow) for row in rows) == 1
    assert " ".join(" ".join(of_scene(scene, "in", width)).split()).count("clears") == 1
    at = next((r, row.index(arrow)) for r, row in enumerate(rows) if arrow in row)
    beside = {"▼": (1, 0), "▲": (-1, 0), "◄": (0, -1), "►": (0, 1)}[arrow]
    assert rows[at[0] + beside[0]][at[1] + beside[1]] in "─│╭╮╰╯"


@settings(max_examples=60, deadline=None)
@given(
    length=st.floats(0.1, 500.0), throat=st.floats(0.05, 4.0), more=st.floats(0.0, 2.0), share=st.floats(0.05, 1.0),
    beside=st.floats(-1.0, 1.0), past=st.floats(-0.3, 0.3), hole=st.booleans(), is_open=st.booleans(),
    width=st.integers(60, 100), lines=st.booleans(),
)
def test_nothing_is_too_wide_or_too_tall(
    length: float, throat: float, more: float, share: float, beside: float, past: float, hole: bool, is_open: bool,
    width: int, lines: bool,
) -> None:
    """Whatever the sizes: no line over the width, no picture over a page, ASCII where asked, the disc in sight."""
    assume(length >= throat)
    head = throat + more
    teeth, neck = head * share, throat * share / 2
    y = beside * max(0.0, (throat - neck) / 2)
    scene = from_above(length, throat, head, max(-length / 2, length / 2 - teeth / 2), y, head if hole and not is_open
                       else 0.0, is_open, max(past, -length / 4), teeth, neck)
    rows = of_scene(scene, "in", width, lines)
    assert all(len(row) <= width for row in rows) and len(rows) <= 30
    assert lines or "".join(rows).isascii()
    assert plan_view.choose(scene, width).shows(scene.x_nm)


@settings(max_examples=60, deadline=None)
@given(x=st.integers(-40, 40), y=st.integers(-10, 10), angle=st.floats(0, 2 * pi))
def test_the_nearest_edge_is_on_the_outline_and_nothing_is_nearer(x: int, y: int, angle: float) -> None:
    """Two rooms that cross: every way from the point leads at least so far before it leaves them."""
    shapes = frozenset({oblong(-60_000, 60_000, 20_000, 20_000), RoundedBox(0, 0, 0, 0, 30_000)})
    at = (x * 1000.0, y * 1000.0)
    spot = nearest_edge(*at, shapes)
    assert spot is not None
    assert min(abs(one.off(*spot)) for one in shapes) < 1
    away = 0.999 * hypot(spot[0] - at[0], spot[1] - at[1])
    towards = at[0] + away * (spot[0] - at[0]) / max(1.0, away), at[1] + away * (spot[1] - at[1]) / max(1.0, away)
    assert any(one.off(*towards) <= 1 for one in shapes)
    assert any(one.off(at[0] + away * cos(angle), at[1] + away * sin(angle)) <= 1 for one in shapes)


def planned(request: Request, *cutters: Cutter) -> tuple[Answered, FromAbove]:
    found = advise(request, cutters, SHOP)
    scene = seen_from_above(found.proved[0])
    assert scene is not None
    return found, scene


@pytest.mark.parametrize("request_", [
    t_slot(), t_slot(head_length=size(2.310, 0.005)),
    t_slot(head=0.800, length=1.2, head_length=size(1.51, 0.01)),
], ids=["at the wall", "in the round end", "a short one"])
def test_a_plan_is_drawn_at_its_tightest_stop(request_: Request) -> None:
    """The words are the proof's own, and the gap that the drawing has is that gap (geometry)."""
    found, scene = planned(request_, OWN, DISC)
    tight = found.advice.plans[0].proof.tight
    assert tight is not None and scene.spot is not None and scene.body is not None
    assert scene.pass_no == tight.pass_no
    assert scene.tight is not None and scene.tight.gap_mm == pytest.approx(tight.gap_mm)
    away = hypot(scene.spot[0] - scene.x_nm, scene.spot[1] - scene.y_nm) - scene.body.widest
    assert away / 1e6 == pytest.approx(tight.gap_mm, abs=1e-5)
    one = found.advice.plans[0].passes[tight.pass_no - 1]
    assert scene.along_mm == one.dial_to_mm
    heading = of_scene(scene, "in", 100)[0]
    assert f"pass {one.no}: stop at table " in heading
    assert float(heading.split("table ")[1].split(",")[0]) == pytest.approx(scene.along_mm / INCH, abs=0.00051)
    drawn = {one.name: one.mm for one in scene.dimensions}
    asked = {"length": request_.size("length"), "head": request_.sizes.get("head_length", request_.size("length"))}
    assert all(asked[name].lo <= drawn[name] <= asked[name].hi for name in ("length", "head"))


def test_a_head_that_runs_past_its_throat_and_a_hole_are_told() -> None:
    """2.32 and .700 as asked; the disc's axis at its stop is 2.32 / 2 - .300 from the middle (geometry)."""
    _, scene = planned(t_slot(head_length=size(2.320, 0.010), entry_hole=size(0.700)), OWN, DISC)
    sizes = [(one.name, round(one.mm / INCH, 3)) for one in scene.dimensions]
    assert sizes[:2] == [("entry hole", 0.7), ("length", 2.0)] and sizes[2][0] == "head" and 2.3 <= sizes[2][1] < 2.4
    rows = "\n".join(of_scene(scene, "in", 100))
    assert all(said in rows for said in ("entry hole .700", "length 2.000", "head 2.3"))
    assert scene.x_nm <= nm(2.320 / 2 - 0.300) + nm(0.0055)
    assert scene.x_nm + nm(1.0) == pytest.approx(scene.along_mm * 1e6, abs=nm(0.001))


def test_a_slot_shows_the_mill_at_its_last_stop() -> None:
    _, scene = planned(slot(), mill(1, 0.5, 1.0))
    rows = of_scene(scene, "in", 100)
    assert scene.body is None and scene.spot is None and rows[-1] == "██ teeth"
    assert "stop at table 1.750, cross .000" in rows[0]


@pytest.mark.parametrize("kind", ["slot", "t-slot"])
def test_one_closed_end_shows_that_end(kind: str) -> None:
    """The axis stops half a mill before the length; the other end opens into air at 0."""
    request = slot() if kind == "slot" else t_slot()
    _, scene = planned(replace(request, ends="one", length=2.0 * INCH), mill(1, 0.5, 1.0), OWN, DISC)
    rows = of_scene(scene, "in", 60)
    assert scene.is_open and scene.zero == 0 and scene.dimensions[0].name == "length"
    assert any("length 2.000" in row for row in rows)
    assert (kind == "t-slot") == any("under the lip" in row for row in rows)
    at = next(r for r, row in enumerate(rows) if row.strip() == "▼")
    begins = {row[:len(row) - len(row.lstrip()) + 1][-1:] for row in rows[at + 1:] if row[:4].strip()}
    assert begins & set("╯╮╭╰"), "the walls turn into the face that it opens at"


def test_open_ends_have_no_view_from_above() -> None:
    found = advise(replace(t_slot(), ends="open"), (OWN, DISC), SHOP)
    assert found.proved and seen_from_above(found.proved[0]) is None
