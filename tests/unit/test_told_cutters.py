"""Once a plan is told nothing is gone on with that lacks what only its last cutter makes: that hides no plan."""

from __future__ import annotations

import pytest

from crib.features import KINDS
from crib.planning.advise import advise
from crib.planning.ask import read_request
from crib.planning.search.shortlist import Shortlist
from crib.planning.search.watch import Watch
from tests.benchmarks.questions import sample

FEWER = ("dovetail-slide", "t-slot")
"""Kinds of which the sample has one cutter, or a few, for one of the rooms."""


@pytest.mark.parametrize("kind", [*FEWER, "slot", "inside-fillet", "keyseat", "round-groove"])
def test_no_plan_is_hidden(kind: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """The plans are those of a search that goes on with all, and found with fewer drafts where a room has one cutter:
    a slide was searched through for mills in pairs, long after its one dovetail cutter was told."""
    cutters, shop = sample()
    request, watches = read_request(kind, dict(KINDS[kind].example), shop, "in"), (Watch(), Watch())
    told = advise(request, cutters, shop, most_refused=0, watch=watches[0]).advice.plans
    monkeypatch.setattr(Shortlist, "leaves_undone", lambda told, draft, bounds: False)
    assert told == advise(request, cutters, shop, most_refused=0, watch=watches[1]).advice.plans
    assert watches[0].tried <= watches[1].tried
    assert watches[0].tried < watches[1].tried / 2 or kind != FEWER[0]
