"""Mills that can rough a room with round corners for a smaller one that follows."""

from __future__ import annotations

from collections.abc import Iterator

from crib.findings.finding import Grade
from crib.geometry.region import NOTHING
from crib.machining.draft import Draft
from crib.machining.ends.cornered import Walls
from crib.machining.ends.roughed import goes_first, rough
from crib.machining.methods.cuts import Job
from crib.machining.question import Rougher
from crib.planning.reckoning.cost import chance_of, wear_share
from crib.planning.reckoning.minutes import cut_minutes
from crib.planning.search.jobs import Jobs
from crib.rules import judge


def roughers(jobs: Jobs) -> tuple[Rougher, ...]:
    """Each of the tools that is too round for a room's corners and goes between its walls, the cheapest first; none
    where no room has corners."""
    layers = jobs.question.layers
    if layers is None or not layers.corners:
        return ()
    return tuple(sorted(_found(jobs), key=lambda one: (one.money, one.job.tool.id)))


def _found(jobs: Jobs) -> Iterator[Rougher]:
    question = jobs.question
    layers, outline = question.layers, question.outline
    assert layers is not None
    for room in outline.rooms:
        walls = Walls.of(layers, room) if room.name in layers.corners else None
        for tool in jobs.tools:
            if walls is None or not goes_first(tool, walls):
                continue
            for whole in jobs.clear(tool, room, NOTHING):
                if (job := rough(whole, outline, room, layers)) and (found := _reckoned(jobs, job)):
                    yield found


def _reckoned(jobs: Jobs, job: Job) -> Rougher | None:
    """What a job adds to the cost, and what rules say of it; None where one forbids it."""
    question, shop, tool = jobs.question, jobs.question.shop, job.tool
    said = judge(Draft(question, (job,)))
    if any(one.grade == Grade.STOP for one in said):
        return None
    minutes = shop.cutter_minutes + tool.touch_minutes + sum(
        cut_minutes(tool, question.feature.length, cut) for cut in job.cuts) * question.feature.number
    wear: float = getattr(shop, wear_share(tool.kind.buried, question.material)[0])
    money = minutes / 60 * shop.hour_rate + wear * (tool.owned.price or 0.0)
    return Rougher(job, minutes, money, frozenset((one.id, one.grade) for one in said if chance_of(one)))
