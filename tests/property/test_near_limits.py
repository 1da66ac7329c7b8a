"""Walls nearer their limits let in necks that the drawing's aim doesn't: who isn't measured is told to be, where that
may bring a plan, and only there."""

from __future__ import annotations

from collections import Counter

from hypothesis import given, note, settings
from hypothesis import strategies as st

from crib.cutters.base import Cutter
from crib.features.request import Request
from crib.planning.advise import advise, jobs_for
from crib.planning.refused import refusals
from crib.planning.refused.case import NEAR_LIMITS
from crib.planning.refused.near_limits import let_in, may_turn, wider
from crib.shop import Shop
from tests.spelt import spelt
from tests.strategies import any_of, around, brief, cribs, mm, renumbered, shops
from tests.unpruned import every_way, kindest, questions_of, usable

Asked = tuple[Request, tuple[Cutter, ...], Shop]

_SLIMMEST = 0.25
"""A neck that isn't known is no slimmer than this part of the diameter (`crib/cutters/disc.py`)."""


@st.composite
def necks_at_the_lip(draw: st.DrawFn) -> Asked:
    """A T-slot whose throat has a tolerance, and a disc of which the neck isn't known that at its slimmest stands about
    as far from the lip as it must."""
    throat, height, band = draw(mm(4, 7)), draw(mm(1.6, 3)), draw(any_of(0.08, 0.16, 0.24))
    over, depth, shop = draw(mm(1.2, 2)), round(height + draw(mm(1.2, 3)), 6), draw(shops())
    request = Request("t-slot", {
        "throat": around(throat, band, band), "depth": around(depth, 0.08, 0.08),
        "head_width": around(round(throat + 2 * over, 6), 0.16, 0.16), "head_height": around(height, 0.08, 0.08),
    }, "mild steel")
    reaches = (over + shop.neck_clearance_mm) * 2 / (1 - _SLIMMEST)
    disc = Cutter(1, draw(any_of("keyseat-cutter", "t-slot-cutter")), "disc", face_mm=height, flutes=8, shank_mm=6.0,
                  diameter_mm=round(reaches + draw(mm(-1.0, 0.3)), 6), reach_mm=round(depth + 2, 6),
                  material="hss", condition="sharp", measured=("diameter_mm",))
    mill = Cutter(2, "end-mill", "mill", diameter_mm=round(draw(any_of(0.8, 0.96, 1.0)) * throat, 6), shank_mm=6.0,
                  length_of_cut_mm=depth + 2, flutes=2, corner_radius_mm=0.0, centre_cutting=True, material="hss",
                  condition="sharp", measured=("diameter_mm",))
    return request, renumbered(draw(st.permutations((disc, mill, *draw(cribs(request, 2)))))), shop


def test_who_is_not_measured_is_told_to_be() -> None:
    """By every way there is with what isn't known at its kindest, and by each cutter looked at: none that may be let in
    is passed over."""
    seen: Counter[str] = Counter()

    @settings(max_examples=60)
    @given(necks_at_the_lip())
    def hold(asked: Asked) -> None:
        request, cutters, shop = asked
        note(brief(*asked))
        every = jobs_for(request, cutters, shop)
        wanting, wide = refusals.undone(every), wider(every)
        likely = let_in(wide, cutters)
        for cutter in cutters:
            if cutter.id not in likely:
                near = refusals.nearest(every, cutter, wanting, wide)
                assert near == refusals.nearest(every, cutter, wanting), cutter
            seen["let in" if cutter.id in likely else "not measured" if may_turn(cutter) else "known"] += 1
        advice = advise(request, cutters, shop).advice
        if advice.plans:
            return
        questions = questions_of(request, shop, cutters)
        assert not every_way(questions, usable(questions[0], cutters))
        is_made = every_way(questions, kindest(questions[0], cutters)) is not None
        assert advice.answer == ("measure first" if is_made else "cannot")
        told = [one for one in advice.refused if one.answer == "measure first"]
        assert told or not is_made
        seen[advice.answer] += 1
        seen["near limits"] += any(one.fix == NEAR_LIMITS for one in told)

    hold()
    wanted = {"let in", "not measured", "known", "measure first", "cannot", "near limits"}
    assert wanted <= {*filter(seen.get, seen)}, seen


def test_a_neck_that_walls_near_their_limits_let_in_is_to_be_measured() -> None:
    """Who may do a room was asked with the throat as it is aimed alone, 4.00 wide, where a neck of .89, the least of a
    disc of 3.56, is .01 too stout; 4.03 wide it goes in. It said that nothing makes it. By every way there is, with the
    neck at its kindest."""
    request = Request("t-slot", {"throat": around(4.0, 0.08, 0.08), "depth": around(2.8, 0, 0),
                                 "head_width": around(6.68, 0, 0), "head_height": around(1.6, 0, 0)}, "grey iron")
    disc = Cutter(1, "keyseat-cutter", "disc", diameter_mm=3.56, face_mm=1.6, reach_mm=3.562, shank_mm=6.0,
                  material="hss", condition="sharp", measured=("diameter_mm",))
    shop = Shop(units="mm", neck_clearance_mm=0.0, end_clearance_mm=0.0)
    [question] = questions_of(request, shop, (disc,))
    assert not every_way((question,), usable(question, (disc,)))
    assert every_way((question,), kindest(question, (disc,)))
    advice = advise(request, (disc,), shop).advice
    assert advice.answer == "measure first" and not advice.says
    [no] = advice.refused
    assert (no.answer, spelt(no.says), no.fix) == ("measure first", "mic the neck behind the teeth", NEAR_LIMITS)
    stout = disc.but(diameter_mm=3.52)  # its neck, .88 at the least, would have to be .80: not even 4.08 lets it in
    assert not every_way((question,), kindest(question, (stout,)))
    assert advise(request, (stout,), shop).advice.answer == "cannot"
