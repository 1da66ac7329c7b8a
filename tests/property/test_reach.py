"""Reach is a closed set: it agrees with a brute-force grid at all corners of its cells; what fits exactly counts."""

from __future__ import annotations

from hypothesis import example, given, settings
from hypothesis import strategies as st

from crib.cutters import kind_of
from crib.cutters.base import Clearances, Cutter
from crib.features import draw as draw_feature
from crib.features.request import Request
from crib.geometry.free_positions import Metal, blocked, free_positions, meeting, outside, reach, widest_gap
from crib.geometry.region import FAR, Region, box, pile, union
from crib.geometry.silhouette import Part, Silhouette
from crib.geometry.slabs import Slab, Span
from crib.planning.advise import advise
from crib.shop import Shop
from crib.units import nm
from tests.oracle import CELL, Grid, Rect, can_stand
from tests.strategies import around

WHOLE = nm(CELL)
"""A cell in nanometres."""

HALF, DEEP = 14, 12
"""The grid's half width and depth in cells."""


@st.composite
def regions(draw: st.DrawFn) -> list[tuple[int, int, int, int]]:
    """A few boxes in cells, in a frame of metal left, right and below that nothing gets out of."""
    x, z = st.integers(-HALF, HALF), st.integers(-DEEP, 0)
    boxes = draw(st.lists(st.tuples(x, z, x, z), max_size=4))
    return [(min(a, c), min(b, d), max(a, c), max(b, d)) for a, b, c, d in boxes]


@st.composite
def bodies(draw: st.DrawFn) -> tuple[list[tuple[int, int, int]], list[tuple[int, int, int, int, int]]]:
    """Cutting parts (low, high, radius) and a stem (low, high, radius, side, end) in cells."""
    tall, radius = draw(st.integers(1, 4)), draw(st.integers(1, 5))
    cuts = [(0, tall, radius)]
    if draw(st.booleans()):
        more = draw(st.integers(1, 3))
        cuts.append((tall, tall + more, draw(st.integers(1, 5))))
        tall += more
    stem = []
    for _ in range(draw(st.integers(0, 2))):
        more = draw(st.integers(1, 4))
        stem.append((tall, tall + more, draw(st.integers(1, 6)), draw(st.integers(0, 2)), draw(st.integers(0, 2))))
        tall += more
    return cuts, stem


def filled(boxes: list[tuple[int, int, int, int]]) -> Region:
    return union(box(*(edge * WHOLE for edge in edges)) for edges in boxes)


@settings(max_examples=300)
@given(regions(), regions(), bodies())
def test_reach_agrees_with_a_grid(
    keep: list[tuple[int, int, int, int]],
    more: list[tuple[int, int, int, int]],
    body: tuple[list[tuple[int, int, int]], list[tuple[int, int, int, int, int]]],
) -> None:
    """At every corner of the cells, touching allowed; no tolerance, for all edges lie on cells' edges."""
    cuts, stem = body
    teeth = tuple(Part("teeth", a * WHOLE, b * WHOLE, r * WHOLE, r * WHOLE) for a, b, r in cuts)
    form = Silhouette(teeth, teeth, tuple(Part("stem", *(n * WHOLE for n in (a, b, r, r, side, end)))
                                    for a, b, r, side, end in stem))
    metal = Metal(filled(keep), filled(keep + more))
    grid = Grid(-HALF * CELL, -DEEP * CELL, HALF * CELL, 0.0)

    def drawn(boxes: list[tuple[int, int, int, int]]) -> list[Rect]:
        return [(a * CELL, b * CELL, c * CELL, d * CELL) for a, b, c, d in boxes]

    free = can_stand(
        [(-r, a, r, b) for a, b, r in cuts],
        [(-r - side, a - end, r + side, b + end) for a, b, r, side, end in stem],
        grid.fill(drawn(keep)), grid.fill(drawn(keep + more)),
    )
    bands = reach(form, metal, -DEEP * WHOLE, 0)
    for row, z in enumerate(range(-DEEP, 1)):
        spans = free_positions(form, metal, z * WHOLE)
        banded = [s for band in bands if band.low <= z * WHOLE <= band.high for s in band.spans]
        for column, x in enumerate(range(-HALF, HALF + 1)):
            here = any(left <= x * WHOLE <= right for left, right in spans)
            assert here == bool(free[row, column]), (x, z)
            assert here == any(left <= x * WHOLE <= right for left, right in banded), (x, z)


FINEST = st.integers(500_000, 10_000_000).map(lambda n: n * 4 / 1e6)
"""Any size whose halves and quarters are whole nanometres."""

MORE = 0.001
"""What is too much [mm]."""

MILL = Cutter(1, "end-mill", diameter_mm=10.0, length_of_cut_mm=100.0, shank_mm=6.0, flutes=2, corner_radius_mm=0.0,
              measured=("diameter_mm",))
DISC = Cutter(2, "t-slot-cutter", diameter_mm=10.0, face_mm=5.0, neck_mm=0.5, reach_mm=100.0, shank_mm=12.7, flutes=8,
              measured=("diameter_mm",))


def exact(kind: str, **sizes: float) -> Request:
    return Request(kind, {key: around(round(one, 6), 0.0, 0.0) for key, one in sizes.items()}, "grey iron")


DRAWN: list[tuple[Request, Region]] = []
"""What was drawn last, and what must stay of it: several cutters are put to one feature."""


def stands(request: Request, cutter: Cutter, z: float) -> tuple[tuple[int, int], ...]:
    """Where the cutter can stand with all that may go being gone; touching is near enough."""
    form = kind_of(cutter).form
    assert form is not None
    if not DRAWN or DRAWN[0][0] is not request:
        DRAWN[:] = [(request, draw_feature(request).outline.keep)]
    keep = DRAWN[0][1]
    return free_positions(form(kind_of(cutter).fill(cutter), Clearances(0.0, 0.0)), Metal(keep, keep), nm(z))


def tslot(width: float, height: float, lip: float = 5.0) -> Request:
    return exact("t-slot", throat=width / 2, depth=height + lip, head_width=width, head_height=height)


def middle(spans: tuple[tuple[int, int], ...]) -> list[tuple[int, int]]:
    return [span for span in spans if span[0] > -FAR and span[1] < FAR]


@settings(max_examples=1000)
@given(FINEST, FINEST)
def test_a_cutter_in_a_slot_of_its_own_width(width: float, depth: float) -> None:
    """A point at the floor and a line above it; .001 mm more has none."""
    request = exact("slot", width=width, depth=depth)
    for z in (-depth, -depth / 2):
        assert middle(stands(request, MILL.but(diameter_mm=width), z)) == [(0, 0)]
        assert middle(stands(request, MILL.but(diameter_mm=width + MORE), z)) == []
    assert middle(stands(request, MILL.but(diameter_mm=width), -depth - MORE)) == []


@settings(max_examples=1000)
@given(FINEST, FINEST)
def test_a_face_exactly_as_high_as_the_head(width: float, height: float) -> None:
    """It stands at one height only; .001 mm more stands at none."""
    request, floor = tslot(width, height), -height - 5
    disc = DISC.but(diameter_mm=width * 3 / 4, face_mm=height, neck_mm=width / 8)
    assert middle(stands(request, disc, floor)) == [(-(nm(width / 2) - nm(width * 3 / 8)),
                                                     nm(width / 2) - nm(width * 3 / 8))]
    assert middle(stands(request, disc, floor + MORE)) == []
    assert middle(stands(request, disc.but(face_mm=height + MORE), floor)) == []


@settings(max_examples=1000)
@given(FINEST, FINEST)
def test_a_disc_exactly_as_wide_as_the_head(width: float, height: float) -> None:
    """A line upright in the middle; .001 mm more has none."""
    request, floor = tslot(width, height), -height - 5
    disc = DISC.but(diameter_mm=width, face_mm=height / 2, neck_mm=width / 8)
    for z in (floor, floor + height / 2):
        assert middle(stands(request, disc, z)) == [(0, 0)]
    assert middle(stands(request, disc.but(diameter_mm=width + MORE), floor)) == []


@settings(max_examples=1000)
@given(st.integers(500_000, 10_000_000), st.integers(125, 1000))
@example(2_352_490, 164)
def test_exact_fits_are_answered(quarter_width: int, share: int) -> None:
    """The same three through the planner: a plan with the exact fit at x = 0, a refusal with .001 mm more, but where on
    its side the teeth fall short of their levels by less than that, once in some thousand sizes: the nearest is told.
    Up to as high as it is wide, and a lip in proportion, so that the throat's end mill isn't too slender for it."""
    width, height = quarter_width * 4 / 1e6, quarter_width * share // 1000 * 4 / 1e6
    shop = Shop(neck_clearance_mm=0.0)
    slot = exact("slot", width=width, depth=height)
    mill = MILL.but(diameter_mm=width, length_of_cut_mm=height + 1)
    own = advise(slot, (mill,), shop).advice
    assert own.answer == "as drawn" and {one.x_mm for one in own.plans[0].passes} == {0.0}
    more = advise(slot, (mill.but(diameter_mm=width + MORE),), shop).advice
    [nearest] = more.refused
    off = round((nearest.has_mm or 0) - (nearest.needs_mm or 0), 6)
    assert more.answer == "cannot" and ((nearest.id, off) == ("SZ3", MORE) or (nearest.id == "FC2" and -MORE < off < 0))
    lip = width / 2
    request = tslot(width, height, lip)
    throat = mill.but(diameter_mm=width / 2, length_of_cut_mm=height + lip + 1)
    disc = DISC.but(diameter_mm=width, face_mm=height, neck_mm=width / 4)
    best = advise(request, (throat, disc), shop).advice
    assert best.answer == "as drawn" and {one.x_mm for one in best.plans[0].passes} == {0.0}
    assert best.plans[0].proof.left_mm == best.plans[0].proof.gouge_mm == 0.0
    spoilt = (disc.but(face_mm=height + MORE), disc.but(id=3, diameter_mm=width + MORE))
    refused = advise(request, (throat, *spoilt), shop).advice
    assert refused.answer == "cannot"
    assert sorted((one.cutter.id, one.id) for one in refused.refused if one.cutter.id > 1) == [(2, "FC1"), (3, "SZ3")]


@st.composite
def many_slabs(draw: st.DrawFn) -> Region:
    """What a round is cut into: slabs on top of one another, some apart, their ends upright or leaning."""
    at, slabs = -20, []
    for _ in range(draw(st.integers(1, 14))):
        at += draw(st.integers(0, 2))
        tall, spans, left = draw(st.integers(1, 4)), [], -30
        for _ in range(draw(st.integers(1, 2))):
            left += draw(st.integers(1, 12))
            wide, leans = draw(st.integers(1, 12)), draw(st.integers(-1, 1))
            spans.append(Span(left, left + wide, left + leans, left + wide + draw(st.integers(0, 1))))
            left += wide + 2
        slabs.append(Slab(at, at + tall, tuple(spans)))
        at += tall
    return pile(slabs)


@settings(max_examples=400)
@given(many_slabs(), st.lists(st.tuples(*[st.integers(0, 30)] * 3, st.integers(0, 2), st.integers(0, 2)),
                              min_size=1, max_size=3), st.lists(st.integers(-30, 20), min_size=1, max_size=4))
def test_what_is_kept_of_many_slabs_changes_nothing(metal: Region, drawn: list[tuple[int, int, int, int, int]],
                                                    heights: list[int]) -> None:
    """Where a part meets any of them is where it meets one or another, asked in whatever order."""
    parts = tuple(Part("part", low, low + tall, radius, radius, side, end) for low, tall, radius, side, end in drawn)
    for z in heights:
        each = [met for part in parts for slab in metal.slabs for met in meeting(part, slab, z)]
        assert outside(blocked(parts, metal, z)) == outside(each)


@settings(max_examples=200)
@given(many_slabs(), st.integers(-24, 40), st.integers(0, 30), st.integers(0, 3))
def test_what_goes_into_the_widest_gap_stands_somewhere(metal: Region, z: int, radius: int, end: int) -> None:
    """Whatever is no wider, told of all that it touches or wants clear; and of what is that wide up to the top, no
    sooner."""
    metal = metal | box(-FAR, -99, -40, 60) | box(40, -99, FAR, 60)
    form = Silhouette(*[(Part("part", end, 200, radius, radius, 0, end),)] * 2)
    gap = widest_gap(metal, z + form.foot)
    assert (gap >= 2 * form.girth) == bool(free_positions(form, Metal(metal, metal), z))
