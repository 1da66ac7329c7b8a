"""What a search found so far, and what is still worth finding."""

from __future__ import annotations

from collections.abc import Callable, Hashable

from crib.light.records import dataclass, field
from crib.machining.draft import Draft
from crib.machining.question import Question
from crib.planning.bounds.lower_bounds import CENTS_ROUNDED, Bounds
from crib.planning.bounds.pareto import Rank
from crib.planning.search.watch import Watch
from crib.planning.search.weighed import Key, Weighed

WORTH_TELLING = 1.5
"""A runner-up is told of up to this many times the cost of the best plan, and with the same verdict."""


@dataclass
class Shortlist:
    """What was found so far, and what is still worth finding: plans of the same verdict, not much dearer, each with
    another cutter at the end, which is in the room that fewest can do; down an axis, where they are all worked out
    anyhow, every way there is. `least`: the verdict, as it is ranked, from which on nothing is worth finding, None
    where everything is. `under`: the key from which on nothing is, either; `at_least`: what is known of every plan, its
    money aside; `new`: tools of which a plan has one at least; `widened`: whether only those are worth finding in which
    some walls are nearer their limits, and `aimed` what is told where none of those is better. `refused`: by their
    keys, drafts of which the proof didn't hold; `holds`: whether one's proof does. `any_does`: any plan does that
    is worth finding, in no order: what comes out is told at once. `watch`: where it is written what the search is
    at."""

    best: Weighed | None = None
    last: set[int] = field(default_factory=set)
    keys: list[Key] = field(default_factory=list)
    signs: set[Hashable] = field(default_factory=set)
    told: int = 0  # of chains down an axis
    unproved: int = 0
    least: int | None = None
    under: Key | None = None
    at_least: Rank | None = None
    new: frozenset[int] = frozenset()
    widened: bool = False
    aimed: Weighed | None = None
    refused: dict[Key, list[Draft]] = field(default_factory=dict)
    holds: Callable[[Weighed], bool] = lambda _: True
    any_does: bool = False
    watch: Watch = field(default_factory=Watch)

    def put_aside(self, weighed: Weighed) -> None:
        """One more of which the proof didn't hold."""
        self.unproved += 1
        self.refused.setdefault(weighed.key, []).append(weighed.draft)

    def was_refused(self, weighed: Weighed) -> bool:
        """Whether the proof of the same passes didn't hold before."""
        draft, known = weighed.draft, self.refused.get(weighed.key, ())
        return any(draft.question is one.question and draft.jobs == one.jobs for one in known)

    def does_at_the_aim(self, question: Question, ids: set[int], key: Key) -> bool:
        """Whether some of these cutters do the same question with walls at their aim, with no worse a verdict than that
        of a key, in what is told where nothing nearer a limit is."""
        known = self.aimed
        return (known is not None and known.draft.question is question and known.key[:3] <= key[:3]
                and ids.issuperset([tool.id for tool in known.draft.tools]) and not self.was_refused(known))

    def add(self, weighed: Weighed) -> None:
        """One more plan that was told."""
        self.best = self.best or weighed
        self.last.add(weighed.last)
        self.keys.append(weighed.key)
        self.signs.add(weighed.sign)
        self.told += weighed.draft.is_round
        self.watch.found += 1

    @property
    def count(self) -> int:
        """How many were told that differ."""
        return self.told or len(self.last)

    def is_over(self, key: Key) -> bool:
        """Whether nothing with this key or a worse one is worth finding. Raises `OutOfPatience`."""
        self.watch.check()
        if self.least is not None and key[0] >= self.least:
            return True
        if self.under is not None and (*key[:4], key[4] - CENTS_ROUNDED, *key[5:]) >= self.under:
            return True
        return self.best is not None and not self.best.draft.is_round and key[:3] > self.best.key[:3]

    def passes_over(self, key: Key, last: int) -> bool:
        """Whether a draft that ends, or goes on, with a cutter isn't worth working out."""
        return last in self.last or self.is_dear(key)

    def is_dear(self, key: Key) -> bool:
        """Whether it costs so much more than the best that it isn't worth telling."""
        return self.best is not None and key[4] > WORTH_TELLING * self.best.reckoning.cost

    def leaves_undone(self, draft: Draft, bounds: Bounds) -> bool:
        """Whether a draft lacks a room that only cutters can do which are up or aren't gone on with any more. What
        stands of one that was begun may go with another."""
        if not self.last:
            return False
        over, rooms = self.last | {tool.id for tool in draft.tools}, bounds.missing(draft)
        begun = bounds.begun(draft) if len(rooms) > 1 else ()
        return any(bounds.shares[room.name].keys() <= over for room in rooms if room.name not in begun)
