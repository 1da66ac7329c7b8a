"""Steps first: under a flank a disc takes most of the metal before the cutter that leans as the flank does, where that
is cheaper, or spares its points a first cut with both at once."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from itertools import pairwise
from math import inf

from crib.findings.finding import Grade
from crib.geometry.outline import Room
from crib.geometry.region import NOTHING, Region
from crib.light.hints import TYPE_CHECKING
from crib.light.records import replace
from crib.light.tuples import NamedTuple
from crib.machining.draft import Draft
from crib.machining.methods.cuts import Job
from crib.machining.methods.under_a_flank import most_steps, steps
from crib.machining.question import Question
from crib.machining.tool import Tool
from crib.machining.words import LEANING, Manner
from crib.planning.cost import chance_of, is_spared, wear_share
from crib.planning.discs_first import at_once, bites, fewest, left_by, most_in, passes_of
from crib.planning.lower_bounds import MOST_CUTTERS
from crib.planning.minutes import cut_minutes, pass_minutes
from crib.rules import judge

if TYPE_CHECKING:
    from crib.planning.jobs import Jobs

Said = Counter[tuple[str, Grade]]


class Way(NamedTuple):
    """Jobs, what is different of their cost but for the change to what holds the first tool, and what is said of them
    that makes scrap likelier."""

    money: float
    jobs: tuple[Job, ...]
    said: Said

    @property
    def first(self) -> Tool:
        """The tool that goes first."""
        return self.jobs[0].tool

    def place(self) -> tuple[float, float, tuple[int, ...]]:
        """By what it is put before others, as plans are."""
        tools = dict.fromkeys(job.tool for job in self.jobs)
        thin = min(tool.cutter.neck_mm or tool.cutter.diameter_mm or 0.0 for tool in tools)
        return round(self.money, 6), -thin, tuple(tool.id for tool in tools)


def ways(jobs: Jobs, draft: Draft, choice: Sequence[Job]) -> Iterator[tuple[Job, ...]]:
    """A choice of flanks with the steps of a disc before it, where that may be better: no way that costs as much as
    another of which no more is said."""
    if (draft.question.layers or not choice or any(job.manner not in LEANING for job in choice)
            or len(draft.tools) + 2 > MOST_CUTTERS or not jobs.discs.all):
        return
    up = frozenset(tool.id for tool in (*draft.tools, choice[0].tool) if tool.kind.buried)
    widest = max(tool.form.radius for tool in (*draft.tools, choice[0].tool)) if (
        draft.question.feature.request.ends != "open") else None  # of one closed end that is the stop
    plain, *others = _known(jobs, draft.removed, choice, up, widest)
    if not others:
        return
    held = [tool.held.label for tool in draft.tools[-1:]]
    change = _change(draft.question)
    here = [way._replace(money=way.money + change * any(one != way.first.held.label for one in held))
            for way in (plain, *others)]
    yield from (way.jobs for way in _front(here) if way is not here[0])


def _change(question: Question) -> float:
    """What a change of collets costs."""
    return question.shop.collet_minutes / 60 * question.shop.hour_rate


def _front(found: Sequence[Way]) -> list[Way]:
    """Those than which none that costs no more has no more said of it."""
    best = list[Way]()
    for way in sorted(found, key=Way.place):
        if not any(one.said <= way.said for one in best):
            best.append(way)
    return best


def _known(jobs: Jobs, removed: Region, choice: Sequence[Job], up: frozenset[int], widest: int | None
           ) -> tuple[Way, ...]:
    """A choice by itself, then those of its ways that may be better for what holds their discs; worked out once."""
    place = (*map(id, choice), up, widest)
    if place not in jobs.stepped:
        jobs.stepped[place] = _found(jobs, removed, choice, up, widest)
    found: tuple[Way, ...] = jobs.stepped[place]
    return found


def _found(jobs: Jobs, removed: Region, choice: Sequence[Job], up: frozenset[int], widest: int | None
           ) -> tuple[Way, ...]:
    question, found = jobs.question, list[Way]()
    plain, change = _way(question, tuple(choice)), _change(question)
    always = _said(question, (replace(choice[0], cuts=()),))
    told = dict[int, Said]()
    for least, count, _, disc in sorted((*one[:2], one[2].id, one[2]) for one in _discs(jobs, choice, up, widest)):
        if plain.money < least and plain.said <= always:
            break  # from here on none is cheaper, and nothing is said without that isn't said with it
        if cheaper := [one for one in found if one.money + change * (one.first.held.label != disc.held.label) < least]:
            if disc.id not in told:
                told[disc.id] = always + _said(question, (Job(disc, "", (), NOTHING, Manner.STEPS_FIRST),))
            if any(one.said <= told[disc.id] for one in cheaper):
                continue
        if some := _stepped(jobs, removed, choice, disc, count):
            found.append(_way(question, some))
    held = dict.fromkeys(str(one.first.held.label) for one in found)
    return (plain, *(one for label in held for one in _front([
        one for one in found if str(one.first.held.label) == label])))


def _discs(jobs: Jobs, choice: Sequence[Job], up: frozenset[int], widest: int | None
           ) -> Iterator[tuple[float, int, Tool]]:
    """Each disc that may go first and in how many steps, with the least that this costs."""
    known, tool = jobs.discs.leasts, choice[0].tool
    rooms = {room.name: room for room in jobs.question.outline.rooms}
    floors = [_on_the_floor(job, rooms[job.room]) for job in choice]
    place = tool.id, *((job.room, job.levels, floor) for job, floor in zip(choice, floors, strict=True))
    if place not in known:
        most = jobs.question.limits.most_levels
        known[place] = [(_least(jobs.question, choice, floors, disc, rooms, count), count, disc)
                        for disc in jobs.discs.all
                        for count in range(1, 1 + min(most, *(most_steps(disc, rooms[job.room]) for job in choice)))]
    return (one for one in known[place]
            if one[2].id not in up and (widest is None or one[2].form.radius <= widest))


def _on_the_floor(job: Job, room: Room) -> tuple[int, ...]:
    """What each pass of a job on the floor of a room takes."""
    return tuple(cut.radial for cut in job.cuts if cut.z == room.aim.low and cut.side == job.cuts[-1].side)


def _least(question: Question, choice: Sequence[Job], floors: Sequence[tuple[int, ...]], disc: Tool,
           rooms: dict[str, Room], count: int) -> float:
    """The least that what changes costs with so many steps of a disc, however far each goes: under a step stays as much
    as the flank comes in over its height, over the highest one all; in so many passes of the tool no more may be left
    anywhere than they take."""
    tool, number = choice[0].tool, question.feature.number
    each, mine = (pass_minutes(one, question.feature.length) * number for one in (disc, tool))
    minutes = question.shop.cutter_minutes + disc.touch_minutes
    for job, floor in zip(choice, floors, strict=True):
        room = rooms[job.room]
        assert room.lean is not None
        metal, sides = sum(floor), fewest(room)
        stays, over = left_by(disc, room, count)
        if job.levels == 1:
            stays = max(stays, metal - over)
        clear = metal - at_once(question.outline, disc, room)
        least = inf
        for passes in range(min(len(floor), bites(tool, stays)), len(floor) + 1):
            if mine * sides * passes + each * count > least:
                break  # a step takes a pass of the disc at the least
            least = min(least, each * passes_of(disc, room, count, clear, most_in(tool, passes))
                        + mine * sides * passes)
        minutes += (job.levels - 1) * mine + least
    wear: float = min(getattr(question.shop, wear_share(buried, question.material)[0]) for buried in (False, True))
    return minutes / 60 * question.shop.hour_rate + wear * (tool.owned.price or 0.0)


def _stepped(jobs: Jobs, removed: Region, choice: Sequence[Job], disc: Tool, count: int) -> tuple[Job, ...] | None:
    """A choice after so many steps of a disc; None where it can't take them."""
    question, first, after, gone = jobs.question, list[Job](), list[Job](), removed
    rooms = {room.name: room for room in question.outline.rooms}
    for job in choice:
        if found := steps(disc, question.outline, rooms[job.room], gone, jobs.limits, count):
            first.append(found)
            gone = found.removed
    for job in choice if first else ():
        again = next((one for one in jobs.clear(job.tool, rooms[job.room], gone) if one.manner == job.manner), None)
        if again is None:
            return None
        after.append(again)
        gone = again.removed
    return (*first, *after) if first else None


def _way(question: Question, choice: tuple[Job, ...]) -> Way:
    """What a choice costs of what may be otherwise, and what is said of it."""
    shop, draft = question.shop, Draft(question, choice)
    tools = draft.tools
    minutes = sum(shop.cutter_minutes + tool.touch_minutes for tool in tools[:-1])
    minutes += shop.collet_minutes * sum(a.held.label != b.held.label for a, b in pairwise(tools))
    minutes += question.feature.number * sum(
        cut_minutes(job.tool, question.feature.length, cut) for job in choice for cut in job.cuts)
    wear = 0.0
    for tool in tools:
        share: float = getattr(shop, wear_share(tool.kind.buried and not is_spared(draft, tool), question.material)[0])
        wear += share * (tool.owned.price or 0.0)
    return Way(minutes / 60 * shop.hour_rate + wear, choice, _said(question, choice))


def _said(question: Question, choice: tuple[Job, ...]) -> Said:
    found = (one for one in judge(Draft(question, choice)) if chance_of(one) or one.grade == Grade.STOP)
    return Counter((one.id, one.grade) for one in found)
