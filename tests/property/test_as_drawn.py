"""With many cutters those that a room calls for are looked at first: what is told is what the whole search tells."""

from __future__ import annotations

from hypothesis import assume, event, given, settings
from hypothesis import strategies as st

from crib.cutters.base import Cutter
from crib.features.base import Request
from crib.findings.errors import CribError
from crib.planning import as_drawn
from crib.planning.advise import Answered, advise
from crib.shop import Shop
from tests.slant_strategies import SLANTED, slanted_cribs
from tests.strategies import REQUESTS, cribs, renumbered, right_for, shops

ASKED = st.one_of(
    REQUESTS.flatmap(lambda one: st.tuples(st.just(one), st.tuples(cribs(one, 3, whole=True), right_for(one, 9)))),
    SLANTED.flatmap(lambda one: st.tuples(st.just(one), st.tuples(slanted_cribs(one), slanted_cribs(one)))),
)


def told(request: Request, cutters: tuple[Cutter, ...], shop: Shop, many: int) -> Answered:
    before, as_drawn.MANY = as_drawn.MANY, many
    try:
        return advise(request, cutters, shop)
    except CribError:
        assume(False)
        raise
    finally:
        as_drawn.MANY = before


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
