"""Every kind of feature can lie in a part: what it takes lies within the stock, is as long and as wide as it was asked,
and is found again wherever it is put."""

from __future__ import annotations

import pytest

from crib.app.part.on_file import read_text
from crib.features import KINDS
from crib.parts.edit import begun, with_feature
from crib.parts.meeting import meetings
from crib.parts.order import order_of
from crib.parts.part import Part
from crib.parts.solids import axes, footprint, solids
from crib.planning.parts.asked import AskedPart, asked_of
from crib.shop import Shop

IN = 25.4
STOCK = {"stock": "20 x 16 x 12", "units": "in", "material": "1018"}


def of_kind(name: str, **where: object) -> tuple[Part, AskedPart]:
    said = {key.replace("_", "-"): text for key, text in KINDS[name].example.items()}
    text = with_feature(begun("p", STOCK), {"name": "one", "kind": name, **said, **where})
    read = read_text(text, Shop(), "p")
    assert not read.unread, read.unread
    asked = asked_of(read.whole, Shop())
    assert not asked.faults
    return read.whole, asked


@pytest.mark.parametrize("name", KINDS)
def test_it_takes_something_and_says_where(name: str) -> None:
    part, asked = of_kind(name, at="8, 8")
    one = asked.features["one"]
    pieces = solids(part, one.placed, one.feature)
    assert pieces and all(piece.room for piece in pieces)
    assert footprint(part, one.placed, one.feature)
    assert bool(axes(part, one.placed, one.feature)) == (one.feature.down is not None)
    meetings(part, asked.drawn)
    assert order_of(part, asked.drawn) == ()
    assert all(high > low for piece in pieces for low, high in zip(*piece.body.bounds, strict=True))


def test_a_pockets_corners_are_as_round_as_they_are_asked() -> None:
    """Its corners of 1/4 reach so far towards the rectangle's: r (sqrt 2 - 1) short of it on the diagonal."""
    part, asked = of_kind("pocket", at="8, 8", length="2-1/2", width="1-1/2", depth="1/2", corner_radius="1/4")
    [piece] = solids(part, asked.features["one"].placed, asked.features["one"].feature)
    way = (2 ** -0.5, 2 ** -0.5, 0.0)
    reach = sum(a * b for a, b in zip(piece.body.farthest(way), way, strict=True))
    corner = (10.5 * IN + 8.75 * IN) / 2 ** 0.5
    assert corner - reach == pytest.approx(0.25 * IN * (2 ** 0.5 - 1), abs=0.15)


@pytest.mark.parametrize("name", KINDS)
def test_moving_it_moves_all_that_it_takes(name: str) -> None:
    found = []
    for at in ("8, 8", "9, 8.5"):
        part, asked = of_kind(name, at=at)
        one = asked.features["one"]
        bounds = [piece.body.bounds for piece in solids(part, one.placed, one.feature)]
        found.append(tuple(f(pair[which][axis] for pair in bounds) for which, f in ((0, min), (1, max))
                           for axis in (0, 1)))
    (left, front, right, back), (left_, front_, right_, back_) = found
    runs = asked.features["one"].feature.down is None
    assert left_ - left == pytest.approx(IN, abs=1e-6)
    assert front_ - front == pytest.approx(IN / 2, abs=1e-6) and back_ - back == pytest.approx(IN / 2, abs=1e-6)
    assert right_ - right == pytest.approx(IN, abs=1e-6) or (runs and right_ == pytest.approx(20 * IN))
