"""A question asked again, with other cutters or at another worth of an hour: what was worked out stands, and only what
is new is looked for."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from crib.cutters import goes_down
from crib.cutters.base import Cutter, Down
from crib.cutters.two_ends import each_end
from crib.features.request import Request
from crib.findings.verdicts import Verdict
from crib.light.records import replace
from crib.machining.draft import Draft
from crib.machining.question import Question
from crib.machining.tool import Tool
from crib.machining.words import Manner
from crib.planning.as_drawn import called_for
from crib.planning.best_plans import Best, better_of, find_best, first, looked_into
from crib.planning.search.aims import aimed
from crib.planning.search.jobs import Jobs
from crib.planning.search.set_ups import Asked, drills_for, drills_in_order, opened
from crib.planning.search.watch import PATIENCE, Watch
from crib.planning.search.weighed import weighed
from crib.setups.base import Setup
from crib.shop import Shop


def at_shop(every: Asked, shop: Shop, alike: Asked | None = None) -> Asked:
    """The same where an hour is worth something else; what was worked out of the metal stands. `alike`: the same there
    with other tools."""
    shop = replace(shop.at_own_pace(), this_time=every[0].question.shop.this_time)
    is_alike = alike is not None and _is_asked_alike(every, alike)
    others = alike if alike is not None and is_alike else (None,) * len(every)
    return tuple(jobs if jobs.question.shop == shop else _at_shop(jobs, shop, other)
                 for jobs, other in zip(every, others, strict=True))


def _at_shop(jobs: Jobs, shop: Shop, alike: Jobs | None) -> Jobs:
    question = jobs.question.but(shop)
    drills = drills_in_order(question)
    if question.has_corners or drills != question.drills:  # what roughs, or goes down first, goes by what an hour costs
        return opened(Jobs(replace(_shut(question), drills=drills), jobs.tools))
    return replace(jobs, question=question, known=jobs, alike=alike, grown=None if jobs.grown is None else {})


def with_tools(every: Asked, tools: Sequence[Tool]) -> Asked:
    """The same with other tools, for what is cut along; what was worked out of those that were there stands."""
    usual, asked = every[0].question, [jobs.question.feature.request for jobs in every]
    aims = aimed(usual, tools)
    wanted = [usual.feature.request, *(one.feature.request for one in aims)]
    again = (_with_tools(jobs, tools) for jobs, request in zip(every, asked, strict=True) if request in wanted)
    return (*again, *(opened(Jobs(_shut(one), tools)) for one in aims if one.feature.request not in asked))


def _with_tools(jobs: Jobs, tools: Sequence[Tool]) -> Jobs:
    """What was worked out stands unless other rooms are opened by end mills than before, or others may rough."""
    there = {id(tool) for tool in tools}
    only_new = Jobs(_shut(jobs.question), [tool for tool in tools if tool not in jobs])
    shut = [room for room in jobs.opening_rooms if room.name not in jobs.openers]
    at_work = (*jobs.openers.values(), *(one.job.tool for one in jobs.question.roughers))
    if not all(id(mill) in there for mill in at_work) or any(map(only_new.opener, shut)) or _roughs(only_new):
        return opened(Jobs(_shut(jobs.question), tools))
    return Jobs(jobs.question, tools, known=jobs, openers=jobs.openers, grown=jobs.grown)


def _roughs(jobs: Jobs) -> bool:
    """Whether any of some tools may rough for another."""
    if not jobs.question.has_corners:
        return False
    from crib.planning.search.roughers import roughers

    return bool(roughers(jobs))


def _shut(question: Question) -> Question:
    return question.but(opens=frozenset(), roughers=())


Elsewhere = tuple[Asked, Best | None]
"""The same question of the same tools where an hour or one of them costs something else, and the best plan there."""


def best_at(every: Asked, known: Iterable[Draft] = (), elsewhere: Elsewhere | None = None, watch: Watch | None = None
            ) -> Best | None:
    """The best plan; where that of `elsewhere` is known, only what is better here than that is looked for."""
    watch = watch or Watch(patience=PATIENCE)
    here, there = _here(every, elsewhere)
    if here is None:
        return find_best(every, known, watch)
    found = first(every, watch, before=here, elsewhere=there)
    return looked_into(every, found, known, watch) if found else here


def _here(every: Asked, elsewhere: Elsewhere | None) -> tuple[Best | None, Best | None]:
    """The best plan of elsewhere as it is reckoned here, and that plan, where it bounds what comes out here: not where
    which steps or drills go first, or what roughs, hangs on what an hour is worth. A proof doesn't."""
    others, there = elsewhere or ((), None)
    if there is None or not there.holds or there.weighed.draft.is_round or every[0].question.has_corners:
        return None, None
    if not all(jobs.question.shop.hour_rate > 0 for jobs in (*every, *others)):  # then plans tie that don't elsewhere
        return None, None
    draft = there.weighed.draft
    places = [place for place, jobs in enumerate(others) if jobs.question is draft.question]
    if not places or any(job.manner == Manner.STEPS_FIRST for job in draft.jobs):
        return None, None
    jobs = every[places[0]]
    tools = {tool.id: tool for tool in jobs.tools} | {id(tool): tool for tool in jobs.question.drills}
    mine = [tools.get(id(job.tool)) or tools.get(job.tool.id) for job in draft.jobs]
    if jobs.question.drills != draft.question.drills or None in mine:
        return None, None
    own = tuple(job if tool is job.tool or tool is None else replace(job, tool=tool)
                for job, tool in zip(draft.jobs, mine, strict=True))
    again = replace(draft, question=jobs.question, jobs=own, grown_from=None)
    here = Best(weighed(again, jobs.judged(again)))
    return here, None if any(one.discs and one.discs.all for one in every) else there


def drills_alike(every: Asked, cutters: Sequence[Cutter], more: Sequence[Cutter], shop: Shop) -> bool:
    """Whether what can drill a way in between closed ends stays the same with more cutters than these, or in a shop
    with more collets."""
    question = every[0].question
    if question.layers is None:
        return True
    if question.shop.collets_mm == shop.collets_mm and not any(goes_down(one, Down.DRILLING) for one in more):
        return True
    there = replace(question, shop=replace(question.shop, collets_mm=shop.collets_mm))
    found = drills_for(there, each_end((*cutters, *more)))
    return [(tool.id, tool.held) for tool in found] == [(tool.id, tool.held) for tool in question.drills]


def best_with(every: Asked, before: Best | None, again: Asked, known: Iterable[Draft] = (),
              elsewhere: Elsewhere | None = None, watch: Watch | None = None) -> Best | None:
    """The best plan with other tools, where `before` is the best of all that were there: where that stands, only what
    has a new one in it and is better is looked for; and better than that of `elsewhere`, where it is known."""
    watch = watch or Watch(patience=PATIENCE)
    is_none = before is None or before.is_none
    stands = is_none or (before is not None and before.holds and all(
        tool in again[0] for tool in before.weighed.draft.tools if tool in every[0]))
    new = frozenset(tool.id for tool in again[0].tools if tool not in every[0])
    if not stands or not _is_asked_alike(again, every) or _steps_first(again, new):
        return find_best(again, known, watch)
    if not new:
        return before
    here, there = _here(again, elsewhere)
    best = min((one for one in (None if is_none else before, here) if one), key=lambda one: one.weighed.key,
               default=None)
    found = first(again, watch, new=new, before=best, elsewhere=there)
    if found is None:
        return best or before
    return looked_into(again, found, known, watch, new if is_none else frozenset())


def better_with(every: Asked, known: Asked, tools: Sequence[Tool], than: Verdict) -> Best | None:
    """The best plan with other tools where its verdict is better than this one, which is as good as any
    has without them. `known`: the same with tools of which some may be among these."""
    again = with_tools(known, tools)
    new = frozenset(tool.id for tool in tools if tool not in every[0])
    if not _is_asked_alike(again, every) or _steps_first(again, new):
        return better_of(again, than)
    if than == Verdict.EXTRA_PASSES:  # only what is called for comes out as drawn
        again = called_for(again)
        new &= frozenset(tool.id for jobs in again for tool in jobs.tools)
    return better_of(again, than, new) if new else None


def _steps_first(every: Asked, new: frozenset[int]) -> bool:
    """Whether some new tool may go under a flank before another."""
    return any(tool.id in new for jobs in every if jobs.discs for tool in jobs.discs.all)


def _is_asked_alike(some: Asked, others: Asked) -> bool:
    """Whether the same is asked, the same rooms are opened, and the same mills may rough for others."""
    return [_asked(jobs) for jobs in some] == [_asked(jobs) for jobs in others]


def _asked(jobs: Jobs) -> tuple[Setup, Request, frozenset[str], list[tuple[int, float]]]:
    question = jobs.question
    return (question.setup, question.feature.request, question.rooms_an_end_mill_opens,
            [(id(one.job.tool), one.money) for one in question.roughers])
