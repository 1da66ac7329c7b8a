"""What is taken for granted is said where it counts, once, and in words that fit what is made. Common practice, no
source."""

from __future__ import annotations

from dataclasses import replace

import pytest

from crib.cutters.base import Cutter
from crib.pages.answer import page
from crib.pages.first_screen import steel
from crib.pages.part.page import part_page
from crib.pages.part.sheet import part_sheet
from crib.pages.setup_sheet import setup_sheet
from crib.pages.sheet import sheet
from crib.planning.advise import Answered, advise
from crib.planning.ask import read_request
from crib.render.terminal.lines import lines
from crib.render.words import words
from tests.part_samples import SLIDE, one_after_the_other, placed, planned
from tests.slant_samples import end_mill
from tests.unit.test_cost import BENCH, CUTTERS, SLOT, T_SLOT

GIVEN = "(none was given)"


def answered(kind: str, *cutters: Cutter, **texts: str) -> Answered:
    return advise(read_request(kind, texts, BENCH, "in"), cutters or CUTTERS, BENCH)


@pytest.mark.parametrize(("kind", "cutter", "texts", "when"), [
    ("facing", end_mill(1, 0.5), {"width": "1", "depth": ".040"}, "first"),
    ("slot", end_mill(1, 0.5), {"width": "1/2", "depth": "1/4"}, "before the walls"),
    ("step", end_mill(1, 0.5), {"width": "3/8", "depth": "1/4"}, "before the walls")])
def test_a_face_has_no_walls(kind: str, cutter: Cutter, texts: dict[str, str], when: str) -> None:
    """`mic it before the walls` was said of the cutter of a face."""
    plan = answered(kind, cutter.but(measured=()), **texts).advice.plans[0]
    told = [words(one.says, "in") for one in plan.warnings if one.id == "PR1" and "isn't measured" in words(
        one.says, "in")]
    assert [one.rpartition("mic it ")[2] for one in told] == [when]


@pytest.mark.parametrize("texts", [SLOT, {key: text for key, text in SLOT.items() if key != "material"}])
def test_a_set_up_sheet_tells_the_metal_once(texts: dict[str, str]) -> None:
    """The line of sizes named it again, and a metal that is only taken for granted stood there as if it was given."""
    facts = {label: words(fact, "in") for label, fact in setup_sheet(answered("slot", **texts)).facts}
    assert facts["sizes"] == "slot, width 1/2+.030-.030 (.470 to .530), depth .200, length 4.000"
    assert facts["material"] == ("mild steel" if "material" in texts else f"mild steel {GIVEN}")


def test_a_part_says_which_metal_it_took() -> None:
    """Of a part without a metal nothing told that all of it was planned for mild steel."""
    bare = replace(SLIDE, material="", features=SLIDE.features[3:5])
    of_brass = replace(bare, features=(placed("oil hole", "hole", (3.0, 2.2), diameter="1/8", depth="1/4",
                                              material="brass"),))
    for part, metal in ((bare, f"mild steel {GIVEN}"), (of_brass, "")):
        plan = one_after_the_other(part, BENCH)
        facts = {label: words(fact, "in") for label, fact in part_sheet(plan, BENCH).facts}
        assert facts.get("material", "") == metal
        assert (GIVEN in " ".join(lines(part_page(plan), "in", 100, True))) is bool(metal)
    assert "grey iron" in " ".join(lines(part_page(planned()), "in", 100, True))


def test_a_part_says_whose_steel_is_unknown() -> None:
    """Each answer did, and the part that is made of them ran them half as fast without a word. One that a hand turns
    has no speed."""
    plan = planned()
    assert "Steel:" not in " ".join(lines(part_page(plan), "in", 100, True))
    slow = [answered("t-slot", *(one.but(material="unknown") for one in CUTTERS), **T_SLOT).proved[0].plan,
            answered("tapped-hole", *(one.but(material="unknown") for one in CUTTERS if one.kind != "drill"),
                     *(one for one in CUTTERS if one.kind == "drill"), thread="1/4-28", depth="1/2").proved[0].plan]
    unknown = {one.id for plan in slow for one in plan.cutters if one.material == "unknown" and one.kind != "tap"}
    told = words(steel(slow), "in")
    assert told.startswith("of no. " + ", ".join(map(str, sorted(unknown)))) and "--unknown-steel hss" in told


@pytest.mark.parametrize(("kind", "texts", "says"), [
    ("slot", SLOT, " for the first of 4"), ("hole", {"diameter": "1/4", "depth": "1/2"}, ""),
    ("slot", SLOT | {"count": "1"}, "")])
def test_of_several_it_is_told_whose_minutes_they_are(kind: str, texts: dict[str, str], says: str) -> None:
    """`4 off` was read and then not seen again: the minutes are of one, those of holes of all."""
    found = answered(kind, **{"count": "4", **texts})
    minutes = f"{found.advice.plans[0].minutes:.0f} min{says}"
    assert f"{minutes} " in " ".join(" ".join(lines(sheet(found), "in", 200, True)).split()) + " "
    assert dict(setup_sheet(found).facts)["takes"] == f"about {minutes}"


def test_only_whose_size_counts_is_to_be_miked() -> None:
    """`mic it` stood beside a spot drill before a reamer: nobody mics what only sets a place. Beside the drill it does:
    a reamer follows it."""
    spot = Cutter(1, "spot-drill", "the spot drill", diameter_mm=9.525, angle_deg=90.0, material="hss",
                  condition="sharp", shank_mm=9.525)
    drill = Cutter(2, "drill", "the drill", diameter_mm=12.303, material="hss", condition="sharp", shank_mm=12.303)
    ream = Cutter(3, "reamer", "the reamer", diameter_mm=12.7, material="hss", condition="sharp", shank_mm=12.0,
                  flutes=6, measured=("diameter_mm",))
    found = answered("hole", spot, drill, ream, diameter="1/2", depth="1-1/4", through="yes", finish="reamed")
    assert [one.id for one in found.advice.plans[0].cutters] == [1, 2, 3]
    rows = [one for one in lines(page(found.advice), "in", 100, True) if "drill chuck" in one][:3]  # then it is said
    assert ["mic it" in one for one in rows] == [False, True, False]
