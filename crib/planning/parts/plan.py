"""Planning a whole part: for each feature its ways, then one of them for each and all their operations in one order."""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping, Sequence
from functools import cache
from types import MappingProxyType

from crib.cutters.base import Cutter
from crib.features import draw
from crib.features.request import Request
from crib.findings.verdicts import Verdict
from crib.light.records import replace
from crib.parts.part import Part, Placed
from crib.planning.advise import advise
from crib.planning.parts.abstract import LAST, Asked
from crib.planning.parts.assemble import Turn, alone, changes_of, laid_out
from crib.planning.parts.choices import Choice, Sign, best_of
from crib.planning.parts.choosing import solved
from crib.planning.parts.done import Done, done_before
from crib.planning.parts.guided import guided_in, unspotted
from crib.planning.parts.known import Known
from crib.planning.parts.lacking import lacking_of
from crib.planning.parts.lies import drawn_of, is_over, lies_as_in_a_mirror
from crib.planning.parts.planned import PlannedPart, Unmade
from crib.planning.parts.problem import Solution
from crib.planning.parts.proving import Meets, Standing
from crib.planning.search.watch import Timer, Watch
from crib.planning.told.advice import Advice
from crib.shop import Shop

SECONDS = 8.0
"""So long of the processor's time the best choice and order are looked for before the best found is told, with how far
from the best it may be."""

_REFUSED = 6
_ALONE = "what is owned makes it by itself, but not where it lies: "
_MEETS = _ALONE + "the {what} meets what stands beside it, whatever is made before"
_RUNS_ON = (_ALONE + "said to be open, it ends within the part, and the {what} would run on into what stays; close "
            "that end, or let it run right across")
_MIRROR = ("what is owned makes it by itself, but here it lies as in a mirror, or its places lie different ways: turn "
           "it toward the other side, open it at the other end, or give each place as a feature of its own")
_STOPPED = "not asked: the search was stopped"


def plan_part(part: Part, requests: Mapping[str, Request], precedences: Sequence[tuple[str, str]],
              cutters: Sequence[Cutter], shop: Shop, done: Collection[str] = (), watch: Watch | None = None, *,
              were: Sequence[Cutter] = (), known: Known | None = None,
              for_feature: Mapping[str, Sequence[Cutter]] = MappingProxyType({})) -> PlannedPart:
    """The part planned whole: for each feature one of its ways, all operations in the order with the least of minutes
    and money at the shop's rates.

    `requests`: what is asked of each feature, by its name. `precedences`: names of features, the first before the
    second; behind the second a `!` for its last operation alone. `done`: the keys of operations that are done, in
    their order where they have one; they stay as they were and come first. `were`: cutters as they were then, where
    they aren't any more. `known`: what was worked out before, kept for the next time. `for_feature`: the cutters that
    some features may be made with, where these are others. Interrupted, it gives what it has. Raises `CribError` for
    sizes that can't be together and a material that isn't known.
    """
    watch, known = watch or Watch(), known or Known()
    guided = guided_in(part, {name: draw(request) for name, request in requests.items()}, precedences)

    def ready(name: str, choices: tuple[Choice, ...]) -> tuple[Choice, ...]:
        """The ways of a feature for which the part can lie, as they are where another has drilled its hole before."""
        lying = _for_which_it_lies(part, part.feature(name), choices)
        return unspotted(lying) if name in guided else lying

    may = {placed.name: for_feature.get(placed.name, cutters) for placed in part.features}
    before = done_before(part, requests, cutters, were, shop, done, known, watch, ready)
    every = _choices(part, requests, may, shop, before, known, watch)

    def others(name: str) -> tuple[Choice, ...]:
        """Every way of a feature, also with a worse verdict; of what is begun those that begin so."""
        if name in before.choices:
            return before.choices[name]
        return ready(name, known.choices(requests[name], may[name], shop, watch, all_of_them=True))

    choices = {**{name: ready(name, some) or (best_of(others(name)) if _is_any_over(some) else ())
                  for name, some in every.items()},
               **{name: best_of(some) for name, some in before.choices.items()}}
    asked = Asked(part, choices, precedences, shop, before.begun, before.begun_in, before.start, {})
    asked, solution, never = _proved(asked, before, cache(others), watch)
    unmade = tuple(_unmade(part, requests, may, shop, asked.choices, watch, never, every))
    planned = replace(_planned(asked, solution, before, unmade), lacking=tuple(lacking_of(unmade, requests, shop)))
    return replace(planned, proven=False, least_minutes=0.0) if watch.ran_out else planned


def _for_which_it_lies(part: Part, placed: Placed, choices: Sequence[Choice]) -> tuple[Choice, ...]:
    """The ways of a feature for which some way to lay the part has it as its plan has it; thousands share a few
    questions."""
    questions = {id(one.draft.question): one.draft.question for one in choices}
    lies = {number: not lies_as_in_a_mirror(part, placed, question) for number, question in questions.items()}
    return tuple(one for one in choices if lies[id(one.draft.question)])


def _is_any_over(choices: Sequence[Choice]) -> bool:
    """Whether any way is on its side: where that can't lie so, one that is upright may."""
    return any(is_over(one.draft.question) for one in choices)


def _choices(part: Part, requests: Mapping[str, Request], may: Mapping[str, Sequence[Cutter]], shop: Shop, before: Done,
             known: Known, watch: Watch) -> dict[str, tuple[Choice, ...]]:
    """The ways of each feature that isn't begun; none of those that weren't asked any more when it was stopped."""
    found: dict[str, tuple[Choice, ...]] = {}
    try:
        for placed in part.features:
            if placed.name in requests and placed.name not in before.choices:
                found[placed.name] = known.choices(requests[placed.name], may[placed.name], shop, watch)
    except KeyboardInterrupt:
        if not any(found.values()):
            raise
        watch.stopped = True
    return found


def _proved(asked: Asked, before: Done, others: Callable[[str], tuple[Choice, ...]], watch: Watch
            ) -> tuple[Asked, Solution | None, dict[str, Meets]]:
    """The best choice and order of which every operation is proved in what stands: what meets metal waits for what
    takes it away, and where nothing does, another way is taken, of the best rank that is left. With what stood in the
    way of those without any."""
    standing = Standing(asked.part, {name: drawn_of(some[0].draft.question)
                                     for name, some in asked.choices.items() if some})
    after = _after(asked)
    never: dict[str, Meets] = {}
    barred: dict[str, set[Sign]] = {}
    needs = dict(asked.needs)
    timers = Timer(), Timer()
    while True:
        solution = _solved(asked, watch, timers[0])
        turns = _turns(asked, solution, before)
        unproved = {(turn.feature, turn.choice.sign) for turn in turns if turn.choice.proved is None}
        meets = standing.meets(turns, after) if not unproved else []
        if not meets and not unproved:
            return asked, solution, never
        needs |= {(one.feature, one.sign, one.number): one.needs for one in meets if one.needs is not None}
        never |= {one.feature: one for one in meets if one.needs is None}
        for name, sign in unproved | {(one.feature, one.sign) for one in meets if one.needs is None}:
            barred.setdefault(name, set()).add(sign)
            is_over = timers[1].is_over(2 * SECONDS)
            watch.ran_out = watch.ran_out or is_over
            never_can = name in never and standing.is_hopeless(name, frozenset(asked.names) - after[name] - {name})
            left = () if is_over or never_can else best_of(
                choice for choice in others(name) if choice.sign not in barred[name])
            asked = replace(asked, choices={**asked.choices, name: left})
        asked = replace(asked, needs=needs)


def _after(asked: Asked) -> dict[str, frozenset[str]]:
    """The features that come after each, by the order that must hold."""
    found: dict[str, frozenset[str]] = {}
    for name in asked.names:
        known: set[str] = set()
        ahead = [name]
        while ahead:
            here = ahead.pop()
            more = {then.removesuffix(LAST) for first, then, *_ in asked.precedences if first == here} - known
            known |= more
            ahead += sorted(more)
        found[name] = frozenset(known)
    return found


def _turns(asked: Asked, solution: Solution | None, before: Done) -> list[Turn]:
    """All goes in their order, those that are done first."""
    if solution is None:
        return list(before.turns)
    names = asked.names
    chosen = {name: asked.ways[name][at] for name, at in zip(names, solution.chosen, strict=True)}
    done = [turn._replace(way=chosen.get(turn.feature, turn.way)) for turn in before.turns]
    return done + [Turn(names[step.feature], chosen[names[step.feature]],
                        step.place + asked.begun.get(names[step.feature], 0)) for step in solution.steps]


def _solved(asked: Asked, watch: Watch, timer: Timer) -> Solution | None:
    """The best choice and order in the time there is."""
    if not asked.names:
        return None
    return solved(asked.problem, lambda: watch.stopped or timer.is_over(SECONDS))


def _unmade(part: Part, requests: Mapping[str, Request], may: Mapping[str, Sequence[Cutter]], shop: Shop,
            choices: Mapping[str, Sequence[Choice]], watch: Watch, never: Mapping[str, Meets],
            by_itself: Mapping[str, Sequence[Choice]]) -> list[Unmade]:
    """The features without a way, each with the answer that says why."""
    found = []
    for placed in part.features:
        if placed.name in requests and not choices.get(placed.name):
            if watch.stopped:
                advice = Advice({"kind": placed.kind}, Verdict.CANNOT, says=_STOPPED, in_part=True)
            elif placed.name in never:
                meets = never[placed.name]
                why = _RUNS_ON if meets.is_beyond else _MEETS
                advice = Advice({"kind": placed.kind}, Verdict.CANNOT, says=why.format(what=meets.what))
            elif by_itself.get(placed.name) and not _for_which_it_lies(part, placed, by_itself[placed.name]):
                advice = Advice({"kind": placed.kind}, Verdict.CANNOT, says=_MIRROR)
            else:
                advice = advise(requests[placed.name], may[placed.name], shop, most_refused=_REFUSED).advice
            found.append(Unmade(placed.name, advice))
    return found


def _planned(asked: Asked, solution: Solution | None, before: Done, unmade: tuple[Unmade, ...]) -> PlannedPart:
    turns = _turns(asked, solution, before)
    laid = laid_out(asked, turns)
    used = {turn.feature: turn.choice for turn in turns}
    setups, holders, put_up = changes_of(laid)
    gap = (solution.cost - solution.least) / asked.per_minute if solution and not solution.is_proved else 0.0
    return PlannedPart(
        part=asked.part,
        setups=laid.setups,
        operations=laid.operations,
        setup_changes=setups,
        holder_changes=holders,
        cutter_changes=put_up,
        minutes=laid.minutes,
        money=laid.minutes / 60 * asked.shop.real_hour + sum(one.money for one in used.values()),
        currency=asked.shop.currency,
        least_minutes=max(0.0, laid.minutes - gap),
        proven=not gap,
        alone=alone([asked.choices[name] for name in asked.names], asked.shop),
        unmade=unmade,
    )
