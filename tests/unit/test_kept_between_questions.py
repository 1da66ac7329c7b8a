"""What one question worked out is kept for the next, and changes no answer."""

from __future__ import annotations

from dataclasses import replace

from crib.buying.bench import Bench
from crib.cutters import KINDS as CUTTERS
from crib.features import KINDS as FEATURES
from crib.planning.advise import jobs_for
from crib.planning.ask import read_request
from crib.planning.search.set_ups import Readied, usable
from crib.shop import Shop


def test_tools_readied_for_another_question_are_the_same() -> None:
    """Kept by cutter, shop and metal: nothing of the question that they were readied for clings to them."""
    cutters, kept = [kind.example for kind in CUTTERS.values() if kind.example], Readied()
    for name, metal in (("slot", "brass"), ("t-slot", "brass"), ("slot", "304"), ("slot", "brass")):
        for hour in (10.0, 40.0):
            shop = Shop(hour_rate=hour)
            request = read_request(name, dict(FEATURES[name].example) | {"material": metal}, shop, "in")
            jobs = jobs_for(request, cutters, shop, kept)
            question = jobs[0].question
            assert list(jobs[0].tools) == usable(question, cutters)


def test_an_hour_that_is_worth_more_is_reckoned_as_from_nothing() -> None:
    """What a bench keeps of the metal it keeps for every worth of an hour; plans and money are those of a new bench."""
    cutters = tuple(kind.example.but(id=place) for place, kind in enumerate(CUTTERS.values(), 1) if kind.example)
    for name in ("slot", "t-slot", "step"):
        bench = Bench(cutters, Shop(hour_rate=12.0))
        request = read_request(name, dict(FEATURES[name].example), bench.shop, "in")
        for hour in (12.0, 60.0, 1.0):
            again = Bench(cutters, replace(bench.shop, hour_rate=hour))
            assert replace(bench, shop=again.shop).best(request) == again.best(request)
