"""One closed end: what can be made with both ends open can be made with one, and the view from above bears it out."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import Phase, event, given, settings
from hypothesis import strategies as st

from crib.findings.errors import CribError
from crib.planning.advise import advise
from crib.shop import Shop
from crib.units import show
from tests.slant_strategies import dovetails, right_for_slants, slanted_cribs
from tests.spelt import spelt
from tests.strategies import brief, cribs, mm, right_for, slots, t_slots


@settings(max_examples=60, phases=[Phase.explicit, Phase.generate])
@given(st.data())
def test_the_closed_end_takes_nothing_away(data: st.DataObject) -> None:
    """Every pass stops where its cutter's round end is at the length; a disc stops no later than the cutter that made
    the opening, so its neck has at that end what it has beside it (geometry). So no plan is lost, and no gap grows."""
    request = data.draw(st.one_of(slots(), t_slots(), dovetails()))
    if request.kind == "dovetail":
        cutters = (*data.draw(right_for_slants(request)), *data.draw(slanted_cribs(request, 3, whole=True)))
    else:
        cutters = (*data.draw(right_for(request, 9)), *data.draw(cribs(request, 3, whole=True)))
    one = replace(request, ends="one", length=data.draw(mm(30, 60)))
    try:
        open_, closed = (advise(each, cutters, Shop()).advice for each in (replace(one, ends="open"), one))
    except CribError:
        event("sizes that can't be together")
        return
    event(f"{request.kind}: {closed.answer}")
    assert bool(open_.plans) == bool(closed.plans), brief(request, cutters)
    for plan in closed.plans:
        for each in plan.passes:
            owned = next(cutter for cutter in plan.cutters if cutter.id == each.cutter_id)
            assert each.stop_mm is not None and one.length is not None
            assert each.stop_mm <= one.length - (owned.diameter_mm or 0.0) / 2 + 1e-6
        if request.kind == "dovetail":
            [told] = [spelt(found.says) for found in plan.warnings if found.id == "EN5"]
            flanks = [each for each in plan.passes if each.room == "flanks"]
            assert show(flanks[-1].stop_mm or 0.0, "in") in told, "how far they run full"
