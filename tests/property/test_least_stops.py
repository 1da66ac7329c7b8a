"""How often passes stop for their chips is never told beforehand to be more than comes out, and where a disc alone cuts
both walls of a head at once, it is no less."""

from __future__ import annotations

from collections import Counter
from math import inf

from hypothesis import Phase, assume, given, note, settings
from hypothesis import strategies as st

from crib.cutters.base import Cutter
from crib.features.request import Request
from crib.findings.errors import CribError
from crib.light.records import replace
from crib.machining.methods import pass_bounds
from crib.planning.advise import jobs_for
from crib.planning.reckoning.buried import least_stops, stops_of
from crib.shop import Shop
from tests.kind_strategies import questions
from tests.strategies import any_of, brief, cribs, renumbered, right_for, t_slots

KINDS = ("undercut", "dovetail", "internal-groove", "t-slot")

HEADS = t_slots().flatmap(lambda one: st.tuples(st.just(one), right_for(one, 1), cribs(one, 4)).map(
    lambda asked: (asked[0], renumbered([*asked[1], *asked[2]]), Shop(units="mm"))))


def test_no_room_stops_less_often_than_is_told() -> None:
    """Of each job that clears a room alone, over whatever length, in whatever metal."""
    met: Counter[str] = Counter()

    @settings(max_examples=150, phases=[Phase.explicit, Phase.generate])
    @given(st.one_of(HEADS, any_of(*KINDS).flatmap(questions)), any_of(30.0, 120.0, 400.0),
           any_of("mild steel", "brass", "6061"))
    def hold(asked: tuple[Request, tuple[Cutter, ...], Shop], length: float, metal: str) -> None:
        request, cutters, shop = asked
        request = replace(request, length=length, material=metal)
        note(brief(request, cutters, shop))
        try:
            every = jobs_for(request, cutters, shop)
        except CribError:
            assume(False)
        for jobs in every:
            outline = jobs.question.outline
            for tool in jobs.tools:
                for room in outline.rooms:
                    fewest = [one for one in pass_bounds(tool, outline, room, jobs.limits) if one.passes < inf]
                    done = [job for job in jobs.clear(tool, room, jobs.before(room))
                            if outline.is_waived(outline.rest(room, job.removed))]
                    if not fewest or not done:
                        continue
                    told = min(least_stops(jobs.question, room, one.levels if one.both else 0) for one in fewest)
                    least = min(sum(len(stops_of(jobs.question, job, cut)) for cut in job.cuts) for job in done)
                    assert told <= least, (tool.owned, room.name)
                    met[f"{request.kind}: {'all' if told == least else 'some'}"] += told > 0

    hold()
    assert met["t-slot: all"] >= 20, met
