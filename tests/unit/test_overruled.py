"""What an owner's word changes: a craft rule is told as a note with his words, and nothing else is."""

from __future__ import annotations

import pytest

from crib.cutters.base import Cutter
from crib.findings.errors import CribError
from crib.findings.finding import Grade
from crib.geometry.region import NOTHING
from crib.light.records import replace
from crib.machining.draft import Draft
from crib.machining.overruled import overrule
from crib.planning.advise import advise, jobs_for
from crib.planning.ask import read_request
from crib.rules import judge, stops
from crib.rules.catalogue import BY_ID, GEOMETRY, Effect
from crib.rules.overruling import OWNERS, checked, checked_of_many
from tests.unit.test_catalogue import SHOP, SLIT, SPEAKS, Ask, said, saw

RULE = pytest.mark.parametrize("rule", OWNERS)
WORDS = "in this shop it does"


def overruling(ask: Ask, rule: str) -> Ask:
    """The same question in a shop that overrules a rule."""
    return ask.but(shop=replace(ask.shop, overruled=(f"{rule} {WORDS}",)))


@RULE
def test_each_rule_that_is_the_owners_fires_with_and_without_his_word(rule: str) -> None:
    """With it nothing comes of the rule but a note, nor is a cutter refused by it that the rule alone kept out."""
    speaks, silent = SPEAKS[rule]
    assert {grave for one, grave in said(speaks) if one == rule}
    with_it = {grave for one, grave in said(overruling(speaks, rule)) if one == rule}
    assert with_it <= {Grade.NOTE, Grade.REFUSES}
    assert rule not in {one for one, _ in said(overruling(silent, rule))}


@RULE
def test_what_is_the_owners_is_craft(rule: str) -> None:
    one = BY_ID[rule]
    assert one.source != GEOMETRY and Effect.OUTSIDE not in one.effects and set(one.effects) != {Effect.REFUSES}


@pytest.mark.parametrize("rule", sorted(set(BY_ID) - set(OWNERS)))
def test_no_word_changes_the_others(rule: str) -> None:
    """Neither is it taken, nor would it do anything if it stood in the shop's record."""
    with pytest.raises(CribError, match=f"{rule} stands"):
        checked(f"{rule} {WORDS}")


@pytest.mark.parametrize("rule", ["SF1", "SF2", "HD1", "HD2", "RE1", "TH3"])
def test_safety_and_geometry_stand_whatever_is_on_record(rule: str) -> None:
    """A record that some other program wrote changes nothing of them."""
    speaks, _ = SPEAKS[rule]
    assert said(overruling(speaks, rule)) == said(speaks)




def test_a_speed_of_his_own_is_the_one_that_is_run() -> None:
    """`I run that saw at 80`: the minutes and the feed go by it, and the rule on speed is a note."""
    cutters, asked = (saw(),), dict(SLIT.texts)
    shop = replace(SHOP, spindle_rpm=(80, 135, 210, 480))
    usual = advise(read_request("slit", asked, shop, "in"), cutters, shop).advice.plans[0]
    mine = read_request("slit", {**asked, "overrule": "I run that saw at 210"}, shop, "in")
    plan = advise(mine, cutters, shop).advice.plans[0]
    assert {one.rpm for one in usual.passes} != {210} and {one.rpm for one in plan.passes} == {210}
    assert sum(one.minutes for one in plan.passes) < sum(one.minutes for one in usual.passes)
    told = [one for one in plan.warnings if one.id == "SP1"]
    assert [one.grade for one in told] == [Grade.NOTE]
    assert told[0].overruled == ("SP1", "I run that saw at 210", "this question")
    assert any("I run that saw at 210" in str(one) for one in plan.assumed)


def test_how_one_kind_is_run_says_nothing_of_another() -> None:
    """The saw's speed in the shop's record left an end mill's speed alone."""
    shop = replace(SHOP, spindle_rpm=(900, 1800), overruled=("SP1 the saw runs at 1800",))
    texts = {"width": "1/2", "depth": "1/4", "material": "O1"}
    large = Cutter(1, "end-mill", diameter_mm=12.7, flutes=4, length_of_cut_mm=25.4, shank_mm=12.7, material="hss",
                   condition="sharp", centre_cutting=True)
    there = jobs_for(read_request("slot", texts, shop, "in"), (large,), shop)[0]
    idle = Draft(there.question, next(iter(there.of(there.tools[0], NOTHING))))
    plain = replace(shop, overruled=())
    without = jobs_for(read_request("slot", texts, plain, "in"), (large,), plain)[0]
    bare = Draft(without.question, next(iter(without.of(without.tools[0], NOTHING))))
    assert [(one.id, one.grade) for one in judge(idle)] == [(one.id, one.grade) for one in judge(bare)]
    assert [one.id for one in stops(idle)] == [one.id for one in stops(bare)]


@pytest.mark.parametrize(("text", "says"), [
    ("SW9 it does", "did you mean"), ("", "which rule"), ("it does well", "which rule"), ("SW3", "why SW3"),
    ("SP1 it runs at 80", "what runs at 80"), ("SF1 it is only for me", "keeps people"), ("RE1 it goes", "geometry"),
    ("CD1 it cuts", "on record"),
])
def test_what_cannot_be_overruled_is_said_with_why(text: str, says: str) -> None:
    with pytest.raises(CribError) as caught:
        checked_of_many(text)
    assert says in f"{caught.value.finding.says} {caught.value.finding.fix}"


@pytest.mark.parametrize(("text", "rule", "rpm", "kinds"), [
    ("SW2 I run that saw at 80", "SW2", 80, ("slitting-saw",)), ("sp1: the saw turns at 80 rpm", "SP1", 80,
                                                                  ("slitting-saw",)),
    ("I run my reamers at 60", "SP1", 60, ("reamer",)), ("RE4 5 diameters at 30 degrees is fine", "RE4", None, ()),
    ("CH1=brushed every inch", "CH1", None, ()), ("HO4 it goes at 45 degrees", "HO4", None, ()),
])
def test_words_are_read(text: str, rule: str, rpm: int | None, kinds: tuple[str, ...]) -> None:
    one = overrule(text)
    assert (one.rule, one.rpm) == (rule, rpm) and set(kinds) <= set(one.kinds)


