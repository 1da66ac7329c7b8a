"""The ways to make one feature that a whole part may choose from.

What keeps the drawing comes before what doesn't, what no rule cautions before what one does, and where hours are at
stake the smaller chance of scrap: that is never traded for minutes. Whether it is done with the right cutter or with
another and more passes is: both keep the drawing. Of those that are left every one stays that may pay where others
share its set-up or its cutters.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from functools import cached_property
from itertools import groupby

from crib.findings.message import Text
from crib.findings.verdicts import ANSWERS, Verdict
from crib.light.records import dataclass, field, replace
from crib.light.tuples import NamedTuple
from crib.machining.draft import Draft
from crib.machining.methods.cuts import Job
from crib.machining.tool import Tool
from crib.machining.words import Role
from crib.planning.dialled.finish import Proved, finish
from crib.planning.reckoning.minutes import CHANGES, cut_minutes
from crib.planning.search.set_ups import Asked, best
from crib.planning.search.shortlist import Shortlist
from crib.planning.search.watch import OutOfPatience, Watch
from crib.planning.search.weighed import Key, Weighed
from crib.shop import Shop

MOST = 40
"""So many ways of one feature at the most, the cheapest by themselves."""

_KEEPS = ANSWERS.index(Verdict.EXTRA_PASSES)
_CHANGED = 3
"""A way may save so many changes of the cutter beside a set-up, at the most."""


Sign = tuple[str | int, ...]
"""A set-up, and the cutters one after the other: no two ways of a feature have the same."""


class Go(NamedTuple):
    """One go with one cutter: the tool, its jobs in the draft, and its share of the minutes."""

    tool: Tool
    jobs: tuple[Job, ...]
    minutes: float

    @property
    def what(self) -> str:
        """What it does, the same whenever it is planned again."""
        return "+".join(dict.fromkeys(f"{job.room or 'way in'} {job.manner}" for job in self.jobs))


@dataclass(frozen=True)
class Choice:
    """One way to make a feature: minutes and money by itself, what set-ups and changes take left out. It is proved once
    it is chosen. `skipped`: so many of its first goes are left out, as something else has done them."""

    weighed: Weighed
    goes: tuple[Go, ...]
    minutes: float
    money: float
    skipped: int = 0

    @property
    def draft(self) -> Draft:
        """Its jobs."""
        return self.weighed.draft

    @cached_property
    def proved(self) -> Proved | None:
        """It, proved; None where the proof doesn't hold."""
        return finish(self.weighed)

    @property
    def proof(self) -> Proved:
        """It, proved, where the proof holds."""
        assert self.proved is not None, "only what was proved is told"
        return self.proved

    def passes(self, number: int) -> slice:
        """Which passes of its plan one of its goes is."""
        counts = [sum(len(job.cuts) for job in some) for _, some in groupby(self.proof.draft.jobs,
                                                                           lambda job: job.tool.id)]
        at = number + self.skipped
        return slice(sum(counts[:at]), sum(counts[:at + 1]))

    @property
    def spots(self) -> bool:
        """Whether it begins with a spot for a drill to start in."""
        return len(self.goes) > 1 and all(cut.role is Role.SPOT for job in self.goes[0].jobs for cut in job.cuts)

    @property
    def unspotted(self) -> Choice:
        """The same without the spot with which it begins."""
        if not self.spots:
            return self
        return replace(self, goes=self.goes[1:], minutes=self.minutes - self.goes[0].minutes, skipped=1)

    @property
    def rank(self) -> tuple[int, bool, float]:
        """What isn't traded for minutes: whether the drawing is kept, cautions, chance of scrap where hours count."""
        return rank_of(self.weighed.key)

    @property
    def sign(self) -> Sign:
        """By what it is known among the ways of its feature."""
        return (self.draft.question.setup.name, *(go.tool.id for go in self.goes))

    @property
    def holders(self) -> tuple[Text, ...]:
        """The holder of each go."""
        return tuple(go.tool.held.label for go in self.goes)


def rank_of(key: Key) -> tuple[int, bool, float]:
    """What of a key isn't traded for minutes; the right cutter and another with more passes are alike.

    >>> rank_of((1, False, True, 0.04, 12.5, (), ())), rank_of((2, True, False, 0.0, 3.0, (), ()))
    ((0, False, 0.04), (2, True, 0.0))
    """
    return (0 if key[0] <= _KEEPS else key[0], key[1], key[3])


@dataclass
class Wanted(Shortlist):
    """What is worth finding for a part: all that keeps the drawing, as long as it isn't dearer than the best by more
    than it could ever save. `saves`: the money that sharing saves at the most; `every`: whatever its verdict."""

    saves: float = 0.0
    cheapest: float = field(default_factory=lambda: float("inf"))
    verdict: int | None = None
    every: bool = False

    def take(self, weighed: Weighed) -> None:
        """One more was found."""
        self.best = self.best or weighed
        self.verdict = self.verdict if self.verdict is not None else max(weighed.key[0], _KEEPS)
        self.cheapest = min(self.cheapest, weighed.reckoning.cost)
        self.told += 1
        self.watch.found += 1

    def is_over(self, key: Key) -> bool:
        """Whether what is to come has a worse verdict than what was found. Raises `OutOfPatience`."""
        self.watch.check()
        return not self.every and self.verdict is not None and key[0] > self.verdict

    def is_dear(self, key: Key) -> bool:
        """Whether a draft is too dear to pay, whatever is shared."""
        return key[4] > self.cheapest + self.saves


class Found(NamedTuple):
    """The ways to make a feature, and the numbers of all cutters that any of them was made with, told or not."""

    choices: tuple[Choice, ...]
    used: frozenset[int]


def choices_of(every: Asked, shop: Shop, watch: Watch | None = None, all_of_them: bool = False) -> Found:
    """The ways to make a feature of which none is as good as another whatever they share, the cheapest by themselves
    first, `MOST` at the most. What was found till then where patience is over. `all_of_them`: also those that another
    is as good as, and with a worse verdict."""
    shop = shop.at_own_pace()
    saves = (shop.setup_minutes + _CHANGED * (shop.cutter_minutes + shop.collet_minutes + shop.touch_disc_minutes))
    told = Wanted(watch=watch or Watch(), saves=saves / 60 * shop.hour_rate, every=all_of_them)
    first: dict[Sign, Weighed] = {}
    try:
        for weighed in best(every, told, True):
            told.take(weighed)
            first.setdefault(_set_of(weighed), weighed)
    except OutOfPatience:
        if watch:
            watch.ran_out = True
    some = sorted(first.values(), key=_standing)
    used = frozenset(int(tool.id) for weighed in some for tool in weighed.draft.tools)
    return Found(tuple(map(made, some) if all_of_them else _non_dominated(some)), used)


def _set_of(weighed: Weighed) -> Sign:
    """The set-up, and the cutters one after the other: ways alike in these change the same."""
    draft = weighed.draft
    return (draft.question.setup.name, *(number for number, _ in groupby(draft.jobs, lambda job: job.tool.id)))


def _standing(weighed: Weighed) -> tuple[tuple[int, bool, float], float]:
    return rank_of(weighed.key), weighed.reckoning.cost


def _non_dominated(found: Sequence[Weighed]) -> Iterator[Choice]:
    """Those of the best rank of which no other is as good with fewer changes."""
    kept: list[Choice] = []
    for weighed in found:
        if len(kept) >= MOST or (kept and rank_of(weighed.key) > kept[0].rank):
            return
        choice = made(weighed)
        if not any(_is_as_good(other, choice) for other in kept):
            kept.append(choice)
            yield choice


def made(weighed: Weighed) -> Choice:
    """A draft by its goes."""
    lines = weighed.reckoning.lines
    minutes = sum(line.minutes for line in lines if line.what not in CHANGES)
    timed = weighed.draft.question.shop.hour_rate / 60 / weighed.draft.question.shop.pace
    money = sum(line.money - line.minutes * timed for line in lines)
    return Choice(weighed, tuple(_goes(weighed.draft, minutes)), minutes, max(0.0, money))


def _goes(draft: Draft, minutes: float) -> Iterator[Go]:
    """The goes of a draft, each with its share of the minutes by what its passes take."""
    found: list[tuple[Tool, tuple[Job, ...], float]] = []
    length = draft.question.feature.length
    for _, some in groupby(draft.jobs, lambda job: job.tool.id):
        jobs = tuple(some)
        taken = sum(cut_minutes(job.tool, length, cut) for job in jobs for cut in job.cuts)
        found.append((jobs[0].tool, jobs, taken))
    total = sum(taken for *_, taken in found) or 1.0
    for tool, jobs, taken in found:
        yield Go(tool, jobs, minutes * taken / total)


def best_of(choices: Iterable[Choice]) -> tuple[Choice, ...]:
    """Those of the best rank."""
    some = tuple(choices)
    least = min((choice.rank for choice in some), default=None)
    return tuple(choice for choice in some if choice.rank == least)


def _is_as_good(one: Choice, other: Choice) -> bool:
    """Whether one is no dearer by itself than another, and needs nothing up that the other doesn't, in the same
    order."""
    if one.draft.question.setup.name != other.draft.question.setup.name:
        return False
    dearer = one.minutes > other.minutes or one.money > other.money
    return not dearer and _runs_through((go.tool.id for go in one.goes), [go.tool.id for go in other.goes])


def _runs_through(some: Iterable[int], all_: Sequence[int]) -> bool:
    """Whether numbers come in this order among others.

    >>> _runs_through((1, 3), [1, 2, 3]), _runs_through((3, 1), [1, 2, 3])
    (True, False)
    """
    rest = iter(all_)
    return all(one in rest for one in some)
