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
from crib.machining.methods.under_a_flank import steps
from crib.machining.question import Question
from crib.machining.tool import Tool
from crib.machining.words import LEANING, Manner, Side
from crib.planning.bounds.discs_first import Discs, Said, Steps, bites, fewest, most_in
from crib.planning.bounds.lower_bounds import MOST_CUTTERS
from crib.planning.reckoning.cost import chance_of, is_spared, wear_share
from crib.planning.reckoning.minutes import cut_minutes, pass_minutes
from crib.planning.search.steps_ahead import EQUAL, Ahead, worth
from crib.rules import judge
from crib.rules.passes import backlash

if TYPE_CHECKING:
    from crib.planning.search.jobs import Jobs

_COARSE = 100_000
"""What flanks have to lose is counted in steps of so much [nm], so that what it leads to stands for many throats."""

_SLACK, _SLACK_NM = 1e-6, 1000
"""Minutes, and metal [nm], that are nothing."""


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
            or len(draft.tools) + 2 > MOST_CUTTERS or _is_never_ended(draft, choice)
            or not jobs.discs or not jobs.discs.all):
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


def _is_never_ended(draft: Draft, choice: Sequence[Job]) -> bool:
    """Whether a disc and the cutter of a choice are the last that a plan may have, and some flank is still whole then:
    no other cutter's edge would lie along it."""
    done, flanks = {job.room for job in (*draft.jobs, *choice)}, draft.question.outline.leaning_over
    return len(draft.tools) + 2 == MOST_CUTTERS and any(room.name not in done for room in flanks)


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
    assert jobs.discs is not None
    question, found = jobs.question, list[Way]()
    plain, always = _way(question, tuple(choice)), _always(question, choice)
    ahead = Ahead(question, _change(question))
    most = plain.money + worth(question, plain.said, always) + EQUAL
    ahead.add(plain.money, plain.said, str(plain.first.held.label))
    likely = sorted((*one[:2], one[2].id, one[2]) for one in _discs(jobs, removed, choice, up, widest, most))
    for least, count, _, disc in likely:
        if least > most:
            break  # from here on none is so much cheaper as it might be worth that less is said of it
        label, says = str(disc.held.label), always + _told(jobs.discs, disc)
        if ahead.of(least, says, label) or not (some := _stepped(jobs, removed, choice, disc, count)):
            continue
        if ahead.of(_money(question, some), says | _by_backlash(question, some), label):
            continue
        way = _way(question, some)
        found.append(way)
        ahead.add(way.money, way.said, label)
    held = dict.fromkeys(str(one.first.held.label) for one in found)
    return (plain, *(one for label in held for one in _front([
        one for one in found if str(one.first.held.label) == label])))


def _told(discs: Discs, disc: Tool) -> Said:
    """What is said of a disc before others, whatever its passes."""
    if disc.id not in discs.told:
        discs.told[disc.id] = _said(discs.question, (Job(disc, "", (), NOTHING, Manner.STEPS_FIRST),))
    return discs.told[disc.id]


def _always(question: Question, choice: Sequence[Job]) -> Said:
    """What is said of flanks whatever goes before them: no disc comes to a flank, so that at each height each has its
    last pass still, which takes as much as it does without one, or less."""
    last = [list({(cut.z, cut.side): cut for cut in job.cuts if cut.side != Side.BOTH}.values()) for job in choice]
    heavy, light = (tuple(replace(job, cuts=cuts) for job, cuts in zip(choice, every, strict=True)) for every in (
        map(tuple, last), (tuple(replace(cut, radial=min(cut.radial, 1)) for cut in cuts) for cuts in last)))
    return _said(question, heavy) & _said(question, light)


def _discs(jobs: Jobs, removed: Region, choice: Sequence[Job], up: frozenset[int], widest: int | None, most: float
           ) -> Iterator[tuple[float, int, Tool]]:
    """Each disc that may go first and in how many steps, with the least that this costs; none that surely costs more
    than `most`."""
    assert jobs.discs is not None
    known, tool = jobs.discs.leasts, choice[0].tool
    rooms = {room.name: room for room in jobs.question.outline.rooms}
    flanks = [_Flank(rooms[job.room], job.levels, _on_the_floor(job, rooms[job.room]),
                     _before(job, rooms[job.room], removed)) for job in choice]
    mine = pass_minutes(tool, jobs.question.feature.length)
    place = (tool.side, tool.can_finish, tool.form.edge.low, mine, tool.owned.price, most, *(
        (job.room, *flank[1:]) for job, flank in zip(choice, flanks, strict=True)))
    if place not in known:
        known[place] = list(_leasts(jobs.discs, tool, flanks, most))
    return (one for one in known[place]
            if one[2].id not in up and (widest is None or one[2].form.radius <= widest))


class _Flank(NamedTuple):
    """A room, in how many levels a tool does it, what each of its passes on the floor takes of a flank (none where one
    does both, by a tool as wide as the floor), and how much metal there is at the floor of each flank at the least,
    where both are done at one height from the middle."""

    room: Room
    levels: int
    floor: tuple[int, ...]
    metal: int | None = None


def _on_the_floor(job: Job, room: Room) -> tuple[int, ...]:
    """What each pass of a job on the floor of a room takes of a flank; nothing where its last is of both."""
    last = job.cuts[-1].side
    return tuple(cut.radial for cut in job.cuts if cut.z == room.aim.low and cut.side == last != Side.BOTH)


def _before(job: Job, room: Room, removed: Region) -> int | None:
    """The least metal at the floor of each of two flanks that are alike, where a tool does them at one height and
    begins with both at once; None of others."""
    if job.levels != 1 or fewest(room) == 1 or job.cuts[0].side != Side.BOTH or removed.mirrored != removed or (
            room.aim.mirrored != room.aim):
        return None
    return (room.aim.right - removed.bounds()[2]) // _COARSE * _COARSE


def _leasts(discs: Discs, tool: Tool, flanks: Sequence[_Flank], most: float) -> Iterator[tuple[float, int, Tool]]:
    """The least that what changes costs with so many steps of each disc, however far each goes: under a step stays as
    much as the flank comes in over its height, over the highest one all; in so many passes of the tool no more may be
    left anywhere than they take."""
    question = discs.question
    shop = question.shop
    mine, slowly = (pass_minutes(tool, question.feature.length, is_slow) * question.feature.number
                    for is_slow in (False, True))
    wear: float = min(getattr(shop, wear_share(buried, question.material)[0]) for buried in (False, True))
    worn = wear * (tool.owned.price or 0.0)
    longest = (most - worn) / shop.hour_rate * 60 + _SLACK if shop.hour_rate else inf
    every = [discs.steps(flank.room) for flank in flanks]
    soonest = sum((flank.levels - 1 + (fewest(flank.room) if flank.floor else 1)) * mine for flank in flanks)
    for minutes, first in discs.in_order(flanks[0].room):
        if soonest + minutes * len(flanks) > longest:
            return
        if any((first.disc.id, first.many) not in one for one in every):
            continue
        minutes = first.up + sum(
            (flank.levels - 1) * mine + _least(one[first.disc.id, first.many], tool, flank, mine, slowly)
            for flank, one in zip(flanks, every, strict=True))
        if minutes <= longest and any(discs.goes_in(flank.room, first) for flank in flanks):
            yield minutes / 60 * shop.hour_rate + worn, first.many, first.disc


def _least(steps: Steps, tool: Tool, flank: _Flank, mine: float, slowly: float) -> float:
    """The least minutes in which a disc and then a tool, `mine` in each of its passes and more in one deep in both
    flanks at once, do a flank at its floor."""
    metal, sides, least = sum(flank.floor), fewest(flank.room), inf
    if bite := _both_at_once(steps, tool, flank):
        return steps.each * steps.many + mine * sides * len(flank.floor) + (slowly if bite > tool.side else mine)
    if not flank.floor:
        return steps.each * steps.many + mine
    fewest_mine = min(len(flank.floor), bites(tool, steps.stays_of(metal, flank.levels)))
    for passes in range(fewest_mine, len(flank.floor) + 1):
        if mine * sides * passes + steps.each * steps.many > least:
            break  # a step takes a pass of the disc at the least
        taken = steps.each * steps.passes(metal, most_in(tool, passes), sides)
        least = min(least, taken + mine * sides * passes)
    return least


def _both_at_once(steps: Steps, tool: Tool, flank: _Flank) -> int:
    """How much a tool surely takes of both flanks at once after the steps of a disc, as it did without: it begins in
    their middle, and meets more metal than it goes from there; 0 where that isn't sure."""
    lean = flank.room.lean
    if flank.metal is None or lean is None:
        return 0
    left = max(steps.stays - lean.over(tool.form.edge.low), flank.metal - steps.over)
    return max(0, left - sum(flank.floor) - _SLACK_NM)


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
    return Way(_money(question, choice), choice, _said(question, choice))


def _money(question: Question, choice: tuple[Job, ...]) -> float:
    """What a choice costs of what may be otherwise."""
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
    return minutes / 60 * shop.hour_rate + wear


def _by_backlash(question: Question, choice: tuple[Job, ...]) -> Said:
    """What is said of a choice for the slack of the screw alone: of all that is said it is soonest told."""
    return Counter((one.id, one.grade) for one in backlash(Draft(question, choice)) if chance_of(one))


def _said(question: Question, choice: tuple[Job, ...]) -> Said:
    found = (one for one in judge(Draft(question, choice)) if chance_of(one) or one.grade == Grade.STOP)
    return Counter((one.id, one.grade) for one in found)
