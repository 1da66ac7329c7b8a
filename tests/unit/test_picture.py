"""The picture, read back: sizes in proportion, the cutter where it stands, nothing wider than asked."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from crib.findings.message import Measure
from crib.geometry.region import box, trapezoid
from crib.pages.scene import DimensionLine, Scene
from crib.pages.scenes import scene_of
from crib.render import window
from crib.render.terminal import picture
from crib.render.terminal.picture import of_scene
from crib.render.terminal.strokes import can_draw_lines
from crib.units.words import words
from tests.sheet_samples import FAR, keyseat_form, nm, scene
from tests.sheets import answered

HEADING = 2
"""Lines over the picture."""


def grid_of(shown: Scene, width: int = 100) -> window.Grid:
    return picture.grid_of(shown, "in", width)


def cells(rows: list[str], glyphs: str) -> list[tuple[int, int]]:
    return [(r, c) for r, row in enumerate(rows) for c, glyph in enumerate(row) if glyph in glyphs]


def body(shown: Scene, width: int = 100) -> tuple[window.Grid, list[str]]:
    """The picture's own rows and columns, without headings, margins and feet."""
    grid = grid_of(shown, width)
    rows = of_scene(shown, "in", width)[HEADING : HEADING + grid.rows]
    return grid, [row.ljust(grid.columns)[: grid.columns] for row in rows]


@pytest.mark.parametrize("width", [60, 80, 100, 140])
def test_throat_head_and_depth_are_to_scale(width: int) -> None:
    shown = scene()
    grid, rows = body(shown, width)
    corners = {glyph: cells(rows, glyph) for glyph in "┐┌└┘"}
    surface = grid.row(0)
    left, right = (next(c for r, c in corners[glyph] if r == surface) for glyph in "┐┌")
    assert abs((right - left) - nm(0.625) / grid.cell) <= 1
    floor = max(r for r, _ in corners["└"])
    head = [c for glyph in "└┘" for r, c in corners[glyph] if r == floor]
    assert abs((max(head) - min(head)) - nm(0.975) / grid.cell) <= 1
    assert abs((floor - surface) - nm(0.520) / grid.tall) <= 1
    ceiling = min(r for r, _ in corners["└"])
    assert abs((floor - ceiling) - nm(0.240) / grid.tall) <= 1


@pytest.mark.parametrize(("x", "z"), [(0.175, -0.52), (-0.175, -0.52), (0.0, -0.4675), (0.1, -0.5)])
def test_the_cutter_stands_where_it_stands(x: float, z: float) -> None:
    shown = scene(x=x, z=z)
    grid, rows = body(shown)
    teeth = [c for _, c in cells(rows, "█▌▐▄▀▖▗▘▝")]
    assert abs(min(teeth) + 0.5 - (nm(x - 0.3125) - grid.left) / grid.cell) <= 1
    assert abs(max(teeth) + 0.5 - (nm(x + 0.3125) - grid.left) / grid.cell) <= 1
    neck = [c for _, c in cells(rows, "▒")]
    assert abs((min(neck) + max(neck) + 1) / 2 - (nm(x) - grid.left) / grid.cell) <= 1
    lowest = max(r for r, _ in cells(rows, "█▌▐▄▀▖▗▘▝"))
    assert abs(lowest + 1 - (grid.top - nm(z)) / grid.tall) <= 1
    assert rows and cells(rows, "░")


def test_it_is_the_same_from_both_sides() -> None:
    swap = str.maketrans("┐┌└┘▌▐", "┌┐┘└▐▌")
    _, right = body(scene(x=0.175))
    _, left = body(scene(x=-0.175))
    plain = str.maketrans("╱", " ")
    for a, b in zip(right, left, strict=True):
        if any(glyph.isalpha() or glyph in "◄►" for glyph in a + b):
            continue
        assert a.translate(plain).rstrip() == b.translate(plain)[::-1].translate(swap).rstrip()


def test_a_neck_that_clears_by_less_than_a_cell_shows_air() -> None:
    shown = scene()
    grid, rows = body(shown)
    for row in rows[grid.row(0) + 1 : grid.row(nm(-0.27))]:
        assert row[row.rindex("▒") + 1] == " "


def test_a_neck_that_rubs_is_drawn_against_the_wall() -> None:
    shown = scene(form=keyseat_form(neck=0.275))
    grid, rows = body(shown)
    row = rows[grid.row(0) + 2]
    assert row[row.rindex("▒") + 1] == "│"


def test_the_tight_spot_is_marked_with_its_number() -> None:
    said = "\n".join(of_scene(scene(), "in"))
    assert "◄─ neck clears" in said and "by .0125" in said


def test_a_tight_spot_on_the_left_is_pointed_at_from_the_left() -> None:
    shown = scene(x=-0.175)
    assert shown.tight is not None
    spot = type(shown.tight)(9, "neck", -0.3 * 25.4, -0.28 * 25.4, 0.3175)
    rows = of_scene(Scene(shown.stock, shown.finished, shown.form, shown.x_nm, shown.z_nm, spot), "in")
    row = next(row for row in rows if "─►" in row)
    assert row.index("─►") < row.index("▒")


def test_the_number_goes_below_where_the_metal_has_no_room_for_it() -> None:
    shown = scene()
    assert shown.tight is not None
    long = "the neck of this cutter that was ground from a blank last winter for a slot with a narrow throat"
    rows = of_scene(replace(shown, tight=replace(shown.tight, part=long), dimensions=()), "in", 60)
    assert f"{long} clears by .0125" in " ".join(" ".join(rows).split()) and max(map(len, rows)) <= 60


def test_sizes_stand_beside_and_below() -> None:
    rows = of_scene(scene(), "in")
    assert any("├" in row and "throat .625" in row and "┤" in row for row in rows)
    assert any(row.endswith("│ depth .520") for row in rows) and any(row.endswith("│ head height .240") for row in rows)


def test_plain_ascii_where_lines_cannot_be_written() -> None:
    rows = of_scene(scene(), "in", lines=False)
    assert "\n".join(rows).isascii() and "#" in "".join(rows)
    assert not can_draw_lines("ascii") and not can_draw_lines("latin-1") and can_draw_lines("UTF-8")


def test_a_slanted_wall_is_drawn_aslant() -> None:
    finished = trapezoid(nm(-0.4), 0, nm(-0.75), nm(0.75), nm(-0.52), nm(0.52))
    rows = of_scene(Scene(box(-FAR, -FAR, FAR, 0), finished, keyseat_form(), 0, nm(-0.4)), "in")
    slant = [row.index("╲") for row in rows if "╲" in row]
    assert len(slant) > 3 and slant == sorted(slant)


def test_a_step_open_at_its_side() -> None:
    stock = box(-FAR, -FAR, nm(0.75), 0)
    rows = of_scene(Scene(stock, box(0, nm(-0.5), nm(0.75), 0), keyseat_form(), nm(0.3125), nm(-0.5)), "mm")
    assert "cutter at cross +7.938, Z -12.700" in rows[0]
    assert max(map(len, rows)) <= 100


def test_stock_and_feature_without_end_are_cut_off() -> None:
    shown = of_scene(Scene(box(-FAR, -FAR, FAR, 0), box(0, nm(-0.5), FAR, 0), keyseat_form(), nm(0.32), nm(-0.5)), "in")
    assert "█" in "".join(shown)


@settings(max_examples=60, deadline=None)
@given(
    throat=st.floats(0.1, 1.5), more=st.floats(0.02, 1.0), depth=st.floats(0.1, 2.0), part=st.floats(0.1, 0.9),
    width=st.integers(40, 120), lines=st.booleans(),
)
def test_never_wider_than_asked(throat: float, more: float, depth: float, part: float, width: int, lines: bool) -> None:
    shown = scene(throat, depth, throat + more, depth * part, 0.1, -depth)
    rows = of_scene(shown, "in", width, lines)
    assert max(map(len, rows)) <= width and len(rows) <= 40
    assert "\x1b" not in "".join(rows)


def test_labels_of_any_length_stay_within_the_width() -> None:
    shown = scene()
    sizes = (DimensionLine("a size " * 12, True, nm(-0.3), nm(0.3)),
             DimensionLine("another size " * 9, False, nm(-0.5), 0))
    rows = of_scene(replace(shown, x_nm=0, tight=None, dimensions=sizes), "in", 60)
    assert max(map(len, rows)) <= 60


def test_signs_of_one_column() -> None:
    """As the library that knows the widths of all signs has them; ours are known without it."""
    from rich.cells import cell_len

    from crib.render.text import _NARROW, wide

    assert [sign for sign in _NARROW if wide(sign) != cell_len(sign)] == []


@pytest.mark.parametrize("name", ["keyseat", "closed keyseat", "slot", "step", "t-slot", "undercut", "facing", "hole"])
@pytest.mark.parametrize(("units", "dro"), [("mm", True), ("in", False)])
def test_the_cutter_is_said_to_stand_where_it_is_dialled(name: str, units: str, dro: bool) -> None:
    """A readout counts by 0.005 mm, a dial by a thou: over the picture stands what the table of passes has, not the
    place in between that was reckoned with."""
    proved = answered(name, units, dro).proved[0]
    head = of_scene(scene_of(proved), units, 100)[0]
    dials = {(Measure(one.dial_x_mm, sign=True), Measure(one.dial_z_mm)) for one in proved.plan.passes}
    assert any(f"cross {words(x, units)}, Z {words(z, units)}" in head for x, z in dials)
