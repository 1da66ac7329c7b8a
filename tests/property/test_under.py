"""Who is told not to get under a lip between closed ends doesn't: after whatever opens it, wherever he stands."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from hypothesis import assume, given, note, settings
from hypothesis import strategies as st

from crib.cutters.base import Cutter
from crib.features.request import Request
from crib.findings.errors import CribError
from crib.geometry.region import NOTHING
from crib.handbook.closed_ends import LOWERED_MM
from crib.light.records import replace
from crib.machining.draft import Draft
from crib.machining.ends import ends_stand, fit, is_not_in_yet, is_shut_under, lowered, under
from crib.machining.ends.fit import with_courses
from crib.machining.tool import Tool
from crib.planning.advise import advise, jobs_for
from crib.planning.ask import read_request, texts_of
from crib.planning.bounds.lower_bounds import Bounds
from crib.planning.search.jobs import Jobs
from crib.planning.search.watch import Watch
from crib.planning.search.weighed import weigh
from crib.planning.told.verdict import complete, deviations
from crib.shop import Shop
from tests.closed_strategies import STEP, closed_t_slots, discs, mills
from tests.strategies import any_of, around, brief, mm


def begun(jobs: Jobs) -> Iterator[Draft]:
    """What opens the throat: any mill, and any other after it."""
    throat = jobs.question.outline.rooms[0]
    empty = Draft(jobs.question)
    for first in jobs.tools:
        for job in jobs.clear(first, throat, NOTHING):
            for one in with_courses(empty, (job,)):
                yield one
                for second in jobs.tools:
                    for more in jobs.clear(second, throat, one.removed) if second is not first else ():
                        yield from with_courses(one, (more,))


def about_as_long(request: Request, disc: Cutter, more: float) -> Request:
    """The same slot, about as long under its lip as a disc makes it whose neck stands in the throat's ends [mm]."""
    clear = 2 * Shop().neck_clearance_mm
    longest = request.sizes["length"].mid + (disc.diameter_mm or 0.0) - (disc.neck_mm or 0.0) - clear
    return replace(request, sizes={**request.sizes, "head_length": around(round(longest + more, 6), 0.2, 0.2)})


def a_hair_too_wide(request: Request, disc: Cutter, number: int) -> Cutter:
    """A disc that comes through a throat that is as wide as it may be, but not as it is aimed at."""
    across = round(request.sizes["throat"].mid - LOWERED_MM + 0.05, 6)
    return disc.but(id=number, label=f"disc {number}", diameter_mm=across, neck_mm=min(disc.neck_mm or 1.0, across / 2))


def about_as_wide_as_the_head(request: Request, disc: Cutter, number: int, more: float, neck: float
                              ) -> tuple[Request, Cutter]:
    """The same slot, its head held closely, with a hole through which a disc comes that is about as wide, and the disc
    [mm]."""
    head = request.sizes["head_width"].mid
    across, hole = head + more, around(round(head + 0.6, 6), 0.0, 0.1)
    sizes = {key: size for key, size in request.sizes.items() if key != "head_length"}
    return replace(request, sizes={**sizes, "entry_hole": hole, "head_width": around(head, 0.05, 0.05)}), disc.but(
        id=number, label=f"disc {number}", diameter_mm=round(across, 6),  neck_mm=neck)


def check(jobs: Jobs) -> Iterator[str]:
    """Hold what is told of each tool to its ways in after whatever opened the throat before; what was told."""
    head = jobs.question.outline.rooms[-1]
    limits, able = jobs.limits, jobs.abilities.of
    is_shut = is_shut_under(jobs.question, limits, head, lambda room: [jobs.abilities.by_number[n] for n in able(room)])
    drafts, bounds, shut_out = list(begun(jobs)), jobs.bounds(), jobs.abilities.shut_out(head)
    if drafts:
        yield f"shut: {is_shut}"
    here = under.Under.of(jobs.question, limits, head)
    for tool in jobs.tools:
        if drafts and here and here.needs(tool) <= here.most and here.is_too_short(tool):
            yield "too short"
        never = under.is_never_in(jobs.question, limits, tool, head)
        assert not never or tool.id not in able(head)
        for draft in drafts:
            is_out = tool.id in shut_out
            ways = [way for job in jobs.clear(tool, head, draft.removed) for way in with_courses(draft, (job,))]
            if never or is_shut or is_out or is_not_in_yet(draft, limits, tool, head):
                assert not ways, (tool.owned, never, is_shut, is_out)
                yield "never" if never else "kept out" if is_out and not is_shut else "not yet"
            else:
                yield "in" if ways else "not told"
            yield from (_is_dearer(bounds, draft, tool, way) for way in ways if complete(way))
            shut_to_all = jobs.abilities.is_shut_to_all(draft, head)
            assert not (ways and shut_to_all), tool.owned
            yield "shut to all" if shut_to_all else "open to some"


def check_ends(jobs: Jobs) -> Iterator[str]:
    """Hold that ends stand to what one makes of them alone, and two together."""
    head, by_number = jobs.question.outline.rooms[-1], jobs.abilities.by_number
    there = [by_number[number] for number in jobs.abilities.of(head)]
    all_stand = bool(there) and ends_stand(jobs.question, jobs.limits, head, there)
    for draft in begun(jobs):
        for tool in there:
            one_stands = ends_stand(jobs.question, jobs.limits, head, (tool,))
            for way in _more(jobs, draft, tool):
                if complete(way):
                    assert _stands_short(way) or not one_stands
                    yield "one leaves them" if one_stands else "one may not"
                    continue
                for both in (more for other in there if other is not tool for more in _more(jobs, way, other)):
                    assert not complete(both) or _stands_short(both) or not all_stand
                    yield "no plan" if not complete(both) else "two leave them" if all_stand else "two may not"


def _more(jobs: Jobs, draft: Draft, tool: Tool) -> Iterator[Draft]:
    """A draft with what a tool makes of the head."""
    for job in jobs.clear(tool, jobs.question.outline.rooms[-1], draft.removed):
        yield from with_courses(draft, (job,))


def _stands_short(draft: Draft) -> bool:
    return any(one.id == "EN4" for one in deviations(draft, True))


def _is_dearer(bounds: Bounds, before: Draft, tool: Tool, whole: Draft) -> str:
    """Hold the bounds of a tool that is the next to what comes out, where nobody was under the lip before."""
    told, part = weigh(whole, True), weigh(before, False)
    if told.stopped or part.stopped:
        return "stopped"
    listed = bounds.next_tools(bounds.missing(before), part.so_far, may_share=told.key[2])
    [found] = [one for branch in listed for one in (branch, *branch.twins) if one.tool is tool]
    assert bounds.rank(part.so_far.least, found.to_come) <= (*told.key[:4], told.key[4] + 1e-6), tool.owned
    return "dearer"


def test_who_is_told_not_to_get_under_does_not() -> None:
    """Of discs about as wide as go through the throat, some too wide, some whose necks meet the lip."""
    told: Counter[str] = Counter()

    @settings(max_examples=120)
    @given(st.data())
    def hold(data: st.DataObject) -> None:
        request = data.draw(closed_t_slots())
        makers = [mills, mills, discs, discs, discs][: data.draw(st.integers(2, 5))]
        cutters = tuple(data.draw(maker(request, number)) for number, maker in enumerate(makers, 1))
        if (disc := next((one for one in cutters if one.neck_mm), None)) and data.draw(st.booleans()):
            request = about_as_long(request, disc, data.draw(mm(-0.4, 1.2, STEP)))
        if disc and data.draw(st.booleans()):
            cutters = (*cutters, a_hair_too_wide(request, disc, len(cutters) + 1))
        note(brief(request, cutters))
        try:
            jobs, *_ = jobs_for(request, cutters, Shop())
        except CribError:
            assume(False)
        for one in (jobs, jobs.widened):
            told.update(check(one))

    hold()
    some = {"never", "too short", "not yet", "kept out", "in", "dearer", "shut: True", "shut: False"}
    assert some <= set(told), told


def test_what_a_disc_is_told_to_leave_it_leaves() -> None:
    """Told by how far its passes go and by no way of it: what all of it passes over doesn't hold all that must go."""
    told: Counter[str] = Counter()

    @settings(max_examples=100)
    @given(st.data())
    def hold(data: st.DataObject) -> None:
        request = data.draw(closed_t_slots())
        cutters = tuple(data.draw(maker(request, number)) for number, maker in enumerate((mills, discs, discs), 1))
        if (disc := next((one for one in cutters if one.neck_mm), None)) and data.draw(st.booleans()):
            request = about_as_long(request, disc, data.draw(mm(-0.4, 1.2, STEP)))
        note(brief(request, cutters))
        try:
            jobs, *_ = jobs_for(request, cutters, Shop())
        except CribError:
            assume(False)
        layers, head = jobs.question.layers, jobs.question.outline.rooms[-1]
        assert layers is not None
        ends, must = layers.ends[head.name], [point for one in fit.wanted(head, layers) for point in one.side_ends]
        at = ends.middle, head.aim.middle
        for before in begun(jobs):
            for job in (job for tool in jobs.tools for job in jobs.clear(tool, head, before.removed)):
                if cuts := lowered.route(job, at, ends.half, before.cleared):
                    is_left = lowered.route(job, at, ends.half, before.cleared, must) is None
                    is_long = fit.is_long_enough(job, head, cuts, layers)
                    assert not (is_left and is_long), job
                    told["left" if is_left else "long" if is_long else "short"] += 1

    hold()
    assert {"left", "long"} <= set(told), told


def test_ends_that_are_told_to_stand_do() -> None:
    """Of discs about as wide as the head, which come through a hole: they end short of what opens it."""
    told: Counter[str] = Counter()

    @settings(max_examples=100)
    @given(st.data())
    def hold(data: st.DataObject) -> None:
        request = data.draw(closed_t_slots())
        cutters = (data.draw(mills(request, 1)),)
        disc, fat = data.draw(discs(request, 2)), round(request.sizes["throat"].mid - data.draw(mm(0.4, 1.4, STEP)), 6)
        for more, neck in data.draw(any_of(((0.0, 1.0),), ((-0.2, 1.0),), *[((0.0, 1.0), (-1.0, fat))] * 3)):
            request, wide = about_as_wide_as_the_head(request, disc, len(cutters) + 1, more, neck)
            cutters = (*cutters, wide)
        note(brief(request, cutters))
        try:
            jobs, *_ = jobs_for(request, cutters, Shop())
        except CribError:
            assume(False)
        told.update(check_ends(jobs))

    hold()
    assert {"one leaves them", "one may not", "two leave them"} <= set(told), told


def test_no_throat_is_cut_for_a_head_that_nobody_gets_into() -> None:
    """The one disc that would clear the head comes through no throat that these mills cut, though through one as wide
    as it may be: the throat was cut in every way that there is, alone and shared, before that was told."""
    def cutter(number: int, kind: str, inches: float, **sizes: float) -> Cutter:
        return Cutter(number, kind, diameter_mm=inches * 25.4, flutes=2, material="hss", condition="sharp",
                      shank_mm=9.525, measured=("diameter_mm",), **{key: 25.4 * size for key, size in sizes.items()})

    some = [cutter(k, "end-mill", (13 + k) / 64, length_of_cut_mm=1.5) for k in range(1, 19)]
    disc = cutter(30, "keyseat-cutter", 0.494, face_mm=0.25, neck_mm=0.2, reach_mm=1.0)
    request = read_request("t-slot", texts_of([
        "--throat", ".5", "--depth", ".6", "--head-width", ".7", "--head-height", ".25", "--ends", "closed", "--length",
        "3"]), Shop(), "in")
    watch, wider = Watch(), cutter(31, "end-mill", 0.5045, length_of_cut_mm=1.5)
    assert not advise(request, (*some, disc), Shop(), watch=watch).advice.plans
    assert watch.tried == 0
    [first, *_] = advise(request, (*some, disc, wider), Shop()).advice.plans
    assert [one.id for one in first.cutters] == [31, 30]
    jobs, *_ = jobs_for(request, (*some[-2:], disc, wider), Shop())
    head = jobs.question.outline.rooms[-1]
    opened = [(31 in {tool.id for tool in draft.tools}, draft) for draft in begun(jobs)]
    assert {is_wide for is_wide, _ in opened} == {True, False}
    assert all(jobs.abilities.is_shut_to_all(draft, head) is not is_wide for is_wide, draft in opened)
