"""Where a rule surely cautions against some tools whatever is done with them, all that others do without a caution
stands before them: a search of these alone is enough, where it finds any plan."""

from __future__ import annotations

from crib.geometry.outline import Opening
from crib.light.records import replace
from crib.machining.tools import some_of
from crib.planning.large_cribs.floors import Floors
from crib.planning.search.jobs import Jobs


def are_cautioned(floors: Floors) -> bool:
    """Whether every plan with a buried disc is cautioned: there is one room, which is cleared from above, and all that
    are buried open it from solid (see the rule BU1)."""
    question = floors.jobs.question
    room = question.outline.rooms[0]
    return (len(floors.rooms) == 1 and floors.is_sure and question.layers is None and room.opens(Opening.TOP)
            and not (room.lean or room.rounded or room.hollow))


def begins_cautioned(floors: Floors) -> bool:
    """Whether one of the tools that are searched first is such a disc."""
    return are_cautioned(floors) and any(doer.tool.kind.buried for _, doer in floors.in_rooms[0].found)


def uncautioned(floors: Floors) -> Jobs:
    """The question without those."""
    jobs = floors.jobs
    if not are_cautioned(floors):
        return jobs
    places = [place for batch in floors.batches if batch.kind is None or not batch.kind.buried
              for place in batch.places]
    return replace(jobs, tools=some_of(jobs.tools, sorted(places)), all_discs=jobs.discs)
