"""A bare whole number that is large for a cut may be one of millimetres: it is said, and answered all the same. From
memory."""

from __future__ import annotations

import pytest

from tests.cli.conftest import Crib


@pytest.mark.parametrize(("width", "told"), [("10", True), ("4", True), ("1/2", False), ("3", False), ("10mm", False),
                                            ("10in", False), ("10.000", False)])
def test_it_is_asked_after(crib: Crib, width: str, told: bool) -> None:
    crib("take-in", "--kind", "end-mill", "--diameter", "3/8", "--shank", "3/8")
    said = crib("make", "slot", "--width", width, "--depth", "1/4", "--length", "12")
    assert ("is read as inches; if it is millimetres say 10mm" in said.err.replace("say 4mm", "say 10mm")) == told
    assert said.status != 2


def test_in_a_crib_of_millimetres_nothing_is(crib: Crib) -> None:
    crib("take-in", "--kind", "end-mill", "--diameter", "3/8", "--shank", "3/8", "--units", "mm")
    assert "inches" not in crib("--units", "mm", "make", "slot", "--width", "10", "--depth", "5").err
