"""What is done already of a part: it stays as it was and comes first; the rest is planned in what stands."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence

from crib.cutters.base import Cutter
from crib.features.base import Request
from crib.parts.part import Part, Placed
from crib.planning.parts.abstract import CutterUp
from crib.planning.parts.assemble import Turn, key_of
from crib.planning.parts.choices import Choice
from crib.planning.parts.known import Known
from crib.planning.parts.lies import lie_of
from crib.planning.parts.problem import Up
from crib.planning.watch import Watch
from crib.records import dataclass, field
from crib.shop import Shop


@dataclass(frozen=True)
class Done:
    """The goes that are done, in order; of each feature that is begun how many of them, and the ways that begin with
    these. `lost`: keys of which nothing could be made again."""

    turns: tuple[Turn, ...] = ()
    begun: Mapping[str, int] = field(default_factory=dict)
    choices: Mapping[str, tuple[Choice, ...]] = field(default_factory=dict)
    lost: tuple[str, ...] = ()

    def start(self, part: Part, shop: Shop, choices: Mapping[str, Sequence[Choice]]) -> Up:
        """What is still up."""
        if not self.turns:
            return Up()
        last = self.turns[-1]
        tool = last.go.tool
        return Up(lie_of(part.feature(last.feature), last.choice.draft.question), CutterUp(tool.id, tool.held.label))


def done_before(part: Part, requests: Mapping[str, Request], cutters: Sequence[Cutter], were: Sequence[Cutter],
                shop: Shop, done: Collection[str], known: Known, watch: Watch) -> Done:
    """What was done, made again from its keys with the cutters as they were then."""
    if not done:
        return Done()
    then = {**{one.id: one for one in cutters}, **{one.id: one for one in were}}
    now = {one.id: one for one in cutters}
    begun: dict[str, int] = {}
    choices: dict[str, tuple[Choice, ...]] = {}
    turns: dict[str, Turn] = {}
    for placed in part.features:
        if placed.name not in requests or not any(key.startswith(f"{placed.name} | ") for key in done):
            continue
        every = known.choices(requests[placed.name], tuple(then.values()), shop, watch, all_of_them=True)
        number, fitting = _fitting(placed, every, frozenset(done))
        if not number:
            continue
        able = tuple(one for one in fitting
                     if all(now.get(go.tool.id) == then.get(go.tool.id) for go in one.goes[number:]))
        begun[placed.name], choices[placed.name] = number, able
        turns |= dict(_turns(placed, fitting[0], number))
    order = sorted(turns, key=list(done).index) if not isinstance(done, (set, frozenset)) else list(turns)
    return Done(tuple(turns[key] for key in order), begun, choices, tuple(key for key in done if key not in turns))


def _fitting(placed: Placed, every: Sequence[Choice], done: frozenset[str]) -> tuple[int, tuple[Choice, ...]]:
    """How many goes of a feature are done, and the ways that begin with them."""
    counts = [(_done_of(placed, one, done), one) for one in every]
    most = max((count for count, _ in counts), default=0)
    return most, tuple(one for count, one in counts if count == most)


def _done_of(placed: Placed, choice: Choice, done: frozenset[str]) -> int:
    """How many of the first goes of a way are done."""
    lie, count = lie_of(placed, choice.draft.question), 0
    for number, go in enumerate(choice.goes):
        if key_of(placed.name, lie, go, number) not in done:
            break
        count += 1
    return count


def _turns(placed: Placed, choice: Choice, number: int) -> Iterator[tuple[str, Turn]]:
    lie = lie_of(placed, choice.draft.question)
    for at in range(number):
        yield key_of(placed.name, lie, choice.goes[at], at), Turn(placed.name, choice, at, True)
