"""The plan that is told first where none keeps to the drawing: the search finds the one that costs least."""

from __future__ import annotations

from collections.abc import Sequence

from crib.cutters.base import Cutter
from crib.findings.verdicts import Verdict
from crib.light.records import replace
from crib.planning.best_plans import Best, proved_plans
from crib.planning.rivals import MOST_PLANS, least_missed_first
from crib.planning.search.set_ups import Asked
from crib.planning.search.watch import Watch


def least_missed(every: Asked, found: Best | None, watch: Watch, new: Sequence[Cutter] = ()) -> Best | None:
    """The best plan as an answer has it: of those told the one that misses the least. `new`: cutters of which one is in
    it, else it is left as it was found, for it isn't asked about."""
    if found is None or found.gist is None or found.gist.answer != Verdict.COMPROMISE:
        return found
    if new and not {int(cutter.id) for cutter in found.gist.cutters} & {int(cutter.id) for cutter in new}:
        return found
    first = next(iter(least_missed_first(proved_plans(every, MOST_PLANS, watch))), None)
    if first is None or watch.ran_out:
        return found
    return replace(found, weighed=first.weighed, holds=False, other=first, is_sure=True)
