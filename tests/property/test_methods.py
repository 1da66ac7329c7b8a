"""Laws of the methods, over all of them and invented tools and rooms: what a method says once, its limits, where the
tool stands, how many passes at the least, agrees with what comes out."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import replace

from hypothesis import assume, example, given, note, settings
from hypothesis import strategies as st

from crib.cutters.base import Cutter
from crib.features import draw as draw_feature
from crib.features.request import Request, Wall
from crib.findings.errors import CribError
from crib.geometry.outline import Box, Opening, Outline, Room
from crib.geometry.region import NOTHING, Region, box
from crib.handbook.materials import find_material
from crib.machining.methods import (
    clear,
    gets_near,
    how,
    is_feasible,
    may,
    method_of,
    pass_bounds,
    stands_in,
    violated,
    why_not,
)
from crib.machining.methods.base import Limits
from crib.machining.methods.cuts import Job
from crib.machining.tool import Tool, at_kindest, ready
from crib.machining.words import Side
from crib.planning.search.jobs import Jobs
from crib.planning.search.set_ups import asked_of
from crib.shop import Shop
from crib.units.angles import Angle
from tests.property.test_completeness import questions
from tests.property.test_set_ups import asked as from_any_side
from tests.slant_strategies import SLANTED, slanted_cribs
from tests.strategies import any_of, around, brief, shops

Asked = tuple[Request, tuple[Cutter, ...], Shop]


@st.composite
def slanted(draw: st.DrawFn) -> Asked:
    request = draw(SLANTED)
    return request, draw(slanted_cribs(request, 4)), draw(shops())


@st.composite
def attempts(draw: st.DrawFn) -> Asked:
    """A feature that any method may have to make, some cutters, now and then something that stands beside."""
    request, cutters, shop = draw(st.one_of(questions(4), from_any_side(3), slanted(), slanted()))
    if draw(st.integers(0, 3)) == 0:
        wall = Wall(draw(any_of(2.0, 5.0, 15.0)), draw(any_of(4.0, 8.0, 12.0, -8.0, -12.0)))
        request = replace(request, walls=(wall,))
    return request, cutters, shop


def rooms_of(asked: Asked) -> Iterator[tuple[Jobs, Tool, Room, Limits]]:
    """Each cutter, at its kindest, in each room of each set-up, with walls at their aim and nearer their limits."""
    request, cutters, shop = asked
    material = find_material(request.material)
    try:
        feature = draw_feature(replace(request, material=material.name))
    except CribError:
        assume(False)
    for jobs in asked_of(feature, material, shop, cutters):
        tools = [ready(at_kindest(cutter, feature.kindest), shop, material, cutter) for cutter in cutters]
        for tool in filter(None, tools):
            for room in jobs.question.outline.rooms:
                for wide in (False, True):
                    yield jobs, tool, room, replace(jobs.question.limits, wide=wide)


def whole(outline: Outline, room: Room, jobs: tuple[Job, ...]) -> list[Job]:
    """The jobs that leave nothing that must go of a room."""
    return [job for job in jobs if outline.is_waived(outline.rest(room, job.removed))]


def check(jobs: Jobs, tool: Tool, room: Room, allowed: Limits) -> str:
    """Hold what is told of a tool in a room against the passes that it makes there; what came of it."""
    outline, before = jobs.question.outline, jobs.before(room)
    limit, bounds = violated(tool, outline, room, allowed), pass_bounds(tool, outline, room, allowed)
    for gone in (NOTHING, before):
        done = clear(tool, outline, room, gone, allowed)
        ended = whole(outline, room, done)
        told = stands_in(tool, outline, room, allowed, gone | outline.most) if done else ()
        assert all(any(one.low <= cut.z <= one.high and one.left <= cut.x <= one.right for one in told)
                   for job in done for cut in job.cuts)
        assert all(gets_near(tool, outline, room, allowed, gone | outline.most, (one.left - 1, one.right + 1), one.low)
                   for one in told)
        assert not (limit and done), "a limit that isn't kept leaves nothing to do"
        assert bounds or not done, "what is counted as nothing takes nothing"
        assert not method_of(room).both(room) or all(any(cut.side == Side.BOTH for cut in job.cuts) for job in done)
        assert gone != NOTHING or all(min(one.passes for one in bounds) <= len(job.cuts) for job in ended)
        assert is_feasible(tool, outline, room, gone, allowed) in (None, bool(ended))
    if not ended and may(tool, room):
        reason = why_not(tool, outline, room, before, allowed)
        assert reason.says and not reason.holds and (limit is None or limit == reason)
    return limit.id if limit else "done" if ended else "in the way"


SHORT_CONE: Asked = (
    Request("chamfer", {"size": around(3.0, 0.1, 0.1)}, "mild steel", angles={"angle": Angle(45.0, "45", None)},
            units="mm"),
    (Cutter(1, "chamfer-cutter", "short", diameter_mm=4.0, angle_deg=90.0, tip_mm=0.5, shank_mm=6.0, flutes=4,
            condition="sharp", material="hss"),), Shop(units="mm"))
"""A cone too short for the edge, which is drawn once in some thousand rooms."""

SLIDE: Asked = (
    Request("dovetail-slide", {"width": around(6.0, 0.1, 0.1), "height": around(3.0, 0.1, 0.1),
                               "shoulder": around(7.0, 0.1, 0.1)}, "mild steel",
            angles={"angle": Angle(60.0, "60", None)}, units="mm"),
    (Cutter(1, "end-mill", "mill", diameter_mm=8.0, length_of_cut_mm=8.0, corner_radius_mm=0.0, shank_mm=6.0, flutes=4,
            centre_cutting=True, condition="sharp", material="hss", measured=("diameter_mm",)),
     Cutter(2, "dovetail-cutter", "flanks", diameter_mm=12.0, angle_deg=60.0, face_mm=4.0, shank_mm=6.0, neck_mm=5.0,
            reach_mm=12.0, flutes=8, condition="sharp", material="hss", measured=("diameter_mm",))), Shop(units="mm"))
"""Shoulders and flanks at both sides: of a free seed's rooms none may be cleared left-handed."""


def test_limits_and_counts_hold() -> None:
    """A tool that breaks a limit takes nothing out of the room; one that is told to clear it does, and no other;
    whatever does it whole takes no fewer passes than were counted, and whatever doesn't has a reason."""
    seen: Counter[str] = Counter()
    tried: set[tuple[str, bool]] = set()

    @settings(max_examples=150)
    @given(attempts())
    @example(SHORT_CONE)
    @example(SLIDE)
    def hold(asked: Asked) -> None:
        note(brief(*asked))
        for jobs, tool, room, allowed in rooms_of(asked):
            note(f"{jobs.question.setup.name}, {tool.id} in the {room.name}")
            seen[check(jobs, tool, room, allowed)] += 1
            tried.add(how(room))

    hold()
    assert {"SZ3", "FC1", "FC2", "AN1", "CN1", "done", "in the way"} <= set(seen), seen
    assert len(tried) >= 7, "the five methods, from above and along a flank left-handed too"


def test_a_room_off_the_middle_is_told_the_same_reason() -> None:
    """Why not took x = 0 for the middle of the room, which it is only where a feature is drawn about its centre line:
    moved aside, a tool as wide as a slot was told to reach 0 from there."""
    shop, material = Shop(), find_material("mild steel")
    mill = ready(Cutter(1, "end-mill", diameter_mm=10.0, length_of_cut_mm=3.0, shank_mm=12.0, flutes=2), shop, material)
    disc = ready(Cutter(2, "keyseat-cutter", diameter_mm=19.0, face_mm=3.0, neck_mm=16.0, reach_mm=25.0, shank_mm=18.0,
                        flutes=8), shop, material)
    assert mill and disc
    for tool, name in ((mill, "slot"), (disc, "head")):
        there, off = (why_not(tool, outline, room, gone, Limits(4)) for outline, gone in map(tee, (0, -40_000_000))
                      for room in outline.rooms if room.name == name)
        assert there == off and there.id == {"slot": "RE1", "head": "NK1"}[name]


def tee(at: int) -> tuple[Outline, Region]:
    """A narrow slot with a head under it, about a place, and what is gone of it before its head."""
    def about(half: int, low: int, high: int) -> Box:
        return Box(at - half, low, at + half, high)
    slot, head = about(5_000_000, -8_000_000, 0), about(9_500_000, -11_000_000, -8_000_000)
    gone = slot.region | head.region
    stock = box(-10**9, -10**9, 10**9, 0)
    return Outline(stock, gone, gone, gone, (Room("slot", slot, slot, slot, frozenset({Opening.TOP})),
                                             Room("head", head, head, head))), slot.region


def test_a_cutter_too_wide_by_a_hair_stands_where_it_is_let() -> None:
    """A dovetail cutter 62 nm wider than goes between the flanks at its upper height: its last places for the two
    flanks are the wrong way round there. It is let stand at both, and it was told that it stands nowhere."""
    request = Request("dovetail", {"width": around(8.08, 0.04, 0.04), "depth": around(2.94, 0.02, 0.02)}, "grey iron",
                      angles={"angle": Angle(55.0, "55", None)}, units="mm", walls=(Wall(2.0, 4.0),))
    cutter = Cutter(1, "dovetail-cutter", diameter_mm=6.52, face_mm=2.08, neck_mm=1.84278, reach_mm=5.92, shank_mm=6.0,
                    angle_deg=55.0, flutes=8, material="hss", condition="sharp", corner_radius_mm=0.0)
    came = [check(*one) for one in rooms_of((request, (cutter,), Shop(units="mm"))) if one[2].name == "flanks"]
    assert came
