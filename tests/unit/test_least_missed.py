"""What a purchase is weighed against is the plan that an answer tells first, also where none keeps to the drawing."""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st

from crib.buying.bench import Bench
from crib.buying.decide import Terms
from crib.buying.worth import reckon
from crib.cutters.base import Cutter
from crib.planning.advise import advise
from crib.planning.ask import read_request
from crib.shop import Shop

SHOP = Shop(spindle_rpm=(80, 135, 210, 325, 660, 1115), collets_mm=(9.525, 12.7, 16.0), chuck_mm=12.7)
MILL = Cutter(1, "end-mill", label="mill", diameter_mm=12.7, flutes=2, shank_mm=12.7, length_of_cut_mm=30.0,
              overall_length_mm=80.0, material="hss", condition="sharp", centre_cutting=True)


@settings(max_examples=30)
@given(st.sampled_from(["1/2+.0007-0", "1/2+.0004-0", "1/2+.002-.001", "1/2±.0003"]),
       st.sampled_from(["open", "closed"]),
       st.sets(st.sampled_from([0.498, 0.4995, 0.5, 0.46, 0.4, 0.375]), min_size=1))
def test_what_is_owned_is_what_the_answer_tells_first(width: str, ends: str, mills: set[float]) -> None:
    """`worth` took the cheapest of the plans that want a yes: a new mill that missed the slot by .0013 was worth 6.93,
    against one owned that misses it by .0003. Common practice, no source."""
    tools = tuple(MILL.but(id=place, label=f"{across:g} mill", diameter_mm=across * 25.4)
                  for place, across in enumerate(sorted(mills), 1))
    request = read_request("slot", {"width": width, "depth": "1/4", "length": "4", "ends": ends}, SHOP, "in")
    first = next(iter(advise(request, tools, SHOP).advice.plans), None)
    bench = Bench(tools, SHOP)
    answer = reckon(request, bench, Terms(uses=1, said=True))
    assert (answer.work and (answer.work.answer, answer.work.cost)) == (first and (first.answer, first.cost))
    for worth in answer.worths:
        new = [cutter for cutter in worth.plan.cutters if int(cutter.id) not in {one.id for one in tools}]
        assert new or not worth.offer.cutters
