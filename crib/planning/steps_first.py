"""Steps first: under a flank a disc takes most of the metal before the cutter that leans as the flank does, where that
is cheaper, or spares its points a first cut with both at once."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import TYPE_CHECKING

from crib.cutters.base import Motion
from crib.findings.finding import Grade
from crib.geometry.outline import Opening, Room
from crib.handbook.dovetails import LAST_BITE_MM
from crib.machining.draft import Draft, Question
from crib.machining.methods.base import Job, side_bites
from crib.machining.methods.under_a_flank import flanks, is_leant_over, most_steps, steps
from crib.machining.tool import Tool
from crib.machining.words import LEANING, Side
from crib.planning.cost import chance_of, cut_minutes, is_spared, pass_minutes, wear_share
from crib.records import NamedTuple, replace
from crib.rules import judge
from crib.units import nm

if TYPE_CHECKING:
    from crib.planning.jobs import Jobs

MOST_CUTTERS = 3

Said = Counter[tuple[str, Grade]]


class Way(NamedTuple):
    """Jobs, what is different of their cost, and what is said of them that makes scrap likelier."""

    money: float
    jobs: tuple[Job, ...]
    said: Said

    def place(self) -> tuple[float, float, tuple[int, ...]]:
        """By what it is put before others, as plans are."""
        tools = dict.fromkeys(job.tool for job in self.jobs)
        thin = min(tool.cutter.neck_mm or tool.cutter.diameter_mm or 0.0 for tool in tools)
        return round(self.money, 6), -thin, tuple(tool.id for tool in tools)


def ways(jobs: Jobs, draft: Draft, choice: Sequence[Job]) -> Iterator[tuple[Job, ...]]:
    """A choice of flanks with the steps of a disc before it, where that may be better: no way that costs as much as
    another of which no more is said."""
    if draft.question.layers or not choice or any(job.manner not in LEANING for job in choice):
        return
    plain = _way(draft, tuple(choice))
    kept, always = [plain], _said(draft.question, (replace(choice[0], cuts=()),))
    for least, disc in sorted(_discs(jobs, draft, choice), key=lambda one: (one[0], one[1].id)):
        if not any(one.money < least and one.said <= always for one in kept):
            kept += (_way(draft, found) for found in _known(jobs, draft, choice, disc))
    best = list[Way]()
    for way in sorted(kept, key=Way.place):
        if not any(one.said <= way.said for one in best):
            best.append(way)
    yield from (way.jobs for way in best if way is not plain)


def _discs(jobs: Jobs, draft: Draft, choice: Sequence[Job]) -> Iterator[tuple[float, Tool]]:
    """Each disc that may go first, with the least that its ways cost."""
    rooms = {room.name: room for room in draft.question.outline.rooms}
    up = {tool.id for tool in (*draft.tools, choice[0].tool)}
    if len(draft.tools) + 2 > MOST_CUTTERS:
        return
    ends_open = draft.question.feature.request.ends == "open"
    widest = max(tool.form.radius for tool in (*draft.tools, choice[0].tool))  # of one closed end that is the stop
    for disc in jobs.discs:
        if disc.id not in up and (ends_open or disc.form.radius <= widest) and all(
                most_steps(disc, rooms[job.room]) for job in choice):
            yield _least(draft, choice, disc, rooms), disc


def _least(draft: Draft, choice: Sequence[Job], disc: Tool, rooms: dict[str, Room]) -> float:
    """The least that what changes costs with a disc: on the floor a step leaves as much under it as the flank comes in
    over its height; higher up it may leave next to nothing."""
    question, tool = draft.question, choice[0].tool
    length, minutes = question.feature.length, question.shop.cutter_minutes + disc.touch_minutes
    for job in choice:
        room = rooms[job.room]
        sides = 1 if room.open else 2
        left = (least_passes(tool, room, disc) + job.levels - 1) * sides
        minutes += sides * pass_minutes(disc, length) * question.feature.number
        minutes += min(left, len(job.cuts)) * pass_minutes(tool, length) * question.feature.number
    wear: float = min(getattr(question.shop, wear_share(buried, question.material)[0]) for buried in (False, True))
    return minutes / 60 * question.shop.hour_rate + wear * (tool.owned.price or 0.0)


def least_passes(tool: Tool, room: Room, disc: Tool) -> int:
    """In how many passes at the least a tool does a flank at the floor after steps of a disc."""
    assert room.lean is not None
    left = room.lean.over(disc.form.height) + disc.finish
    return len(side_bites(left, tool.side, nm(LAST_BITE_MM) if tool.can_finish else 0))


def _known(jobs: Jobs, draft: Draft, choice: Sequence[Job], disc: Tool) -> tuple[tuple[Job, ...], ...]:
    """The same, worked out once for a choice, of which the jobs are kept."""
    place = (disc.id, *map(id, choice))
    if place not in jobs.stepped:
        jobs.stepped[place] = tuple(_stepped(jobs, draft, choice, disc))
    return jobs.stepped[place]


def _stepped(jobs: Jobs, draft: Draft, choice: Sequence[Job], disc: Tool) -> Iterator[tuple[Job, ...]]:
    """A choice after one step of a disc, after two and so on, as long as more may save more."""
    question = draft.question
    rooms = {room.name: room for room in question.outline.rooms}
    most = min(question.limits.most_levels, *(most_steps(disc, rooms[job.room]) for job in choice))
    for count in range(1, most + 1):
        first, gone = list[Job](), draft.removed
        for job in choice:
            if found := steps(disc, question.outline, rooms[job.room], gone, jobs.limits, count):
                first.append(found)
                gone = found.removed
        after = list[Job]()
        for job in choice:
            again = next((one for one in jobs.clear(job.tool, rooms[job.room], gone) if one.manner == job.manner), None)
            if again is None:
                return
            after.append(again)
            gone = again.removed
        if not first:
            return
        yield (*first, *after)


def _way(draft: Draft, choice: tuple[Job, ...]) -> Way:
    """What a choice costs of what may be otherwise, and what is said of it."""
    question, shop = draft.question, draft.question.shop
    grown = draft.then(*choice)
    tools = grown.tools[len(draft.tools):]
    held = [tool.held.label for tool in (*draft.tools[-1:], *tools)]
    minutes = sum(shop.cutter_minutes + tool.touch_minutes for tool in tools[:-1])
    minutes += shop.collet_minutes * sum(a != b for a, b in pairwise(held))
    minutes += question.feature.number * sum(
        cut_minutes(job.tool, question.feature.length, cut) for job in choice for cut in job.cuts)
    wear = 0.0
    for tool in tools:
        share: float = getattr(shop, wear_share(tool.kind.buried and not is_spared(grown, tool), question.material)[0])
        wear += share * (tool.owned.price or 0.0)
    return Way(minutes / 60 * shop.hour_rate + wear, choice, _said(question, choice))


def _said(question: Question, choice: tuple[Job, ...]) -> Said:
    found = (one for one in judge(Draft(question, choice)) if chance_of(one) or one.grade == Grade.STOP)
    return Counter((one.id, one.grade) for one in found)


def follows(question: Question, tool: Tool, room: Room) -> bool:
    """Whether a tool may do a room after steps of a disc."""
    return question.layers is None and is_leant_over(room) and Motion.FLANK in tool.kind.motions


def least_first(question: Question, tool: Tool) -> float:
    """What steps first cost at the least for each room with flanks, whatever disc takes them; less what that spares
    the tool that follows [money]. One disc may do all the rooms."""
    shop = question.shop
    full, easy = (float(getattr(shop, wear_share(buried, question.material)[0])) for buried in (True, False))
    up = (shop.cutter_minutes + shop.touch_disc_minutes) / 60 * shop.hour_rate
    spared = max(0.0, full - easy) * (tool.owned.price or 0.0)
    return (up - spared) / len(flanks(question.outline)) + shop.buried_pass_minutes / 60 * shop.hour_rate


def fewest(room: Room) -> int:
    """The fewest passes of whatever follows steps in a room."""
    return 1 if room.opens(Opening.LEFT) or room.opens(Opening.RIGHT) else len((Side.BACK, Side.FRONT))

