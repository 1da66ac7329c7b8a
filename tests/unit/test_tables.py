"""Tables in a terminal: what is needed least goes first and is named, and no number is ever cut."""

from __future__ import annotations

import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from crib.findings.message import Measure, Mm, Rate
from crib.pages.blocks import Align, Column, Fit, Paragraph, Row, Table, table
from crib.render.terminal import lines as terminal
from crib.render.text import wide
from tests.shown import shown

COLUMNS = (
    Column("no"), Column("what", wraps=True), Column("Z", Align.POINT), Column("rpm", Align.RIGHT, 2, "no. 3 at 380"),
    Column("min", Align.RIGHT, 1), Column("nothing"),
)
ROWS = (Row(("1", "roughing cut", Measure(-4.318), "380", "2.6", ""), (Paragraph("at Z -.170", indent=6),)),
        Row(("2", "finish", Measure(-11.8745), "380", "12.6", "")))


def test_all_of_it_where_there_is_room() -> None:
    """Points stand under each other; a column in which nothing stands isn't there."""
    assert shown([Table(COLUMNS, ROWS)]) == [
        "no  what               Z  rpm   min",
        "1   roughing cut  -.170   380   2.6",
        "      at Z -.170",
        "2   finish        -.4675  380  12.6",
    ]


def test_the_least_important_goes_first_and_what_it_said_is_said_below() -> None:
    assert shown([Table(COLUMNS, ROWS)], width=32)[0] == "no  what               Z  rpm"
    assert shown([Table(COLUMNS, ROWS)], width=32)[-2:] == ["  left out for want of width:", "  min"]
    assert shown([Table(COLUMNS, ROWS)], width=24)[1] == "1   roughing cut  -.170"
    assert shown([Table(COLUMNS, ROWS)], width=20)[:5] == [
        "no  what           Z",
        "1   roughing  -.170",
        "    cut",
        "      at Z -.170",
        "2   finish    -.4675",
    ]
    assert "  rpm: no. 3 at 380" in shown([Table(COLUMNS, ROWS)], width=20)


@settings(max_examples=60, deadline=None)
@given(width=st.integers(20, 60), words=st.text("abc ", min_size=1, max_size=40))
def test_never_too_wide_and_no_number_cut(width: int, words: str) -> None:
    """However narrow: Z stands in its row to its last digit, every line within the width."""
    rows = (Row(("1", words, Measure(-11.8745), "380", "2.6", "")),)
    found = shown([Table(COLUMNS, rows)], width=width)
    assert all(len(line) <= width for line in found)
    assert "-.4675" in found[1]
    assert all(number in ("1", "-.4675", "380", "2.6") for number in re.findall(r"-?[\d.]*\d", found[1]))


def test_a_table_that_must_not_lose_a_column_becomes_a_list_or_wraps() -> None:
    cells = [("no. 7, 5/8 x 3/16 keyseat cutter", "drawer B2", "sharp")]
    assert shown([table(("",) * 3, cells, Fit.LIST, 2)], width=40) == [
        "  no. 7, 5/8 x 3/16 keyseat cutter,", "    drawer B2, sharp"]
    assert shown([table(("",) * 3, cells, Fit.WRAP, 2)], width=40) == [
        "  no. 7, 5/8 x 3/16 keyseat cutter", "    drawer B2  sharp"]
    assert shown([table(("",) * 3, cells, Fit.ALL, 2)], width=40) == [
        "  no. 7, 5/8 x 3/16  drawer B2  sharp", "  keyseat cutter"]


def test_a_list_that_a_program_reads_keeps_each_row_on_a_line() -> None:
    cells = [("no. 7, 5/8 x 3/16 keyseat cutter", "drawer B2", "sharp")]
    assert len(terminal.lines([table(("",) * 3, cells, Fit.ALL)], "in", 40, whole=True)) == 1


@settings(max_examples=60, deadline=None)
@given(st.lists(st.tuples(*[st.text("ab刀 ", max_size=30)] * 3), min_size=1, max_size=4), st.integers(30, 80))
def test_wrapped_cells_lose_no_word_and_stay_within_the_width(cells: list[tuple[str, ...]], width: int) -> None:
    """Words longer than their column are parted; every sign is still there."""
    found = shown([table(("",) * 3, cells, Fit.ALL)], width=width)
    assert all(wide(line) <= width for line in found)
    assert sorted(signs("".join(found))) == sorted(signs("".join("".join(row) for row in cells)))


def signs(text: str) -> str:
    """The signs of a text without blanks and commas: a row too narrow for columns is told with commas."""
    return "".join(text.replace(",", "").split())


@pytest.mark.parametrize(("units", "cells"), [("in", [".500", "8.0"]), ("mm", ["12.700", "203"])])
def test_cells_are_spelt_by_the_unit(units: str, cells: list[str]) -> None:
    """12.7 mm is half an inch, 203.2 mm/min are 8 in/min: 25.4 mm to the inch."""
    assert shown([table(("", ""), [(Mm(12.7), Rate(203.2))])], units)[0].split() == cells


def test_arrows_are_left_out_where_they_cannot_be_written() -> None:
    blocks = [table(("feed", "Z"), [("→ right", "1"), ("toward you", "2")])]
    assert shown(blocks, lines=False) == ["feed        Z", "right       1", "toward you  2"]


def test_signs_that_take_two_columns_take_two() -> None:
    """A terminal shows a CJK sign two columns wide (UAX 11)."""
    rows = shown([table(("what", "Z"), [("刀刀", "1"), ("mill", "2")])])
    assert rows == ["what  Z", "刀刀  1", "mill  2"]


def test_what_would_move_the_cursor_is_spelt_out() -> None:
    assert "\x1b" not in "".join(shown([table(("a",), [("red \x1b[31m\nand on",)])]))
