"""What was worked out of features before, kept for the next time a part is planned."""

from __future__ import annotations

from collections.abc import Sequence

from crib.cutters.base import Cutter
from crib.features.request import Request
from crib.light.tuples import NamedTuple
from crib.planning.advise import jobs_for
from crib.planning.parts.choices import Choice, Found, choices_of
from crib.planning.search.set_ups import Readied
from crib.planning.search.watch import Watch
from crib.safety.refer import refer
from crib.shop import Shop

_PATIENCE = 3.0
"""Seconds of the processor's time for the ways of one feature."""


class Known:
    """The ways of features by what was asked, of which cutters; tools that were made ready."""

    def __init__(self) -> None:
        self.readied = Readied()
        self.kept: list[_Kept] = []

    def choices(self, request: Request, cutters: Sequence[Cutter], shop: Shop, watch: Watch,
                all_of_them: bool = False) -> tuple[Choice, ...]:
        """The ways to make a feature, worked out unless they are known; none for what is referred."""
        if refer(request.use, request.mating):
            return ()
        owned = tuple(cutters)
        for kept in self.kept:
            if (kept.asked, kept.shop, kept.all_of_them) == (request, shop, all_of_them) and kept.tells_of(owned):
                return kept.found.choices
        mine = Watch(watch.tried, watch.found, patience=min(_PATIENCE, watch.patience))
        found = choices_of(jobs_for(request, cutters, shop, self.readied), shop, mine, all_of_them)
        watch.tried, watch.found = mine.tried, mine.found
        watch.ran_out = watch.ran_out or mine.ran_out
        self.kept.append(_Kept(request, owned, shop, all_of_them, found))
        return found.choices


class _Kept(NamedTuple):
    asked: Request
    of: tuple[Cutter, ...]
    shop: Shop
    all_of_them: bool
    found: Found

    def tells_of(self, owned: tuple[Cutter, ...]) -> bool:
        """Whether they are the same with other cutters: none is new, and none that is gone could do any of it."""
        if self.of == owned:
            return True
        now, then = {one.id: one for one in owned}, {one.id: one for one in self.of}
        if any(then.get(number) != one for number, one in now.items()):
            return False
        return not self.found.used & (then.keys() - now.keys())
