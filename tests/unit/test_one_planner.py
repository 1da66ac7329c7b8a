"""What comes down an axis is planned as the rest is: by the same questions, ranking, patience and refusals."""

from __future__ import annotations

import random
import sys
from dataclasses import replace
from types import SimpleNamespace

import pytest

from crib import features
from crib.cutters import KINDS as CUTTERS
from crib.cutters import goes_down
from crib.cutters.base import Cutter, Down
from crib.features import hole
from crib.features.base import Feature
from crib.features.request import Request
from crib.findings.errors import CribError
from crib.findings.verdicts import ANSWERS
from crib.pages.answer import NOT_YET, verdict
from crib.planning.advise import advise, best_plan, better_plan
from crib.planning.ask import read_request
from crib.planning.search.watch import Watch
from crib.shop import Shop
from tests.spelt import spelt
from tests.trials import round_work
from tests.unit.test_tap_advice import drill, named, tap

IN = 25.4
SHOP = Shop(spindle_rpm=(80, 135, 210, 325, 660, 1115, 1750), collets_mm=(9.525, 12.7), chuck_mm=12.7)
ASKED = {"diameter": "13/64", "depth": ".5", "material": "1018"}


def drawn_anew(request: Request) -> Feature:
    return replace(hole.draw(request), kind="spotface", words="spotface")


def test_a_round_kind_that_nobody_knows_is_planned(monkeypatch: pytest.MonkeyPatch) -> None:
    """A kind that was drawn as a hole, under another name, ended in "the thread is empty": the planner went by the
    names of four kinds. It goes by what the feature calls for."""
    kind = SimpleNamespace(KIND=replace(hole.KIND, name="spotface", draw=drawn_anew))
    monkeypatch.setitem(features._FILE_OF, "spotface", "spotface")
    monkeypatch.setitem(sys.modules, "crib.features.spotface", kind)
    owned = (drill(6, 0.2010 * IN), tap(1, "1/4-20"), named(Cutter(7, "reamer", diameter_mm=0.2031 * IN)))
    own, other = (advise(read_request(kind, ASKED, SHOP, "in"), owned, SHOP) for kind in ("hole", "spotface"))
    assert own.advice.plans and own.advice.plans == other.advice.plans
    assert own.advice.refused == other.advice.refused and other.proved[0].trace.holds


def test_a_search_for_a_hole_that_is_cut_short_says_so() -> None:
    """The second planner knew nothing of patience."""
    watch = Watch(patience=-1.0)
    found = advise(read_request("hole", ASKED, SHOP, "in"), (drill(6, 0.2010 * IN),), SHOP, watch=watch).advice
    assert found.in_part and not found.plans and "not everything" in spelt(found.says)
    first = next(verdict(found))
    assert first.text == NOT_YET, "\"nothing in it makes this\" was said of what nobody had looked for to the end"


def test_a_drill_whose_flutes_are_short_is_refused_for_them_where_another_does_it() -> None:
    """Beside a plan it said "sharp: no hole to size with it" of a sharp drill that was too short."""
    short = drill(6, 0.2010 * IN, length_of_cut_mm=10.0)
    found = advise(read_request("hole", ASKED, SHOP, "in"), (short, drill(7, 0.2010 * IN)), SHOP).advice
    assert [cutter.id for cutter in found.plans[0].cutters] == [7]
    assert [(one.cutter.id, one.id) for one in found.refused] == [(6, "RE1")]


def test_the_feed_of_a_bar_is_not_the_motors() -> None:
    """A bar is fed as finely as a bore wants it; it was said that the motor pulls no more."""
    bar = named(Cutter(5, "boring-bar", diameter_mm=9.525, min_hole_mm=11.0, shank_mm=12.7, condition="sharp",
                       material="hss"))
    head = named(Cutter(8, "boring-head", bore_mm=12.7, diameter_mm=50.8))
    asked = {"diameter": "3/4+.001-0", "depth": "1", "finish": "bored", "material": "1018", "through": "yes"}
    owned = (bar, head, drill(9, 11 / 16 * IN, shank_mm=12.7))
    found = advise(read_request("hole", asked, SHOP, "in"), owned, SHOP).advice
    bored = next(plan for plan in found.plans if any(cutter.id == 5 for cutter in plan.cutters))
    assert not any(one.id == "FD1" and one.cutter_id == 5 for one in bored.warnings)


def test_laws_of_any_crib() -> None:
    """What is put first is the best; no cutter is both used and refused; each refusal has its reason and none tells a
    kind that the work calls for it."""
    for seed in range(120):
        draw = random.Random(f"one planner {seed}")
        kind, cutters, bench = draw.choice(round_work.KINDS), round_work.crib(draw), round_work.shop(draw)
        try:
            request = read_request(kind, round_work.question(draw, kind, cutters), bench, bench.units)
            found = advise(request, cutters, bench).advice
        except CribError:
            continue
        assert best_plan(request, cutters, bench) == (found.plans[0] if found.plans else None)
        better = better_plan(request, cutters, bench, "cannot")
        assert (better is not None) == bool(found.plans)
        ranks = [ANSWERS.index(plan.answer) for plan in found.plans]
        assert ranks == sorted(ranks)
        used = {cutter.id for plan in found.plans for cutter in plan.cutters}
        assert not used & {one.cutter.id for one in found.refused}
        for one in found.refused:
            assert one.says and one.fix
            if one.id == "KD1":
                assert f"{CUTTERS[one.cutter.kind].words} is the kind" not in spelt(one.fix)


def test_a_tap_is_not_refused_for_the_thread_that_it_cuts() -> None:
    """Where no drill was right, the right tap was told that it "cuts 1/4-20 UNC, not 1/4-20"."""
    right, other = tap(1, "1/4-20"), tap(2, "M6x1")
    asked = read_request("tapped-hole", {"thread": "1/4-20", "depth": "1/2", "material": "1018"}, SHOP, "in")
    found = advise(asked, (right, other, drill(6, 0.5 * IN)), SHOP).advice
    refused = {one.cutter.id: one for one in found.refused}
    assert set(refused) == {2, 6} and refused[2].id == "TP1" and refused[6].id == "TH1"
    assert goes_down(right, Down.TAPPING) and "under the least" not in spelt(refused[6].says)
