"""The kernel's rounds against raw numbers: grids of whole units, every position tried one after another."""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st

from crib.geometry.axis_view import ceiling, disc, lowest, radius_at, swept
from crib.geometry.operation import Operation, Work
from crib.geometry.outline import Outline
from crib.geometry.prove import prove
from crib.geometry.region import FAR, Region, box, union
from crib.geometry.silhouette import Part, Silhouette

UNIT = 1000
"""Raw numbers are whole units; the kernel gets them this much finer, and slanted edges to within a few."""

stacks = st.lists(st.tuples(st.integers(1, 4), st.integers(0, 9)), min_size=1, max_size=4)
"""Discs from the lowest up: height and radius."""


def parts(stack: list[tuple[int, int]], name: str = "a") -> tuple[Part, ...]:
    found, low = [], 0
    for height, radius in stack:
        found.append(Part(name, low * UNIT, (low + height) * UNIT, radius * UNIT, radius * UNIT))
        low += height
    return tuple(found)


def raw_radius(stack: list[tuple[int, int]], height: int) -> int:
    """The radius of the disc that holds a cell of height, none above or below the stack."""
    low = 0
    for tall, radius in stack:
        if low <= height < low + tall:
            return radius
        low += tall
    return 0


def raw_swept(stack: list[tuple[int, int]], z: int, cell: int) -> int:
    """What has passed a cell of height: each of the body's cells, from far above down to z."""
    tall = sum(height for height, _ in stack)
    return max((raw_radius(stack, cell - lower) for lower in range(z, cell + 1) if cell - lower < tall), default=0)


def metal(holes: list[tuple[int, int]]) -> Region:
    """Layers from the top down, each with a hole about the axis (radius nought: solid)."""
    pieces, top = [], 0
    for height, radius in holes:
        low, high = (top - height) * UNIT, top * UNIT
        if radius:
            pieces += [box(-FAR, low, -radius * UNIT, high), box(radius * UNIT, low, FAR, high)]
        else:
            pieces.append(box(-FAR, low, FAR, high))
        top -= height
    pieces.append(box(-FAR, -FAR, FAR, top * UNIT))
    return union(pieces)


def raw_hole(holes: list[tuple[int, int]], cell: int) -> int:
    top = 0
    for height, radius in holes:
        if top - height <= cell < top:
            return radius
        top -= height
    return 0 if cell < 0 else 10**6


@given(stacks, st.integers(-8, 2))
def test_what_passes_is_what_is_removed(stack, z):
    if not any(radius for _, radius in stack):
        return
    found = swept(parts(stack), z * UNIT)
    for cell in range(z - 2, z + 20):
        assert radius_at(found, cell * UNIT + 1) == raw_swept(stack, z, cell) * UNIT


@given(stacks, st.lists(st.tuples(st.integers(1, 4), st.integers(0, 9)), min_size=1, max_size=4))
def test_how_low_it_goes(stack, holes):
    """Brute force: lower it cell by cell from above; the first cell in which it would meet metal stops it."""
    form = Silhouette(parts(stack), parts(stack))
    keep = metal(holes)
    z = 5
    while z > -40 and all(raw_radius(stack, h) <= raw_hole(holes, z - 1 + h) for h in range(30)):
        z -= 1
    found = lowest(form, keep, Region())
    if z <= -40:
        assert found <= -20 * UNIT
    else:
        assert found == z * UNIT


@given(stacks, st.lists(st.tuples(st.integers(1, 4), st.integers(1, 9)), min_size=1, max_size=4), st.integers(0, 3),
       st.integers(0, 3))
def test_clearances_stop_it_earlier(stack, holes, side, end):
    clear = tuple(Part("b", p.low, p.high, p.radius_low, p.radius_high, side * UNIT, end * UNIT) for p in parts(stack))
    bare = lowest(Silhouette((), (), parts(stack)), Region(), metal(holes))
    assert lowest(Silhouette((), (), clear), Region(), metal(holes)) >= bare


@given(st.integers(1, 9), st.integers(1, 9), st.integers(1, 9))
def test_a_cone_comes_down_until_it_touches_the_edge(radius, height, hole):
    """By similar triangles: a cone of that radius and height stands in a hole as deep as it is narrower there."""
    cone = (Part("cone", 0, height * UNIT, 0, radius * UNIT),)
    keep = union((box(-FAR, -FAR, -hole * UNIT, 0), box(hole * UNIT, -FAR, FAR, 0)))
    found = lowest(Silhouette(cone, cone), keep, Region())
    if hole >= radius:
        assert found == -FAR
    else:
        assert abs(found + height * UNIT * hole / radius) <= 2


@given(st.integers(1, 9), st.integers(1, 9), st.integers(1, 30), st.integers(0, 400))
def test_how_near_metal_is_at_a_height(low, high, tall, at):
    """A slanted wall, sampled."""
    wall = Region(disc(0, tall * UNIT, 20 * UNIT, 20 * UNIT).slabs)
    hole = disc(0, tall * UNIT, low * UNIT, high * UNIT)
    standing = wall - hole
    radius = at * UNIT // 40
    heights = [z for z in range(0, tall * UNIT, max(1, tall * UNIT // 200))
               if low * UNIT + (high - low) * UNIT * z / (tall * UNIT) < radius]
    top = ceiling(standing, radius)
    if not heights:
        assert top is None or low == high or top <= tall * UNIT
    else:
        assert top is not None and top >= max(heights) - 2


@settings(deadline=None)
@given(st.integers(2, 8), st.integers(2, 12), st.integers(-3, 3), st.integers(-3, 3))
def test_the_proof_measures_what_is_left_and_spoilt(radius, depth, wide, deep):
    """One body too wide or too narrow, too deep or too shallow, against a hole drawn exactly."""
    if radius + wide < 1 or depth + deep < 1:
        return
    hole = disc(-depth * UNIT, 0, radius * UNIT)
    outline = Outline(box(-FAR, -FAR, FAR, 0), hole, hole, hole, ())
    body = (Part("a", 0, 20 * UNIT, (radius + wide) * UNIT, (radius + wide) * UNIT),)
    verdict = prove(Work(axes=(outline,)), [Operation.down(Silhouette(body, body), -(depth + deep) * UNIT)])
    left = (max(0, -wide) ** 2 + max(0, -deep) ** 2) ** 0.5
    gouge = (max(0, wide) ** 2 + max(0, deep) ** 2) ** 0.5
    assert abs(verdict.left - left * UNIT) <= 60
    assert abs(verdict.gouge - gouge * UNIT) <= 60
    assert verdict.holds == (wide == 0 and deep == 0)


def test_a_collar_that_came_through_too_narrow_a_mouth_is_found():
    """At the end nothing of it is near metal; on its way it wasn't."""
    teeth = (Part("teeth", 0, 10 * UNIT, 3 * UNIT, 3 * UNIT),)
    collar = (Part("collar", 10 * UNIT, 12 * UNIT, 6 * UNIT, 6 * UNIT),)
    bottle = union((disc(-30 * UNIT, -5 * UNIT, 8 * UNIT), disc(-5 * UNIT, 0, 4 * UNIT)))
    stock = box(-FAR, -FAR, FAR, 0) - bottle
    least = disc(-33 * UNIT, -30 * UNIT, 3 * UNIT)
    verdict = prove(Work(axes=(Outline(stock, least, least, least | bottle, ()),)),
                    [Operation.down(Silhouette(teeth, teeth, collar), -33 * UNIT)])
    assert verdict.left == 0 and verdict.rubs and not verdict.holds
