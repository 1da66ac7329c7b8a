"""What is done already of a part: it stays as it was and comes first; the rest is planned in what stands."""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping, Sequence

from crib.cutters.base import Cutter
from crib.features.request import Request
from crib.light.records import dataclass, field
from crib.parts.part import Part, Placed
from crib.planning.parts.abstract import Way
from crib.planning.parts.assemble import Turn, key_of
from crib.planning.parts.choices import Choice
from crib.planning.parts.known import Known
from crib.planning.parts.lies import Lie, lies_for
from crib.planning.parts.problem import Up
from crib.planning.search.watch import Watch
from crib.shop import Shop


@dataclass(frozen=True)
class Done:
    """The goes that are done, in order; of each feature that is begun how many of them, and the ways that begin with
    these. `lost`: keys of which nothing could be made again."""

    turns: tuple[Turn, ...] = ()
    begun: Mapping[str, int] = field(default_factory=dict)
    choices: Mapping[str, tuple[Choice, ...]] = field(default_factory=dict)
    lost: tuple[str, ...] = ()

    @property
    def start(self) -> Up:
        """What is still up."""
        return self.turns[-1].up if self.turns else Up()

    @property
    def begun_in(self) -> dict[str, Lie]:
        """How the part lies for each feature that is begun."""
        return {turn.feature: turn.way.lie for turn in self.turns}


def done_before(part: Part, requests: Mapping[str, Request], cutters: Sequence[Cutter], were: Sequence[Cutter],
                shop: Shop, done: Collection[str], known: Known, watch: Watch,
                ready: Callable[[str, tuple[Choice, ...]], tuple[Choice, ...]]) -> Done:
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
        every = ready(placed.name, known.choices(requests[placed.name], tuple(then.values()), shop, watch,
                                                 all_of_them=True))
        number, lie, fitting = _fitting(part, placed, every, frozenset(done))
        if not number:
            continue
        able = tuple(one for one in fitting
                     if all(now.get(int(go.tool.id)) == then.get(int(go.tool.id)) for go in one.goes[number:]))
        begun[placed.name], choices[placed.name] = number, able
        some = [Turn(placed.name, Way(fitting[0], lie), at, True) for at in range(number)]
        turns |= {turn.key: turn for turn in some}
    order = sorted(turns, key=list(done).index) if not isinstance(done, (set, frozenset)) else list(turns)
    return Done(tuple(turns[key] for key in order), begun, choices, tuple(key for key in done if key not in turns))


def _fitting(part: Part, placed: Placed, every: Sequence[Choice], done: frozenset[str]
             ) -> tuple[int, Lie, tuple[Choice, ...]]:
    """How many goes of a feature are done, how the part lay for them, and the ways that begin with them."""
    counts = [(_done_of(placed, one, lie, done), lie, one) for one in every
              for lie in lies_for(part, placed, one.draft)]
    most, where, _ = max(counts, key=lambda count: count[0], default=(0, Lie(placed.place.face), None))
    return most, where, tuple(one for count, lie, one in counts if count == most and lie == where and one.proved)


def _done_of(placed: Placed, choice: Choice, lie: Lie, done: frozenset[str]) -> int:
    """How many of the first goes of a way are done."""
    count = 0
    for number, go in enumerate(choice.goes):
        if key_of(placed.name, lie, go, number) not in done:
            break
        count += 1
    return count
