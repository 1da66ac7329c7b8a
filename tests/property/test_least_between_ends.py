"""What a mill takes at the least between closed ends, its ways back and down reckoned in, is never more than what its
passes take; told of its bare sizes it is no more than that."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from hypothesis import given, note, settings
from hypothesis import strategies as st

from crib.cutters.base import Cutter
from crib.geometry.region import NOTHING
from crib.machining.draft import Draft
from crib.machining.ends.fit import with_courses
from crib.machining.tool import Tool
from crib.machining.words import Entry, Manner
from crib.planning.advise import jobs_for
from crib.planning.ask import read_request
from crib.planning.bounds.lower_bounds import PartialPlan
from crib.planning.large_cribs.floors import Floors
from crib.planning.reckoning.minutes import least_descent, least_return
from crib.planning.search.jobs import Jobs
from crib.planning.search.weighed import weigh
from crib.planning.told.verdict import complete
from crib.shop import Shop

INCH = 25.4


@st.composite
def mills(draw: st.DrawFn, wide: float) -> Cutter:
    """An end mill from a third of the width on, its teeth long or short."""
    size = wide * draw(st.sampled_from((0.35, 0.5, 0.64, 0.7, 0.8, 0.95, 0.99, 1.0))) * INCH
    return Cutter(0, "end-mill", diameter_mm=round(size, 3), flutes=draw(st.sampled_from((2, 4))), material="hss",
                  centre_cutting=draw(st.booleans()), length_of_cut_mm=draw(st.sampled_from((7.5, 25.4))),
                  shank_mm=9.525, overall_length_mm=80.0, condition=draw(st.sampled_from(("sharp", "used", "dull"))))


@st.composite
def asked(draw: st.DrawFn) -> Jobs:
    """A closed slot with walls and floor held closely or not, short or long, shallow or deep."""
    wide = draw(st.sampled_from((0.25, 0.4, 0.75, 1.0)))
    long = round(wide * draw(st.sampled_from((1.05, 1.5, 2.5, 6.0))), 4)
    deep = draw(st.sampled_from((0.05, 0.2, 0.6)))
    band, floor = (draw(st.sampled_from(("±.001", "±.010"))) for _ in range(2))
    texts = {"width": f"{wide}{band}", "depth": f"{deep}{floor}", "ends": "closed", "length": f"{long}±.005",
             "material": draw(st.sampled_from(("brass", "tool steel")))}
    some = draw(st.lists(mills(wide), min_size=1, max_size=4))
    for angle in draw(st.lists(st.sampled_from((118.0, 180.0)), max_size=2)):
        some.append(Cutter(0, "drill", diameter_mm=round(wide * 0.9 * INCH, 3), angle_deg=angle))
    cutters = [one.but(id=number + 1) for number, one in enumerate(some)]
    return jobs_for(read_request("slot", texts, Shop(), "in"), cutters, Shop())[0]


def made_alone(jobs: Jobs, tool: Tool) -> Iterator[Draft]:
    """Each draft that a tool makes in the only room alone, after a hole or none, whose least is held to what it comes
    to."""
    [room] = jobs.question.outline.rooms
    empty, bounds = Draft(jobs.question), jobs.bounds()
    so_far = PartialPlan(empty, bounds.start)
    listed = {one.number: one.to_come for branch in bounds.next_tools((room,), so_far, False)
              for one in (branch, *branch.twins)}
    for job in jobs.clear(tool, room, NOTHING):
        for draft in with_courses(empty, (job,)):
            if not complete(draft):
                continue
            whole = weigh(draft, True)
            note(f"{tool.owned}: {[(one.tool.owned.label, one.manner) for one in draft.jobs]}")
            assert whole.stopped or tool.id in listed
            if not whole.stopped:
                least = bounds.rank(so_far.least, listed[tool.id])
                assert least <= (*whole.key[:4], whole.key[4] + 1e-6), (least, whole.key)
            yield draft


def check(jobs: Jobs, told: Counter[str]) -> None:
    """Hold the bounds of each tool to each draft that it makes alone."""
    [room] = jobs.question.outline.rooms
    bounds, floors = jobs.bounds(), Floors(jobs)
    for place, tool in enumerate(jobs.tools):
        share = bounds.of(tool, room)
        if share and share.alone and tool.can_finish:
            loosely = next((one.rooms[0] for one in floors.doers.all if one.place == place), 0.0)
            assert max(floors.closely(tool, 0), loosely) <= min(one.money for one in share.alone) + 1e-9
        for draft in made_alone(jobs, tool):
            course = draft.jobs[-1].cuts[0].course
            assert course
            told["in a row" if draft.jobs[0].manner is Manner.IN_A_ROW else course.entry] += 1
        found = jobs.abilities.of(room).get(tool.id)
        told["back"] += bool(found and any(one.passes.returns for one in found.alone)
                             and least_return(jobs.question, jobs.limits, tool, room) > 0)


def test_no_bound_between_ends_is_over_what_comes_out() -> None:
    """By plunge, on a ramp, after a hole and after a row of them; in strips and stepped, in one level and several."""
    told: Counter[str] = Counter()

    @settings(max_examples=150)
    @given(asked())
    def hold(jobs: Jobs) -> None:
        for one in (jobs, jobs.widened):
            check(one, told)

    hold()
    assert {Entry.PLUNGE, Entry.RAMP, Entry.HOLE, "in a row", "back"} <= set(+told), told


def test_a_ramp_takes_longer_than_a_plunge() -> None:
    """Worked by hand: 10 mm down at 50 mm/min is .4 min at half the feed; on a ramp of 3 degrees 10 / .0524 = 190.8 mm
    there and back, 7.63 min, where nothing drills the way."""
    texts = {"width": "20mm", "depth": "10mm", "ends": "closed", "length": "100mm"}
    question = jobs_for(read_request("slot", texts, Shop(loose_tolerance_mm=0.0), "in"), (), Shop())[0].question
    room = question.outline.rooms[0]
    deep = -room.least.low / 1e6
    assert least_descent(question, room, True, 50.0, 1.0) == 2 * deep / 50.0
    assert abs(least_descent(question, room, False, 50.0, 1.0) - deep / 0.0524078 * 2 / 50.0) < 1e-4
