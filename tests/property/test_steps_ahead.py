"""Laws of what is told of steps under a flank before they are tried: no more than they come to, and that less is said
of them is worth no less than it may be; nothing owned is missed for it."""

from __future__ import annotations

from collections import Counter
from math import inf

from hypothesis import given, note, settings

from crib.cutters.base import Cutter
from crib.features.request import Request
from crib.geometry.region import NOTHING, Region
from crib.light.records import replace
from crib.machining.methods.cuts import Job
from crib.machining.words import LEANING
from crib.planning.search import steps_first
from crib.planning.search.jobs import Jobs
from crib.planning.search.set_ups import usable
from crib.shop import Shop
from tests.property.test_slants import drawn_or_none
from tests.slant_strategies import stepped
from tests.strategies import brief, renumbered
from tests.unpruned import held_to_every_way, questions_of


def _hold_of(jobs: Jobs, removed: Region, choice: tuple[Job, ...], seen: Counter[bool]) -> None:
    """Of one choice of flanks, with every disc; counted by whether it surely begins with both."""
    rooms = {room.name: room for room in jobs.question.outline.rooms}
    flanks = [steps_first._Flank(rooms[job.room], job.levels, steps_first._on_the_floor(job, rooms[job.room]),
                                 steps_first._before(job, rooms[job.room], removed)) for job in choice]
    assert jobs.discs
    for least, count, disc in steps_first._discs(jobs, removed, choice, frozenset(), None, inf):
        if some := steps_first._stepped(jobs, removed, choice, disc, count):
            seen[any(steps_first._both_at_once(jobs.discs.steps(flank.room)[disc.id, count], choice[0].tool, flank)
                     for flank in flanks)] += 1
            assert least <= steps_first._money(jobs.question, some) + 1e-6


def test_no_step_costs_less_than_is_told_of_it() -> None:
    """Whatever went before: the least that is told of so many steps of a disc is no more than they and the flanks come
    to, also where the cutter that follows surely begins with both flanks at once."""
    seen: Counter[bool] = Counter()

    @settings(max_examples=60)
    @given(stepped())
    def hold(asked: tuple[Request, tuple[Cutter, ...], Shop]) -> None:
        request, cutters, shop = asked
        if not drawn_or_none(request):
            return
        tall = [one.but(face_mm=12.0, reach_mm=15.0) for one in cutters if one.kind == "dovetail-cutter"]
        cutters = renumbered((*cutters, *tall))
        note(brief(request, cutters, shop))
        for question in questions_of(request, shop, cutters):
            jobs = Jobs(question, usable(question, cutters))
            opens = [room for room in question.outline.rooms if not room.lean]
            before = {job.removed for room in opens for tool in jobs.tools for job in jobs.clear(tool, room, NOTHING)}
            for removed in before:
                for choice in (one for tool in jobs.tools for one in jobs.of(tool, removed)):
                    if jobs.discs and all(job.manner in LEANING for job in choice):
                        _hold_of(jobs, removed, choice, seen)

    hold()
    assert seen[True] >= 10 and seen[False] >= 10, seen


def test_nothing_is_missed_where_warnings_count() -> None:
    """Where what is said of a plan is worth money, whatever hours are in the part, the best of all ways is found."""
    seen: Counter[bool] = Counter()

    @settings(max_examples=60)
    @given(stepped())
    def compare(asked: tuple[Request, tuple[Cutter, ...], Shop]) -> None:
        request, cutters, shop = asked
        shop = replace(shop, warn_chance=0.05, caution_chance=0.1, blank_cost=60.0)
        if not drawn_or_none(request):
            return
        note(brief(request, cutters, shop))
        if found := held_to_every_way(request, cutters, shop):
            seen[any(one.role == "rough" and "flank" in one.room for one in found[0].passes)] += 1

    compare()
    assert seen[True] >= 3 and seen[False] >= 5, seen
