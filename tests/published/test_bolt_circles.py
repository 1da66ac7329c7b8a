"""Chords of equally spaced holes against the handbooks' table of coefficients for a circle of 1 in: Machinery's
Handbook, lengths of chords for spacing off the circumference of circles (from memory, to its printed digits)."""

from __future__ import annotations

import pytest

from crib.handbook.circles import chord

TABLE = {3: "0.866025", 4: "0.707107", 5: "0.587785", 6: "0.500000", 7: "0.433884", 8: "0.382683", 9: "0.342020",
         10: "0.309017", 12: "0.258819", 16: "0.195090", 24: "0.130526"}


@pytest.mark.parametrize(("number", "printed"), TABLE.items())
def test_chords_are_the_tables(number: int, printed: str) -> None:
    assert f"{chord(1.0, number):.6f}" == printed
