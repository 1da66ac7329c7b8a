"""Who is told beforehand not to get down between closed ends doesn't, whatever is drilled for him, and who is told to
get down does; held to trying each drill for each of a cutter's jobs."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from crib.cutters import KINDS
from crib.cutters.base import Cutter
from crib.machining.draft import Draft
from crib.machining.ends import cuts_on_centre, doorway, fit, keeps_out
from crib.machining.tool import Tool
from crib.planning.advise import jobs_for
from crib.planning.ask import read_request
from crib.planning.search.jobs import Jobs
from crib.shop import Shop

INCH = 25.4


@st.composite
def mills(draw: st.DrawFn) -> Cutter:
    """An end mill, whose teeth may be known to cut on centre or not to, or a disc."""
    size = draw(st.integers(10, 64)) / 64 * INCH
    if draw(st.integers(0, 4)) == 0:
        return Cutter(0, "keyseat-cutter", diameter_mm=size, face_mm=size / 4, neck_mm=size * 0.4, reach_mm=size,
                      shank_mm=size * 0.4, flutes=8)
    return Cutter(0, "end-mill", diameter_mm=size, flutes=draw(st.sampled_from((2, 4))), shank_mm=size,
                  centre_cutting=draw(st.sampled_from((None, True, False))),
                  corner_radius_mm=draw(st.sampled_from((None, 0.0, 0.3))), length_of_cut_mm=1.5 * size,
                  condition=draw(st.sampled_from(("sharp", "dull"))))


@st.composite
def drills(draw: st.DrawFn) -> Cutter:
    """A drill with a point, or ground flat."""
    size = draw(st.integers(8, 60)) / 64 * INCH
    return Cutter(0, "drill", diameter_mm=size, angle_deg=draw(st.sampled_from((118.0, 135.0, 180.0, 180.0))),
                  length_of_cut_mm=draw(st.sampled_from((0.5, 2.0))) * INCH)


@st.composite
def let_in(draw: st.DrawFn, most: int) -> tuple[Cutter, Cutter]:
    """A mill up to so many 64ths whose teeth don't cut on centre, and a drill that may let it in."""
    size = draw(st.integers(10, most)) / 64 * INCH
    mill = Cutter(0, "end-mill", diameter_mm=size, flutes=draw(st.sampled_from((2, 4))), shank_mm=size,
                  centre_cutting=False, corner_radius_mm=draw(st.sampled_from((None, 0.0, 0.3))),
                  length_of_cut_mm=1.5 * size, condition="sharp")
    drill = draw(drills())
    return mill, drill.but(diameter_mm=round(draw(st.sampled_from((0.5, 0.8, 0.95, 1.0))) * size, 4))


@st.composite
def asked(draw: st.DrawFn) -> Jobs:
    """A closed slot, from hardly longer than wide to long; in half of them a mill with a drill that may let it in."""
    wide = draw(st.integers(12, 64)) / 64
    long = wide * draw(st.sampled_from((1.01, 1.2, 1.6, 2.0, 2.4, 3.0, 5.0)))
    deep = draw(st.sampled_from((0.03, 0.12, 0.4)))
    some = [*draw(st.lists(mills(), min_size=1, max_size=5)), *draw(st.lists(drills(), max_size=4))]
    if draw(st.booleans()):
        some += draw(let_in(round(wide * 64)))
    texts = {"width": f"{wide}", "depth": f"{deep}", "ends": "closed", "length": f"{long:.4f}±.001"}
    cutters = [one.but(id=number + 1) for number, one in enumerate(some)]
    return jobs_for(read_request("slot", texts, Shop(), "in"), cutters, Shop())[0]


def gets_in(jobs: Jobs, tool: Tool) -> bool:
    """Whether any of a tool's jobs finds a way in, each drill tried for each."""
    layers, [room] = jobs.question.layers, jobs.question.outline.rooms
    assert layers
    return any(next(fit.fitted(Draft(jobs.question), job, layers), None) is not None
               for job in jobs.clear(tool, room, jobs.before(room)))


def test_who_is_kept_out_has_no_way_in(monkeypatch: pytest.MonkeyPatch) -> None:
    """None of its jobs has any, be it after a drill; and told of the bare size it is the same."""
    told: Counter[str] = Counter()

    @settings(max_examples=150)
    @given(asked())
    def hold(jobs: Jobs) -> None:
        [room] = jobs.question.outline.rooms
        door = doorway(jobs.question, room)
        assert door
        for tool in jobs.tools:
            is_in, kept = gets_in(jobs, tool), keeps_out(jobs.question, tool, room)
            assert not (is_in and kept), tool.owned
            says = door.tells(tool.kind, cuts_on_centre(tool.kind, KINDS[tool.kind.name].fill(tool.known)),
                              tool.known.diameter_mm or 0.0)
            assert says is not True or is_in or not jobs.clear(tool, room, jobs.before(room)), tool.owned
            assert says is not False or kept, tool.owned
            told[f"{kept}, {says}"] += 1
            told["a mill in"] += is_in and not tool.kind.buried and says is None

    monkeypatch.setattr(fit, "_lets_in", lambda *_: True)
    hold()
    assert {"True, False", "False, True", "False, None", "a mill in"} <= set(+told), told


def pocket(jobs: Jobs) -> Jobs:
    """A pocket as wide, as deep and as long, its corners as round as goes, asked of the same cutters."""
    sizes = {key: f"{size.nominal / INCH:.4f}" for key, size in jobs.question.feature.request.sizes.items()}
    sizes["corner_radius"] = f"{float(sizes['width']) / 2.2:.4f}"
    owned = [tool.owned for tool in jobs.tools] + [drill.owned for drill in jobs.question.drills]
    return jobs_for(read_request("pocket", sizes, Shop(), "in"), owned, Shop())[0]


def after_others(jobs: Jobs, disc: Tool) -> Iterator[Draft]:
    """What comes of a disc after one or two others, wherever and after whatever drill they go."""
    [room] = jobs.question.outline.rooms

    def grown(draft: Draft, tool: Tool) -> Iterator[Draft]:
        for job in jobs.clear(tool, room, draft.removed):
            yield from fit.with_courses(draft, (job,))

    begun, others = [Draft(jobs.question)], [tool for tool in jobs.tools if tool is not disc]
    for _ in range(2):
        for draft in begun:
            yield from grown(draft, disc)
        begun = [more for draft in begun for tool in others if tool not in draft.tools for more in grown(draft, tool)]


def test_a_disc_follows_nothing_that_is_no_wider() -> None:
    """Who is told to be kept out of a room that is open at the top finds no way in after one other or two."""
    told: Counter[str] = Counter()

    @settings(max_examples=60)
    @given(asked(), st.booleans())
    def hold(slot: Jobs, is_pocket: bool) -> None:
        jobs = pocket(slot) if is_pocket else slot
        [room] = jobs.question.outline.rooms
        discs = [tool for tool in jobs.tools if tool.kind.buried][:2]
        for disc in discs:
            is_out, found = disc.id in jobs.abilities.shut_out(room), next(after_others(jobs, disc), None)
            assert not (is_out and found), disc.owned
            told["out" if is_out else "in" if found else "not told"] += 1

    hold()
    assert told["out"] > 5 and told["in"], told


def test_drills_that_are_passed_over_let_nothing_in(monkeypatch: pytest.MonkeyPatch) -> None:
    """The same ways in come out where each drill is tried."""
    passed, counted = fit._lets_in, Counter[bool]()

    @settings(max_examples=100)
    @given(asked())
    def hold(jobs: Jobs) -> None:
        layers, [room] = jobs.question.layers, jobs.question.outline.rooms
        assert layers
        for tool in jobs.tools:
            for job in jobs.clear(tool, room, jobs.before(room)):
                found = []
                for is_told in (True, False):
                    monkeypatch.setattr(fit, "_lets_in", passed if is_told else lambda *_: True)
                    ways = fit.fitted(Draft(jobs.question), job, layers)
                    found.append([[(one.tool.id, one.cuts) for one in way] for way in ways])
                assert found[0] == found[1], tool.owned
                counted.update(len(way) > 1 for way in found[0])

    hold()
    assert counted[True] > 5, counted
