"""The page of every way on the sample bench is what the program finds today."""

from __future__ import annotations

import pytest

from tests.docs import ways
from tests.docs.ways import DRAWINGS, HEAD, PAGE, RENEW, Asked

THINGS = list(ways.everything())


@pytest.mark.parametrize("asked", THINGS, ids=lambda asked: asked.name)
def test_it_says_what_is_found(asked: Asked) -> None:
    """Each kind that is registered stands there, its ways and its drawings to the letter."""
    text, drawings = ways.section(asked)
    assert text in PAGE.read_text(encoding="utf-8"), RENEW
    for name, drawing in drawings.items():
        assert (DRAWINGS / name).read_text(encoding="utf-8") == drawing, RENEW


def test_nothing_else_stands_there() -> None:
    page = PAGE.read_text(encoding="utf-8")
    assert page.startswith(HEAD)
    assert [line[3:] for line in page.splitlines() if line.startswith("## ")] == [asked.title for asked in THINGS]
    assert {path.name for path in DRAWINGS.glob("*.svg")} == {
        part.split(")")[0] for part in page.split("](ways/")[1:]}, RENEW
