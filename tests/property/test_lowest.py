"""How far down a body goes at some places: what the whole reach tells, without working it out; and how far it never
goes, whatever more is in its way. Leaning edges too."""

from __future__ import annotations

from itertools import product

from hypothesis import event, given, settings
from hypothesis import strategies as st

from crib.geometry.anywhere import stands_anywhere
from crib.geometry.free_positions import Metal, free_positions, meeting, reach
from crib.geometry.lowest import lowest, never_below
from crib.geometry.meeting_heights import meeting_heights
from crib.geometry.region import FAR, Region, box, trapezoid, union
from crib.geometry.silhouette import Part, Silhouette

DEEP, GRAIN = 4000, 6
Asked = tuple[Silhouette, Metal, Metal, list[int]]


@st.composite
def regions(draw: st.DrawFn) -> Region:
    """A few pieces whose sides may lean."""
    x, wide = st.integers(-3000, 3000), st.integers(0, 1500)
    found = []
    for _ in range(draw(st.integers(1, 3))):
        low, high = sorted(draw(st.tuples(st.integers(-DEEP, 500), st.integers(-DEEP, 500))))
        left, other = draw(x), draw(st.one_of(st.none(), x))
        other = left if other is None else other
        found.append(trapezoid(low, high, left, left + draw(wide), other, other + draw(wide)))
    return union(found)


@st.composite
def bodies(draw: st.DrawFn) -> Silhouette:
    """Teeth that may lean, and a stem that asks for room beside and at its ends."""
    parts, up = [], 0
    for name in ("teeth", "teeth", "stem"):
        tall, radius = draw(st.integers(50, 1500)), draw(st.integers(20, 1200))
        over = draw(st.one_of(st.just(radius), st.integers(0, 1200)))
        side, end = (draw(st.integers(0, 100)), draw(st.integers(0, 200))) if name == "stem" else (0, 0)
        parts.append(Part(name, up, up + tall, radius, over, side, end))
        up += tall
    return Silhouette(tuple(parts[:2]), tuple(parts[:2]), tuple(parts[2:]))


@st.composite
def asked(draw: st.DrawFn) -> Asked:
    """A body, what is in its way, the same with more, and the places."""
    keep, standing = draw(regions()), draw(regions())
    more = Metal(keep | draw(regions()), standing | draw(regions()))
    places = draw(st.lists(st.integers(-2500, 2500), min_size=1, max_size=2))
    return draw(bodies()), Metal(keep, standing), more, places


def holds(form: Silhouette, metal: Metal, z: int, places: list[int]) -> bool:
    spans = free_positions(form, metal, z)
    return all(any(left <= x <= right for left, right in spans) for x in places)


@settings(max_examples=300)
@given(asked())
def test_the_lowest_is_that_of_the_first_band_that_holds_every_place(some: Asked) -> None:
    """In what leans a band may be free at its middle and not from its lower end on: there a corner a little sharper
    than the round that it stands in was set some micrometres into the metal, and thousands of plans were tried of which
    none could be proved."""
    form, metal, _, places = some
    bands = reach(form, metal, -DEEP, 0)
    wanted = next((band for band in bands
                   if all(any(left <= x <= right for left, right in band.spans) for x in places)), None)
    found = lowest(form, metal, -DEEP, 0, places)
    event("nowhere" if wanted is None else "at once" if found == -DEEP else "higher up")
    assert (found is None) == (wanted is None)
    if found is not None and wanted is not None:
        assert wanted.low <= found <= wanted.high and holds(form, metal, found, places)
        if found > wanted.low:
            event("within a band")
            assert not holds(form, metal, found - 1, places) and not holds(form, metal, wanted.low, places)


@settings(max_examples=300)
@given(asked(), st.lists(st.integers(-DEEP, 0), max_size=20))
def test_it_never_stands_lower_than_is_told_whatever_more_is_in_its_way(some: Asked, heights: list[int]) -> None:
    """Crossings are rounded to the nanometre, so it may be some of them lower."""
    form, metal, more, places = some
    least = never_below(form, metal, -DEEP, 0, places)
    event("told" if least > -DEEP else "nothing told")
    for z in (*heights, (least - DEEP) // 2, least - 10):
        if -DEEP <= z < least - 6:
            assert not holds(form, metal, z, places) and not holds(form, more, z, places)


@settings(max_examples=300)
@given(asked(), st.integers(0, 2600))
def test_whether_it_stands_anywhere_is_what_the_whole_reach_tells(some: Asked, half: int) -> None:
    """Without going through all of it: in much or little metal, and in a gap, wide or narrow."""
    form, metal, more, _ = some
    walls = box(-FAR, -DEEP, -half, 0) | box(half, -DEEP, FAR, 0)
    for here in (metal, more, Metal(more.keep | walls, more.standing | walls)):
        bands = reach(form, here, -DEEP, 0)
        event("anywhere" if bands else "nowhere")
        assert stands_anywhere(form, here, -DEEP, 0) == bool(bands)


@settings(max_examples=500)
@given(bodies(), regions(), st.integers(-2500, 2500), st.lists(st.integers(-2 * DEEP, DEEP), max_size=10))
def test_a_part_meets_metal_just_between_two_heights(form: Silhouette, metal: Region, x: int, heights: list[int]
                                                     ) -> None:
    """Told at once, it is what is told at each height but where they only touch; crossings are rounded to the
    nanometre."""
    parts = [one if one.radius_low == one.radius_high else one._replace(end=0) for one in (*form.may, *form.clear)]
    for part, slab in product(parts, metal.slabs):
        for span in slab.spans:
            low, high = meeting_heights(part, slab, span, x)
            event("meet" if low < high else "never meet")
            near = (low - 10, low + 10, (low + high) // 2, high - 10, high + 10) if low < high else ()
            for z in (*heights, *near):
                surely, maybe = (any(left + by < x < right - by for left, right in meeting(
                    part, slab._replace(spans=(span,)), z)) for by in (GRAIN, 0))
                if min(abs(z - low), abs(z - high)) > GRAIN:
                    assert surely <= (low < z < high) <= maybe
