"""Which cutters to measure so that the most of the questions asked so far turn into answers.

A question is turned where its best plan gets better: from none to one, or to a better verdict. Whether measuring a
cutter can turn it is found by asking once more with what isn't known of the cutter at its kindest.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from functools import cached_property
from math import ceil, floor

from crib.cutters import kind_of
from crib.cutters.base import Cutter, Unknown
from crib.cutters.in_doubt import with_sizes
from crib.cutters.two_ends import each_end
from crib.features import draw
from crib.findings.errors import CribError
from crib.findings.message import Text, a, said
from crib.findings.verdicts import ANSWERS, Verdict
from crib.light.records import dataclass, field, replace
from crib.planning.advise import better_plan, jobs_for, unmade
from crib.planning.again import better_with, with_tools
from crib.planning.best_plans import find_best
from crib.planning.hitting_sets import choose, turned_by, turning_sets
from crib.planning.measures import Pending, Threshold, ToMeasure, ToMic, Turn
from crib.planning.refused.case import NEAR_LIMITS
from crib.planning.refused.refusals import refusals
from crib.planning.search.set_ups import Asked, Readied
from crib.planning.search.watch import Trials
from crib.planning.told.advice import AnyPlan
from crib.safety.refer import refer
from crib.shop import Shop

_STEP = {"in": 0.0254, "mm": 0.01}
"""How finely a size is told at which an answer turns [mm]."""

MOST_ASKED = 150
"""How often one question is asked at the most to find out what turns it."""


def to_mic(questions: Sequence[Pending], cutters: Sequence[Cutter], shop: Shop, most: int = 3,
           trials: Trials | None = None) -> ToMic:
    """Up to `most` cutters to measure that together turn the most questions. `trials`: for who waits; where it is
    stopped, of the questions that were tried, and what isn't worked out by then is told as it surely is."""
    trials, skipped, readied = trials or Trials(), list[tuple[int, Text]](), Readied()

    def ask(pending: Pending) -> _Tried | None:
        one = _Tried(pending, cutters, shop, readied=readied)
        try:
            one.family = one.sets()
        except CribError as error:
            skipped.append((pending.number, error.finding.says))
            return None
        return one

    tried = [one for one in trials.each(questions, _named, ask) if one]
    chosen = choose([one.family for one in tried], most, [one.pending.times for one in tried])
    turned = [(one, held) for one in tried if (held := turned_by(one.family, chosen)) is not None]
    measures = [_measured(cutter, [pair for pair in turned if cutter.id in pair[1]], trials)
                for cutter in cutters if cutter.id in chosen]
    return ToMic(
        tuple(sorted(measures, key=lambda one: (-len(one.turns), one.cutter.id))),
        tuple(one.pending.number for one, _ in turned),
        tuple(one.pending.number for one in tried if one.family and turned_by(one.family, chosen) is None),
        tuple(skipped),
        any(one.is_spent() for one in tried),
    )


def _named(pending: Pending) -> Text:
    return f"question {pending.number}, {a(pending.request.kind)}, measured and not"


def _measured(cutter: Cutter, turned: Sequence[tuple[_Tried, frozenset[int]]], trials: Trials) -> ToMeasure:
    """What to measure of a cutter, and where that turns; once it is stopped, only what is known by then."""
    trials.at = said("looking where no. {number} turns an answer", number=cutter.id)
    try:
        return _roughly(cutter, turned) if trials.stopped else _measure(cutter, turned)
    except KeyboardInterrupt:
        if trials.stopped or not trials.keeps:
            raise
        trials.stopped = True
        return _roughly(cutter, turned)


def _unknowns(cutter: Cutter) -> tuple[Unknown, ...]:
    return kind_of(cutter).unknowns(cutter)


@dataclass
class _Tried:
    """One question, asked again and again; what was asked already is remembered."""

    pending: Pending
    cutters: Sequence[Cutter]
    shop: Shop
    family: tuple[frozenset[int], ...] = ()
    best_now: Verdict | None = None
    better: dict[frozenset[tuple[int, str]], AnyPlan | None] = field(default_factory=dict)
    turning: list[frozenset[tuple[int, str]]] = field(default_factory=list)
    told: set[frozenset[tuple[int, str]]] = field(default_factory=set)
    readied: Readied = field(default_factory=Readied)
    kinder: dict[tuple[int, frozenset[str]], Cutter] = field(default_factory=dict)

    def sets(self) -> tuple[frozenset[int], ...]:
        """The smallest sets of cutters that turn it, by their ids."""
        unknown = frozenset(cutter.id for cutter in self.cutters if _unknowns(cutter))
        if not unknown or self.verdict == ANSWERS[0]:
            return ()
        return turning_sets(lambda some: self.turns(self.wholly(some)), self._used, unknown, self.is_spent)

    def is_spent(self) -> bool:
        """Whether it was asked often enough."""
        return len(self.told) >= MOST_ASKED

    @cached_property
    def asked(self) -> Asked:
        """What the cutters can do as they are on record."""
        return jobs_for(self.pending.request, self.cutters, self.shop, self.readied)

    @cached_property
    def best(self) -> AnyPlan | None:
        """What the best plan of now comes to."""
        found = None if self._is_referred else find_best(self.asked)
        return found.gist if found else None

    @property
    def _is_referred(self) -> bool:
        return refer(self.pending.request.use, self.pending.request.mating) is not None

    @cached_property
    def verdict(self) -> Verdict:
        """The verdict of the best plan of now."""
        if self.best_now is None:
            return self.best.answer if self.best else Verdict.CANNOT
        return self.best_now

    @cached_property
    def now(self) -> Verdict:
        """The answer of now."""
        if self._is_referred:
            return Verdict.REFER
        return self.best.answer if self.best else unmade(self.asked, self.cutters, bool(self.turning))

    @property
    def roughly(self) -> Verdict:
        """The answer of now where measuring turns it, told without asking any more."""
        return self.best.answer if self.best else Verdict.MEASURE_FIRST

    def then(self, numbers: frozenset[int]) -> Verdict:
        """The best answer that is known of it with these cutters measured, and no others."""
        plans = (plan for known, plan in self.better.items() if plan and numbers.issuperset(
            number for number, _ in known if number in {int(cutter.id) for cutter in plan.cutters}))
        return min((plan.answer for plan in plans), key=ANSWERS.index, default=self.roughly)

    def at_kindest(self, known: frozenset[tuple[int, str]]) -> AnyPlan | None:
        """What the plan comes to that is better than that of now with some unknown sizes (of a cutter's id, by their
        key) at their kindest; None where none is."""
        self.told.add(known)
        if known not in self.better:
            plan = self.better[known] = self._better(self._with(known))
            if plan:
                mine = {int(one.id) for one in plan.cutters}
                self.turning.append(frozenset(one for one in known if one[0] in mine))
        return self.better[known]

    def turns(self, known: frozenset[tuple[int, str]]) -> bool:
        """Whether the best plan is better then than now: surely where a plan that was is made with no other cutters at
        their kindest."""
        self.told.add(known)
        return any(used <= known for used in self.turning) or self.at_kindest(known) is not None

    def _better(self, cutters: Sequence[Cutter]) -> AnyPlan | None:
        question = self.asked[0].question
        if self.asked[0].down or question.layers or self._is_referred:
            return better_plan(self.pending.request, cutters, self.shop, self.verdict, self.readied)
        found = better_with(self.asked, self._kindest, self.readied.tools(question, each_end(cutters)), self.verdict)
        return found.gist if found else None

    @cached_property
    def _kindest(self) -> Asked:
        """What the cutters can do with everything that isn't known at its kindest."""
        cutters = self._with(self.wholly(cutter.id for cutter in self.cutters))
        return with_tools(self.asked, self.readied.tools(self.asked[0].question, each_end(cutters)))

    def wholly(self, numbers: Iterable[int]) -> frozenset[tuple[int, str]]:
        """All that isn't known of some cutters."""
        wanted = set(numbers)
        return frozenset((cutter.id, ask.key) for cutter in self.cutters if cutter.id in wanted
                         for ask in _unknowns(cutter))

    def needed(self, numbers: Iterable[int]) -> frozenset[tuple[int, str]]:
        """Of what isn't known of some cutters as much as it takes for the plan that is likely then."""
        known = self.wholly(numbers)
        alone = self.alone(known)
        for one in sorted(known):
            if alone.turns(known - {one}):
                known = known - {one}
        return known

    def alone(self, known: frozenset[tuple[int, str]]) -> _Tried:
        """The same question of the few cutters that the best plan uses with these sizes at their kindest: what those
        turn is turned whatever else is owned, and asking them takes no time."""
        plan = self.at_kindest(known)
        used = {int(one.id) for one in plan.cutters} if plan else set()
        few = [cutter for cutter in self.cutters if cutter.id in used]
        return _Tried(self.pending, few, self.shop, best_now=self.verdict, readied=self.readied)

    def fix(self, cutter: Cutter) -> Text | None:
        """The size at which the cutter turns it, in words, where the answer of now says so."""
        used = {int(one.id) for one in self.best.cutters} if self.best else set[int]()
        told = [one.fix for one in refusals(self.asked, (cutter,), used).nearest
                if one.cutter.id == cutter.id and one.answer == Verdict.MEASURE_FIRST and one.fix != NEAR_LIMITS]
        return told[0] if told else None

    def thresholds(self, cutter: Cutter, known: frozenset[tuple[int, str]]) -> tuple[Threshold, ...]:
        """Where each of a cutter's sizes turns it, the others at their kindest. An angle has no such place: it must be
        met, and more of it is no better than less."""
        alone = self.alone(known)
        asks = [ask for ask in self._unknowns(cutter) if (cutter.id, ask.key) in known and ask.key.endswith("_mm")]
        found = (alone._threshold(cutter, ask, known) for ask in asks)
        return tuple(one for one in found if one is not None)

    def _threshold(self, cutter: Cutter, ask: Unknown, known: frozenset[tuple[int, str]]) -> Threshold | None:
        """None where it doesn't turn once and for all on the way from the worst to the kindest."""
        kind, worst, more = ask.kindest, ask.worst, ask.kindest > ask.worst
        if self._turns_at(cutter, ask.key, worst, known):
            kind, limit = worst, None
        else:
            step = _STEP[self.shop.units]
            while abs(worst - kind) > step / 8:
                middle = (kind + worst) / 2
                kind, worst = (middle, worst) if self._turns_at(cutter, ask.key, middle, known) else (kind, middle)
            limit = kind = (ceil(round(kind / step, 6)) if more else floor(round(kind / step, 6))) * step
        between = (kind, *(kind + (ask.kindest - kind) * share for share in (0.25, 0.5, 0.75)))
        sure = all(self._turns_at(cutter, ask.key, value, known) for value in between)
        return Threshold(ask.key, limit, more) if sure else None

    def _turns_at(self, cutter: Cutter, key: str, mm: float, known: frozenset[tuple[int, str]]) -> bool:
        cutters = [one.but(**{key: mm}) if one.id == cutter.id else one for one in self._with(known)]
        return self._better(cutters) is not None

    def _with(self, known: frozenset[tuple[int, str]]) -> list[Cutter]:
        return [self._kind(cutter, [key for number, key in known if number == cutter.id]) for cutter in self.cutters]

    def _kind(self, cutter: Cutter, keys: Sequence[str]) -> Cutter:
        if not keys:
            return cutter
        place = (cutter.id, frozenset(keys))
        if place not in self.kinder:
            sizes = {ask.key: ask.kindest for ask in self._unknowns(cutter) if ask.key in keys}
            self.kinder[place] = with_sizes(cutter, **sizes)
        return self.kinder[place]

    def _unknowns(self, cutter: Cutter) -> tuple[Unknown, ...]:
        """What isn't known of a cutter, at its kindest what is wanted of its kind."""
        best = self._wanted.get(cutter.kind, {})
        return tuple(replace(ask, kindest=ask.nearest(best.get(ask.key))) for ask in _unknowns(cutter))

    @cached_property
    def _wanted(self) -> Mapping[str, Mapping[str, float]]:
        return draw(self.pending.request).kindest

    def _used(self, numbers: frozenset[int]) -> frozenset[int]:
        """Of some cutters those that the best plan uses with them at their kindest."""
        plan = self.at_kindest(self.wholly(numbers))
        return frozenset(int(cutter.id) for cutter in plan.cutters) & numbers if plan else numbers


def _measure(cutter: Cutter, turned: Sequence[tuple[_Tried, frozenset[int]]]) -> ToMeasure:
    """What to measure of a cutter for the questions that it helps to turn."""
    needed: Mapping[int, frozenset[tuple[int, str]]] = {
        one.pending.number: one.needed(numbers) for one, numbers in turned}
    keys = {key for known in needed.values() for number, key in known if number == cutter.id}
    turns = tuple(_turn(cutter, one, numbers, needed[one.pending.number]) for one, numbers in turned)
    return ToMeasure(cutter, tuple(ask for ask in _unknowns(cutter) if ask.key in keys), turns)


def _roughly(cutter: Cutter, turned: Sequence[tuple[_Tried, frozenset[int]]]) -> ToMeasure:
    """All that isn't known of a cutter, without asking any more which of it turns a question, and where."""
    turns = tuple(_turned(one, numbers, cutter, one.roughly, one.then(numbers)) for one, numbers in turned)
    return ToMeasure(cutter, _unknowns(cutter), turns)


def _turned(one: _Tried, numbers: frozenset[int], cutter: Cutter, now: Verdict, then: Verdict, fix: Text | None = None,
            at: tuple[Threshold, ...] = ()) -> Turn:
    return Turn(one.pending.number, now, then, fix, at, tuple(sorted(numbers - {cutter.id})),
                tuple(sorted(tuple(sorted(other)) for other in one.family if other != numbers)))


def _turn(cutter: Cutter, one: _Tried, numbers: frozenset[int], needed: frozenset[tuple[int, str]]) -> Turn:
    keys = [key for number, key in needed if number == cutter.id]
    fix = one.fix(cutter) if len(keys) == 1 else None
    then = one.at_kindest(needed)
    return _turned(one, numbers, cutter, one.now, then.answer if then else one.now, fix,
                   () if fix else one.thresholds(cutter, needed))
