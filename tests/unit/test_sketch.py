"""What is asked for as it is drawn while it is being typed, read back: sizes to a thousandth of a millimetre."""

from __future__ import annotations

from math import hypot
from xml.etree import ElementTree

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from crib.app.sketch import example, sketch
from crib.features import KINDS
from crib.features.base import Feature
from crib.pages.sketch import outlined
from crib.render.svg import sketch as svg_sketch
from tests.unit.test_drawings import lines, path, scale_of

INCH = 25.4


def drawn(feature: Feature, units: str = "in", with_sizes: bool = True) -> str:
    return svg_sketch.sketch(outlined(feature.outline, feature.down is not None), units, "asked", with_sizes)


@settings(max_examples=30, deadline=None)
@given(throat=st.integers(100, 1000), more=st.integers(40, 800), head=st.integers(60, 700), lip=st.integers(60, 700))
def test_a_t_slot_is_drawn_as_it_is_typed(throat: int, more: int, head: int, lip: int) -> None:
    """Its corners are known from its four sizes alone (whole thousandths of an inch)."""
    texts = {"throat": f".{throat:03}" if throat < 1000 else "1.000", "depth": f"{(head + lip) / 1000:.3f}",
             "head_width": f"{(throat + more) / 1000:.3f}", "head_height": f"{head / 1000:.3f}"}
    found = sketch("t-slot", texts, "in")
    assert not found.filled and not found.failed
    drawing = drawn(found.feature)
    scale = scale_of(drawing)
    edges = lines(path(drawing, "edge"))
    lengths = [hypot(c - a, d - b) / scale / INCH * 1000 for a, b, c, d in edges]
    for thou in (lip, head, more / 2):
        assert sum(length == pytest.approx(thou, abs=0.04) for length in lengths) >= 2
    told = [one.text for one in ElementTree.fromstring(drawing).iter() if one.tag.endswith("text")]
    assert any(one and one.startswith("throat") and str(throat / 1000)[1:4] in one for one in told)


@pytest.mark.parametrize("name", KINDS)
def test_every_kind_is_drawn_by_what_is_said_so_far(name: str) -> None:
    """By one size alone: what isn't said yet is drawn along, and no size is told that nobody typed."""
    kind = KINDS[name]
    assert not sketch(name, kind.example, "in").failed
    for key in [one.key for one in kind.sizes if one.key in kind.example]:
        found = sketch(name, {key: kind.example[key]}, "in")
        assert found.failed is None and key not in found.filled
        if found.filled:
            drawing = drawn(found.feature, with_sizes=False)
            assert not any(sign.isdigit() for one in ElementTree.fromstring(drawing).iter() for sign in one.text or "")


@pytest.mark.parametrize("units", ["in", "mm"])
def test_an_example_stays_in_its_proportions_whatever_the_units(units: str) -> None:
    twice = sketch("t-slot", {"throat": "1.25in"}, units).feature.outline.aim
    once = example("t-slot").outline.aim
    box, small = ([max(span.right_high for slab in region.slabs for span in slab.spans),
                   min(slab.low for slab in region.slabs)] for region in (twice, once))
    assert [a / b for a, b in zip(box, small, strict=True)] == pytest.approx([2.0, 2.0], rel=0.01)


def test_what_cant_be_is_said_while_it_is_typed() -> None:
    texts = {"throat": "5/8", "depth": ".520", "head_width": ".5", "head_height": ".240"}
    found = sketch("t-slot", texts, "in")
    assert found.failed is not None and found.filled == ()
    assert sketch("t-slot", {"throat": "5/8//"}, "in").failed is not None
