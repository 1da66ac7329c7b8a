"""What a mill takes at the least in a room with round corners, its ways back before strips and across the room in each
round along the walls reckoned in, is never more than what its passes take."""

from __future__ import annotations

from collections import Counter

from hypothesis import given, settings
from hypothesis import strategies as st

from crib.cutters.base import Cutter
from crib.planning.advise import jobs_for
from crib.planning.ask import read_request
from crib.planning.reckoning.minutes import cut_minutes, least_minutes, least_round_corners, least_way
from crib.planning.search.jobs import Jobs
from crib.shop import Shop
from tests.property.test_least_between_ends import made_alone

INCH = 25.4


def pocket(width: str, length: str, depth: str, radius: str, material: str, *cutters: Cutter) -> Jobs:
    """A pocket as it is asked of some cutters."""
    texts = {"width": width, "length": length, "depth": depth, "corner_radius": radius, "material": material}
    numbered = [one.but(id=number + 1) for number, one in enumerate(cutters)]
    return jobs_for(read_request("pocket", texts, Shop(), "in"), numbered, Shop())[0]


def mill(size: float, flutes: int = 4, long: float = 1.0, centre: bool = True, condition: str = "sharp") -> Cutter:
    """An end mill of so many inches."""
    return Cutter(0, "end-mill", diameter_mm=round(size * INCH, 4), flutes=flutes, material="hss",
                  centre_cutting=centre, length_of_cut_mm=long * INCH, shank_mm=0.375 * INCH, overall_length_mm=90.0,
                  condition=condition)


@st.composite
def asked(draw: st.DrawFn) -> Jobs:
    """A pocket long or nearly square, walls and floor held closely or not, with mills about as round as its corners."""
    wide = draw(st.sampled_from((0.5, 0.75, 1.5)))
    long = round(wide * draw(st.sampled_from((1.0, 1.05, 1.6, 3.0))), 4)
    deep, radius = draw(st.sampled_from((0.05, 0.2, 0.6))), draw(st.sampled_from((0.125, 0.1875, 0.25)))
    walls, floor, corner = (draw(st.sampled_from(("±.001", "±.010"))) for _ in range(3))
    mills = [mill(2 * radius * draw(st.sampled_from((0.5, 0.75, 0.97, 1.0, 1.02))), draw(st.sampled_from((2, 4))),
                  draw(st.sampled_from((0.3, 1.0))), draw(st.booleans()), draw(st.sampled_from(("sharp", "dull"))))
             for _ in range(draw(st.integers(1, 3)))]
    for angle in draw(st.lists(st.sampled_from((118.0, 180.0)), max_size=1)):
        mills.append(Cutter(0, "drill", diameter_mm=round(1.8 * radius * INCH, 3), angle_deg=angle))
    return pocket(f"{wide}{walls}", f"{long}{walls}", f"{deep}{floor}", f"{radius}{corner}",
                  draw(st.sampled_from(("brass", "tool steel"))), *mills)


def check(jobs: Jobs, told: Counter[str]) -> None:
    """Hold the bounds of each tool to each draft that it makes alone."""
    [room] = jobs.question.outline.rooms
    for tool in jobs.tools:
        able, way = jobs.abilities.of(room).get(tool.id), least_way(jobs.question, tool.form.radius + tool.finish) * 1e6
        for draft in made_alone(jobs, tool):
            last = draft.jobs[-1]
            for cut in last.cuts:
                assert cut.course
                if not cut.wall:  # it cuts all along, also where walls are to stand farther out
                    (begin, _), (end, _) = cut.course.path[-2:]
                    assert abs(end - begin) >= way - 1
            same = [one.passes for one in able.alone if one.passes.manner == last.manner] if able else []
            if same and len(draft.jobs) == 1:
                each = least_minutes(jobs.question, tool)
                ways = [least_round_corners(jobs.question, tool, room, one.strips, one.sides) + each * one.passes
                        for one in same]
                assert min(ways) <= sum(cut_minutes(tool, 0.0, cut) for cut in last.cuts) + 1e-9
                told["strips"] += any(one.strips for one in same)
                told["sides"] += any(one.sides > 2 for one in same)
                told["once round"] += any(one.sides == 2 for one in same)


def test_no_bound_of_a_room_with_round_corners_is_over_what_comes_out() -> None:
    """Walls at their aim and nearer their limits; mills that are too round, as round, and walked round the corners."""
    told: Counter[str] = Counter()

    @settings(max_examples=150)
    @given(asked())
    def hold(jobs: Jobs) -> None:
        for one in (jobs, jobs.widened):
            check(one, told)

    hold()
    assert {"strips", "sides", "once round"} <= set(+told), told


def test_the_ways_of_strips_and_rounds_by_hand() -> None:
    """Worked by hand: 60 mm long, 40 mm wide, corners of 6 mm, the axis of a 10 mm mill 5 mm off and what it leaves to
    finish. A strip goes (60 - 2 x 6) at the least, so half of it before a strip is 24 mm; a round goes across."""
    jobs = pocket("40mm", "60mm", "5mm", "6mm", "brass", mill(10 / INCH))
    [tool], [room] = jobs.tools, jobs.question.outline.rooms
    layers = jobs.question.layers
    assert layers
    slack_mm = 2 * (layers.corners[room.name].most / 1e6 - 6) + 60 - layers.ends[room.name].least / 1e6
    strips = least_round_corners(jobs.question, tool, room, 2, 0) * tool.feed
    assert abs(strips - (60 - 12 - slack_mm)) < 1e-6
    across_mm = room.least.width / 1e6 - 10 - 2 * tool.finish / 1e6
    assert 28 < across_mm < 30
    assert abs(least_round_corners(jobs.question, tool, room, 0, 3) * tool.feed - 3 * across_mm) < 0.2
