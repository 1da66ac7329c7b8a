"""With many cutters those that a room calls for are looked at first: what is told is what the whole search tells."""

from __future__ import annotations

from typing import Any

from hypothesis import assume, event, given, settings
from hypothesis import strategies as st

from crib.cutters.base import Cutter
from crib.features.request import Request
from crib.findings.errors import CribError
from crib.machining.tool import Tool
from crib.planning import as_drawn
from crib.planning.advise import Answered, advise
from crib.planning.large_cribs import narrow
from crib.planning.large_cribs.floors import Floors, UpTo
from crib.shop import Shop
from tests.slant_strategies import SLANTED, slanted_cribs
from tests.strategies import REQUESTS, cribs, renumbered, right_for, shops

ASKED = st.one_of(
    REQUESTS.flatmap(lambda one: st.tuples(st.just(one), st.tuples(cribs(one, 3, whole=True), right_for(one, 9)))),
    SLANTED.flatmap(lambda one: st.tuples(st.just(one), st.tuples(slanted_cribs(one), slanted_cribs(one)))),
)


MOST = 60
"""So often it is searched again at the most, each time with those whose floor is half as high again."""


def told(request: Request, cutters: tuple[Cutter, ...], shop: Shop, many: int) -> Answered:
    """What is told with so many cutters or more taken for many. Where nothing was found with all that there are, it was
    searched again 1,700 times, until half as high again was endless, each time by way of all that was known before; and
    then so often looked through for those of which none was new."""
    searched, looked = [], []
    before, some, within = as_drawn.MANY, narrow._some, Floors.within

    def counted(*asked: Any) -> Any:
        searched.append(asked)
        return some(*asked)

    def counted_too(floors: Floors, limit: UpTo) -> list[Tool]:
        looked.append(limit)
        return within(floors, limit)

    as_drawn.MANY, narrow._some = many, counted
    Floors.within = counted_too  # type: ignore[method-assign]
    try:
        return advise(request, cutters, shop)
    except CribError:
        assume(False)
        raise
    finally:
        as_drawn.MANY, narrow._some = before, some
        Floors.within = within  # type: ignore[method-assign]
        assert len(searched) <= 2 * MOST
        assert len(looked) <= 8 * MOST


@settings(max_examples=60)
@given(ASKED, shops())
def test_those_that_are_called_for_first_change_nothing(asked: tuple[Request, tuple[tuple[Cutter, ...], ...]],
                                                        shop: Shop) -> None:
    request, (some, more) = asked
    cutters = tuple(renumbered([*some, *more]))
    first, whole = told(request, cutters, shop, 0), told(request, cutters, shop, 10_000)
    event(f"{whole.advice.answer}, {len(whole.advice.plans)} plans")
    assert first.advice == whole.advice
    assert [one.draft.jobs for one in first.proved] == [one.draft.jobs for one in whole.proved]
