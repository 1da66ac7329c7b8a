"""What some bodies can ever clear: the same in any order, more with every body, nothing less than any row of harmless
passes takes, and where all edges are upright just what a brute search over cells finds."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import permutations, product

from hypothesis import assume, event, given, note, settings
from hypothesis import strategies as st

from crib.cutters import kind_of
from crib.cutters.base import Clearances, Cutter
from crib.features import draw as draw_feature
from crib.features.request import Request
from crib.findings.errors import CribError
from crib.geometry.drawn_body import Body
from crib.geometry.ever_cleared import SPARE, ever_cleared, never_cleared
from crib.geometry.free_positions import cut
from crib.geometry.operation import Operation, Work
from crib.geometry.outline import Outline
from crib.geometry.prove import prove
from crib.geometry.region import NOTHING, Region, box, union
from crib.geometry.silhouette import Part, Silhouette
from crib.handbook.materials import find_material
from crib.machining.tool import Tool, at_worst, ready
from crib.shop import Shop
from crib.units import nm
from tests.slant_strategies import SLANTED, slanted_cribs
from tests.strategies import REQUESTS, cribs, right_for, shops

WIDE, DEEP = 11, 9
"""The stock: so many cells to each side of the middle, and down."""

CELL = 1000
Boxes = list[tuple[int, int, int, int]]
Discs = list[tuple[int, int, int]]
Stems = list[tuple[int, int, int, int, int]]
Drawn = tuple[Discs, Stems, tuple[int, int]]
"""Discs that cut (low, high, radius), a stem that doesn't (with what it must clear beside and at its ends), and the
heights between which it may stand, in cells."""


@st.composite
def boxes(draw: st.DrawFn, most: int) -> Boxes:
    x, z = st.integers(-WIDE, WIDE), st.integers(-DEEP, 2)
    found = draw(st.lists(st.tuples(x, z, x, z), min_size=1, max_size=most))
    return [(min(a, c), min(b, d), max(a, c), max(b, d)) for a, b, c, d in found]


@st.composite
def bodies(draw: st.DrawFn) -> Drawn:
    discs, stem, up = [], [], 0
    for _ in range(draw(st.integers(1, 2))):
        tall = draw(st.integers(1, 4))
        discs.append((up, up + tall, draw(st.integers(1, 4))))
        up += tall
    for _ in range(draw(st.integers(0, 2))):
        tall = draw(st.integers(1, 5))
        stem.append((up, up + tall, draw(st.integers(1, 4)), draw(st.integers(0, 1)), draw(st.integers(0, 2))))
        up += tall
    low, high = sorted(draw(st.tuples(st.integers(-DEEP, 1), st.integers(-DEEP, 1))))
    return discs, stem, (low, high)


def body(drawn: Drawn) -> Body:
    discs, stem, (low, high) = drawn
    teeth = tuple(Part("teeth", a * CELL, b * CELL, r * CELL, r * CELL) for a, b, r in discs)
    clear = tuple(Part("stem", *(n * CELL for n in (a, b, r, r, side, end))) for a, b, r, side, end in stem)
    return Body(Silhouette(teeth, teeth, clear), tuple((z * CELL, z * CELL) for z in range(low, high + 1)))


def filled(some: Boxes) -> Region:
    return union(box(*(edge * CELL for edge in edges)) for edges in some)


def cells(some: Iterable[tuple[int, int, int, int]]) -> frozenset[tuple[int, int]]:
    return frozenset((x, z) for left, low, right, high in some for x in range(left, right) for z in range(low, high))


def brute(stock: Boxes, keep: Boxes, obstacles: Boxes, some: Sequence[Drawn]) -> frozenset[tuple[int, int]]:
    """Cell by cell: every body at every place, again and again, until nothing more goes. What teeth cut as they come
    is in nobody's way."""
    metal, beside = cells(stock), cells(obstacles)
    must = cells(keep) | beside
    gone: frozenset[tuple[int, int]] = frozenset()
    while True:
        before = gone
        for discs, stem, (low, high) in some:
            for z in range(low, high + 1):
                for x in range(-2 * WIDE, 2 * WIDE + 1):
                    teeth = cells((x - r, z + a, x + r, z + b) for a, b, r in discs)
                    if teeth & must:
                        continue
                    top, bottom = z + max(b for _, b, _ in discs), z + min(a for a, _, _ in discs)
                    around = cells((x - r - side, z + a - end, x + r + side, z + b + end)
                                   for a, b, r, side, end in stem)
                    around = frozenset(cell for cell in around if not bottom <= cell[1] < top)
                    if not around & ((metal - gone) | must):
                        gone |= teeth & metal
        if gone == before:
            return gone


def reached(keep: Boxes, obstacles: Boxes, some: Sequence[Drawn]) -> frozenset[tuple[int, int]]:
    """The same where nothing stands but what must stay: every body at every place, once."""
    must, found = cells(keep) | cells(obstacles), set[tuple[int, int]]()
    for discs, stem, (low, high) in some:
        top, bottom = max(b for _, b, _ in discs), min(a for a, _, _ in discs)
        for z, x in product(range(low, high + 1), range(-2 * WIDE, 2 * WIDE + 1)):
            teeth = cells((x - r, z + a, x + r, z + b) for a, b, r in discs)
            around = cells((x - r - side, z + a - end, x + r + side, z + b + end) for a, b, r, side, end in stem)
            if not (teeth | {cell for cell in around if not z + bottom <= cell[1] < z + top}) & must:
                found |= teeth
    return frozenset(found)


@settings(max_examples=150)
@given(boxes(3), boxes(2), st.one_of(st.just([]), boxes(1)), st.lists(bodies(), min_size=1, max_size=3))
def test_what_can_ever_go_is_what_a_search_over_cells_finds(room: Boxes, keep: Boxes, obstacles: Boxes,
                                                            some: list[Drawn]) -> None:
    """No more and no less, told from raw numbers that share no code with the kernel."""
    stock = [(-WIDE, -DEEP, WIDE, 0)]
    inside = cells(room)
    must = [(x, z, x + 1, z + 1) for x, z in cells(stock) - inside | cells(keep)]
    metal, beside = filled(stock), filled(obstacles)
    found = ever_cleared(metal, filled(must) | beside, beside, map(body, some), spare=0)
    wanted = brute(stock, must, obstacles, some)
    event("something goes" if wanted else "nothing goes")
    exact = filled([(x, z, x + 1, z + 1) for x, z in wanted])
    assert not found - exact and not exact - found
    room_ = metal & filled(room)
    never, reach = never_cleared(filled(must) | beside, map(body, some), room_, spare=0), reached(must, obstacles, some)
    assert not never - (room_ - found), "what goes is reached"
    exact = filled([(x, z, x + 1, z + 1) for x, z in inside & cells(stock) - reach])
    assert not never - exact and not exact - never


@settings(max_examples=100)
@given(boxes(3), st.lists(bodies(), min_size=1, max_size=3))
def test_what_can_ever_go_is_the_same_in_any_order(room: Boxes, some: list[Drawn]) -> None:
    """Upright edges come out to the nanometre; a body more takes nothing away."""
    stock = filled([(-WIDE, -DEEP, WIDE, 0)])
    keep = stock - filled(room)
    ends = [ever_cleared(stock, keep, NOTHING, map(body, order), spare=0) for order in permutations(some)]
    assert all(not ends[0] - other and not other - ends[0] for other in ends[1:])
    assert not ever_cleared(stock, keep, NOTHING, map(body, some[:-1]), spare=0) - ends[0]


ASKED = st.one_of(
    REQUESTS.flatmap(lambda one: st.tuples(st.just(one), st.tuples(cribs(one, 2, whole=True), right_for(one, 9)))),
    SLANTED.flatmap(lambda one: st.tuples(st.just(one), st.tuples(slanted_cribs(one), st.just(())))),
)


@settings(max_examples=60)
@given(ASKED, shops(), st.data())
def test_no_row_of_passes_takes_more_than_can_ever_go(asked: tuple[Request, tuple[tuple[Cutter, ...], ...]], shop: Shop,
                                                      data: st.DataObject) -> None:
    """Real cutters in real features, leaning walls too, at made-up places: whatever a proof finds harmless. In
    any order it is the same to what rounding leaves."""
    request, (some, more) = asked
    outline, tools = questioned(request, (*some, *more)[:4], shop)
    assume(tools)
    low = outline.most.bounds()[1]
    bodies_ = [Body(tool.form, ((low, 0),)) for tool in tools]
    ends = [ever_cleared(outline.stock, outline.keep, outline.obstacles, order)
            for order in list(permutations(bodies_))[:4]]
    for other in ends[1:]:
        assert is_grain(ends[0] - other) and is_grain(other - ends[0])
    assert is_grain(ever_cleared(outline.stock, outline.keep, outline.obstacles, bodies_[:-1]) - ends[0])
    taken, count = harmless(outline, tools, data)
    event(f"{min(count, 3)} harmless passes or more")
    note(f"{count} harmless passes")
    assert not taken - ends[0]


@settings(max_examples=40)
@given(ASKED, shops(), st.data())
def test_a_range_of_heights_reaches_what_each_of_them_does(asked: tuple[Request, tuple[tuple[Cutter, ...], ...]],
                                                           shop: Shop, data: st.DataObject) -> None:
    """Told of a range as a whole or of its halves: no less than at any height in it, and what harmless passes took."""
    request, (some, more) = asked
    outline, tools = questioned(request, (*some, *more)[:4], shop)
    assume(tools)
    low = outline.most.bounds()[1]
    tool = data.draw(st.sampled_from(tools))
    never = never_cleared(outline.keep, [Body(tool.form, ((low, 0),))], outline.least)
    for z in data.draw(st.lists(st.integers(low, 0), min_size=1, max_size=4)):
        alone = never_cleared(outline.keep, [Body(tool.form, ((z, z),))], outline.least, spare=0)
        assert not never - alone
    event("all is reached" if not never else "some is reached" if never.area < outline.least.area else "none is")
    every = never_cleared(outline.keep, [Body(one.form, ((low, 0),)) for one in tools], outline.least)
    assert not every & harmless(outline, tools, data)[0]


def questioned(request: Request, cutters: Sequence[Cutter], shop: Shop) -> tuple[Outline, list[Tool]]:
    try:
        outline = draw_feature(request).outline
    except CribError:
        assume(False)
    material = find_material(request.material)
    known = ((one, at_worst(one)) for one in cutters)
    return outline, [tool for one, worst in known if worst and (tool := ready(worst, shop, material, one))]


def harmless(outline: Outline, tools: Sequence[Tool], data: st.DataObject) -> tuple[Region, int]:
    """What a row of passes takes that gouge nothing and rub nowhere, and how many they are: at places where teeth touch
    what must stay, or just anywhere."""
    left, low, right, _ = outline.most.bounds()
    rows: list[Operation] = []
    for _ in range(data.draw(st.integers(1, 10))):
        tool = data.draw(st.sampled_from(tools))
        wall = data.draw(st.sampled_from((left + tool.form.radius, right - tool.form.radius, (left + right) // 2)))
        x = data.draw(st.one_of(st.just(wall), st.integers(left, right)))
        z = data.draw(st.one_of(st.just(low), st.integers(low, 0)))
        grown = [*rows, Operation.along(tool.form, x, z)]
        view = prove(Work(outline), grown).elevation
        if view.gouge == 0 and not view.rubs:
            rows = grown
    return (prove(Work(outline), rows).elevation.removed if rows else NOTHING), len(rows)


def is_grain(region: Region) -> bool:
    """Whether a region is nowhere wider or nowhere higher than what rounding makes of leaning edges."""
    return all(slab.high - slab.low <= 2 * SPARE or all(
        max(s.right_low - s.left_low, s.right_high - s.left_high) <= 2 * SPARE for s in slab.spans)
        for slab in region.slabs)


def test_a_face_exactly_as_high_as_its_groove_goes_in() -> None:
    """Positions are closed: at one height alone, and on one line alone."""
    stock, groove = box(-9000, -9000, 9000, 0), box(-4000, -6000, 9000, -4000)
    disc = (Part("teeth", 0, 2000, 3000, 3000),)
    form = Silhouette(disc, disc, (Part("neck", 2000, 9000, 500, 500),))
    keep = stock - groove - box(2000, -9000, 9000, 0)
    for high, goes in ((2000, True), (2001, False)):
        taller = Silhouette(*((disc[0]._replace(high=high),),) * 2, form.clear)
        found = ever_cleared(stock, keep, NOTHING, [Body(taller, ((-9000, 0),))], spare=0)
        assert bool(found & box(-500, -6000, 2000, -4000)) is goes


def test_a_slender_neck_opens_the_way_for_none_but_itself() -> None:
    """An end mill with short teeth and a thick shank clears no deeper than these; one with a neck goes on, and then the
    first has room too. Worked out by hand."""
    clear = Clearances(0.0, 0.0)
    short = Cutter(1, "end-mill", diameter_mm=6.0, length_of_cut_mm=4.0, shank_mm=8.0, flutes=2)
    reduced = Cutter(2, "end-mill", diameter_mm=6.0, length_of_cut_mm=4.0, neck_mm=5.0, reach_mm=20.0, shank_mm=8.0,
                     flutes=2)
    forms = [form(kind_of(one).fill(one), clear) for one in (short, reduced) if (form := kind_of(one).form)]
    stock, slot = box(nm(-20), nm(-20), nm(20), 0), box(nm(-3), nm(-10), nm(3), 0)
    low = ((nm(-10), 0),)
    alone, other = (ever_cleared(stock, stock - slot, NOTHING, [Body(one, low)], spare=0) for one in forms)
    assert alone == box(nm(-3), nm(-4), nm(3), 0)
    assert other == slot
    wider = box(nm(-4), nm(-10), nm(4), 0)
    both = ever_cleared(stock, stock - wider, NOTHING, [Body(one, low) for one in forms], spare=0)
    assert both == wider and cut(forms[0].sure, nm(1), nm(-10)) & stock
