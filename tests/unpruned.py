"""Every plan there is for a question, with the program's own passes, rules and reckoning and no pruning at all.

The unpruned search is written here; it knows no bounds, keeps no heap, gives nothing up early, and judges plans only
when they are whole.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from hypothesis import event

from crib.cutters.base import Cutter, Motion
from crib.features import draw as draw_feature
from crib.features.request import Request
from crib.findings.verdicts import Verdict
from crib.geometry.outline import Room
from crib.geometry.region import Region
from crib.handbook.materials import find_material
from crib.machining.draft import Draft
from crib.machining.methods import clear
from crib.machining.methods.base import Limits
from crib.machining.methods.cuts import Job
from crib.machining.methods.under_a_flank import most_steps, steps
from crib.machining.question import Question
from crib.machining.tool import Tool, at_kindest, ready
from crib.machining.words import LEANING
from crib.planning.advise import advise
from crib.planning.dialled.finish import finish
from crib.planning.search import set_ups
from crib.planning.search.jobs import Jobs
from crib.planning.search.set_ups import asked_of
from crib.planning.search.weighed import Weighed, is_wider, weigh
from crib.planning.told.advice import Plan
from crib.planning.told.verdict import complete
from crib.setups.upright import SETUP
from crib.shop import Shop

MOST = 3


class Known:
    """What was found of one question. Walls nearer their limits mostly change nothing, and a law asks for the best plan
    of which it asks for the bounds: the same passes are worked out once, and the same plan is weighed once."""

    def __init__(self, question: Question) -> None:
        self.question = question
        self._cleared: dict[tuple[int, str, Region, Limits], tuple[Tool, tuple[Job, ...]]] = {}
        self._weighed: dict[tuple[bool, tuple[int, ...]], Weighed] = {}
        self._usable: tuple[Sequence[Cutter], Sequence[Tool]] = (), ()

    def usable(self, cutters: Sequence[Cutter]) -> Sequence[Tool]:
        """What of these cutters can be reckoned with, the same tools as long as it is asked of the same."""
        if self._usable[0] is not cutters:
            self._usable = cutters, set_ups.usable(self.question, cutters)
        return self._usable[1]

    def clear(self, tool: Tool, room: Room, removed: Region, limits: Limits) -> tuple[Job, ...]:
        """The manners in which a tool can take metal out of a room: with walls nearer their limits the very jobs that
        there are without, where they are the same."""
        place = id(tool), room.name, removed, limits
        if place not in self._cleared:
            jobs = clear(tool, self.question.outline, room, removed, limits)
            if limits.wide:
                _, aimed = self._cleared.get((*place[:3], replace(limits, wide=False)), (tool, jobs))
                jobs = aimed if jobs == aimed else jobs
            self._cleared[place] = tool, jobs
        return self._cleared[place][1]

    def weigh(self, draft: Draft, finished: bool) -> Weighed:
        """A draft of the question, weighed."""
        place = finished, tuple(map(id, draft.jobs))
        if place not in self._weighed:  # with the draft, so that its jobs stay and no other has their place
            self._weighed[place] = weigh(draft, finished)
        return self._weighed[place]


_ASKED: list[Known] = []


def known_of(question: Question) -> Known:
    """What was found of a question, if it is one of the last that were asked."""
    for known in _ASKED:
        if known.question is question:
            return known
    _ASKED[:] = [*_ASKED[-7:], Known(question)]
    return _ASKED[-1]


@dataclass
class Unpruned:
    """Every plan there is. Passes are remembered for a tool in a section as it stands, which changes nothing."""

    question: Question
    tools: Sequence[Tool]
    wide: bool

    def __post_init__(self) -> None:
        self.known: dict[tuple[int, Region], list[tuple[Job, ...]]] = {}
        self.limits = replace(self.question.limits, wide=self.wide)

    def drafts(self, so_far: Draft) -> Iterator[Draft]:
        """Every whole draft that goes on from one."""
        used = {tool.id for tool in so_far.tools}
        if len(used) == MOST:
            return
        for tool in self.tools:
            if tool.id in used:
                continue
            for jobs in self.choices(tool, so_far.removed):
                for grown in self.grown(so_far, jobs, used | {tool.id}):
                    if complete(grown):
                        yield grown
                    else:
                        yield from self.drafts(grown)

    def grown(self, so_far: Draft, jobs: tuple[Job, ...], used: set[int]) -> Iterator[Draft]:
        """A draft with what one tool does next, in each way in which it may."""
        yield so_far.then(*jobs)
        yield from self.after_steps(so_far, jobs, used)

    def after_steps(self, so_far: Draft, jobs: tuple[Job, ...], used: set[int]) -> Iterator[Draft]:
        """Flanks after steps of every other disc, of every number of them."""
        if any(job.manner not in LEANING for job in jobs) or self.question.layers:
            return
        outline, limits = self.question.outline, self.limits
        rooms = {room.name: room for room in outline.rooms}
        discs = [tool for tool in self.tools if tool.id not in used and tool.kind.buried and tool.can_finish
                 and Motion.ALONG in tool.kind.motions and len(used) < MOST]
        for disc in discs:
            for count in range(1, limits.most_levels + 1):
                first, gone = list[Job](), so_far.removed
                for job in jobs:
                    room = rooms[job.room]
                    if (found := steps(disc, outline, room, gone, limits, count)) and count <= most_steps(disc, room):
                        first.append(found)
                        gone = found.removed
                for job in jobs if first else ():
                    again = known_of(self.question).clear(job.tool, rooms[job.room], gone, limits)
                    first += [one for one in again if one.manner == job.manner]
                    gone = first[-1].removed
                if first:
                    yield so_far.then(*first)

    def choices(self, tool: Tool, removed: Region) -> list[tuple[Job, ...]]:
        """Every way in which a tool can do some of the rooms, from the first to the last."""
        place = (tool.id, removed)
        if place not in self.known:
            self.known[place] = [jobs for jobs in self._some(tool, 0, removed) if jobs]
        return self.known[place]

    def _some(self, tool: Tool, place: int, removed: Region) -> Iterator[tuple[Job, ...]]:
        outline = self.question.outline
        if place == len(outline.rooms):
            yield ()
            return
        yield from self._some(tool, place + 1, removed)
        room = outline.rooms[place]
        if outline.is_waived(outline.rest(room, removed)):
            return
        for job in known_of(self.question).clear(tool, room, removed, self.limits):
            for more in self._some(tool, place + 1, job.removed):
                yield (job, *more)

    def best(self) -> Weighed | None:
        """The best plan that no rule forbids and that the proof bears out. Walls are nearer their limits only where
        the same cutters, or fewer, don't do as well with walls at their aim."""
        known = known_of(self.question)
        weighed = [known.weigh(draft, True) for draft in self.drafts(Draft(self.question))]
        allowed = sorted((w for w in weighed if not w.stopped), key=lambda w: w.key)
        for one in allowed:
            if is_wider(one.draft) and any(
                    {tool.id for tool in other.draft.tools} <= {tool.id for tool in one.draft.tools}
                    and other.key[:3] <= one.key[:3] and not is_wider(other.draft) and finish(other)
                    for other in allowed):
                event("cutters that do it with walls at their aim too")
                continue
            if finish(one):
                return one
            event("a whole plan that the proof doesn't bear out")
        return None


def question_of(request: Request, shop: Shop, cutters: Sequence[Cutter]) -> Question:
    """The question as it is asked of these cutters."""
    material = find_material(request.material)
    question = Question(draw_feature(replace(request, material=material.name)), shop, material, SETUP)
    tools = set_ups.usable(question, cutters)
    return replace(question, rooms_an_end_mill_opens=Jobs(question, tools).opened_by_end_mills())


def every_way(questions: Sequence[Question], tools: Sequence[Tool], plans: type[Unpruned] = Unpruned) -> Weighed | None:
    """The best of all plans in all set-ups, with walls at their aim or nearer their limits; where all give something
    away the best at the aim, if there is one."""
    best = _best_of(plans(question, tools, True) for question in questions)
    if best is None or best.answer != Verdict.COMPROMISE:
        return best
    return _best_of(plans(question, tools, False) for question in questions) or best


def _best_of(every: Iterable[Unpruned]) -> Weighed | None:
    found = [one for each in every if (one := each.best())]
    return min(found, key=lambda one: one.key, default=None)


def questions_of(request: Request, shop: Shop, cutters: Sequence[Cutter]) -> tuple[Question, ...]:
    """The question in every set-up, as it is asked of these cutters; the same ones where it was asked last."""
    for *asked, last in _LAST:
        if asked[0] is request and asked[1] is shop and asked[2] is cutters:
            return last
    material = find_material(request.material)
    feature = draw_feature(replace(request, material=material.name))
    found = tuple(jobs.question for jobs in asked_of(feature, material, shop, cutters))
    _LAST[:] = [(request, shop, cutters, found)]
    return found


_LAST: list[tuple[Request, Shop, Sequence[Cutter], tuple[Question, ...]]] = []


def usable(question: Question, cutters: Sequence[Cutter]) -> Sequence[Tool]:
    """What of these cutters can be reckoned with: the same tools, so that what was found of them stands."""
    return known_of(question).usable(cutters)


def kindest(question: Question, cutters: Sequence[Cutter]) -> list[Tool]:
    """Every cutter with what isn't known at its kindest."""
    wanted = question.feature.kindest
    found = [ready(at_kindest(cutter, wanted), question.shop, question.material, cutter) for cutter in cutters]
    return [tool for tool in found if tool]


def shown(weighed: Weighed) -> tuple[str, float, tuple[int, ...]]:
    return weighed.answer, round(weighed.reckoning.cost, 6), tuple(tool.id for tool in weighed.draft.tools)


def held_to_every_way(request: Request, cutters: Sequence[Cutter], shop: Shop) -> tuple[Plan, Weighed] | None:
    """The plan that the search comes to first, and the best of every way, which it must be; None where neither finds
    one."""
    plans, questions = advise(request, cutters, shop).advice.plans, questions_of(request, shop, cutters)
    best = every_way(questions, usable(questions[0], cutters))
    assert bool(plans) == (best is not None)
    if best is None:
        return None
    plan = first_found(plans, best)
    assert (plan.answer, round(plan.cost, 6), tuple(cutter.id for cutter in plan.cutters)) == shown(best)
    return plan, best


def first_found(plans: Sequence[Plan], best: Weighed) -> Plan:
    """Of the plans that are told, the one that the search comes to first. They are told in its order; where they don't
    keep to the drawing what misses the least stands first, so it is looked for among them, and whatever stands before
    it must miss less."""
    if plans[0].answer == Verdict.COMPROMISE:
        for plan in plans:
            if (plan.answer, round(plan.cost, 6)) == shown(best)[:2]:
                assert plan is plans[0] or missed(plans[0]) < missed(plan)
                return plan
    return plans[0]


def missed(plan: Plan) -> float:
    """What a plan misses the most, as a share of its tolerance or size, to two figures."""
    return float(f"{max((one.share for one in plan.deviations), default=0.0):.2g}")
