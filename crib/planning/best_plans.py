"""The best plan of what is asked, proved, and its runners-up."""

from __future__ import annotations

from collections.abc import Iterable

from crib.findings.verdicts import ANSWERS, Verdict
from crib.planning.advice import Plan
from crib.planning.as_drawn import as_drawn
from crib.planning.branch_and_bound import Shortlist, Weighed
from crib.planning.finish import Proved, distinct, finish, is_proved
from crib.planning.set_ups import Asked, at_walls, best, merged
from crib.planning.throat_floor import deepened
from crib.planning.watch import PATIENCE, OutOfPatience, Watch
from crib.records import NamedTuple, dataclass, replace


def proved_plans(every: Asked, most: int, watch: Watch | None = None) -> tuple[Proved, ...]:
    """The best plan and its runners-up, in whatever set-up. A draft that its proof refuses may have hidden others that
    it seemed as good as: where there was one, every draft is looked at. With a `watch`, an interruption ends the search
    with what it has found, if it has found anything."""
    proved: list[Proved] = []
    try:
        if found := as_drawn(every, most, watch or Watch()):
            return found
        for all_drafts in (False, True):
            told = Shortlist(watch=watch or Watch())
            again: list[Proved] = []
            for one in distinct(best(every, told, all_drafts), told, most):
                again.append(one)
                proved = max(proved, again, key=len)
            proved = again
            if not told.unproved:
                break
    except OutOfPatience:
        if watch is not None:
            watch.ran_out = True
    except KeyboardInterrupt:
        if watch is None or not proved:
            raise
        watch.stopped = True
    return tuple(proved)


@dataclass(frozen=True)
class Best:
    """What a search found first, whether with walls nearer their limits, and the best plan: that, where its proof
    holds, else another or none."""

    weighed: Weighed
    is_wide: bool
    proved: Proved | None
    holds: bool = True


def best_of(every: Asked, watch: Watch | None = None) -> Proved | None:
    """The best plan with its proof; None where there is none, or where it takes longer than it may."""
    found = find_best(every, (), watch)
    return found.proved if found else None


def find_best(every: Asked, known: Iterable[Proved] = (), watch: Watch | None = None) -> Best | None:
    """The same as it was found. `known`: plans that were proved, which need no second proof."""
    watch = watch or Watch(patience=PATIENCE)
    found = first(every, watch)
    return found and proved_best(every, *found, known, watch)


def better_of(every: Asked, than: Verdict, watch: Watch | None = None) -> Proved | None:
    """The best plan where its verdict is better than this one."""
    watch, least = watch or Watch(patience=PATIENCE), ANSWERS.index(than)
    found = first(every, watch, least)
    proved = finish(found[0]) if found else None
    if found and not proved:
        proved = best_of(every, watch)
    return proved if proved and ANSWERS.index(proved.plan.answer) < least else None


def turned_to(every: Asked, than: Verdict, new: frozenset[int]) -> Turned | None:
    """The same without the words of the plan: what it comes to, and the cutters that it uses."""
    watch = Watch(patience=PATIENCE)
    if (found := first(every, watch, ANSWERS.index(than), new)) is None:
        return None
    if is_proved(found[0]):
        return Turned(found[0].answer, frozenset(tool.id for tool in found[0].draft.tools))
    proved = best_of(every, watch)
    is_better = proved and ANSWERS.index(proved.plan.answer) < ANSWERS.index(than)
    return Turned.by(proved.plan) if proved and is_better else None


class Turned(NamedTuple):
    """A plan's verdict and its cutters, by their numbers."""

    answer: Verdict
    cutters: frozenset[int]

    @staticmethod
    def by(plan: Plan) -> Turned:
        """Those of a plan."""
        return Turned(plan.answer, frozenset(cutter.id for cutter in plan.cutters))


def first(every: Asked, watch: Watch, least: int | None = None, new: frozenset[int] = frozenset(),
          before: Best | None = None) -> tuple[Weighed, bool] | None:
    """What the search finds first, where it does so in time, and whether with walls nearer their limits; with a verdict
    that ranks before `least`, one of the `new` cutters in it, and better than the best `before`."""
    try:
        for is_wide in (False, True):
            if before and is_wide > before.is_wide:
                return None
            under = before.weighed.key if before and before.is_wide == is_wide else None
            told = Shortlist(least=least, under=under, new=new, watch=watch)
            if found := next(merged(at_walls(every, is_wide), told, False), None):
                return found, is_wide
    except OutOfPatience:
        pass
    return None


def proved_best(every: Asked, weighed: Weighed, is_wide: bool, known: Iterable[Proved], watch: Watch) -> Best:
    """The plan that a draft is, or where its proof doesn't hold the best of all that are asked."""
    again = (_as_known(weighed, one) for one in known)
    if proved := next(filter(None, again), None) or finish(weighed):
        return Best(weighed, is_wide, proved)
    proved = next(iter(proved_plans(every, 1, watch)), None)
    if watch.stopped:
        raise KeyboardInterrupt
    return Best(weighed, is_wide, proved, False)


def _as_known(weighed: Weighed, known: Proved) -> Proved | None:
    """The plan that a draft is, by one that was proved of the same passes: only what it costs may be another. What is
    said of a chain may hang on the cutters that aren't in it."""
    if weighed.draft.is_round:
        return None
    said, plan = len(weighed.warnings), known.plan
    same = (known.draft.jobs, known.draft.question.setup, plan.answer, plan.warnings[:said], plan.deviations)
    here = (deepened(weighed.draft).jobs, weighed.draft.question.setup, weighed.answer, weighed.warnings,
            weighed.deviations)
    if here != same:
        return None
    reckoned = weighed.reckoning
    return replace(known, plan=replace(plan, minutes=reckoned.minutes, cost=reckoned.cost, cost_lines=reckoned.lines,
                                       scrap_chance=reckoned.scrap))
