"""The least that it takes to clear rooms with cutters that aren't up yet, whoever comes.

Nothing here may ever be more than what comes out in the end.
"""

from __future__ import annotations

from collections.abc import Sequence

from crib.findings.finding import Finding
from crib.geometry.outline import Room
from crib.light.records import dataclass, field
from crib.machining.tool import Tool
from crib.planning.bounds.in_one_room import InOneRoom, Share, Shares
from crib.planning.bounds.pareto import LowerBound, ParetoFront, combine, non_dominated
from crib.planning.bounds.who_comes import Comers
from crib.planning.reckoning.rule_effects import RuleEffects

Grouped = dict[frozenset[Finding], tuple[ParetoFront, ParetoFront]]
"""By what the rules say of many tools alike: their fronts without and with what they say of each by its name."""


@dataclass
class ToCome:
    """What some tools take in rooms, from what each takes in each alone, and from what is counted of whoever comes and
    what the rules say of it. `new`: tools of which a plan must have one at least; `beside`: the rooms that count as
    begun once somebody was in a room after them."""

    tools: Sequence[Tool]
    shares: Shares
    in_one_room: InOneRoom
    comers: Comers
    effects: RuleEffects
    new: frozenset[int]
    beside: frozenset[str]
    rests: dict[tuple[tuple[str, ...], frozenset[str], bool, frozenset[Finding], bool],
                ParetoFront] = field(default_factory=dict)
    grouped: dict[tuple[str, bool, bool, bool, bool, bool], Grouped] = field(default_factory=dict)
    known: dict[tuple[str, ...], list[Tool]] = field(default_factory=dict)

    def rest(self, rooms: Sequence[Room], begun: frozenset[str], may_share: bool, said: frozenset[Finding],
             by_one: bool = False) -> ParetoFront:
        """The least that it takes to clear these rooms with cutters that aren't up yet, where so much may have been
        said already; `by_one`: only one more may come, which must do all of them, and by itself those that nobody has
        begun."""
        place = (tuple(room.name for room in rooms), begun, may_share, said, by_one)
        if place not in self.rests:
            self.rests[place] = self._rest(rooms, begun, may_share, said, by_one)
        return self.rests[place]

    def _rest(self, rooms: Sequence[Room], begun: frozenset[str], may_share: bool, said: frozenset[Finding],
              by_one: bool) -> ParetoFront:
        if self.beside and len(rooms) > 1:
            rooms = [room for room in rooms if room.name not in self.beside]
        alone = [room for room in rooms if room.name not in begun]
        if by_one and rooms and not self.one_does(rooms, alone):
            return ()
        left, found = self.comers.most_left_by(rooms, said), list[LowerBound]()
        for with_another in (False, True) if may_share and alone and not by_one else (False,):
            up = self.comers.least_up(rooms) + (self.in_one_room.put_up if with_another else 0.0)
            least: ParetoFront = (LowerBound(money=up, left=left),)
            for room in rooms:
                speak = said if len(rooms) == 1 else None
                least = combine(least, self._cheapest(room, room.name in begun, may_share, speak, by_one=by_one,
                                                      with_another=with_another))
            found += least
        return non_dominated(found)

    def one_does(self, rooms: Sequence[Room], alone: Sequence[Room], among: frozenset[int] = frozenset()) -> bool:
        """Whether some tool does anything in all of these rooms, and some of them alone; `among`: one of these, if it
        names any."""
        every = (self.shares[room.name] for room in rooms)
        return any(all(self.shares[room.name][number].ends for room in alone)
                   for number in set.intersection(*map(set, every)) if not among or number in among)

    def rest_with_new(self, rooms: Sequence[Room], said: frozenset[Finding]) -> ParetoFront:
        """The same where one of the rooms falls to one of the new tools, and none is shared or begun."""
        found: list[LowerBound] = []
        for mine in rooms:
            least: ParetoFront = (LowerBound(money=self.comers.least_up(rooms)),)
            for room in rooms:
                speak = said if len(rooms) == 1 else None
                least = combine(least, self._cheapest(room, False, False, speak, is_new=room is mine))
            found += least
        return non_dominated(found)

    def _cheapest(self, room: Room, begun: bool, may_share: bool, said: frozenset[Finding] | None,
                  by_one: bool = False, is_new: bool = False, with_another: bool = False) -> ParetoFront:
        """The cheapest ways to do a room, with what the rules say of who does it beyond what was `said`; without it
        where one cutter may do several. `by_one`: with one more tool; `is_new`: with a new one; `with_another`: where
        one more than that may come, who is counted once for all rooms."""
        groups = self._by_what_is_said(room, begun, may_share, by_one, is_new, with_another)
        if said is None:
            return non_dominated(one for bare, _ in groups.values() for one in bare)
        return non_dominated(one.and_(LowerBound(left=self.effects.left_of(shared - said)))
                     for shared, (_, own) in groups.items() for one in own)

    def _by_what_is_said(self, room: Room, begun: bool, may_share: bool, by_one: bool, is_new: bool,
                         with_another: bool) -> Grouped:
        """The cheapest ways to do a room by what is said of many alike; with and without what is said of each tool by
        its name."""
        place = (room.name, begun, may_share, by_one, is_new, with_another)
        if place not in self.grouped:
            found: dict[frozenset[Finding], tuple[list[LowerBound], list[LowerBound]]] = {}
            for tool in self.able((room,)):
                if is_new and tool.id not in self.new:
                    continue
                own, shared = self.effects.of[tool.id]
                bare, named = found.setdefault(shared, ([], []))
                part = self.part(self.shares[room.name][tool.id], begun, may_share, by_one, room, with_another)
                bare += part
                named += [one.and_(LowerBound(left=own)) for one in part] if own < 1 else part
            self.grouped[place] = {shared: (non_dominated(bare), non_dominated(named)) for shared,
                                   (bare, named) in found.items()}
        return self.grouped[place]

    def part(self, share: Share, begun: bool, may_share: bool, by_one: bool, room: Room, with_another: bool
              ) -> ParetoFront:
        """What comes to a tool of a room that it doesn't do alone where it is begun; else alone, or with another, which
        it must be without where it is the one that may come, or alone but for what is gone with another room. Who that
        other is isn't counted: of several rooms it may be the same."""
        some = share.last if by_one else share.any_
        if begun:
            return (some._replace(shared=False),) if self.beside else (some,)
        if may_share and share.helped:
            return (*share.alone, some)
        return (*share.alone, share.any_) if with_another and may_share and not by_one else share.alone

    def able(self, rooms: Sequence[Room]) -> list[Tool]:
        """The tools that can do anything in some rooms."""
        names = tuple(room.name for room in rooms)
        if names not in self.known:
            ids = set().union(*(self.shares[name] for name in names))
            self.known[names] = [tool for tool in self.tools if tool.id in ids]
        return self.known[names]
