"""A width that nobody can hold: that the search knows it beforehand changes no answer."""

from __future__ import annotations

from dataclasses import replace
from unittest.mock import patch

from hypothesis import Phase, event, given, settings
from hypothesis import strategies as st

from crib.diagnostics import CribError
from crib.planning import bounds
from crib.planning.advise import advise
from crib.planning.shop import Shop
from tests.strategies import around, brief, cribs, mm, right_for, slots, steps, t_slots


@settings(max_examples=25, phases=[Phase.explicit, Phase.generate])
@given(st.data())
def test_what_is_missed_by_all_is_missed_by_the_best(data: st.DataObject) -> None:
    """Plans, order, costs and refusals are those of the search without that bound."""
    request = data.draw(st.one_of(slots(), steps(), t_slots()))
    key = "throat" if "throat" in request.sizes else "width"
    band = data.draw(st.sampled_from([0.003, 0.01, 0.02, 0.03, 0.05]))
    fine = replace(request, sizes={**request.sizes, key: around(request.sizes[key].nominal, band, band)})
    fine = replace(fine, ends=data.draw(st.sampled_from(["open", "one"])), length=data.draw(mm(30, 60)))
    cutters = (*data.draw(right_for(fine, 9)), *data.draw(cribs(fine, 4)))
    shop = Shop(dro=data.draw(st.booleans()))
    try:
        found = advise(fine, cutters, shop).advice
    except CribError:
        event("sizes that can't be together")
        return
    event(f"{found.answer}, {fine.ends}")
    with patch.object(bounds, "always_missed", lambda *_: False):
        assert advise(fine, cutters, shop).advice == found, brief(fine, cutters)
