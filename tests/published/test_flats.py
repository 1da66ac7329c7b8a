"""Across corners from across flats: 1.1547 for a hexagon and 1.4142 for a square, Machinery's Handbook, distances
across corners of squares and hexagons; turns of a dividing head of 40: the handbook's table of simple indexing. From
memory."""

from __future__ import annotations

import pytest

from crib.handbook.indexing import crank, stock_for

CORNERS = [(6, 0.5, "0.5774"), (6, 1.0, "1.1547"), (6, 0.75, "0.8660"), (4, 1.0, "1.4142"), (4, 0.5, "0.7071")]
TURNS = [(2, 20, 0), (3, 13, 13 / 39), (4, 10, 0), (5, 8, 0), (6, 6, 26 / 39), (7, 5, 35 / 49), (8, 5, 0),
         (9, 4, 12 / 27), (10, 4, 0), (12, 3, 13 / 39)]


@pytest.mark.parametrize(("number", "across", "printed"), CORNERS)
def test_across_corners(number: int, across: float, printed: str) -> None:
    assert f"{stock_for(across, number):.4f}" == printed


@pytest.mark.parametrize(("number", "turns", "more"), TURNS)
def test_turns_of_forty(number: int, turns: int, more: float) -> None:
    found = crank(40, 1, number)
    assert found.turns == turns
    assert (found.holes / found.circle if found.circle else 0) == pytest.approx(more)
