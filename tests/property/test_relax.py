"""Changes of a drawing: what is told makes it, and a step less doesn't, by asking again."""

from __future__ import annotations

from collections import Counter
from typing import Any

from hypothesis import assume, given, note, settings
from hypothesis import strategies as st

from crib.cutters.base import Cutter
from crib.features import draw as draw_feature
from crib.features.request import Request
from crib.findings.errors import CribError
from crib.findings.verdicts import ANSWERS
from crib.planning.advise import advise, better_plan
from crib.planning.ask import read_request, texts_of
from crib.planning.relax import FINEST, MOST_CHANGE, changed_to, relax
from crib.shop import Shop
from crib.units import Size
from tests.benchmarks.questions import sample
from tests.spelt import spelt
from tests.strategies import REQUESTS, brief, cribs, renumbered, right_for, shops


@st.composite
def nearly(draw: st.DrawFn) -> tuple[Request, tuple[Cutter, ...], Shop]:
    """A feature, and cutters that are right for one a little larger or smaller."""
    request = draw(REQUESTS)
    key = draw(st.sampled_from(sorted(request.sizes)))
    share = draw(st.sampled_from((0.85, 0.95, 1.05, 1.15)))
    other = changed_to(request, key, round(request.sizes[key].nominal * share, 3))
    cutters = (*draw(right_for(other, 1)), *draw(cribs(request, 2)))
    try:
        draw_feature(request)
        draw_feature(other)
    except CribError:
        assume(False)
    return request, renumbered(draw(st.permutations(cutters))), draw(shops())


def test_a_change_that_is_told_does_it_and_a_step_less_does_not() -> None:
    """Every change is planned and proved by itself; one step less of the same change makes nothing better: what is to
    be measured first and has no plan makes nothing at all, whatever its verdict ranks before."""
    seen: Counter[str] = Counter()

    @settings(max_examples=30)
    @given(nearly())
    def confirm(asked: tuple[Request, tuple[Cutter, ...], Shop]) -> None:
        request, cutters, shop = asked
        advice = advise(request, cutters, shop).advice
        assume(advice.answer not in ("as drawn", "refer"))
        note(brief(*asked))
        place = ANSWERS.index(advice.answer)
        for change in relax(request, advice, cutters, shop):
            note(f"{change.key} from {change.before} to {change.after}: {spelt(change.plan.way)}")
            seen[change.key] += 1
            again = advise(changed_to(request, change.key, change.after), cutters, shop).advice
            assert again.plans[0] == change.plan and ANSWERS.index(again.answer) < place
            step = FINEST[shop.units] if change.by > 0 else -FINEST[shop.units]
            less = round(change.after - step, 6)
            if abs(less - change.before) > 1e-9:
                before = advise(changed_to(request, change.key, less), cutters, shop).advice
                assert not before.plans or ANSWERS.index(before.answer) >= place
            if change.key != "floor_radius":
                assert abs(change.by) <= MOST_CHANGE * change.before + 1e-9

    confirm()
    assert seen.total() >= 10 and len(seen) >= 3, seen


def test_a_step_less_that_is_to_be_measured_first_makes_nothing() -> None:
    """A throat of 4 mm nobody makes; one of 4.2032 is made with a 4.2 mill. A thou less a reground 4 mm mill might
    make, if it measures nearly that: `measure first` ranks before `cannot`, and there is no plan to tell."""
    common: dict[str, Any] = {"condition": "sharp", "material": "hss", "shank_mm": 6.0, "corner_radius_mm": 0.0}
    mill = Cutter(1, "end-mill", "mill", diameter_mm=4.2, length_of_cut_mm=4.8, flutes=2, centre_cutting=True,
                  measured=("diameter_mm",), **common)
    cutters = (mill, Cutter(2, "keyseat-cutter", "disc", diameter_mm=5.2, face_mm=1.6, neck_mm=3.64, reach_mm=4.8,
                            flutes=8, measured=("diameter_mm",), **(common | {"corner_radius_mm": None})),
               mill.but(id=3, label="reground", reground=True, diameter_mm=None, nominal_mm=4.0, length_of_cut_mm=2.8,
                        measured=()))
    exact = {"throat": 4.0, "depth": 2.8, "head_width": 5.2, "head_height": 1.6}
    sizes = {key: Size(mm, mm, mm, f"{mm}mm", True) for key, mm in exact.items()}
    request = Request("t-slot", sizes, material="grey iron", ends="open")
    advice = advise(request, cutters, Shop()).advice
    changes = relax(request, advice, cutters, Shop())
    assert advice.answer == "cannot" and [round(one.after, 4) for one in changes if one.key == "throat"] == [4.2032]
    less = changed_to(request, "throat", 4.1778)
    before = advise(less, cutters, Shop()).advice
    assert before.answer == "measure first" and not before.plans
    assert better_plan(less, cutters, Shop(), advice.answer) is None


def test_an_angle_is_never_changed_to_one_that_cannot_be_asked() -> None:
    """A dovetail of 82 degrees was offered as one of 90, which isn't read, after ten seconds of search: with upright
    flanks every end mill is tried with every other."""
    typed = "--height .4531±.0005 --width 1.2830 --angle 82 --length 3.6194 --below .4564"
    cutters, shop = sample()
    request = read_request("dovetail-slide", texts_of(typed.split()), shop, "in")
    advice = advise(request, cutters, shop).advice
    assert advice.answer == "cannot"
    assert all(change.after < 90 for change in relax(request, advice, cutters, shop) if change.key == "angle")
