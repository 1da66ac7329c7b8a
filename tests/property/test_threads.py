"""Laws of threads: percent and hole are each other's inverse; what is recommended keeps the class."""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st

from crib.cutters.base import Cutter
from crib.cutters.label import label
from crib.handbook.drill_sizes import drill_sizes
from crib.handbook.materials import materials
from crib.handbook.threads import (
    Reading,
    forming_hole,
    forming_percent,
    hole_for,
    hole_limits,
    percent_of,
    read_thread,
    threads,
)
from crib.shop import Shop
from crib.tapping.advise import advise_tap
from crib.tapping.shape import Asking

STRAIGHT = [one for one in threads() if not one.taper]
CALLED = [one for one in threads() if hole_limits(one).most is not None and hole_limits(one).name in ("2B", "6H")]
SIZES = [mm for mm, _ in drill_sizes()]


@given(st.sampled_from(STRAIGHT), st.floats(1, 110))
def test_percent_and_hole_are_inverse(thread, percent):
    assert abs(percent_of(thread, hole_for(thread, percent)) - percent) < 1e-6
    assert abs(forming_percent(thread, forming_hole(thread, percent)) - percent) < 1e-6


@given(st.sampled_from(STRAIGHT), st.floats(40, 90), st.floats(0.1, 5))
def test_more_thread_is_a_smaller_hole(thread, percent, more):
    assert hole_for(thread, percent + more) < hole_for(thread, percent) < thread.major_mm


@given(st.sampled_from(threads()))
def test_a_thread_reads_back(thread):
    """Its designation means itself, or a thread that is the same by another name."""
    assert read_thread(thread.designation).thread.same_as(thread)


def crib(thread, near, forming):
    """Drills round a thread's hole, and taps for it."""
    drills = [Cutter(n, "drill", diameter_mm=mm, condition="sharp", material="hss")
              for n, mm in enumerate(near, start=1)]
    form = "forming" if forming else "cutting"
    taps = [Cutter(90, "tap", thread=thread.designation, tap_chamfer="plug", tap_form=form, condition="sharp")]
    return [cutter.but(label=label(cutter, "in")) for cutter in (*drills, *taps)]


@settings(max_examples=200, deadline=None)
@given(st.sampled_from(CALLED), st.data(), st.sampled_from(materials()), st.floats(0.3, 3), st.booleans())
def test_nothing_outside_a_called_class_is_recommended(thread, data, material, diameters, through):
    limits = hole_limits(thread)
    near = [mm for mm in SIZES if 0.9 * limits.least < mm < 1.05 * thread.major_mm] or SIZES[:1]
    owned = crib(thread, data.draw(st.lists(st.sampled_from(near), min_size=1, max_size=8, unique=True)), False)
    asking = Asking(Reading(thread), limits.name, material.name, diameters * thread.major_mm, through)
    advice = advise_tap(asking, owned, Shop(magnesium=True))
    for verdict in (*advice.drills, *advice.other_ways):
        if verdict.serves:
            assert limits.holds(verdict.hole.expected_mm), verdict
    for one in advice.not_owned:
        assert limits.holds(one.hole_expected_mm), one
    if advice.answer not in ("cannot", "measure first"):
        assert any(verdict.serves for verdict in (*advice.drills, *advice.other_ways))


@settings(max_examples=100, deadline=None)
@given(st.sampled_from([one for one in CALLED if one.major_mm > 3]), st.data())
def test_a_forming_tap_never_gets_a_cutting_taps_hole(thread, data):
    near = [mm for mm in SIZES if 0.7 * thread.major_mm < mm < thread.major_mm]
    owned = crib(thread, data.draw(st.lists(st.sampled_from(near), min_size=1, max_size=6, unique=True)), True)
    advice = advise_tap(Asking(Reading(thread), None, "mild steel"), owned, Shop())
    for verdict in advice.drills:
        if verdict.serves:
            assert 55 <= verdict.percent_expected <= 75 + 1e-6


@settings(max_examples=100, deadline=None)
@given(st.sampled_from(CALLED), st.data())
def test_another_drill_never_makes_the_answer_worse(thread, data):
    limits = hole_limits(thread)
    near = [mm for mm in SIZES if 0.9 * limits.least < mm < 1.05 * thread.major_mm] or SIZES[:1]
    some = data.draw(st.lists(st.sampled_from(near), min_size=1, max_size=5, unique=True))
    more = [*some, data.draw(st.sampled_from(near))]
    order = ("as drawn", "extra passes", "compromise", "cannot")
    few, many = (advise_tap(Asking(Reading(thread), None, "mild steel"), crib(thread, sizes, False), Shop())
                 for sizes in (some, dict.fromkeys(more)))
    assert order.index(many.answer) <= order.index(few.answer)
