"""Each audit finds its fault, says it in one sentence with one thing to do, and is silent where nothing is amiss."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import pytest

from crib.audits import AUDITS, look_over
from crib.audits.base import Bench, Record
from crib.cutters.base import Cutter
from crib.shop import Arbor, Shop
from crib.store import PastQuestion
from tests.spelt import spelt

TODAY = date(2026, 11, 27)
OLD = TODAY - timedelta(days=400)
SHOP = Shop(collets_mm=(12.7, 9.525), arbors=(Arbor(25.4, 38.1, None, None),))
SOUND = Cutter(1, "end-mill", "1/2 end mill", drawer="B2", condition="sharp", material="hss", diameter_mm=12.7,
               nominal_mm=12.7, shank_mm=12.7, length_of_cut_mm=25.4, overall_length_mm=76.2, flutes=4,
               centre_cutting=True, corner_radius_mm=0.0, measured=("diameter_mm",))
KEYSEAT = SOUND.but(kind="keyseat-cutter", label="606 keyseat cutter", diameter_mm=19.05, nominal_mm=19.05,
                    face_mm=4.7625, neck_mm=8.0, reach_mm=20.0, length_of_cut_mm=None, centre_cutting=None,
                    end_teeth=False, marking="606")
DRILL = SOUND.but(kind="drill", label="#7 drill", diameter_mm=5.1054, nominal_mm=5.1054, shank_mm=None,
                  length_of_cut_mm=None, overall_length_mm=None, centre_cutting=None, flutes=None,
                  corner_radius_mm=None)
TAP = Cutter(1, "tap", "1/4-20 tap, bottoming", drawer="B2", condition="sharp", material="hss", thread="1/4-20",
             tap_chamfer="bottoming")
ASKED = PastQuestion("slot", {"width": "1/2+.004-0", "depth": "1/4", "material": "1018"}, "in", "as drawn",
                     cutters=(1,), id=7)


def _bench(*cutters: Cutter, shop: Shop = SHOP, questions: tuple[PastQuestion, ...] = (),
           records: dict[int, Record] | None = None) -> Bench:
    numbered = [cutter.but(id=place) for place, cutter in enumerate(cutters, start=1)]
    fresh = {cutter.id: Record(TODAY) for cutter in numbered}
    return Bench(numbered, fresh | (records or {}), shop, questions, TODAY)


def _said(**days: int) -> dict[int, Record]:
    return {1: Record(TODAY, {key: TODAY - timedelta(days=count) for key, count in days.items()})}


FAULTY = {
    "AU1": _bench(SOUND.but(length_of_cut_mm=90.0)),
    "AU2": _bench(SOUND.but(diameter_mm=12.5)),
    "AU3": _bench(KEYSEAT.but(diameter_mm=15.93, nominal_mm=None)),
    "AU4": _bench(DRILL.but(diameter_mm=5.0)),
    "AU5": _bench(SOUND, records=_said(condition=3, diameter_mm=40)),
    "AU6": _bench(KEYSEAT.but(neck_mm=None)),
    "AU7": _bench(SOUND.but(assumed=("length_of_cut_mm",)), records=_said(length_of_cut_mm=100)),
    "AU8": _bench(SOUND.but(condition="dull"), records=_said(condition=61)),
    "AU11": _bench(SOUND.but(drawer=None)),
    "AU12": _bench(SOUND.but(drawer="B2-3"), KEYSEAT.but(drawer="b2-3")),
    "AU13": _bench(SOUND.but(count=1, away=("1 lent to bob since 2026-10-01",))),
    "AU14": _bench(SOUND, records={1: Record(OLD)}),
    "AU21": _bench(SOUND.but(shank_mm=11.1125)),
    "AU22": _bench(Cutter(1, "slitting-saw", "saw", drawer="B2", condition="sharp", material="hss", diameter_mm=76.2,
                          face_mm=1.6, bore_mm=22.0, flutes=36)),
    "AU31": _bench(TAP),
    "AU32": _bench(TAP.but(tap_chamfer="plug"), DRILL),
    "AU33": _bench(TAP.but(thread="9/9-99")),
    "AU41": _bench(DRILL, DRILL.but(label="13/64 drill", diameter_mm=5.1054 + 0.03, nominal_mm=5.1054 + 0.03)),
    "AU42": _bench(TAP.but(thread="M6x1", label="M6x1 tap"), TAP.but(thread="1/4-28", label="1/4-28 tap")),
    "AU43": _bench(SOUND, SOUND.but(condition="used")),
    "AU51": _bench(SOUND.but(condition="unknown"), records={1: Record(TODAY - timedelta(days=70))}),
    "AU52": _bench(SOUND.but(material="unknown")),
    "AU53": _bench(*(SOUND.but(label=f"mill {n}", price=price, currency="USD")
                     for n, price in enumerate((8.0, 9.0, 10.0, 800.0)))),
    "AU54": _bench(Cutter(1, "blank", "blank", drawer="B2", condition="sharp", material="hss", diameter_mm=6.0)),
    "AU55": _bench(SOUND.but(hand="left")),
    "AU56": _bench(SOUND.but(note="keep for brass"), questions=(ASKED,)),
    "AU57": _bench(SOUND, questions=(replace(ASKED, answer="cannot", cutters=()),)),
    "AU58": _bench(SOUND, questions=(ASKED,)),
}


@pytest.mark.parametrize("rule", FAULTY)
def test_a_fault_is_found_and_told_in_one_sentence_with_one_thing_to_do(rule: str) -> None:
    found = [fault for fault in look_over(FAULTY[rule]) if fault.id == rule]
    assert found, [fault.id for fault in look_over(FAULTY[rule])]
    for fault in found:
        says = spelt(fault.says)
        assert says and fault.fix and not says.endswith(".") and "\n" not in says
        assert not any(word in says for word in ("None", "_mm", "inf"))


def test_nothing_is_said_of_a_sound_crib() -> None:
    bench = _bench(SOUND, SOUND.but(label="3/8 end mill", diameter_mm=9.525, nominal_mm=9.525, shank_mm=9.525), KEYSEAT,
                   DRILL, TAP, records={})
    assert look_over(bench) == []


def test_every_audit_has_a_bench_on_which_it_speaks() -> None:
    ids = [word.strip(":") for audit in AUDITS for word in (audit.__doc__ or "").split() if word.startswith("AU")]
    assert sorted(ids) == sorted([*FAULTY]) or {*ids, "AU33"} == {*FAULTY}
    assert len(ids) == len(set(ids))
