"""What a size outside of the drawing means: whether cutting on mends it, or that metal is gone."""

from __future__ import annotations

import pytest

from crib.app.part.measured import takes_more
from crib.features import draw
from crib.planning.ask import read_request
from crib.shop import from_json
from tests.sheets import SHOP

SLOT = {"width": "1/2", "depth": "1/4"}
T_SLOT = {"throat": "5/8", "depth": ".520", "head_width": ".975", "head_height": ".240"}
SLIDE = {"angle": "60", "width": "1.200", "height": ".280"}
FLATS = {"across": "1/2", "number": "6", "length": "3/8", "stock": "5/8"}
GIB = {"height": ".300", "gib": "1/8", "thickness": "3/4", "thread": "1/4-28"}


@pytest.mark.parametrize(("kind", "texts", "size", "shrinks"), [
    ("slot", SLOT, "slot width", False), ("slot", SLOT, "slot depth", False),
    ("t-slot", T_SLOT, "throat width", False), ("t-slot", T_SLOT, "head height", False),
    ("dovetail-slide", SLIDE, "root width", True), ("dovetail-slide", SLIDE, "height", False),
    ("flats", FLATS, "flat from the bar's middle", True), ("flats", FLATS, "length of the flats", False),
    ("gib-screw-holes", GIB, "wall", True)])
def test_cutting_on_mends_what_is_too_small_only_where_it_makes_it_larger(kind: str, texts: dict[str, str], size: str,
                                                                          shrinks: bool) -> None:
    """A wall for gib screws that came out too thin, and a flat too near the bar's middle, were told as metal left, to
    be cut again: that would have made the work worse. By the drawing alone: what is cut away lies outside of a wall, a
    flat and a slide's root, and inside of all the rest."""
    feature = draw(read_request(kind, texts, from_json(SHOP), "in"))
    dimension = next(one for one in feature.dimensions if one.name == size)
    assert takes_more(feature, dimension, is_small=True) is not shrinks
    assert takes_more(feature, dimension, is_small=False) is shrinks
