"""What a metal, an edge, a hand and a motor can stand: speeds by hardness, feeds that can be turned, chipped edges."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from hypothesis import given
from hypothesis import strategies as st

from crib.cutters import KINDS
from crib.cutters.base import Cutter
from crib.geometry.region import NOTHING
from crib.handbook.hard_metal import at_hardness
from crib.handbook.hardness import read_hardness
from crib.handbook.materials import find_material, materials
from crib.handbook.power import UNIT_POWER, cutting_power, torque, unit_power
from crib.handbook.speeds import cutting_speed, spindle_step
from crib.light.records import fields
from crib.machining.draft import Draft
from crib.machining.tool import Tool, ready
from crib.planning.advise import advise, jobs_for
from crib.planning.ask import read_request
from crib.planning.dialled.finish import finish
from crib.planning.search.weighed import weigh
from crib.planning.told.advice import Advice
from crib.planning.told.verdict import complete
from crib.shop import STIFFNESS, Shop
from tests.spelt import spelt
from tests.strategies import INCH

FT = 0.3048
STEPS = (60, 95, 150, 240, 380, 600, 950, 1500, 2400)


def end_mill(number: int = 1, inches: float = 0.5, **more: object) -> Cutter:
    values = {"material": "hss", "condition": "sharp", "flutes": 4, "measured": ("diameter_mm",),
              "length_of_cut_mm": 2.5 * inches * INCH, "shank_mm": 12.7, "centre_cutting": True, **more}
    return Cutter(number, "end-mill", f"{inches:g} end mill", diameter_mm=inches * INCH, **values)  # type: ignore[arg-type]


def asked(kind: str, cutters: tuple[Cutter, ...], shop: Shop | None = None, **texts: str) -> Advice:
    shop = shop or Shop()
    return advise(read_request(kind, texts, shop, "in"), cutters, shop).advice


def rules(advice: Advice) -> dict[str, str]:
    return {warning.id: warning.grade for warning in advice.plans[0].warnings}


@pytest.mark.parametrize(("name", "hardness", "least", "most"), [
    ("4140", "annealed", 70, 70), ("4140", "200 HB", 70, 70), ("4140", "30 HRC", 50, 50), ("4140", "32 HRC", 50, 50),
    ("4140 PH", "30 HRC", 50, 50), ("4140", "286 HB", 50, 50), ("4140", "37 HRC", 30, 40),
    ("4140 PH", "37 HRC", 30, 40), ("4140", "344 HB", 30, 40)])
def test_hss_speeds_by_hardness(name: str, hardness: str, least: float, most: float) -> None:
    """4140 at 37 HRC was run at the speed of annealed bar. Pre-hard steel of 28 to 32 HRC 50 ft/min, 30 to 40 at 37
    HRC: common practice, no source; Brinell to Rockwell C by ASTM E140, from memory."""
    metal = at_hardness(find_material(name), read_hardness(hardness))
    assert least - 1e-6 <= cutting_speed(metal) / FT <= most + 1e-6


def test_carbide_in_hard_steel() -> None:
    """Carbide was run at 2.5 times the annealed speed at 45 HRC. Common practice, no source: slower than in soft steel,
    and faster than HSS there."""
    soft, hard = find_material("O1"), at_hardness(find_material("O1"), 45.0)
    slow = cutting_speed(hard, cutter_material="carbide")
    assert 2.5 * cutting_speed(hard) < slow <= 0.6 * cutting_speed(soft, cutter_material="carbide")


@given(st.sampled_from(materials()), st.sampled_from(["hss", "carbide", "carbon-steel", "cobalt"]),
       st.floats(5, 65), st.floats(0, 20))
def test_harder_is_never_faster_nor_heavier(metal, steel, hrc, more):
    """Law: harder metal is cut no faster, no deeper and no coarser, and takes no less power."""
    one, other = at_hardness(metal, hrc), at_hardness(metal, hrc + more)
    assert cutting_speed(other, cutter_material=steel) <= cutting_speed(one, cutter_material=steel) + 1e-9
    for key in ("feed_factor", "bite_fraction", "side_step_mm", "centre_bite_fraction"):
        assert 0 < getattr(other, key) <= getattr(one, key) + 1e-12
    assert unit_power(other) >= unit_power(one) - 1e-12


@pytest.mark.parametrize(("steel", "hrc", "says"), [
    ("hss", 31, None), ("hss", 37, "caution"), ("hss", 39, "stop"), ("carbide", 45, None), ("carbide", 52, "stop"),
    ("carbon-steel", 24, "caution"), ("carbon-steel", 30, "stop"), ("carbon-steel", 36, "stop"),
    ("unknown", 36, "stop")])
def test_each_steel_has_its_own_limit(steel: str, hrc: int, says: str | None) -> None:
    """Carbon steel was given the limits of HSS. HSS to 32 and 38, carbide to 50: common practice, no source; carbon
    steel, and what may be, from memory."""
    found = asked("slot", (end_mill(material=steel),), width="1/2+.006-0", depth=".2", material="4140",
                  hardness=f"{hrc} HRC")
    if says == "stop":
        assert not found.plans and found.refused[0].id == "MT1"
    else:
        assert rules(found).get("MT1") == says


def test_carbon_steel_never_cuts_hard_304() -> None:
    """A carbon-steel mill on 304 at 36 HRC was told `will do`. Common practice, no source."""
    found = asked("slot", (end_mill(material="carbon-steel"),), width="1/2+.006-0", depth=".2", material="304",
                  hardness="36 HRC")
    assert found.answer == "cannot" and "36 HRC" in spelt(found.refused[0].says)


def test_a_drill_minds_hardness_too() -> None:
    """A hole in hardened work was drilled with HSS without a word. HSS to 38 HRC: common practice, no source."""
    drill = Cutter(1, "drill", "1/4 drill", diameter_mm=6.35, material="hss", condition="sharp",
                   measured=("diameter_mm",), length_of_cut_mm=70.0)
    sizes = {"diameter": "1/4+.010-0", "depth": "1/2", "material": "O1"}
    assert asked("hole", (drill,), hardness="45 HRC", **sizes).answer == "cannot"
    soft, tough = (asked("hole", (drill,), hardness=hrc, **sizes).plans[0].passes[-1] for hrc in ("annealed", "30 HRC"))
    assert tough.wanted_rpm < soft.wanted_rpm and tough.mm_per_min < soft.mm_per_min


CHIPPED = ("slot", "step", "t-slot", "dovetail", "undercut", "chamfer")
SIZES = {
    "slot": {"width": "1/2+.010-0", "depth": ".25"}, "step": {"width": "1/2", "depth": ".25"},
    "t-slot": {"throat": "5/8+.005-0", "depth": ".52", "head_width": ".975+.010-.010", "head_height": ".24+.005-.005"},
    "dovetail": {"angle": "60", "width": "1.2", "depth": ".3"}, "undercut": {"width": "1/8", "depth": ".09"},
    "chamfer": {"size": "1/16"},
}


def some_of_each(state: str, first: int = 1) -> tuple[Cutter, ...]:
    """A cutter of each sort that the questions above are for."""
    same = {"material": "hss", "measured": ("diameter_mm", "face_mm", "neck_mm"), "condition": state}
    sizes = (0.25, 0.375, 0.5, 0.625)
    mills = [end_mill(first + n, d, condition=state, shank_mm=d * INCH) for n, d in enumerate(sizes)]
    return (*mills,
            Cutter(first + 4, "t-slot-cutter", "t cutter", diameter_mm=24.765, face_mm=6.096, neck_mm=10.0,
                   reach_mm=25.0, shank_mm=12.7, flutes=8, **same),  # type: ignore[arg-type]
            Cutter(first + 5, "keyseat-cutter", "keyseat cutter", diameter_mm=19.05, face_mm=3.175, neck_mm=8.0,
                   reach_mm=25.0, shank_mm=12.7, flutes=8, **same),  # type: ignore[arg-type]
            Cutter(first + 6, "dovetail-cutter", "dovetail cutter", diameter_mm=19.05, face_mm=9.0, angle_deg=60.0,
                   neck_mm=7.0, reach_mm=20.0, shank_mm=12.7, flutes=6, **same),  # type: ignore[arg-type]
            Cutter(first + 7, "chamfer-cutter", "chamfer cutter", diameter_mm=12.7, angle_deg=90.0, tip_mm=0.0,
                   shank_mm=12.7, flutes=3, **same))  # type: ignore[arg-type]


@pytest.mark.parametrize("kind", CHIPPED)
@pytest.mark.parametrize("material", ["mild steel", "6061"])
def test_a_chipped_cutter_makes_no_size(kind: str, material: str) -> None:
    """A chipped mill alone made a throat while its page said `for roughing only`. Whatever is asked: with nothing but
    chipped cutters there is no plan and each refusal says why; beside sharp ones no face that the drawing names is made
    by a chipped one. Common practice, no source."""
    broken, sharp = some_of_each("chipped"), some_of_each("sharp", 11)
    texts = {**SIZES[kind], "length": "3", "material": material}
    alone = asked(kind, broken, **texts)
    assert asked(kind, sharp, **texts).plans, "the question can be answered"
    assert not alone.plans and alone.answer == "cannot"
    assert any(one.id == "CD1" and "chipped" in spelt(one.says) and one.fix for one in alone.refused)
    for plan in asked(kind, (*broken, *sharp), **texts).plans:
        made = {number for face in plan.proof.faces for number in face.cutter_ids}
        assert made and not made & {one.id for one in broken}


def test_a_chipped_cutter_may_rough() -> None:
    """It may take the middle out, where another that is sharp makes the walls and the floor."""
    request = read_request("slot", {"width": "5/8+.005-0", "depth": ".4", "length": "12"}, Shop(), "in")
    jobs, *_ = jobs_for(request, (end_mill(1, condition="chipped"), end_mill(2, 0.375, length_of_cut_mm=INCH)), Shop())
    broken, sharp = jobs.tools
    [(job,)] = list(jobs.of(broken, NOTHING))
    rough = Draft(jobs.question, (job,))
    assert {cut.role for cut in job.cuts} == {"rough"} and not complete(rough)
    done = [rough.then(*more) for more in jobs.of(sharp, job.removed)]
    assert any(complete(draft) and not weigh(draft, True).stopped and finish(weigh(draft, True)) for draft in done)


@pytest.mark.parametrize(("material", "caution"), [("304", False), ("titanium", False), ("mild steel", True),
                                                   ("6061", True)])
def test_a_dull_cutter(material: str, caution: bool) -> None:
    """Dull: no finishing pass in stainless or titanium, with a caution elsewhere. Common practice, no source."""
    found = asked("slot", (end_mill(condition="dull"),), width="1/2+.006-0", depth=".2", material=material)
    assert bool(found.plans) == caution
    assert rules(found)["CD1"] == "caution" if caution else found.refused[0].id == "CD1"


@pytest.mark.parametrize("state", ["burnt", "bent"])
def test_burnt_and_bent_are_out_of_service(state: str) -> None:
    found = asked("slot", (end_mill(condition=state),), width="5/8", depth=".2", material="6061")
    assert not found.plans and found.refused[0].id == "CD1" and state in spelt(found.refused[0].says)


def tools(shop: Shop, names: tuple[str, ...] = ("6061", "mild steel", "304", "magnesium", "nylon")) -> Iterator[Tool]:
    """Every registered kind that cuts along, in several metals."""
    for kind in KINDS.values():
        for name in names:
            if kind.example and (tool := ready(kind.example.but(id=1), shop, find_material(name))):
                yield tool


SHOPS = st.builds(
    Shop, spindle_rpm=st.sampled_from([None, STEPS, (80, 2720)]), stiffness=st.sampled_from(STIFFNESS),
    motor_kw=st.one_of(st.none(), st.floats(0.1, 3.0)), hand_feed_mm=st.floats(50, 500),
    power_feed_mm=st.one_of(st.none(), st.floats(50, 1000)))


@given(SHOPS)
def test_no_feed_is_more_than_a_hand_turns_nor_more_than_the_motor_pulls(shop):
    """966 mm/min was asked of a hand. Law, for every kind of cutter in every sort of metal: the feed is no more than
    the table's, and the heaviest cut takes no more than .8 of the motor (from memory) by the unit power of the metal,
    which is worked out here anew: horsepower minutes a cubic inch, of mild steel Machinery's Handbook 31st ed. p. 1147,
    of the others from memory."""
    unit = {"6061": 0.33, "mild steel": 0.69, "304": 0.72, "magnesium": 0.16, "nylon": 0.10}
    most = shop.power_feed_mm or shop.hand_feed_mm
    kw = shop.motor_kw or {"bench": 0.55, "knee": 1.1, "heavy": 2.2}[shop.stiffness]
    for name, each in unit.items():
        for tool in tools(shop, (name,)):
            assert 0 < tool.feed <= most + 1e-9 and tool.bite > 0
            diameter = tool.cutter.diameter_mm
            area = tool.form.height / 1e6 * diameter / 2 if tool.kind.buried else tool.bite / 1e6 * diameter
            horsepower = each * area / INCH**2 * tool.feed / INCH
            assert horsepower * 0.7457 <= 0.8 * kw + 1e-3


@pytest.mark.parametrize("name", [one.name for one in fields(Tool)])
def test_whatever_is_looked_at_first_of_a_tool_is_its_own(name: str) -> None:
    """A tool is made once somebody looks at it; a side step that was looked at first read as the class had it, 1 nm."""
    cutter, metal = KINDS["end-mill"].example, find_material("mild steel")
    assert cutter is not None
    first, whole = ready(cutter, Shop(), metal), ready(cutter, Shop(), metal)
    assert first and whole and whole.form
    assert getattr(first, name) == getattr(whole, name)


@pytest.mark.parametrize("kind", ["end-mill", "keyseat-cutter", "t-slot-cutter", "dovetail-cutter", "slitting-saw"])
def test_a_bench_mill_takes_less_of_everything(kind: str) -> None:
    """Bench, knee and heavy changed the bites of end mills alone. Law: with discs, saws and dovetail cutters too a
    bench mill takes less than a knee mill, in its bite or its feed."""
    cutter, metal = KINDS[kind].example, find_material("mild steel")
    assert cutter is not None
    bench, knee, heavy = (ready(cutter, Shop(stiffness=one), metal) for one in STIFFNESS)
    assert bench and knee and heavy
    if kind == "slitting-saw":
        assert bench.feed < knee.feed
    else:
        assert bench.side < knee.side < heavy.side and bench.centre_limit < knee.centre_limit


def test_a_slower_step_where_a_hand_cannot_keep_up() -> None:
    """A tooth that gets too little rubs: where the feed is as fast as it goes the spindle is set slower, and a weaker
    motor takes a thinner bite before the teeth rub (.0005 in from 1/4 in up, from memory)."""
    fast = ready(end_mill(flutes=8), Shop(spindle_rpm=STEPS, hand_feed_mm=100), find_material("6061"))
    assert fast and fast.step and fast.rpm < fast.wanted_rpm
    assert fast.feed / (fast.rpm * 8) >= 0.0005 * INCH - 1e-9
    weak, strong = (ready(end_mill(inches=1.0), Shop(motor_kw=kw), find_material("O1")) for kw in (0.03, 3.0))
    assert weak and strong and weak.bite < strong.bite
    assert weak.feed / (weak.rpm * 4) >= 0.0005 * INCH - 1e-9


def test_what_holds_the_feed_back_is_said() -> None:
    """A feed that is lowered says so, with what a hand goes by: seconds an inch, in a metric shop for 10 mm."""
    texts = {"width": "1/2+.006-0", "depth": ".2", "length": "4", "material": "6061"}
    for shop, words in ((Shop(), "7.5 s an inch"), (Shop(units="mm"), "for 10 mm"),
                        (Shop(power_feed_mm=254.0), "power feed"), (Shop(motor_kw=0.05), "motor")):
        plan = asked("slot", (end_mill(),), shop, **texts).plans[0]
        says = [spelt(warning.says, shop.units) for warning in plan.warnings if warning.id == "FD1"]
        assert len(says) == 1 and words in says[0]
        assert all(one.mm_per_min <= shop.most_feed_mm + 1e-9 for one in plan.passes)
    assert "FD1" not in rules(asked("slot", (end_mill(),), Shop(hand_feed_mm=2000, motor_kw=5), **texts))


def test_a_large_drill_is_fed_as_the_motor_pulls_it() -> None:
    """A 1 in drill in mild steel takes .69 hp for each cubic inch a minute (Machinery's Handbook 31st ed. p. 1147,
    Table 1b): a bench mill of 0.4 kW, .8 of it at the tool (from memory), pulls less than the drill's usual feed."""
    big = Cutter(1, "drill", "1 in drill", diameter_mm=INCH, material="hss", condition="sharp", shank_mm=12.7,
                 measured=("diameter_mm",), length_of_cut_mm=150.0)
    for kw, held in ((0.4, True), (5.0, False)):
        found = asked("hole", (big,), Shop(motor_kw=kw, spindle_rpm=STEPS), diameter="1+.015-0", depth="1",
                      material="mild steel")
        last = next(one for one in found.plans[0].passes if one.role == "drill")
        horsepower = 0.69 * 3.14159 / 4 * last.mm_per_min / INCH
        assert horsepower * 0.7457 <= 0.8 * kw + 1e-3 and (rules(found).get("FD1") == "note") == held
        assert (horsepower * 0.7457 > 0.8 * kw - 1e-3) == held


@pytest.mark.parametrize(("name", "row"), [("12L14", 1.20), ("1018", 1.88), ("1045", 2.24), ("4140", 1.88),
                                           ("titanium", 3.41)])
def test_unit_power_against_the_printed_rows(name: str, row: float) -> None:
    """W s/mm3. Machinery's Handbook, 31st ed., p. 1147, Table 1b; titanium: Metal Cutting Tool Handbook, 4th ed.,
    p. 524."""
    assert unit_power(find_material(name)) == pytest.approx(row, abs=0.01)


def test_power_and_torque() -> None:
    """1 hp is 63,025 in lb over the revolutions (formula of any handbook); every metal has its unit power."""
    hp = cutting_power(find_material("1018"), INCH**2, INCH) / 745.7
    assert hp == pytest.approx(0.69, rel=1e-4)
    assert torque(hp * 745.7, 100) / 0.112985 == pytest.approx(0.69 * 63025 / 100, rel=1e-3)
    assert {metal.name for metal in materials() if metal.group != "plastic"} == set(UNIT_POWER)
    assert all(source for _, source in UNIT_POWER.values())


@pytest.mark.parametrize(("material", "ft_min", "says"), [
    ("mild steel", 60, {"note", "warn", None}), ("mild steel", 100, {"warn"}), ("medium-carbon steel", 100, {"warn"}),
    ("bronze", 84, {"warn"}), ("mild steel", 200, {"stop"}), ("titanium", 84, {"stop"})])
def test_saws_at_shop_speeds(material: str, ft_min: float, says: set[str | None]) -> None:
    """HSS saws run at 60 to 100 ft/min in steel, and 84 in bronze, in any shop: that is a warning and no stop. Common
    practice, no source."""
    saw = Cutter(1, "slitting-saw", "saw", diameter_mm=76.2, face_mm=1.5875, bore_mm=25.4, flutes=30, material="hss",
                 condition="sharp", measured=("diameter_mm", "face_mm"))
    rpm = round(ft_min * 12 / 3.14159 / 3)
    tool = ready(saw, Shop(spindle_rpm=(rpm,)), find_material(material))
    assert tool and tool.step and tool.step.grade in says


def test_a_mill_too_fast_is_still_stopped() -> None:
    """1.5 times too fast burns an end mill (from memory); what a saw bears is no leave for it."""
    assert spindle_step(100, (160,)).grade == "stop" and spindle_step(100, (160,), 170).grade == "warn"


def test_unknown_steel_is_said_and_asked_once() -> None:
    """A cutter of unknown steel ran at half speed in silence. Until the owner says what most of his are, the answer
    says so in `assumed` and in a line; then it says that it rests on the habit."""
    texts = {"width": "1/2+.006-0", "depth": ".2", "material": "mild steel"}
    mill = end_mill(material="unknown")
    before, after = (asked("slot", (mill,), shop, **texts).plans[0] for shop in (Shop(), Shop(unknown_steel="hss")))
    assert any("steel not on record" in spelt(one) and "half" in spelt(one) for one in before.assumed)
    assert any("crib shop --unknown-steel hss" in spelt(w.says) for w in before.warnings if w.id == "UN1")
    assert any("steel not on record, run as HSS" in spelt(one) for one in after.assumed)
    assert not any(w.id == "UN1" for w in after.warnings)
    assert after.passes[0].wanted_rpm == pytest.approx(2 * before.passes[0].wanted_rpm, abs=1)
    known = asked("slot", (end_mill(),), **texts).plans[0]
    assert not any("steel not on record" in spelt(one) for one in known.assumed)


def test_a_hole_says_what_a_drill_of_unknown_steel_is_run_as() -> None:
    """Drills and reamers of unknown steel went half as fast in silence: only what cuts along said so."""
    drill = Cutter(1, "drill", diameter_mm=9.525, length_of_cut_mm=90.0)
    texts = {"diameter": "3/8+.010-.002", "depth": "3/4", "material": "1018"}
    unknown, known = (advise(read_request("hole", texts, shop, "in"), [drill], shop).advice.plans[0]
                      for shop in (Shop(), Shop(unknown_steel="hss")))
    assert any(w.id == "UN1" for w in unknown.warnings) and not any(w.id == "UN1" for w in known.warnings)
    assert any("steel not on record" in spelt(said) for said in unknown.assumed)
    by_hand = {"thread": "1/4-20", "depth": "1/2", "material": "1018"}
    tapped = [Cutter(2, "drill", diameter_mm=5.1054, length_of_cut_mm=60.0, material="hss"),
              Cutter(3, "tap", thread="1/4-20 UNC", tap_chamfer="plug")]
    plan = advise(read_request("tapped-hole", by_hand, Shop(), "in"), tapped, Shop()).advice.plans[0]
    assert not any(w.id == "UN1" for w in plan.warnings), "a tap that a hand turns has no speed"
