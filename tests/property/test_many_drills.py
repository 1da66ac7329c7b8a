"""Of many drills for a way in the first that does is taken, of each sort that are told of alike: the same as trying
each of them by itself, one after the other."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from hypothesis import given, settings
from hypothesis import strategies as st

from crib.cutters.base import Cutter
from crib.features import draw as draw_feature
from crib.features.request import Request
from crib.findings.errors import CribError
from crib.handbook.closed_ends import CORE_SHARE
from crib.handbook.materials import find_material
from crib.light.records import replace
from crib.machining.draft import Draft
from crib.machining.ends.fit import with_courses
from crib.machining.methods.cuts import Job
from crib.machining.question import Question
from crib.machining.tool import Tool
from crib.machining.words import Manner
from crib.planning.closed.drills import drills, in_order
from crib.planning.search.set_ups import usable
from crib.planning.told.verdict import complete
from crib.setups.upright import SETUP
from crib.shop import Shop
from tests.closed_strategies import closed_slots, mills, pockets
from tests.strategies import any_of, mm
from tests.unpruned import Unpruned


@st.composite
def drawers(draw: st.DrawFn, request: Request) -> tuple[Cutter, ...]:
    """A few mills, and a row of drills up to the width of what they are for, sharp ones and used ones."""
    width = request.sizes["width"].mid
    some = [draw(mills(request, number)).but(centre_cutting=draw(any_of(False, False, True)))
            for number in range(1, draw(st.integers(2, 4)))]
    if len(some) > 1:  # one that makes the upper part, for another to go on from
        some[0] = some[0].but(centre_cutting=True, length_of_cut_mm=0.6 * request.sizes["depth"].mid)
    cores = [round(CORE_SHARE * one.diameter_mm, 6) for one in some if one.diameter_mm]  # the end teeth reach so far
    sizes = draw(st.lists(st.one_of(any_of(*cores), mm(0.4, width, 0.2)), min_size=2, max_size=9, unique=True))
    row = [Cutter(number, "drill", f"drill {number}", diameter_mm=across, angle_deg=draw(any_of(118.0, 180.0)),
                  length_of_cut_mm=30.0, material="hss", condition=draw(any_of("sharp", "sharp", "used")))
           for number, across in enumerate(sizes, 11)]
    return (*some, *row)


def one_by_one(question: Question, so_far: Draft, jobs: tuple[Job, ...]) -> Iterator[tuple[Job, ...]]:
    """The ways in by themselves, then after the first of each sort of drill that lets it in."""
    done = [one.jobs for one in with_courses(Draft(replace(question, drills=()), so_far.jobs), jobs)]
    yield from done
    seen = set[object]()
    for drill in question.drills:
        alone = [one.jobs for one in with_courses(Draft(replace(question, drills=(drill,)), so_far.jobs), jobs)]
        for one in alone:
            place = sort(drill), tuple(job.manner for job in one)  # one hole, or a row of them: each by itself
            if one not in done and place not in seen:
                seen.add(place)
                yield one


def sort(drill: Tool) -> object:
    """What makes two drills be told of alike."""
    return drill.held.label, drill.owned.condition, drill.owned.material, drill.step and drill.step.grade


def test_many_drills_are_tried_as_one_by_one() -> None:
    """Of mills that begin the room, and of mills that go on where another began it."""
    met: Counter[str] = Counter()

    @settings(max_examples=150)
    @given(st.data())
    def hold(data: st.DataObject) -> None:
        request = data.draw(st.one_of(closed_slots(), pockets()))
        met.update(held(request, data.draw(drawers(request))))

    hold()
    assert {"drilled first", "drilled after another"} <= set(met), met


def held(request: Request, cutters: tuple[Cutter, ...]) -> Iterator[str]:
    """Hold every mill to every way in; where one was drilled."""
    shop, material = Shop(), find_material(request.material)
    try:
        feature = draw_feature(replace(request, material=material.name))
    except CribError:
        return
    owned = in_order(drills(cutters, shop, material), shop, material, request.sizes["depth"].hi)
    question = Question(feature, shop, material, SETUP, drills=owned)
    every = Unpruned(question, usable(question, cutters), False)
    begun = [Draft(question)]
    for tool in every.tools:
        for jobs in every.choices(tool, Draft(question).removed):
            begun.extend(one for one in with_courses(Draft(question), jobs) if not complete(one))
    for so_far in begun[:4]:
        for tool in every.tools:
            for jobs in () if tool in so_far.tools else every.choices(tool, so_far.removed):
                together = [one.jobs for one in with_courses(Draft(question, so_far.jobs), jobs)]
                assert sorted(map(repr, together)) == sorted(map(repr, one_by_one(question, so_far, jobs)))
                if len(owned) > 1 and any(job.manner is Manner.DRILLED for one in together
                                          for job in one[len(so_far.jobs):]):
                    yield "drilled after another" if so_far.jobs else "drilled first"
