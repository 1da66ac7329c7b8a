"""The order that must hold: each rule of it once, and that it is one: it holds, is no longer than it must be, stays the
same, and a circle is named. The rules are common practice."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from crib.findings.errors import CribError
from crib.parts.order import OWNERS, Before, circle_in, order_of, sequence
from crib.parts.part import Part, Placed, Stock
from tests.parts.made import hole, part, slot

STEP = 'name = "step"\nkind = "step"\nwidth = "30"\ndepth = "10"\nat = "30"\ntoward = "front"'
EDGE = 'name = "edge"\nkind = "chamfer"\nsize = "1"\nat = "0"'
FACE = 'name = "face"\nkind = "facing"\nwidth = "60"\ndepth = "1"\nat = "30"'
BORE = hole("bore", "50, 20", 20, 60, 'through = true\nfinish = "bored"\nface = "front"')
SEAT = 'name = "seat"\nkind = "spotface"\ndiameter = "14"\nat = "20, 20"'
HEAD = 'name = "head"\nkind = "counterbore"\ndiameter = "12"\ndepth = "6"\nhole = "6"\nat = "20, 20"'
TAP = 'name = "tap"\nkind = "tapped-hole"\nthread = "M8"\ndepth = "12"\nat = "20, 20"'
SUNK = 'name = "sunk"\nkind = "countersink"\ndiameter = "10"\nhole = "6"\nangle = "90"\nat = "20, 20"'
TAIL = 'name = "tail"\nkind = "dovetail"\nangle = "60"\ndepth = "10"\nopening = "20"\nface = "bottom"\nat = "30"'
GIB = ('name = "gib"\nkind = "gib-screw-holes"\nthread = "M6x1"\nnumber = "3"\nlength = "100"\nheight = "10"\n'
       'thickness = "17.1"\nface = "front"\nat = "35"')
PART_OFF = 'name = "off"\nkind = "slit"\nwidth = "2"\ndepth = "40"\nruns = "across"\nat = "80"'


def pairs(*features: str) -> set[tuple[str, str]]:
    one, asked = part(*features)
    return {(pair.first, pair.then) for pair in order_of(one, asked.drawn)}


@pytest.mark.parametrize(("features", "expected"), [
    ((slot("guide", "30"), FACE), ("face", "guide")),
    ((hole("h", "50, 15", 6, 10, 'level = "10"'), STEP), ("step", "h")),
    ((EDGE, slot("s", "20", 6, 4, 'runs = "across"')), ("s", "edge")),
    ((hole("h", "20, 20"), SEAT), ("seat", "h")),
    ((HEAD, hole("h", "20, 20")), ("h", "head")),
    ((SUNK, hole("h", "20, 20")), ("h", "sunk")),
    ((TAP, hole("h", "20, 20")), ("h", "tap")),
    ((hole("r", "20, 20", 6, 10, 'finish = "reamed"'), hole("h", "20, 20", 5.8, 12)), ("h", "r")),
    ((BORE, hole("oil", "50, 30", 3, 12, "through = true")), ("oil", "bore!")),
    ((GIB, TAIL), ("tail", "gib")),
    ((PART_OFF, slot("s", "20", 6, 4)), ("s", "off")),
])
def test_what_must_come_first(features: tuple[str, ...], expected: tuple[str, str]) -> None:
    assert pairs(*features) == pairs(*reversed(features)) == {expected}


def test_what_has_nothing_to_do_with_another_need_not_wait() -> None:
    assert not pairs(slot("a", "20"), slot("b", "45"), hole("c", "10, 55", 4), TAP.replace("20, 20", "80, 8"))


def test_the_owners_wish_is_added_and_what_follows_from_it_is_not_told_twice() -> None:
    assert pairs(slot("a", "10"), slot("b", "30", more='after = ["a"]'), slot("c", "50", more='after = ["a", "b"]')
                 ) == {("a", "b"), ("b", "c")}


def test_a_circle_is_named_with_both_whys() -> None:
    one, asked = part(hole("h", "20, 20", more='after = ["head"]'), HEAD)
    with pytest.raises(CribError) as caught:
        order_of(one, asked.drawn)
    says = str(caught.value.finding.says)
    assert caught.value.finding.id == "cycle" and OWNERS in says and "guided by the hole" in says
    assert "h before head" in says and "head before h" in says


def test_only_the_last_cut_of_a_bore_waits_for_a_hole_into_it() -> None:
    """A through hole into a bore goes before its last cut, not before all of it."""
    one, asked = part(BORE, hole("oil", "50, 30", 3, 12, "through = true"))
    [pair] = order_of(one, asked.drawn)
    assert pair.then == "bore!" and "burr" in str(pair.why)


@settings(max_examples=80, deadline=None)
@given(at=st.integers(160, 440), wide=st.integers(30, 120), deep=st.integers(10, 150), runs=st.sampled_from(
    ["along", "across"]))
def test_a_hole_is_drilled_while_there_is_metal_all_round(at: int, wide: int, deep: int, runs: str) -> None:
    """By hand, in tenths of a millimetre: a slot from 30 - wide / 2 to 30 + wide / 2, a hole of 8 mm and 12 deep at
    50, `at`. It goes first where a wall of the slot stands within nine tenths of its radius, and needn't where it is
    wholly beside it or wholly over it. Common practice, no source."""
    off = abs(at - 300) * 2 - wide
    place = f"50, {at / 10}" if runs == "along" else f"{at / 10}, 50"
    found = pairs(slot("s", "30", wide / 10, deep / 10, f'runs = "{runs}"'), hole("h", place, 8, 12))
    if abs(off) < 70:
        assert found == {("h", "s")}
    elif abs(off) > 74:
        assert found == set()


def test_what_has_to_come_first_stays_first() -> None:
    """A hole half over the end of a slot on whose floor it stands, and one that its owner wants behind it."""
    on_floor = hole("h", "50, 33", 8, 10, 'level = "6"')
    assert pairs(slot("s", "30", 10, 6), on_floor) == {("s", "h")}
    later = hole("h", "50, 34", 8, 10, 'after = ["s"]')
    assert pairs(slot("s", "30", 10, 6), later) == {("s", "h")}


def test_a_hole_through_the_sides_of_a_slot_need_not_wait() -> None:
    """It goes into the slot with all of its width; where the floor runs through it, it goes first."""
    assert not pairs(slot("s", "30", 10, 12), hole("h", "50, 6", 4, 50, 'face = "front"'))
    assert pairs(slot("s", "30", 10, 6), hole("h", "50, 6", 4, 50, 'face = "front"')) == {("h", "s")}


NAMES = "abcdefg"
EDGES = st.lists(st.tuples(st.sampled_from(NAMES), st.sampled_from(NAMES)).filter(lambda two: two[0] != two[1]),
                 max_size=14, unique=True)


def owned(edges: list[tuple[str, str]]) -> Part:
    """Slots side by side, of which only their owner says which comes first."""
    after = {name: tuple(first for first, then in edges if then == name) for name in NAMES}
    return Part("p", Stock(100, 60, 40), features=tuple(
        Placed(name, "slot", {"width": "2", "depth": "1"}, after=after[name]) for name in NAMES))


def reaches(edges: set[tuple[str, str]], start: str) -> set[str]:
    found: set[str] = set()
    while more := {then for first, then in edges if first in found | {start}} - found:
        found |= more
    return found


@settings(max_examples=150, deadline=None)
@given(EDGES)
def test_an_order_holds_is_least_and_stable(edges: list[tuple[str, str]]) -> None:
    """Against reachability alone: what is told reaches all that was asked, none of it could be left out, a circle is
    found where there is one, and what is free keeps the order in which it is listed."""
    from crib.parts.order import _round_and_round, _wanted, _without_what_follows

    one, asked = owned(edges), {name: None for name in NAMES}
    wanted = list(_wanted(one, asked))  # type: ignore[arg-type]
    if any(name in reaches(set(edges), name) for name in NAMES):
        circle = circle_in(wanted)
        assert all(a.then == b.first for a, b in zip(circle, (*circle[1:], circle[0]), strict=True))
        assert _round_and_round(circle).finding.id == "cycle"
        return
    told = list(_without_what_follows(wanted))
    kept = {(pair.first, pair.then) for pair in told}
    assert all(reaches(kept, name) == reaches(set(edges), name) for name in NAMES)
    assert all(reaches(kept - {edge}, edge[0]) != reaches(kept, edge[0]) for edge in kept)
    order = sequence(one, told)
    assert sorted(order) == sorted(NAMES) and all(order.index(a) < order.index(b) for a, b in edges)
    free = [name for name in NAMES if not any(name in edge for edge in edges)]
    assert [name for name in order if name in free] == free
    assert sequence(one, told) == sequence(one, [*reversed(told)])
    assert not circle_in([Before(a, b, "") for a, b in edges])
