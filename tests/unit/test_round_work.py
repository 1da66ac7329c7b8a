"""Bores by a head, holes under a reamer, flutes that nobody measured, and holes that come out on a slope."""

from __future__ import annotations

import random
import re
from dataclasses import replace
from math import ceil, radians, tan

import pytest

from crib.cutters.base import Cutter
from crib.cutters.label import label
from crib.features import draw
from crib.findings.errors import CribError
from crib.handbook.boring import ladder
from crib.handbook.drill_lengths import flutes
from crib.intake.shop_settings import read_settings
from crib.pages.folding import Fold, folded
from crib.pages.passes import table
from crib.planning.advise import advise
from crib.planning.ask import read_request
from crib.planning.told.advice import Advice
from crib.shop import BoringHead, Shop, from_json
from crib.units import show_apart
from tests.shown import shown
from tests.spelt import spelt
from tests.trials.round_work import main
from tests.unit.test_hole_plans import IN, SHOP, SINK, SPOT
from tests.unit.test_tap_advice import drill, named, tap

HEAD = BoringHead(12.7, 9.0, 90.0, 1000.0, "diameter")
BORING = replace(SHOP, boring_heads=(HEAD,))
METRIC = Shop(units="mm", spindle_rpm=SHOP.spindle_rpm, chuck_mm=13.0)
START = drill(4, 31 / 64 * IN, length_of_cut_mm=4.4 * IN, shank_mm=12.7)


def bar(across: float = 0.375, hole: float | None = 0.4375, **more: object) -> Cutter:
    same = {"diameter_mm": across * IN, "min_hole_mm": hole and hole * IN, "shank_mm": 12.7, "condition": "sharp",
            "material": "carbide-tipped"}
    return named(Cutter(3, "boring-bar").but(**{**same, **more}))


def reamer(mm: float, number: int = 2, **more: object) -> Cutter:
    return named(Cutter(number, "reamer", diameter_mm=mm, shank_mm=mm * 0.9, length_of_cut_mm=60.0, condition="sharp",
                        material="hss", measured=("diameter_mm",)).but(**more))


def ask(*cutters: Cutter, shop: Shop = BORING, kind: str = "hole", **texts: str) -> Advice:
    return advise(read_request(kind, texts, shop, shop.units), cutters, shop).advice


def bored(*cutters: Cutter, shop: Shop = BORING, **texts: str) -> Advice:
    same = {"diameter": "2.000+.001-0", "depth": "1-1/2", "through": "yes", "finish": "bored", "material": "mild steel"}
    return ask(*cutters, SPOT, shop=shop, **{**same, **texts})


def test_a_bore_is_a_ladder_of_cuts() -> None:
    """It was one stroke of .756 a side. Roughing .030 to .050 a side, two equal last cuts of .005 at the most, a spring
    cut; 95 to 110 minutes by hand: common practice, no source."""
    [plan, *_] = bored(START, bar()).plans
    cuts = [one for one in plan.passes if one.role == "bore"]
    rough, last, spring = cuts[:-3], cuts[-3:-1], cuts[-1]
    assert 15 <= len(rough) <= 25 and all(0.030 <= one.radial_mm / IN <= 0.050 for one in rough[:-1])
    assert last[0].radial_mm == pytest.approx(last[1].radial_mm) and last[1].radial_mm <= 0.005 * IN + 1e-9
    assert spring.radial_mm == 0 and spring.diameter_mm == cuts[-2].diameter_mm == pytest.approx(2.0005 * IN)
    begun = 31 / 64 * IN + 0.0508 + 0.005 * 31 / 64 * IN
    assert begun + 2 * sum(one.radial_mm for one in cuts) == pytest.approx(2.0005 * IN, abs=1e-5)
    assert plan.proof.left_mm == 0 and plan.proof.gouge_mm == 0 and 90 <= plan.minutes <= 115
    assert spelt(plan.holders[-1]) == "boring head, 1/2 bars" and all((one.rpm or 0) <= 1000 for one in cuts)


def test_cuts_of_a_bore_that_take_the_same_share_a_line() -> None:
    """A bore of two inches was a table of two dozen lines, and a remark for each."""
    plan = bored(START, bar()).plans[0]
    cuts = [one for one in plan.passes if one.role == "bore"]
    page = " ".join(" ".join(shown(table(plan.passes))).split())
    assert page.count("bore hole") <= 6 < len(cuts)
    runs = [run.passes for run in folded(plan.passes) if run.fold is Fold.BORE]
    told = re.findall(r"in turn to ([\d.]+(?:, [\d.]+)*)", page)
    listed = [[float(text) for text in one.split(",")] for one in told]
    assert listed == [[pytest.approx((one.diameter_mm or 0.0) / IN, abs=6e-4) for one in run] for run in runs]


def test_a_small_bore_in_iron_takes_an_hour() -> None:
    """60 to 65 minutes by hand for .750 from 31/64 in iron: common practice, no source."""
    plan = bored(START, bar(), diameter=".750+.001-0", depth="3/4", material="grey iron").plans[0]
    assert 55 <= plan.minutes <= 70


@pytest.mark.parametrize(("shop", "says"), [
    (SHOP, "the crib has none"),
    (replace(SHOP, boring_heads=(replace(HEAD, bar_mm=19.05),)), "takes 3/4"),
    (replace(SHOP, boring_heads=(replace(HEAD, most_mm=38.1),)), "goes to 1-1/2"),
    (replace(SHOP, boring_heads=(replace(HEAD, rpm=60.0),)), "turns 60 rpm at the most"),
])
def test_no_head_no_bore(shop: Shop, says: str) -> None:
    """A bar in a collet turns on its own axis: no bore was ever made so. What is too fast lacks no length."""
    found = bored(START, bar(), shop=shop)
    [first, *_] = found.refused
    assert not found.plans and says in spelt(found.says) and says in spelt(first.says)
    assert first.fix and (None in (first.has_mm, first.needs_mm)) == ("rpm" in says)


def test_a_head_in_a_drawer_is_one() -> None:
    head = named(Cutter(9, "boring-head", diameter_mm=50.8, bore_mm=12.7))
    plan = bored(START, bar(), head, shop=SHOP).plans[0]
    assert any("crib shop --boring-heads" in spelt(one) for one in plan.assumed)


def test_the_dial_counts_as_it_does() -> None:
    radius = replace(SHOP, boring_heads=(replace(HEAD, dial="radius"),))
    for shop, thou in ((BORING, ".079"), (radius, ".040")):
        one = next(one for one in bored(START, bar(), shop=shop).plans[0].passes[4:] if one.role == "bore")
        assert f"dial {thou} on" in spelt(one.says)


def test_how_far_a_bar_stands_out() -> None:
    """Over 4 diameters it is a caution, over 6 a stop: common practice, no source."""
    asked = {"diameter": ".750+.001-0", "material": "grey iron"}
    assert not [w for w in bored(START, bar(), **asked, depth="1.3").plans[0].warnings if w.id == "RE3"]
    [grave] = [w.grade for w in bored(START, bar(), **asked, depth="2").plans[0].warnings if w.id == "RE3"]
    found = bored(START, bar(), **asked, depth="3-1/2")
    assert grave == "caution" and not found.plans and found.refused[0].id == "RE3"
    assert found.refused[0].has_mm == pytest.approx(3.5 * IN + 1 + 0.030 * IN)
    assert found.refused[0].needs_mm == pytest.approx(6 * 0.375 * IN)


def test_a_bar_that_must_be_measured_is_asked_about() -> None:
    """One that was known by its smallest hole alone was passed over without a word."""
    for one in (bar(diameter_mm=None), bar(hole=None)):
        found = bored(START, one)
        assert found.answer == "measure first" and found.refused[0].cutter.id == 3 and "mic" in spelt(found.says)


def test_the_next_drill_where_the_largest_cannot_be_held() -> None:
    """A 5/8 drill that neither chuck nor collet takes kept the 31/64 from being tried."""
    large = drill(5, 5 / 8 * IN, length_of_cut_mm=120.0, shank_mm=5 / 8 * IN)
    assert [one.id for one in bored(START, large, bar()).plans[0].cutters] == [50, 4, 3]


def test_a_large_drill_wants_a_pilot() -> None:
    """Of a web's width, a fifth of its diameter: common practice, no source."""
    large, small = drill(5, 0.75 * IN, length_of_cut_mm=90.0, shank_mm=12.7), drill(6, 0.25 * IN, length_of_cut_mm=60.0)
    asked = {"diameter": "3/4+.015-0", "depth": "1", "through": "yes", "material": "mild steel"}
    with_one = ask(large, small, **asked).plans[0]
    assert [one.cutter_id for one in with_one.passes] == [6, 5]
    assert any(w.id == "HO6" for w in ask(large, **asked).plans[0].warnings)


def test_every_ladder_comes_to_the_size() -> None:
    """Whatever the sizes: cuts add up, none is above the roughing cut, the last two are alike and no more than .005."""
    draw = random.Random(7)
    for _ in range(2000):
        start, rough = draw.uniform(5, 60), draw.uniform(0.08, 1.3)
        size, step = start + draw.uniform(0.02, 60), draw.choice((0.0254, 0.01))
        steps = ladder(start, size, rough, step)
        sides = [(b - a) / 2 for a, b in zip((start, *steps), steps, strict=False)]
        assert steps[-1] == size and min(sides) > 0 and sides[-1] == pytest.approx(sides[-2])
        assert max(sides[:-2], default=0) <= max(rough, step / 2) + 1e-6 and sides[-1] <= 0.127 + 1e-6
        assert len(steps) <= ceil((size - start) / 2 / (rough - step / 2)) + 4


@pytest.mark.parametrize(("under", "size", "up"), [(5.8, 6, 12), (7.8, 8, 15), (9.8, 10, 15), (11.8, 12, 18)])
def test_common_metric_pairs_are_reamed(under: float, size: float, up: int) -> None:
    """All four were refused: by what the drill was expected to leave. H7 by ISO 286-2; a fifth of a millimetre under a
    reamer of 5 to 20 mm: common practice, no source."""
    found = ask(drill(1, under), reamer(size), shop=METRIC, diameter=f"{size}+.0{up}-0", depth="15", through="yes",
                finish="reamed", material="6082")
    [plan, *_] = found.plans
    assert found.answer == "as drawn" and not [w for w in plan.warnings if w.id == "HO1"]
    [left] = [one.mm for one in plan.figures if one.what.startswith("left for the reamer")]
    assert left == pytest.approx(0.2)


def test_reamers_against_raw_numbers() -> None:
    """Any reamer, drill and limits: a plan where .0003 over the reamer lies in the limits and the drill's mean hole is
    smaller than the reamer, and not thrice too small; as drawn, whatever is left, where .0001 to .0005 does."""
    draw, seen = random.Random(11), set()
    for _ in range(250):
        size = draw.choice((3.0, 5.0, 6.35, 9.525, 10.0, 12.0))
        under = round(size - draw.uniform(-0.1, 1.6), 3)
        low, high = size + draw.uniform(-0.01, 0.006), size + draw.uniform(0.008, 0.03)
        found = ask(drill(1, under, length_of_cut_mm=60.0), reamer(size), shop=METRIC, finish="reamed", depth="10",
                    diameter=f"{(low + high) / 2:.4f}±{(high - low) / 2:.4f}",
                    material="mild steel")
        mean, stock = under + 0.0508 + 0.005 * under, size - under
        inch = next(most for up, most in ((6.35, .012), (12.7, .016), (25.4, .020)) if size <= up) * IN
        most = max(inch, 0.2 if size <= 5 else 0.3)
        can = low - 1e-4 <= size + 0.00762 <= high + 1e-4 and mean < size and stock <= 3 * most
        reamed = [plan for plan in found.plans if any(one.role == "ream" for one in plan.passes)]
        assert bool(reamed) == can, (size, under, low, high)
        if can and low <= size + 0.0024 and size + 0.0127 <= high - 2e-4:
            assert reamed[0].answer == "as drawn" and not any(w.id == "G12" for w in reamed[0].warnings)
        seen.add(can)
    assert seen == {True, False}


def test_the_next_reamer_before_the_drill_is_blamed() -> None:
    """A reamer that no drill goes under kept a second one, which has its drill, from being told of."""
    found = ask(drill(1, 9.5), reamer(10.0), reamer(9.99, 5), reamer(11.9, 6), shop=METRIC, diameter="10+.02-0.02",
                depth="12", finish="reamed", material="mild steel")
    assert {c.id for plan in found.plans for c in plan.cutters} & {2, 5}
    [refused] = [one for one in found.refused if one.cutter.id == 6]
    assert refused.has_mm == pytest.approx(11.90762) and refused.needs_mm == pytest.approx(10.02)


def test_flutes_by_the_table() -> None:
    """ASME B94.11M jobber flutes, from memory: 2-7/16 for a #7, 1-1/4 for a #43, 2-3/4 for 1/4, 4-1/2 for 1/2."""
    for inches, usual in ((0.201, 2.4375), (0.089, 1.25), (0.25, 2.75), (0.5, 4.5)):
        assert flutes(inches * IN).usual == pytest.approx(usual * IN)
    sizes = [number * IN / 64 for number in range(1, 65)] + [number / 10 for number in range(5, 200)]
    for mm in sizes:
        shortest, usual, longest = flutes(mm)
        assert shortest <= usual <= longest, mm


@pytest.mark.parametrize(("depth", "answer"), [("1", "as drawn"), ("1-3/4", "measure first"), ("2.6", "measure first"),
                                               ("4", "cannot")])
def test_flutes_that_nobody_measured(depth: str, answer: str) -> None:
    """A #7 drill, 1-3/4 deep, was refused by a guess of 8 diameters that wasn't called one."""
    found = ask(drill(7, 0.201 * IN), SPOT, shop=SHOP, diameter=".201+.010-0", depth=depth, material="mild steel")
    assert found.answer == answer
    if not found.plans:
        assert "not measured" in spelt(found.says) and None not in (found.refused[0].has_mm, found.refused[0].needs_mm)


def test_a_gib_screw_comes_out_on_the_slope() -> None:
    """Level through a 60 degree flank the far side of the bore lies r tan 30 deeper than its axis: geometry."""
    own = (SPOT, SINK, drill(3, 0.213 * IN, length_of_cut_mm=60.0), tap(1, "1/4-28"))
    asked = {"thread": "1/4-28", "height": "3/4", "thickness": ".400", "number": "2", "material": "grey iron"}
    plan = ask(*own, kind="gib-screw-holes", shop=SHOP, **asked, angle="60").plans[0]
    [drilled] = [one for one in plan.passes if one.role == "drill"]
    point = 0.213 / 2 / tan(radians(59))
    assert -drilled.z_mm / IN - point >= 0.400 + 0.213 / 2 * tan(radians(30))
    assert any(w.id == "HO3" for w in plan.warnings) and plan.proof.left_mm >= 0
    upright = ask(*own, kind="gib-screw-holes", shop=SHOP, **asked, angle="90").plans[0]
    [flat] = [one for one in upright.passes if one.role == "drill"]
    assert flat.z_mm - drilled.z_mm == pytest.approx(0.125 * tan(radians(30)) * IN, abs=0.02)
    assert not any(w.id == "HO3" for w in upright.warnings)


def test_a_refusal_has_both_numbers_and_a_fix() -> None:
    """A small hole with nothing but a large end mill was one sentence with nothing under it; a counterbore's sentence
    spoke of its core while its numbers were of its diameter."""
    mill = named(Cutter(2, "end-mill", diameter_mm=12.7, shank_mm=12.7, condition="sharp", material="hss", flutes=4,
                        centre_cutting=False))
    found = ask(mill, shop=SHOP, diameter="1/4+.010-0", depth=".5", material="mild steel")
    core = ask(mill, shop=SHOP, kind="counterbore", diameter="1/2+.010-0", depth=".2", hole="1/8",
               material="mild steel")
    for one, has in ((found.refused[0], 0.501), (core.refused[0], 0.2)):
        assert one.has_mm == pytest.approx(has * IN) and one.needs_mm is not None and one.fix
    assert core.refused[0].id == "EN1" and "middle" in spelt(core.refused[0].says)


def test_numbers_that_read_alike_get_more_places() -> None:
    """`.781 is more than .781` tells nothing."""
    draw = random.Random(3)
    for _ in range(500):
        one = draw.uniform(0.1, 50)
        for units in ("in", "mm"):
            first, second = show_apart(one, one + draw.choice((1e-4, 1e-3, 0.01, 0.3)), units)
            assert first != second and len(first.rpartition(".")[2]) == len(second.rpartition(".")[2])


def test_heads_are_typed_and_kept() -> None:
    found = read_settings({"boring_heads": "1/2:3/8:4, 3/4:1:6:800:radius"}, "in")["boring_heads"]
    shop = from_json({"boring_heads": found})
    assert shop.boring_heads == (BoringHead(12.7, 9.525, 101.6), BoringHead(19.05, 25.4, 152.4, 800.0, "radius"))
    assert from_json(shop.as_json()) == shop
    for wrong in ("1/2", "1/2:4:3", "1/2:1:4:0", "1/2:1:4:900:sideways"):
        with pytest.raises(CribError):
            read_settings({"boring_heads": wrong}, "in")


def test_pecks_take_their_minutes() -> None:
    """A hole of 5.5 diameters was 2.2 minutes. Out and cleared every diameter: common practice, no source."""
    deep = ask(drill(1, 0.25 * IN, length_of_cut_mm=60.0), SPOT, shop=SHOP, diameter="1/4+.012-0", depth="1.4",
               material="304").plans[0]
    [pecking] = [line for line in deep.cost_lines if line.what == "pecking"]
    assert pecking.minutes == pytest.approx(5 * 0.2)


def test_a_sample_of_the_trial() -> None:
    """Of `python -m tests.trials.round_work`: each plan upheld by raw numbers, nothing refused without a word."""
    assert main(150, 5) == 0


def test_a_reamer_keeps_its_tenths() -> None:
    """.3745 and .3754 were both called .375."""
    said = [label(reamer(size * IN), "in") for size in (0.3745, 0.3754, 0.375, 0.376)]
    assert said == [".3745 reamer", ".3754 reamer", "3/8 reamer", ".376 reamer"]


def test_a_thin_gib_is_told_that_it_springs() -> None:
    """Common practice, no source: it bows when it is clamped or drilled, and rocks on its flank afterwards."""
    for thick, springs in (("1/8", True), ("1/4", False)):
        texts = {"thread": "1/4-28", "height": "3/8", "gib": thick}
        cautions = draw(read_request("gib-screw-holes", texts, SHOP, "in")).cautions
        assert any("springs" in one for one in cautions) is springs
