"""What would help a part that can't be made whole as it is drawn: the one thing that changes most, and what could be
given in on the drawing. Each is imported where it is needed: a part that can be made needs none of it."""

from __future__ import annotations

from crib.app.part.made import State
from crib.findings.verdicts import Verdict
from crib.light.records import replace
from crib.parts.order import order_of
from crib.parts.part import Part
from crib.planning.parts.asked import asked_of
from crib.planning.parts.known import Known
from crib.planning.parts.planned import PlannedPart
from crib.planning.search.watch import Watch
from crib.shop import Shop
from crib.store import Holdings

_PATIENCE = 30.0
"""Seconds of the processor's time for each of both, far more than they take: what is tried is counted."""


def with_what_would_help(part: Part, planned: PlannedPart, there: Holdings, shop: Shop, state: State, known: Known
                         ) -> PlannedPart:
    """The same with what would help; where all is made as drawn, or nearly, there is nothing to tell."""
    answers = {one.proved.plan.answer for one in planned.operations}
    if not planned.unmade and Verdict.COMPROMISE not in answers:
        return planned
    from crib.app.remembered import bench_of
    from crib.buying.for_parts import AskedPart, one_thing
    from crib.planning.parts.lacking import given_in

    asked = asked_of(part, shop)
    order = [(one.first, one.then) for one in order_of(part, asked.drawn)]
    whole = AskedPart(part, asked.requests, order, state.keys)
    found = []
    try:
        if (most := one_thing(whole, planned, bench_of(there, shop), known, Watch(patience=_PATIENCE))) is not None:
            found.append(most)
        found += given_in(planned.unmade, asked.requests, there.cutters, shop, Watch(patience=_PATIENCE))
    except KeyboardInterrupt:
        pass
    return replace(planned, lacking=(*planned.lacking, *found))
