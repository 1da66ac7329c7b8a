"""What is proposed to buy: cutters that can exist, each size once, and for most features one that makes it."""

from __future__ import annotations

import pytest

from crib.buying.bench import feature_of
from crib.buying.candidates import candidates
from crib.buying.needs import FIRST_ID
from crib.cutters import and_stand_ins, kind_of
from crib.cutters.checks import impossible
from crib.features import KINDS as FEATURES
from crib.planning.advise import best_plan
from crib.planning.ask import read_request
from crib.shop import Arbor, BoringHead, Shop

SHOP = Shop(collets_mm=(6.35, 9.525, 12.7, 19.05), arbors=(Arbor(25.4, 44.45),), spindle_rpm=(50, 80, 135, 325, 660),
            rotary_turns=72, boring_heads=(BoringHead(12.7, 6.35, 101.6),))
ASKED = {kind.name: kind.example for kind in FEATURES.values() if kind.name != "gib-screw-holes"}


@pytest.mark.parametrize("kind", ASKED)
def test_they_can_exist_and_are_numbered(kind: str) -> None:
    found = candidates(feature_of(read_request(kind, ASKED[kind], SHOP, "in")), SHOP)
    assert found
    assert [wanted.cutter.id for wanted in found] == list(range(FIRST_ID, FIRST_ID + len(found)))
    assert len({wanted.cutter.but(id=0) for wanted in found}) == len(found)
    for wanted in found:
        assert wanted.source and wanted.cutter.label and wanted.cutter.condition == "sharp"
        assert impossible(wanted.cutter) == () and kind_of(wanted.cutter).check(wanted.cutter) == ()


@pytest.mark.parametrize("kind", ASKED)
def test_together_they_make_it(kind: str) -> None:
    """With everything that is proposed, and nothing else, the feature can be made."""
    request = read_request(kind, ASKED[kind], SHOP, "in")
    new = [wanted.cutter for wanted in candidates(feature_of(request), SHOP)]
    assert best_plan(request, new, SHOP) is not None


@pytest.mark.parametrize("kind", ASKED)
def test_what_is_proposed_is_called_for(kind: str) -> None:
    """Of the kinds that the feature calls for, or what does their work, or the drill that goes before a reamer."""
    feature = feature_of(read_request(kind, ASKED[kind], SHOP, "in"))
    called = {name for calls in feature.calls_for.values() for name in calls.kinds}
    assert {wanted.cutter.kind for wanted in candidates(feature, SHOP)} <= {*and_stand_ins(called), "drill"}


@pytest.mark.parametrize(("asked", "units", "made"), [
    ({"screw": "M6"}, "mm", 11.0), ({"screw": "M6"}, "in", 25.4 * 7 / 16), ({"screw": "1/4"}, "mm", 25.4 * 7 / 16),
    ({"screw": "1/4"}, "in", 25.4 * 7 / 16), ({"diameter": ".442±.008", "hole": "1/4"}, "in", 25.4 * 7 / 16),
    ({"diameter": "15.459mm±.2mm", "hole": "8mm"}, "mm", 15.5),
    ({"diameter": "10.45mm±.02mm", "hole": "6mm"}, "mm", None)])
def test_counterbores_are_bought_as_they_are_made(asked: dict[str, str], units: str, made: float | None) -> None:
    """One of 15.459 mm was offered, the middle of its limits: they are made in whole and half millimetres, and in
    64ths, 32nds before them (from memory). Nothing where none lies within the limits."""
    shop = Shop(units=units)
    request = read_request("counterbore", {"depth": "1/4", "material": "1018"} | asked, shop, units)
    found = (one.cutter for one in candidates(feature_of(request), shop))
    sizes = [one.diameter_mm for one in found if one.kind == "counterbore"]
    assert sizes == ([] if made is None else [pytest.approx(made)])
