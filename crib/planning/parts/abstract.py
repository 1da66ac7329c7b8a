"""From the choices of a part's features to the problem in the abstract, in the money of the shop."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from functools import cached_property
from itertools import pairwise

from crib.findings.message import Text
from crib.light.records import dataclass
from crib.light.tuples import NamedTuple
from crib.machining.chain import ON_A_TABLE
from crib.parts.part import Part
from crib.planning.parts.choices import Choice, Go, Sign
from crib.planning.parts.lies import Lie, lies_for
from crib.planning.parts.problem import Before, Option, Problem, Rates, Up
from crib.shop import Shop

_LEAST_RATE = 0.06
"""What an hour counts at the least where the owner says that it is worth nothing: then money alone decides, and the
minutes between equals."""

LAST = "!"
"""Behind the name of a feature in the order that must hold: its last operation alone."""

Needs = Mapping[tuple[str, Sign, int], frozenset[str]]
"""By feature, sign of the choice and number of the go: the features that must be done before it."""


class CutterUp(NamedTuple):
    """A cutter in its holder."""

    number: int
    holder: Text


class Way(NamedTuple):
    """A choice with the part lying in some way."""

    choice: Choice
    lie: Lie

    def up(self, go: Go) -> Up:
        """What a go needs to be up."""
        return Up(self.lie, CutterUp(go.tool.id, go.tool.held.label))


@dataclass(frozen=True)
class Asked:
    """A part's features that can be made, each with its choices, how the part lies for each of these, and the shop.
    `begun`: how many goes of each feature are done already; its choices all begin with these, and the part lies for
    it as `begun_in` says."""

    part: Part
    choices: Mapping[str, tuple[Choice, ...]]
    precedences: Sequence[tuple[str, str]]
    shop: Shop
    begun: Mapping[str, int]
    begun_in: Mapping[str, Lie]
    start: Up
    needs: Needs

    @property
    def names(self) -> tuple[str, ...]:
        """The features that can be made, in the order of the part."""
        return tuple(one.name for one in self.part.features if self.choices.get(one.name))

    def lies(self, name: str, choice: Choice) -> tuple[Lie, ...]:
        """How the part may lie for a choice; one way for what is begun."""
        if name in self.begun_in:
            return (self.begun_in[name],)
        return lies_for(self.part, self.part.feature(name), choice.draft)

    @property
    def per_minute(self) -> float:
        """What a minute counts in the choice, in money."""
        return max(self.shop.real_hour, _LEAST_RATE) / 60

    @cached_property
    def ways(self) -> Mapping[str, tuple[Way, ...]]:
        """Of each feature every choice in every way in which the part may lie for it."""
        return {name: tuple(Way(choice, lie) for choice in self.choices[name] for lie in self.lies(name, choice)
                            if self._is_used(lie) or lie == self.lies(name, choice)[0]) for name in self.names}

    def _is_used(self, lie: Lie) -> bool:
        """Whether something must be made with the part lying so."""
        return lie in self._must

    @cached_property
    def _must(self) -> frozenset[Lie]:
        every = (self.lies(name, choice) for name in self.names for choice in self.choices[name])
        return frozenset(lies[0] for lies in every if len({lie.runs for lie in lies}) == 1)

    @property
    def problem(self) -> Problem:
        """All of it in the abstract."""
        names = self.names
        return Problem(
            tuple(tuple(self._option(name, way) for way in self.ways[name]) for name in names),
            tuple(self._before(names)), self.rates, self.start,
        )

    def _option(self, name: str, way: Way) -> Option:
        begun, names = self.begun.get(name, 0), self.names
        goes = way.choice.goes[begun:]
        needs = tuple(frozenset(names.index(one) for one in self.needs.get((name, way.choice.sign, begun + at), ())
                                if one in names) for at in range(len(goes)))
        cost = way.choice.minutes * self.per_minute + way.choice.money
        return Option(tuple(way.up(go) for go in goes), cost, needs if any(needs) else ())

    def _before(self, names: tuple[str, ...]) -> Iterator[Before]:
        for first, then, *_ in self.precedences:
            last = then.endswith(LAST) and then not in names
            then = then.removesuffix(LAST) if last else then
            if first in names and then in names:
                yield Before(names.index(first), names.index(then), last)

    @property
    def rates(self) -> Rates:
        """What changes cost in this shop."""
        shop, minute = self.shop, self.per_minute * self.shop.pace
        ups = [(way.up(go), go) for name in self.names for way in self.ways[name] for go in way.choice.goes]
        return Rates(
            {up.setup: setup_minutes(shop, up.setup) * minute for up, _ in ups},
            {up.cutter: touch_minutes(go) * minute for up, go in ups},
            shop.cutter_minutes * minute,
            shop.collet_minutes * minute,
            {up.cutter: up.cutter.holder for up, _ in ups},
        )


def setup_minutes(shop: Shop, lie: Lie) -> float:
    """Minutes of a set-up at the pace that is reckoned with, the head's or the work's tilt included, and what it is put
    on."""
    put_up = shop.index_setup_minutes if lie.stands == ON_A_TABLE else 0.0
    return shop.setup_minutes + lie.tilts * shop.tilt_minutes + put_up


def touch_minutes(go: Go) -> float:
    """Minutes to touch a cutter off; what a hand turns isn't."""
    return 0.0 if go.tool.by_hand else go.tool.touch_minutes


def changed_holders(choice: Choice) -> int:
    """How often the holder is changed within one way to make a feature."""
    return sum(a != b for a, b in pairwise(choice.holders))
