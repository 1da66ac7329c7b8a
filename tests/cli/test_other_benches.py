"""Two more cribs, made up here by chance, so that nothing is tuned to the sample's: a metric makerspace with a readout,
and a bench mill with a handful of reground cutters. Whatever they are asked, the answer keeps its promises."""

from __future__ import annotations

from random import Random

import pytest

from crib.cutters.base import Cutter
from crib.cutters.label import label
from crib.findings.verdicts import ANSWERS
from crib.planning.advise import Answered, advise
from crib.planning.ask import read_request
from crib.shop import Shop
from crib.units import as_fraction

INCH = 25.4
METRIC = Shop(units="mm", spindle_rpm=(110, 180, 280, 450, 710, 1120, 1800), collets_mm=(6.0, 8.0, 10.0, 12.0, 16.0))
BENCH = Shop(spindle_rpm=(100, 250, 500, 1000, 2000), collets_mm=(9.525, 12.7), dro=False, stiffness="bench")

METRIC_ASKED = (
    ("slot", {"width": "10", "depth": "8", "material": "brass"}),
    ("slot", {"width": "12±.02", "depth": "20", "material": "6061", "ends": "one", "length": "60"}),
    ("step", {"width": "15", "depth": "6", "material": "1018"}),
    ("t-slot", {"bolt": "M8", "material": "grey iron"}),
    ("t-slot", {"throat": "12+.1-0", "depth": "22", "head-width": "20", "head-height": "8", "material": "mild steel"}),
)
BENCH_ASKED = (
    ("slot", {"width": "3/8", "depth": "1/4", "material": "mild steel"}),
    ("step", {"width": "1/2", "depth": "3/16", "material": "brass"}),
    ("t-slot", {"bolt": "1/4", "material": "brass"}),
    ("t-slot", {"throat": "3/8", "depth": ".400", "head-width": ".600", "head-height": ".160", "material": "6061"}),
    ("t-slot", {"bolt": "3/4", "material": "grey iron"}),
    ("slot", {"width": "1/2+0-.002", "depth": "1/4", "material": "mild steel"}),
)


def metric_makerspace() -> tuple[Cutter, ...]:
    """Forty cutters in whole millimetres, none reground, shanks and lengths on record."""
    chance, cutters = Random(4), []
    for number in range(1, 26):
        size = chance.choice((4, 5, 6, 8, 10, 12, 16, 20))
        cutters.append(Cutter(number, "end-mill", diameter_mm=float(size), flutes=chance.choice((2, 3, 4)),
                              length_of_cut_mm=size * 2.5, shank_mm=float(max(6, min(size, 16))),
                              corner_radius_mm=chance.choice((0.0, 0.0, 0.0, 0.5, size / 2)),
                              measured=("diameter_mm",)))
    for number in range(26, 41):
        size, face = chance.choice((13, 16, 18, 19, 21, 25)), chance.choice((3, 4, 6, 8))
        cutters.append(Cutter(number, chance.choice(("keyseat-cutter", "keyseat-cutter", "t-slot-cutter")),
                              diameter_mm=float(size), face_mm=float(face),
                              neck_mm=chance.choice((0.3, 0.4, 0.5)) * size,
                              reach_mm=face + chance.choice((8.0, 14.0, 22.0)), shank_mm=chance.choice((10.0, 12.0))))
    return tuple(cutter.but(label=label(cutter, "mm")) for cutter in cutters)


def bench_mill() -> tuple[Cutter, ...]:
    """A dozen cutters of a bench mill: reground, some never measured, necks and reaches unknown."""
    chance, cutters = Random(9), []
    for number, size in enumerate((1 / 4, 5 / 16, 3 / 8, 3 / 8, 1 / 2), start=1):
        reground = chance.random() < 0.5
        known = size - chance.choice((0.004, 0.012)) if reground and chance.random() < 0.6 else size
        cutters.append(Cutter(number, "end-mill", reground=reground, nominal_mm=size * INCH, flutes=4, shank_mm=9.525,
                              diameter_mm=None if reground and known == size else round(known * INCH, 6),
                              condition=chance.choice(("sharp", "dull", "used"))))
    for number in range(6, 13):
        size = chance.choice((7 / 16, 1 / 2, 9 / 16))
        cutters.append(Cutter(number, "keyseat-cutter", diameter_mm=size * INCH,
                              face_mm=chance.choice((1 / 8, 5 / 32)) * INCH,
                              neck_mm=chance.choice((None, 0.4 * size * INCH)),
                              reach_mm=chance.choice((None, 15.0)), shank_mm=12.7))
    return tuple(cutter.but(label=label(cutter, "in")) for cutter in cutters)


CASES = [
    *(pytest.param(metric_makerspace(), METRIC, *asked, id=f"metric-{n}") for n, asked in enumerate(METRIC_ASKED)),
    *(pytest.param(bench_mill(), BENCH, *asked, id=f"bench-{n}") for n, asked in enumerate(BENCH_ASKED)),
]


def ask(cutters: tuple[Cutter, ...], shop: Shop, kind: str, texts: dict[str, str]) -> Answered:
    keys = {name.replace("-", "_"): text for name, text in texts.items()}
    return advise(read_request(kind, keys, shop, shop.units), cutters, shop)


@pytest.mark.parametrize(("cutters", "shop", "kind", "texts"), CASES)
def test_an_answer_keeps_its_promises(
    cutters: tuple[Cutter, ...], shop: Shop, kind: str, texts: dict[str, str]
) -> None:
    advice = ask(cutters, shop, kind, texts).advice
    owned = {cutter.id for cutter in cutters}
    assert advice.answer in ANSWERS
    assert (advice.answer in ANSWERS[:3]) == bool(advice.plans)
    assert [ANSWERS.index(plan.answer) for plan in advice.plans] == sorted(
        ANSWERS.index(plan.answer) for plan in advice.plans
    )
    for plan in advice.plans:
        assert {one.cutter_id for one in plan.passes} == {cutter.id for cutter in plan.cutters} <= owned
        assert plan.proof.gouge_mm == 0
        assert plan.answer == "compromise" or plan.proof.left_mm == 0
        assert plan.minutes > 0 and plan.cost == pytest.approx(sum(line.money for line in plan.cost_lines))
        assert all(one.rpm in (shop.spindle_rpm or ()) for one in plan.passes)
    used = {cutter.id for plan in advice.plans for cutter in plan.cutters}
    assert not used & {refusal.cutter.id for refusal in advice.refused}


@pytest.mark.parametrize(("cutters", "shop", "kind", "texts"), CASES)
def test_the_order_of_the_drawers_makes_no_difference(
    cutters: tuple[Cutter, ...], shop: Shop, kind: str, texts: dict[str, str]
) -> None:
    forwards, backwards = ask(cutters, shop, kind, texts).advice, ask(cutters[::-1], shop, kind, texts).advice
    assert forwards.plans == backwards.plans and forwards.answer == backwards.answer
    assert {r.cutter.id: r for r in forwards.refused} == {r.cutter.id: r for r in backwards.refused}


def test_both_benches_have_something_to_say() -> None:
    """That the cases above aren't all of one sort."""
    answers = {ask(*case.values).advice.answer for case in CASES}
    assert len(answers) >= 3, answers
    assert as_fraction(bench_mill()[0].nominal_mm or 0.0) == "1/4"
