"""What of a part can be made as it lies is made in one set-up, turned end for end or not: whoever stands there takes
nothing out to put it back another way round. Common practice, no source; that it can be is geometry."""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st

from crib.parts.part import Face, Part, Place, Placed, Runs, Stock
from crib.planning.parts.asked import asked_of
from crib.planning.parts.known import Known
from crib.planning.parts.plan import plan_part
from crib.shop import Shop
from tests.sheets import OWNED

IN = 25.4
SHOP, KNOWN, STOCK = Shop(), Known(), Stock(4 * IN, 2 * IN, IN)

SLOT = {"width": ".500+.005-0", "depth": "1/4", "length": "1-1/2", "ends": "one"}
OTHERS = {
    "groove": ("slot", {"width": ".500+.005-0", "depth": "1/8"}, Place(Face.TOP, 0, 0.4 * IN, Runs.ALONG)),
    "edge": ("chamfer", {"size": "1/16"}, Place(Face.TOP, 0, 0, Runs.ALONG)),
    "ledge": ("step", {"width": "1/4", "depth": "1/8"}, Place(Face.TOP, 0, 1.75 * IN, Runs.ALONG)),
    "hole": ("hole", {"diameter": ".252", "depth": "1/2"}, Place(Face.TOP, IN, 1.6 * IN)),
}


@settings(max_examples=20)
@given(st.booleans(), st.sets(st.sampled_from(sorted(OTHERS)), min_size=1))
def test_what_is_open_at_both_ends_goes_with_what_isnt(far: bool, others: set[str]) -> None:
    """A slot closed at its left was cut with the part turned end for end, and an edge of the same face in one set-up
    more, `proven the least`."""
    slot = Placed("slot", "slot", SLOT, Place(Face.TOP, 2.5 * IN if far else 0.0, 1.1 * IN, Runs.ALONG))
    part = Part("block", STOCK, "1018", (slot, *(Placed(name, *OTHERS[name]) for name in sorted(others))))
    planned = plan_part(part, asked_of(part, SHOP).requests, (), OWNED, SHOP, known=KNOWN)
    assert not planned.unmade
    assert len(planned.setups) == 1, [one.setup for one in planned.setups]
