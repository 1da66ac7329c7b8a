"""Planning a whole part: for each feature its ways, then one of them for each and all their operations in one order."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from time import thread_time

from crib.cutters.base import Cutter
from crib.features.base import Request
from crib.findings.verdicts import Verdict
from crib.parts.part import Part
from crib.planning.advice import Advice
from crib.planning.advise import advise
from crib.planning.parts.abstract import Asked
from crib.planning.parts.assemble import Turn, alone, changes_of, laid_out
from crib.planning.parts.choices import Choice
from crib.planning.parts.choosing import solved
from crib.planning.parts.done import Done, done_before
from crib.planning.parts.known import Known
from crib.planning.parts.planned import PlannedPart, Unmade
from crib.planning.parts.problem import Solution
from crib.planning.watch import Watch
from crib.shop import Shop

SECONDS = 8.0
"""So long of the processor's time the best choice and order are looked for before the best found is told, with how far
from the best it may be."""

_REFUSED = 6
_STOPPED = "not asked: the search was stopped"


def plan_part(part: Part, requests: Mapping[str, Request], precedences: Sequence[tuple[str, str]],
              cutters: Sequence[Cutter], shop: Shop, done: Collection[str] = (), watch: Watch | None = None, *,
              were: Sequence[Cutter] = (), known: Known | None = None) -> PlannedPart:
    """The part planned whole: for each feature one of its ways, all operations in the order with the least of minutes
    and money at the shop's rates.

    `requests`: what is asked of each feature, by its name. `precedences`: names of features, the first before the
    second; behind the second a `!` for its last operation alone. `done`: the keys of operations that are done, in
    their order where they have one; they stay as they were and come first. `were`: cutters as they were then, where
    they aren't any more. `known`: what was worked out before, kept for the next time. Interrupted, it gives what it
    has. Raises `CribError` for sizes that can't be together and a material that isn't known.
    """
    watch, known = watch or Watch(), known or Known()
    before = done_before(part, requests, cutters, were, shop, done, known, watch)
    choices = {**_choices(part, requests, cutters, shop, before, known, watch), **before.choices}
    asked = Asked(part, choices, precedences, shop, before.begun, before.begun_in, before.start, {})
    solution = _solved(asked, watch)
    unmade = tuple(_unmade(part, requests, cutters, shop, choices, watch))
    return _planned(asked, solution, before, unmade)


def _choices(part: Part, requests: Mapping[str, Request], cutters: Sequence[Cutter], shop: Shop, before: Done,
             known: Known, watch: Watch) -> dict[str, tuple[Choice, ...]]:
    """The ways of each feature that isn't begun; none of those that weren't asked any more when it was stopped."""
    found: dict[str, tuple[Choice, ...]] = {}
    try:
        for placed in part.features:
            if placed.name in requests and placed.name not in before.choices:
                found[placed.name] = known.choices(requests[placed.name], cutters, shop, watch)
    except KeyboardInterrupt:
        if not any(found.values()):
            raise
        watch.stopped = True
    return found


def _solved(asked: Asked, watch: Watch) -> Solution | None:
    """The best choice and order in the time there is."""
    until = thread_time() + SECONDS
    if not asked.names:
        return None
    return solved(asked.problem, lambda: watch.stopped or thread_time() > until)


def _unmade(part: Part, requests: Mapping[str, Request], cutters: Sequence[Cutter], shop: Shop,
            choices: Mapping[str, Sequence[Choice]], watch: Watch) -> list[Unmade]:
    """The features without a way, each with the answer that says why."""
    found = []
    for placed in part.features:
        if placed.name in requests and not choices.get(placed.name):
            if watch.stopped:
                advice = Advice({"kind": placed.kind}, Verdict.CANNOT, says=_STOPPED, in_part=True)
            else:
                advice = advise(requests[placed.name], cutters, shop, most_refused=_REFUSED).advice
            found.append(Unmade(placed.name, advice))
    return found


def _planned(asked: Asked, solution: Solution | None, before: Done, unmade: tuple[Unmade, ...]) -> PlannedPart:
    names = asked.names
    turns = list(before.turns)
    if solution:
        chosen = {name: asked.ways[name][at] for name, at in zip(names, solution.chosen, strict=True)}
        turns = [turn._replace(way=chosen.get(turn.feature, turn.way)) for turn in turns]
        turns += [Turn(names[step.feature], chosen[names[step.feature]],
                       step.place + asked.begun.get(names[step.feature], 0)) for step in solution.steps]
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
        alone=alone([asked.choices[name] for name in names]),
        unmade=unmade,
    )
