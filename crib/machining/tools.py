"""The tools that thousands of cutters are, each made when somebody looks at it."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from functools import cached_property

from crib.cutters import kind_of
from crib.cutters.base import Cutter
from crib.handbook.materials import Material
from crib.light.hints import overload
from crib.machining.tool import Tool, at_worst, ready_later
from crib.shop import Shop

MANY = 300
"""From so many on none is made that nobody looks at."""


class Tools(Sequence[Tool]):
    """The tools that cutters are in one shop and metal: `owned` as recorded, `known` with what isn't at its worst.
    `among`: of which other tools they are some, and where they stand there."""

    def __init__(self, owned: Sequence[Cutter], known: Sequence[Cutter],
                 make: Callable[[Cutter, Cutter], Tool]) -> None:
        self.owned, self.known, self._make = owned, known, make
        self.among: tuple[Tools, Sequence[int]] | None = None
        self._made: dict[int, Tool] = {}

    def __len__(self) -> int:
        return len(self.owned)

    @overload
    def __getitem__(self, place: int) -> Tool: ...

    @overload
    def __getitem__(self, place: slice) -> list[Tool]: ...

    def __getitem__(self, place: int | slice) -> Tool | list[Tool]:
        if isinstance(place, slice):
            return [self[at] for at in range(*place.indices(len(self)))]
        made = self._made.get(place)
        if made is None:
            if not -len(self) <= place < len(self):
                raise IndexError(place)
            place %= len(self)
            made = self._made[place] = self._at(place)
        return made

    def _at(self, place: int) -> Tool:
        if self.among:
            every, places = self.among
            return every[places[place]]
        return self._made.get(place) or self._make(self.owned[place], self.known[place])

    @cached_property
    def places(self) -> dict[int, int]:
        """Where they stand by their numbers."""
        return {cutter.id: place for place, cutter in enumerate(self.owned)}

    def of(self, places: Sequence[int]) -> Tools:
        """Those that stand at some places, the same ones."""
        some = Tools([self.owned[place] for place in places], [self.known[place] for place in places], self._make)
        some.among = self, places
        return some

    def numbered(self, number: int) -> Tool | None:
        """The one of a number."""
        place = self.places.get(number)
        return None if place is None else self[place]


def all_ready(cutters: Iterable[Cutter], shop: Shop, material: Material) -> Sequence[Tool]:
    """The tools that cutters are in this shop and metal as they are on record, moving along: what `ready` makes of each
    of them at its worst."""
    kind, last = None, None
    all_owned, all_known = list[Cutter](), list[Cutter]()
    for cutter in cutters:
        if kind is None or cutter.kind != last:
            kind, last = kind_of(cutter), cutter.kind
        if kind.form is None:
            continue
        known = at_worst(cutter) if kind.unknowns(cutter) else cutter
        if known is None:
            continue
        across = known.diameter_mm if known.diameter_mm is not None else kind.fill(known).diameter_mm
        if across is not None and across > 0:
            all_owned.append(cutter)
            all_known.append(known)
    tools = Tools(all_owned, all_known, ready_later(shop, material))
    return tools if len(tools) >= MANY else list(tools)


def sieved(tools: Sequence[Tool], is_kind: Callable[[str], bool]) -> Sequence[Tool]:
    """Those of some tools whose cutter as recorded is of such a kind: of thousands no other is made."""
    owned = owned_of(tools)
    kinds = frozenset(filter(is_kind, {cutter.kind for cutter in owned}))
    return some_of(tools, [place for place, cutter in enumerate(owned) if cutter.kind in kinds])


def some_of(tools: Sequence[Tool], places: Sequence[int]) -> Sequence[Tool]:
    """Those that stand at some places, the same ones."""
    return tools.of(places) if isinstance(tools, Tools) else [tools[place] for place in places]


def places_of(tools: Sequence[Tool]) -> dict[int, int]:
    """Where tools stand by their numbers."""
    return tools.places if isinstance(tools, Tools) else {tool.id: place for place, tool in enumerate(tools)}


def owned_of(tools: Sequence[Tool]) -> Sequence[Cutter]:
    """The cutters that tools are, as recorded."""
    return tools.owned if isinstance(tools, Tools) else [tool.owned for tool in tools]


def known_of(tools: Sequence[Tool]) -> Sequence[Cutter]:
    """The cutters that tools are, as they are reckoned with."""
    return tools.known if isinstance(tools, Tools) else [tool.known for tool in tools]
