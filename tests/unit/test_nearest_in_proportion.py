"""Of cutters that can't those are told first that come nearest by their share of what they miss, each for another
reason. Common practice, no source."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from crib.cutters.base import Cutter
from crib.features import KINDS
from crib.pages.answer import page
from crib.planning.advise import advise
from crib.planning.ask import read_request
from crib.planning.told.advice import Refusal, refused
from crib.planning.told.nearness import nearest, share
from crib.render.json.answer import advice_json
from crib.shop import from_json
from tests.sheets import OWNED, SHOP
from tests.shown import shown

MILL = Cutter(1, "end-mill", label="a mill")


@given(st.lists(st.tuples(st.floats(0.1, 50), st.floats(0.1, 50), st.booleans(), st.booleans()), max_size=8))
def test_the_least_missed_by_its_share_is_first(some: list[tuple[float, float, bool, bool]]) -> None:
    """A 1/8 mill .063 off stood before a dovetail cutter whose neck was .078 too thick of .297."""
    told = [refused(MILL, "SZ3", "", has, needs, "a change would do" if cures else None)
            for has, needs, cures, _ in some]
    told = [Refusal(**{**vars_of(one), "helps": helps}) for one, (*_, helps) in zip(told, some, strict=True)]
    order = [(not one.helps, not one.is_hopeful, abs((one.has_mm or 0) - (one.needs_mm or 1)) / (one.needs_mm or 1))
             for one in nearest(told)]
    assert order == sorted(order)


def vars_of(one: Refusal) -> dict[str, object]:
    return {name: getattr(one, name) for name in one.__dataclass_fields__}  # type: ignore[attr-defined]


@pytest.mark.parametrize("kind", KINDS)
def test_a_screen_tells_as_many_reasons_as_there_are(kind: str) -> None:
    """Of six lines four said that a mill was too wide for a slot. Nothing owned here makes any of them."""
    shop = from_json(SHOP)
    few = [one for one in OWNED if one.kind in ("slitting-saw", "tap", "corner-rounder", "counterbore", "angle-cutter")]
    advice = advise(read_request(kind, dict(KINDS[kind].example), shop, "in"), few, shop).advice
    if advice.plans or advice.answer != "cannot":
        return
    told = [row for row in shown(page(advice, more=())) if row.startswith("  - no. ")]
    reasons = {one.id for one in advice.refused}
    assert len(told) >= min(len(reasons), 3), (kind, reasons, told)
    assert all(share(one) >= 0 for one in advice.refused)


@pytest.mark.parametrize("kind", KINDS)
def test_programs_are_told_in_the_order_of_the_screen(kind: str) -> None:
    """With --json they stood by the bare figure that they miss, on the screen by its share."""
    shop = from_json(SHOP)
    advice = advise(read_request(kind, dict(KINDS[kind].example), shop, "in"), OWNED[:40], shop, most_refused=12).advice
    told = [one["cutter_id"] for one in advice_json(advice, "in")["refused"]]
    assert told == [one.cutter_id for one in nearest(advice.refused)]
