"""What is told beforehand of every plan in a set-up, that it gives something away or that a rule cautions against it,
holds of every plan there is; and a search that goes by it tells what the whole search tells."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from typing import Any

from hypothesis import Phase, assume, event, given, note, settings
from hypothesis import strategies as st
from pytest import MonkeyPatch

from crib.cutters.base import Cutter
from crib.features.request import Request
from crib.findings.errors import CribError
from crib.machining.draft import Draft
from crib.planning import as_drawn
from crib.planning.advise import Answered, advise, jobs_for
from crib.planning.bounds.each_tool import GIVEN_AWAY
from crib.planning.large_cribs import narrow
from crib.planning.large_cribs.floors import Floors
from crib.planning.large_cribs.given_away import is_given_away
from crib.planning.large_cribs.uncautioned import are_cautioned
from crib.planning.search.jobs import Jobs
from crib.sample import shop_settings
from crib.shop import from_json
from crib.units import Size
from tests.strategies import any_of, around, brief, renumbered
from tests.unpruned import Unpruned, known_of

PRICES = any_of(None, 10.0, 30.0)
OF_ALL: dict[str, Any] = {"material": "hss", "condition": "sharp", "measured": ("diameter_mm",)}
SHOP = from_json(shop_settings())
FINE = any_of((0.0127, 0.0127), (0.0, 0.0254), (0.0, 0.0508), (0.1, 0.1), (0.3, 0.3))
"""Tolerances that only some ways hold, or all [mm]."""


@st.composite
def asked_of(draw: st.DrawFn, most: int) -> tuple[Request, tuple[Cutter, ...]]:
    """A slot, a slit or a step, with mills that are narrower and as wide, discs and saws as thick and thinner."""
    kind = draw(any_of("slot", "slit", "step"))
    wide = draw(any_of(2.0, 3.175) if kind == "slit" else any_of(6.0, 14.0))
    deep = draw(any_of(2.5, 4.0, 9.0))
    sizes: dict[str, Size] = {"width": around(wide, *draw(FINE)), "depth": around(deep, *draw(FINE))}
    request = Request(kind, sizes, hours=draw(any_of(0.0, 0.0, 4.0)),
                      material=draw(any_of("mild steel", "6061", "tool steel")))
    some = draw(st.lists(st.one_of(_mills(wide), _discs(wide, deep), _saws(wide)), min_size=2, max_size=most))
    return request, tuple(renumbered(some))


@st.composite
def _mills(draw: st.DrawFn, wide: float) -> Cutter:
    across = draw(any_of(wide, wide - 0.02, wide + 0.01, 0.8 * wide, 12.0))
    return Cutter(0, "end-mill", "a mill", diameter_mm=across, shank_mm=9.525, flutes=draw(any_of(2, 4)),
                  length_of_cut_mm=draw(any_of(6.0, 20.0)), centre_cutting=True, price=draw(PRICES), **OF_ALL)


@st.composite
def _discs(draw: st.DrawFn, wide: float, deep: float) -> Cutter:
    across = draw(any_of(wide, wide - 0.02, 3 * deep, 30.0))
    return Cutter(0, draw(any_of("keyseat-cutter", "t-slot-cutter")), "a disc", diameter_mm=across, reach_mm=25.0,
                  face_mm=draw(any_of(wide, wide + 0.01, 0.6 * wide, 2.5)), shank_mm=9.525, flutes=8,
                  neck_mm=round(draw(any_of(0.3, 0.6)) * across, 3), price=draw(PRICES), **OF_ALL)


@st.composite
def _saws(draw: st.DrawFn, wide: float) -> Cutter:
    thick = draw(any_of(wide, wide - 0.03, 0.6 * wide, 1.6))
    return Cutter(0, "slitting-saw", "a saw", diameter_mm=76.2, face_mm=thick, bore_mm=25.4, flutes=32,
                  price=draw(PRICES), **OF_ALL)


def told(request: Request, cutters: tuple[Cutter, ...], many: int, few: int, most: int) -> Answered:
    """So many plans at the most, with so many cutters or more taken for many, of which so few are searched first."""
    with MonkeyPatch.context() as patch:
        patch.setattr(as_drawn, "MANY", many)
        patch.setattr(narrow, "FEW", few)
        patch.setattr(narrow, "_AT_ONCE", few)
        patch.setattr(narrow, "_TOO_MANY", 1.0)
        return advise(request, cutters, SHOP, most)


def _every(jobs: Jobs) -> Iterator[tuple[Draft, bool]]:
    """Every plan there is, with walls at their aim and nearer their limits."""
    for wide in (False, True):
        for draft in Unpruned(jobs.question, jobs.tools, wide).drafts(Draft(jobs.question)):
            yield draft, wide


def test_it_holds_of_every_plan() -> None:
    """With no pruning at all; a disc that opens from solid, and may, is cautioned in every plan with it."""
    met: Counter[str] = Counter()

    @settings(max_examples=80, phases=[Phase.explicit, Phase.generate])
    @given(asked_of(4))
    def hold(asked: tuple[Request, tuple[Cutter, ...]]) -> None:
        note(brief(*asked, SHOP))
        try:
            every = jobs_for(*asked, SHOP)
        except (CribError, ValueError):
            assume(False)
        for jobs in every:
            floors = Floors(jobs)
            is_given, cautions = is_given_away(floors), are_cautioned(floors)
            known, buried = known_of(jobs.question), {tool.id for tool in jobs.tools if tool.kind.buried}
            for draft, wide in _every(jobs):
                one = known.weigh(draft, True)
                if one.stopped:
                    continue
                assert not is_given or one.key[0] >= GIVEN_AWAY
                assert wide or not floors.is_none
                with_disc = not buried.isdisjoint(tool.id for tool in draft.tools)
                assert one.key[1] or not (cautions and with_disc)
                met["given away" if is_given else "as it comes"] += 1
                met["cautioned" if cautions and with_disc else "not"] += 1

    hold()
    assert min(met["given away"], met["as it comes"], met["cautioned"], met["not"]) >= 20, met


def test_what_is_told_is_told_without() -> None:
    """By a search of few, and first of those alone that no rule cautions against."""
    met: Counter[str] = Counter()
    alone, given_away = narrow.uncautioned, narrow.is_given_away

    def counted(floors: Floors) -> Any:
        met["alone"] += 1
        return alone(floors)

    def counted_too(floors: Floors) -> bool:
        found = given_away(floors)
        met["given away"] += found
        return found

    @settings(max_examples=120, phases=[Phase.explicit, Phase.generate])
    @given(asked_of(9), any_of(1, 2, 4))
    def hold(asked: tuple[Request, tuple[Cutter, ...]], few: int) -> None:
        note(brief(*asked, SHOP))
        for most in (1, 4):
            try:
                with MonkeyPatch.context() as patch:
                    patch.setattr(narrow, "uncautioned", counted)
                    patch.setattr(narrow, "is_given_away", counted_too)
                    some = told(*asked, 0, few, most)
                whole = told(*asked, 10_000, few, most)
            except CribError:
                assume(False)
            event(str(whole.advice.answer))
            assert some.advice == whole.advice
            assert [one.draft.jobs for one in some.proved] == [one.draft.jobs for one in whole.proved]

    hold()
    assert min(met["alone"], met["given away"]) >= 10, met
