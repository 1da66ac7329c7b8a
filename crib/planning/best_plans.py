"""The best plan of what is asked, proved, and its runners-up."""

from __future__ import annotations

from collections.abc import Iterable
from functools import cached_property

from crib.findings.verdicts import ANSWERS, Verdict
from crib.light.records import dataclass
from crib.machining.draft import Draft
from crib.planning.as_drawn import as_drawn, not_as_drawn
from crib.planning.dialled.finish import Proved, distinct, finish, gist_of, is_proved
from crib.planning.search.set_ups import Asked, at_walls, best, better_widened, merged
from crib.planning.search.shortlist import Shortlist
from crib.planning.search.watch import PATIENCE, OutOfPatience, Watch
from crib.planning.search.weighed import Weighed
from crib.planning.told.advice import AnyPlan


def proved_plans(every: Asked, most: int, watch: Watch | None = None, new: frozenset[int] = frozenset(),
                 refused: Weighed | None = None) -> tuple[Proved, ...]:
    """The best plan and its runners-up, in whatever set-up. A draft that its proof refuses may have hidden others that
    it seemed as good as: where there was one, every draft is looked at. With a `watch`, an interruption ends the search
    with what it has found, if it has found anything. `new`: only those with one of these cutters, where it names any.
    `refused`: a draft that is come upon before any plan, and that its proof refuses.
    """
    proved: list[Proved] = []
    known = {refused.key: [refused.draft]} if refused else {}
    try:
        some = None if new else as_drawn(every, most, watch or Watch()) or not_as_drawn(every, most, watch or Watch())
        if some is not None:
            return some
        for all_drafts in (True,) if refused else (False, True):
            told = Shortlist(new=new, refused=known, holds=is_proved, watch=watch or Watch())
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
    """What a search found first. `holds`: whether its proof does; where it doesn't, `other` is the best plan, if there
    is one, and `is_sure` whether all were looked at for it."""

    weighed: Weighed
    holds: bool = True
    other: Proved | None = None
    is_sure: bool = True

    @property
    def is_none(self) -> bool:
        """Whether there surely is no plan."""
        return not self.holds and self.other is None and self.is_sure

    @cached_property
    def proved(self) -> Proved | None:
        """The best plan."""
        return finish(self.weighed) if self.holds else self.other

    @cached_property
    def gist(self) -> AnyPlan | None:
        """What it comes to."""
        if self.holds:
            return gist_of(self.weighed)
        return self.other.plan if self.other else None


def best_of(every: Asked, watch: Watch | None = None) -> Proved | None:
    """The best plan with its proof; None where there is none, or where it takes longer than it may. Of many cutters few
    are looked at first, as for `proved_plans`."""
    watch = watch or Watch(patience=PATIENCE)
    try:
        some = as_drawn(every, 1, watch) or not_as_drawn(every, 1, watch)
        if some is not None:
            return next(iter(some), None)
    except OutOfPatience:
        watch.ran_out = True
        return None
    found = find_best(every, (), watch)
    return found.proved if found else None


def find_best(every: Asked, known: Iterable[Draft] = (), watch: Watch | None = None) -> Best | None:
    """The same as it was found. `known`: drafts that were proved."""
    watch = watch or Watch(patience=PATIENCE)
    found = first(every, watch)
    return looked_into(every, found, known, watch, is_first=True) if found else None


def better_of(every: Asked, than: Verdict, new: frozenset[int] = frozenset(), watch: Watch | None = None
              ) -> Best | None:
    """The best plan where its verdict is better than this one, with one of the `new` cutters in it."""
    watch, least = watch or Watch(patience=PATIENCE), ANSWERS.index(than)
    if (found := first(every, watch, least, new)) is None:
        return None
    best = looked_into(every, found, (), watch, is_first=not new)
    return best if best.gist and ANSWERS.index(best.gist.answer) < least else None


def first(every: Asked, watch: Watch, least: int | None = None, new: frozenset[int] = frozenset(),
          before: Best | None = None, elsewhere: Best | None = None) -> Weighed | None:
    """What the search finds first, where it does so in time; with a verdict that ranks before `least`, one of the `new`
    cutters in it, and better than the best `before`. `elsewhere`: what all of it comes to where an hour is worth
    something else: all but the money is the same, so that nothing is better in that."""
    under = before.weighed.key if before else None
    told = Shortlist(least=least, under=under, new=new, watch=watch, holds=is_proved,
                     at_least=(*elsewhere.weighed.key[:4], 0.0) if elsewhere else None)
    try:
        found = next((one for one in merged(every, told, False) if under is None or one.key < under), None)
        under = found.key if found else under
        if under is None:
            return next(merged(at_walls(every, True), told, False), None)
        return better_widened(every, told, under, found) or found
    except OutOfPatience:
        watch.ran_out = True
        return None


def looked_into(every: Asked, weighed: Weighed, known: Iterable[Draft], watch: Watch,
                new: frozenset[int] = frozenset(), is_first: bool = False) -> Best:
    """What was found, or where its proof doesn't hold the best of all that are asked; `new`: of those with one of these
    cutters, where without them there is none. `is_first`: nothing of all that are asked comes before it."""
    if any(_is_same(weighed.draft, one) for one in known) or is_proved(weighed):
        return Best(weighed)
    other = next(iter(proved_plans(every, 1, watch, new, weighed if is_first else None)), None)
    if watch.stopped:
        raise KeyboardInterrupt
    return Best(weighed, False, other, not watch.ran_out)


def _is_same(one: Draft, other: Draft) -> bool:
    """Whether the same passes are made in the same set-up."""
    return not one.is_round and one.jobs == other.jobs and one.question.setup == other.question.setup
