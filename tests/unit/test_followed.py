"""Who follows other mills in a room: a pocket of the sample bench whose middle is cleared by two bigger ones. Common
practice, no source, where nothing else is named."""

from __future__ import annotations

from functools import cache
from itertools import groupby

from crib.machining.draft import Draft
from crib.machining.ends import with_courses
from crib.planning.advise import advise
from crib.planning.ask import read_request
from crib.planning.search.jobs import Jobs
from crib.planning.search.set_ups import usable
from crib.planning.told.advice import Plan
from tests.unit.test_owned import sample
from tests.unpruned import questions_of

IN = 25.4
TYPED = {"width": "1.5", "length": "1", "depth": "3/4", "corner_radius": "3/32", "material": "tool steel annealed"}


@cache
def plan() -> Plan:
    bench = sample()
    return advise(read_request("pocket", TYPED, bench.shop, "in"), bench.cutters, bench.shop).advice.plans[0]


def after_two_mills() -> Draft:
    """The pocket after a 1/2 mill, a 3/16 one as deep as it is long, and a 1/4 one."""
    bench = sample()
    cutters = [one for one in bench.cutters if one.id in (10, 3, 20)]
    [question] = questions_of(read_request("pocket", TYPED, bench.shop, "in"), bench.shop, cutters)
    jobs, [room] = Jobs(question, usable(question, cutters)), question.outline.rooms
    draft = Draft(question)
    for number in (3, 20):
        [job] = jobs.clear(next(tool for tool in jobs.tools if tool.id == number), room, draft.removed)
        draft = next(one for one in with_courses(draft, (job,)) if draft.jobs or one.jobs[0].tool.id == 10)
    return draft


def test_the_last_mill_goes_in_rounds_along_what_is_left_at_the_walls() -> None:
    """It went through all of the pocket again, 63 passes deep into what was clear; now each of its passes is along a
    wall, from where the mill before it stopped, and it comes down where it is open."""
    draft = after_two_mills()
    *_, before, last = draft.jobs
    radius, stopped = last.tool.form.radius / 1e6, min(cut.z for cut in before.cuts)
    assert before.tool.id != last.tool.id and 0 < len(last.cuts) <= 20
    for cut in last.cuts:
        assert cut.course and cut.course.entry in ("free", "hole", "on") and cut.z < stopped
        assert abs(abs(cut.x / 1e6) + radius - 0.75 * IN) <= 0.011 * IN, "at a wall, or as far off it as it finishes"


def test_a_mill_too_round_for_the_corners_follows_a_bigger_one_too() -> None:
    """What an owner is to let stand in the corners needs no third mill: a 3/16 one made half of their depth as drawn
    before a 1/4 one left them as round as itself below, and the work took half as long again."""
    assert [number for number, _ in groupby(plan().passes, key=lambda one: one.cutter_id)] == [10, 20]
    rounds = [one for one in plan().passes if one.cutter_id == 20]
    assert all(one.entry in ("free", "hole", "on") for one in rounds)
    for one in rounds:
        assert abs(abs(one.x_mm) + 0.125 * IN - 0.75 * IN) <= 0.011 * IN


def test_a_width_that_two_mills_make_is_what_each_is_set_to() -> None:
    """The places of the thinner one were put together with the radius of the thicker one: 1.558 in, and so "may come
    out outside its limits by .058". 2 x .6565 + .1875 = 2 x .625 + .25 = 1.5 (arithmetic)."""
    assert not any("width" in str(one.says) for one in plan().deviations)
