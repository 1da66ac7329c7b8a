"""Where hours are at stake and a disc in the whole width makes scrap likelier, what is told is what the whole search
tells, and of no plan is it told that more is warned of than is."""

from __future__ import annotations

from collections import Counter
from typing import Any

from hypothesis import Phase, assume, given, note, settings
from hypothesis import strategies as st
from pytest import MonkeyPatch

from crib.cutters.base import Cutter
from crib.features.request import Request
from crib.findings.errors import CribError
from crib.planning import as_drawn
from crib.planning.advise import Answered, advise, jobs_for
from crib.planning.large_cribs import narrow
from crib.planning.large_cribs.at_stake import BOTH_WALLS, AtStake
from crib.planning.large_cribs.floors import Floors
from crib.planning.large_cribs.narrow import _Few
from crib.sample import shop_settings
from crib.shop import from_json
from tests.strategies import any_of, around, brief, renumbered

PRICES = any_of(None, 10.0, 30.0)
OF_ALL: dict[str, Any] = {"material": "hss", "condition": "sharp", "measured": ("diameter_mm",)}
SHOP = from_json(shop_settings())


@st.composite
def t_slots(draw: st.DrawFn) -> tuple[Request, tuple[Cutter, ...]]:
    """A T-slot in a part that took hours, with mills for its throat, discs as wide as its head and slim ones that are
    hardly wider than its throat."""
    wide, deep = draw(st.integers(22, 30)), draw(any_of(9.0, 11.0))
    throat, height = round(0.64 * wide, 2), 4.0
    sizes = {"throat": around(throat, 0.1, 0.1), "depth": around(deep, 0.1, 0.1),
             "head_width": around(float(wide), 0.3, 0.3), "head_height": around(height, 0.2, 0.2)}
    request = Request("t-slot", sizes, hours=draw(any_of(4.0, 10.0)),
                      material=draw(any_of("mild steel", "brass", "grey iron")))
    mills = [Cutter(0, "end-mill", "a mill", diameter_mm=draw(any_of(throat - 1.0, throat - 2.0, 0.6 * throat)),
                    length_of_cut_mm=20.0, shank_mm=9.525, flutes=4, centre_cutting=True, corner_radius_mm=0.0,
                    price=draw(PRICES), **OF_ALL) for _ in range(draw(st.integers(1, 4)))]
    across = [*draw(st.lists(any_of(wide, wide, wide - 0.2), min_size=1, max_size=4)),
              *draw(st.lists(any_of(throat + 0.2, throat + 0.2, throat + 0.6), min_size=1, max_size=4))]
    discs = [Cutter(0, draw(any_of("keyseat-cutter", "t-slot-cutter")), "a disc", diameter_mm=one, reach_mm=25.0,
                    face_mm=draw(any_of(height, height, height, 2.5)), shank_mm=9.525, flutes=8, price=draw(PRICES),
                    neck_mm=round(one - (wide - throat) - draw(any_of(0.7, 0.9, 1.2)), 3), **OF_ALL) for one in across]
    return request, tuple(renumbered(draw(st.permutations([*mills, *discs]))))


def told(request: Request, cutters: tuple[Cutter, ...], many: int, few: int, most: int
         ) -> Answered:
    """So many plans at the most, with so many cutters or more taken for many, of which so few are searched first."""
    with MonkeyPatch.context() as patch:
        patch.setattr(as_drawn, "MANY", many)
        patch.setattr(narrow, "FEW", few)
        patch.setattr(narrow, "_AT_ONCE", few)
        patch.setattr(narrow, "_TOO_MANY", 1.0)
        try:
            return advise(request, cutters, SHOP, most)
        except CribError:
            assume(False)
            raise


def test_those_without_a_disc_in_the_whole_width_are_told_first() -> None:
    """By a search of few, and of those alone where that is so."""
    met: Counter[str] = Counter()
    look = _Few._look_at_scrap

    def looked(few: _Few) -> bool | None:
        found = look(few)
        met["settled" if few.settled else "kept" if few.kept else "all" if few.is_plain else "not"] += 1
        return found

    @settings(max_examples=50, phases=[Phase.explicit, Phase.generate])
    @given(t_slots(), any_of(1, 2, 4))
    def hold(asked: tuple[Request, tuple[Cutter, ...]], few: int) -> None:
        note(brief(*asked, SHOP))
        for most in (1, 9):
            with MonkeyPatch.context() as patch:
                patch.setattr(_Few, "_look_at_scrap", looked)
                some = told(*asked, 0, few, most)
            whole = told(*asked, 10_000, few, most)
            assert some.advice == whole.advice
            assert [one.draft.jobs for one in some.proved] == [one.draft.jobs for one in whole.proved]

    hold()
    assert min(met["settled"], met["kept"], met["all"]) >= 3, met


def test_no_plan_is_warned_of_less() -> None:
    """What is told closely of every plan, and what a disc in the whole width adds, is said of it."""
    met: Counter[str] = Counter()

    @settings(max_examples=60, phases=[Phase.explicit, Phase.generate])
    @given(t_slots())
    def hold(asked: tuple[Request, tuple[Cutter, ...]]) -> None:
        request, cutters = asked
        note(brief(*asked, SHOP))
        try:
            [jobs], found = jobs_for(request, cutters, SHOP), advise(request, cutters, SHOP, most=12)
        except (CribError, ValueError):
            assume(False)
        stake = AtStake(Floors(jobs))
        loud = {jobs.tools[place].id for place in stake.loud}
        for one in found.proved:
            if one.weighed.key[2]:
                continue
            said = {warning.id for warning in one.weighed.warnings if warning.grade != "note"}
            missed = {"G12"} if one.weighed.deviations else set()
            assert {warning.id for warning in stake.said} <= said | missed
            assert stake.least <= one.weighed.key[3]
            if loud & {tool.id for tool in one.draft.tools}:
                assert BOTH_WALLS.id in said
                assert stake.with_the_loud <= one.weighed.key[3]
            met["loud" if loud & {tool.id for tool in one.draft.tools} else "quiet"] += 1

    hold()
    assert min(met["loud"], met["quiet"]) >= 10, met
