"""Who follows other mills in a room: a pocket of the sample bench whose middle is cleared by two bigger ones. Common
practice, no source, where nothing else is named."""

from __future__ import annotations

from functools import cache
from itertools import groupby

from crib.planning.advise import advise
from crib.planning.ask import read_request
from crib.planning.told.advice import Plan
from tests.unit.test_owned import sample

IN = 25.4
TYPED = {"width": "1.5", "length": "1", "depth": "3/4", "corner_radius": "3/32", "material": "tool steel annealed"}


@cache
def plan() -> Plan:
    bench = sample()
    return advise(read_request("pocket", TYPED, bench.shop, "in"), bench.cutters, bench.shop).advice.plans[0]


def test_the_last_mill_goes_in_rounds_along_what_is_left_at_the_walls() -> None:
    """It went through all of the pocket again, 63 passes deep into what was clear; now each of its passes is along a
    wall, from where the mill before it stopped, and it comes down where it is open."""
    *_, (before, earlier), (last, passes) = [
        (number, list(some)) for number, some in groupby(plan().passes, key=lambda one: one.cutter_id)]
    assert before != last and len(passes) <= 20
    radius = next(cutter.diameter_mm for cutter in plan().cutters if cutter.id == last) / 2
    stopped = min(one.z_mm for one in earlier)
    for one in passes:
        assert one.entry in ("free", "hole", "on") and one.z_mm < stopped
        assert abs(abs(one.x_mm) + radius - 0.75 * IN) <= 0.011 * IN, "at a wall, or as far off it as it finishes"


def test_a_width_that_two_mills_make_is_what_each_is_set_to() -> None:
    """The places of the thinner one were put together with the radius of the thicker one: 1.558 in, and so "may come
    out outside its limits by .058". 2 x .6565 + .1875 = 2 x .625 + .25 = 1.5 (arithmetic)."""
    assert not any("width" in str(one.says) for one in plan().deviations)
