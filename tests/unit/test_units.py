"""A page speaks in one sort of units: whoever reads millimetres never meets a thou, nor the other way round."""

from __future__ import annotations

import re

import pytest

from crib.features import draw
from crib.planning.ask import read_request
from crib.shop import Shop
from tests.docs.findings import templates
from tests.spelt import spelt
from tests.trials import units


@pytest.mark.parametrize("shown", ["in", "mm"])
def test_pages_keep_to_their_units(shown: str) -> None:
    """A few of the random questions of the trial, which asks hundreds; cutters keep the names they are stamped with."""
    labels = sorted({cutter.label for cutter in units.cutters_in(shown)}, key=len, reverse=True)
    told = 0
    for kind, texts, page in units.pages(30, 5, shown):
        assert not units.wrong(page, shown, labels), (kind, texts)
        told += bool(page)
    assert told == 30


def test_what_is_wrong_is_seen() -> None:
    """Inches on a metric page and millimetres on an inch page are faults (the law would else hold of anything)."""
    for page in ("set to .125", "feed 8.0 in/min", "within 2 in of each other", "0.4 hp"):
        assert units.wrong(page, "mm", [])
    for page in ("torque 2.8 N m", "feed 203 mm/min", "down 0.125", "12.75 mm deep"):
        assert units.wrong(page, "in", [])
    assert not units.wrong("no collet takes the 10 mm shank, down .125", "in", [])


@pytest.mark.parametrize(("kind", "sizes", "said"), [
    ("slit", {"width": "1.6", "depth": "6", "length": "40"}, "25.4 mm from the slit"),
    ("undercut", {"width": "3", "depth": "2", "length": "40"}, "6.35 mm high")])
def test_what_is_assumed_is_in_the_units_asked(kind: str, sizes: dict[str, str], said: str) -> None:
    feature = draw(read_request(kind, sizes, Shop(units="mm"), "mm"))
    assert any(said in spelt(text, "mm") for text in feature.assumed)


def test_no_sentence_holds_a_length_in_one_unit() -> None:
    """What is said is a template: a figure in it would be the same to both readers. `.4 of its diameter` was
    an inch shop's way on metric pages. One that names both says so."""
    figure = re.compile(r"(?<![\d.\w])\.\d|\b0\.\d|\b\d+(?:\.\d+)? ?(?:mm|in|thou|inch(?:es)?)\b(?! a)")
    both = {"microinches"}
    assert len(templates()) > 500
    for one in templates():
        bare = re.sub(r"\{[^}]*\}", "", one.says)
        assert not figure.search(bare) or any(word in bare for word in both), (one.id, one.says)
