"""Where features meet: distances by hand and by geometry, and against a cloud of points, whichever way round."""

from __future__ import annotations

import random
from itertools import product
from math import hypot

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from crib.findings.errors import CribError
from crib.findings.finding import Finding, Grade
from crib.geometry.convex import Convex, Disc, apart, overlap, points
from crib.parts.lying import lying_in
from crib.parts.meeting import check, closest, meetings
from tests.parts.made import hole, part, slot
from tests.spelt import spelt


def found(*features: str) -> dict[str, Finding]:
    one, asked = part(*features)
    return {told.id: told for told in meetings(one, asked.drawn)}


def test_a_wall_between_holes_is_the_distance_of_their_axes_less_their_radii() -> None:
    told = found(hole("a", "20, 20"), hole("b", "23, 26"))["part-wall"]
    assert told.has_mm == pytest.approx(hypot(3, 6) - 6, abs=1e-4)
    assert told.needs_mm == 6 / 4
    assert not found(hole("a", "20, 20"), hole("b", "28, 20"))


def test_a_leaf_between_slots_is_thin_under_an_eighth_of_its_height() -> None:
    """As of a leaf beside a slot: 24 deep, so thin under 3."""
    told = found(slot("a", "20", 10, 24), slot("b", "32.5", 10, 24))["part-wall"]
    assert told.has_mm == pytest.approx(2.5) and told.needs_mm == pytest.approx(3)
    assert not found(slot("a", "20", 10, 24), slot("b", "33.5", 10, 24))


def test_a_head_under_a_hole_is_seen_though_the_throat_is_far() -> None:
    """The head is 24 wide under a throat of 12: a hole 9 off the centre line stands clear of the throat, not of the
    head, whose ceiling is 12 below the face."""
    head = 'name = "t"\nkind = "t-slot"\nthroat = "12"\ndepth = "20"\nhead-width = "24"\nhead-height = "8"\nat = "30"'
    thin = found(head, hole("h", "50, 39", 3, 11.5))["part-wall"]
    assert thin.has_mm == pytest.approx(0.5) and "head" in str(thin.says)
    into = found(head, hole("h", "50, 39", 3, 15))["part-breaks-in"]
    assert "head" in str(dict(into.says.facts)["room"])  # type: ignore[union-attr]
    assert into.grade is Grade.CAUTION


@pytest.mark.parametrize("off", [0.0, 1e-4, 0.5, 1.0])
def test_a_hole_that_grazes_a_slot_leaves_no_wall(off: float) -> None:
    """Geometry: under a slot 10 deep the crown of a hole of 6 from the front lies so far below its floor. Where it just
    touched nothing was said, though a wall of .02 was a caution. Where a hole begins at a slot's floor nothing is to be
    said."""
    told = found(slot("s", "30", 10, 10), hole("h", f"50, {13 + off}", 6, 60, 'face = "front"'))["part-wall"]
    assert told.has_mm == pytest.approx(off, abs=0.01) and told.grade is Grade.CAUTION
    assert not found(slot("s", "30", 10, 10), hole("h", "50, 30", 6, 5, "level = 10"))


def test_a_hole_that_ends_at_the_side_of_another_is_drilled_into_it() -> None:
    """Geometry: a hole of 6 from the front, its crown 10 under the top; one from above goes 10 deep, over its axis."""
    assert not found(hole("h", "50, 13", 6, 60, 'face = "front"'), hole("o", "50, 30", 3, 10))
    beside = found(hole("h", "50, 13", 6, 60, 'face = "front"'), hole("o", "54.5, 30", 3, 30))["part-wall"]
    assert beside.has_mm == pytest.approx(0, abs=0.01)


def test_a_hole_breaks_into_a_slot_from_another_face() -> None:
    """From the front, at 4 below the top, into a slot 10 wide in the middle of 60: its wall stands at 25."""
    far = found(slot("s", "30"), hole("h", "50, 4", 4, 24.25, 'face = "front"'))["part-wall"]
    assert far.has_mm == pytest.approx(0.75)
    into = found(slot("s", "30"), hole("h", "50, 4", 4, 28, 'face = "front"'))["part-breaks-in"]
    assert into.has_mm == pytest.approx(-3.0)


def test_an_edge_that_is_gone_before_it_is_broken() -> None:
    edge = 'name = "e"\nkind = "chamfer"\nsize = "1"\nat = "0"'
    step = 'name = "s"\nkind = "step"\nwidth = "5"\ndepth = "6"\nat = "5"'
    assert found(edge, step)["part-gone"].grade is Grade.CAUTION
    assert "part-gone" not in found(edge, 'name = "s"\nkind = "step"\nwidth = "5"\ndepth = "6"\nat = "55"')


def test_what_lies_in_a_slot_that_is_made_of_two_pieces_is_gone_too() -> None:
    head = 'name = "t"\nkind = "t-slot"\nthroat = "12"\ndepth = "20"\nhead-width = "24"\nhead-height = "8"\nat = "30"'
    assert "part-gone" in found(head, slot("s", "30", 10, 18))


def test_what_belongs_on_one_axis_is_no_meeting() -> None:
    bore = 'name = "c"\nkind = "counterbore"\ndiameter = "12"\ndepth = "6"\nhole = "6"\nat = "20, 20"'
    assert not found(hole("h", "20, 20"), bore)


@pytest.mark.parametrize(("features", "id", "says"), [
    ((hole("a", "20, 20"), hole("b", "20, 20")), "part-same-place", "same place"),
    ((slot("a", "20"), slot("b", "20")), "part-same-place", "same place"),
    ((hole("a", "120, 20"),), "part-outside", "23.000 beyond"),
    ((hole("a", "20, 20", 6, 45),), "part-outside", "5.000 beyond"),
    ((slot("a", "58", 10, 8),), "part-outside", "3.000 beyond"),
    ((slot("a", "30", 10, 42),), "part-outside", "2.000 beyond"),
])
def test_what_cannot_lie_so_is_an_error_with_its_distance(features: tuple[str, ...], id: str, says: str) -> None:
    from crib.render.words import told

    one, asked = part(*features)
    with pytest.raises(CribError) as caught:
        check(one, asked.drawn)
    assert caught.value.finding.id == id and says in told(caught.value.finding, "mm")[0]


KINDS = st.sampled_from(["hole", "slot", "across", "front", "t-slot"])


@st.composite
def features(draw: st.DrawFn, name: str) -> str:
    kind, x, y = draw(KINDS), draw(st.integers(15, 85)), draw(st.integers(18, 42))
    wide, deep = draw(st.integers(3, 12)), draw(st.integers(4, 16))
    if kind == "hole":
        return hole(name, f"{x}, {y}", wide, deep)
    if kind == "front":
        return hole(name, f"{x}, {y / 2}", min(wide, 8), deep, 'face = "front"')
    if kind == "t-slot":
        return (f'name = "{name}"\nkind = "t-slot"\nthroat = "{wide}"\ndepth = "{deep + 8}"\n'
                f'head-width = "{wide + 8}"\nhead-height = "6"\nat = "{y}"')
    return slot(name, f"{y}" if kind == "slot" else f"{x}", wide, deep, "" if kind == "slot" else 'runs = "across"')


GRAIN = 2.0
GRID = np.array(list(product(np.arange(0, 100.1, GRAIN), np.arange(0, 60.1, GRAIN), np.arange(0, 40.1, GRAIN))))
"""Points all over the part [mm]."""


def cloud(bodies: list[Convex]) -> np.ndarray:
    """Points of some bodies on a grid: those from which nothing of the body is away."""
    return np.concatenate([inside(body, GRID) for body in bodies])


def inside(body: Convex, grid: np.ndarray) -> np.ndarray:
    """The points that lie in a hull of discs, by many directions: a hull is what no direction parts from it. First
    those in the box round it."""
    ways = np.random.default_rng(1).normal(size=(400, 3))
    for some in (np.concatenate([np.eye(3), -np.eye(3)]), ways / np.linalg.norm(ways, axis=1)[:, None]):
        reach = np.array([body.reach(tuple(way)) for way in some])
        grid = grid[(grid @ some.T <= reach + 1e-9).all(axis=1)]
    return grid


@settings(max_examples=12, deadline=None)
@given(features("a"), features("b"))
def test_distances_are_those_of_clouds_of_points_and_the_same_both_ways(a: str, b: str) -> None:
    one, asked = part(a, b)
    first, second = lying_in(one, asked.drawn)
    mm = min(apart(x.body, y.body) for x in first.solids for y in second.solids)
    assert mm == pytest.approx(min(apart(y.body, x.body) for x in first.solids for y in second.solids), abs=1e-6)
    clouds = [cloud([piece.body for piece in lying.solids]) for lying in (first, second)]
    if min(map(len, clouds)):
        raster = min(float(np.linalg.norm(clouds[1] - point, axis=1).min()) for point in clouds[0])
        assert raster >= mm - 0.35 and raster <= mm + 2 * GRAIN * 3 ** 0.5
    gap, back = closest(first, second), closest(second, first)
    assert (gap is None) == (back is None)
    assert gap is None or back is None or gap.mm == pytest.approx(back.mm, abs=1e-3)


def test_apart_lies_between_what_directions_and_points_tell() -> None:
    """No direction parts two bodies farther, and the way there by the nearest points, step by step, is no shorter: the
    bounds of Frank and Wolfe, "An algorithm for quadratic programming", 1956."""
    draws = random.Random(3)
    for _ in range(60):
        one, other = body(draws, (0.0, 0.0, 0.0)), body(draws, tuple(draws.uniform(-4, 4) for _ in range(3)))
        least, most = bounds(one, other)
        assert least - 1e-6 <= apart(one, other) <= most + 1e-6
        if overlap(one, other) > 1e-3:
            assert apart(one, other) == 0


def body(draws: random.Random, at: tuple[float, ...]) -> Convex:
    if draws.random() < 0.5:
        return points(tuple(a + draws.uniform(-1, 1) for a in at) for _ in range(8))  # type: ignore[misc]
    way = np.array([draws.gauss(0, 1) for _ in range(3)])
    way /= np.linalg.norm(way)
    ends = (at, tuple(a + float(w) for a, w in zip(at, way, strict=True)))
    return Convex(tuple(Disc(end, tuple(map(float, way)), draws.uniform(0.1, 1)) for end in ends))  # type: ignore[arg-type]


def bounds(one: Convex, other: Convex) -> tuple[float, float]:
    at = np.array(one.discs[0].middle) - np.array(other.discs[0].middle)
    least = 0.0
    for _ in range(1500):
        length = float(np.linalg.norm(at))
        if length < 1e-9:
            return 0.0, 0.0
        way = tuple(map(float, -at))
        corner = np.array(one.farthest(way)) - np.array(other.farthest(tuple(map(float, at))))
        least = max(least, float(at @ corner) / length)
        step = corner - at
        if (size := float(step @ step)) < 1e-18:
            break
        at = at + min(1.0, max(0.0, -float(at @ step) / size)) * step
    return least, float(np.linalg.norm(at))


FACE = 'name = "skim"\nkind = "facing"\nwidth = "60"\ndepth = "1.5"\nat = "30"'


def test_what_counts_from_a_face_that_is_made_is_less_deep() -> None:
    """A slot 8 deep from the stock is 6.5 deep once 1.5 is faced off: told, unless its level is the face as it is made,
    or it lies on another face."""
    told = found(FACE, slot("a", "20"))["part-face"]
    assert told.has_mm == pytest.approx(-1.5) and told.read == "a"
    assert "part-face" not in found(FACE, slot("a", "20", 10, 8, "level = 1.5"))
    assert "part-face" not in found(FACE, slot("a", "20", 10, 8, 'face = "front"'))


@pytest.mark.parametrize("kind", ['kind = "counterbore"\ndepth = "6"', 'kind = "hole-chamfer"'])
def test_a_counterbore_wants_its_hole_in_the_part(kind: str) -> None:
    """It goes on a hole that is there: without one on its axis, or with one of another size, screws don't go in; it
    was planned without a word, and the hole was in no set-up."""
    bore = f'name = "c"\n{kind}\ndiameter = "12"\nhole = "6"\nat = ["20, 20", "60, 20"]'
    both = 'at = ["20, 20", "60, 20"]'
    made = hole("h", "X").replace('at = "X"', both)
    assert "part-no-hole" not in found(made, bore)
    assert found(bore)["part-no-hole"].grade is Grade.CAUTION
    assert "part-no-hole" in found(hole("h", "20, 20"), bore)
    assert found(made.replace('"6"', '"8"'), bore)["part-no-hole"].has_mm == pytest.approx(8)


@pytest.mark.parametrize(("name", "said"), [("slot", "h: breaks into slot, "),
                                            ("lay slot", "h: breaks into lay slot, "),
                                            ("s", "h: breaks into the slot of s, ")])
def test_a_slot_isnt_the_slot_of_slot(name: str, said: str) -> None:
    """`breaks into the slot of slot`; which room it is stays a fact of its own."""
    into = found(slot(name, "30"), hole("h", "50, 4", 4, 28, 'face = "front"'))["part-breaks-in"]
    assert spelt(into.says).startswith(said) and dict(into.says.facts)["room"] == "slot"  # type: ignore[union-attr]
