"""What is referred, what isn't, and what is printed under a plan."""

from __future__ import annotations

from pathlib import Path

import pytest

from crib.cutters.base import Cutter
from crib.cutters.disc import BURIED
from crib.findings.errors import CribError
from crib.handbook.materials import find_material, materials
from crib.handbook.threads import read_thread
from crib.planning.advise import advise
from crib.planning.ask import read_request
from crib.safety.cautions import GENERAL, OIL, cautions
from crib.safety.refer import TEXT, refer
from crib.shop import Shop
from crib.tapping.advise import advise_tap
from crib.tapping.shape import Asking

REFERRED = """
pressure | pressure vessel | pressurised fitting | steam | steam chest | hydraulic | hydraulics | gas | gas fitting
boiler | boiler clack | safety valve | compressed air | air receiver | pneumatic | lift | lifting | lifting eye
LIFTING | lifts | lifter | lifting_eye | lifting-eye | eye bolt | eyebolt | eye-bolts | ring bolt | hoist | hoisting
hoist hook | crane | shackle | winch drum | jack | jack stand | block and tackle | brake | brakes | braking
brake caliper bracket | steering | steering arm | suspension | suspension link | vehicle | vehicles | car | truck
trailer | tow hook | motorcycle | motorbike | aircraft | aircraft part | airplane | helicopter | ladder | step ladder
child's swing seat | porch swing | swing hanger | hammock hook
scaffold | scaffolding | climbing | climbing hold | belay device | medical | medical device | surgical | dental
implant | firearm | gun | rifle bolt | pistol | breech block | receiver, rifle receiver | earth stud | earthing
grounding stud | ground lug | grinding wheel | grinding wheel flange | wheel guard | guard | guards | no lifting
liftng | presure | hydralic | vehical suspension | aircaft | boilers | elevator | overhead load | lifting gear
wheelchair | uplift | seat belt bracket | roll cage | fuel line | safety critical
"""
INNOCENT = """
cover | slide | load | jig | fixture | clamp | side-lay slide of a hand proof press | proof press | printing press
platen | press cylinder | impression screw | compression spring | gunmetal bush | gasket face | climb cut
climb milling | ground flat stock | machinist jack | press brake tooling | gear train | bus bar | cast iron table
light load | T-slot for a hold-down bolt | carriage | bearing block | toolpost | vise jaw | dial plate | cam
lever | guide | gauge block holder | lining | listing | fitting | shifting fork | tilting table | sledge | bridge
breaking edge | bracket | heavy load | card holder | surface plate | blade holder | stripping plate | ink duct | medium
"""


def words(block: str) -> list[str]:
    return [word.strip() for line in block.strip().splitlines() for word in line.split("|")]


@pytest.mark.parametrize("use", words(REFERRED))
def test_referred(use):
    """Common practice, no source."""
    said = refer(use)
    assert said and said.endswith(TEXT)
    assert refer(None, use) == said
    assert refer(None, None, f"the {use} of my neighbour") is not None


@pytest.mark.parametrize("use", words(INNOCENT))
def test_not_referred(use):
    assert refer(use) is None


def test_nothing_said():
    assert refer(None) is None and refer("") is None and refer(None, None, "") is None


@pytest.mark.parametrize(("name", "must"), [
    ("magnesium", ("burns", "no water", "class D")), ("titanium", ("burn",)), ("BeCu", ("lungs", "dry")),
    ("SAE 660", ("lead", "wash hands")), ("360 brass", ("leaded",)), ("grey iron", ("dust", "mask")),
    ("ductile iron", ("dust",)), ("mild steel", ("hook",)), ("304", ("dwell",)), ("copper", ("stains",)),
    ("6061", ("grind",)), ("lead", ("poison", "wash hands")), ("babbitt", ("lead", "wash hands")),
    ("PVC", ("acid",)), ("PTFE", ("fumes",)), ("glass-filled nylon", ("dust", "lungs")), ("zamak", ("burn",))])
def test_materials_dangers_come_first(name, must):
    """Common practice, no source."""
    said = cautions(find_material(name), ["end-mill", "slitting-saw"])
    first = said[: next(place for place, line in enumerate(said) if "guard the saw" in line)]
    fluids = said[len(first):]
    assert all(any(word in line for line in (*first, *fluids)) for word in must)


def test_discs_and_saws():
    assert BURIED in cautions(find_material("grey iron"), ["end-mill", "keyseat-cutter"])
    assert BURIED not in cautions(find_material("grey iron"), ["end-mill"])
    assert any("stop often" in line for line in cautions(find_material("6061"), ["t-slot-cutter"]))
    assert any("guard the saw" in line for line in cautions(find_material("6061"), ["slitting-saw"]))


@pytest.mark.parametrize("material", [*materials(), None], ids=lambda m: m.name if m else "unknown")
def test_what_goes_for_any_work_is_said_once_and_not_under_a_plan(material):
    """Eight lines under every answer that go for any work at a mill are read by nobody: they stand at the head of a
    printed sheet and in the README, and what is under a plan is of this plan and this metal."""
    said = cautions(material, ["end-mill", "keyseat-cutter", "keyseat-cutter"])
    assert not set(said) & set(GENERAL)
    assert len(said) == len(set(said)) and all(len(line) < 110 for line in said)
    wet = material is not None and not material.fluid.startswith("dry")
    assert (OIL in said) == wet and (wet or not any("oil on copper" in line for line in said))
    page = (Path(__file__).parents[1] / "README.md").read_text(encoding="utf-8").lower()
    assert all(page.count(line) == 1 for line in GENERAL)


def test_a_drill_grabs_only_where_it_breaks_through():
    """It was said under every hole, blind ones too. Common practice, no source."""
    drill = Cutter(1, "drill", "1/4 drill", diameter_mm=6.35, material="hss", condition="sharp",
                   measured=("diameter_mm",), length_of_cut_mm=70.0)
    def said(**more):
        request = read_request("hole", {"diameter": "1/4+.010-0", "depth": "1/2", "material": "1018", **more},
                               Shop(), "in")
        return advise(request, (drill,), Shop()).advice
    blind, through, over = said(), said(through="yes"), said(below="2")
    assert blind.plans and through.plans and over.plans
    assert not any("grabs" in line for one in (blind, over) for line in one.cautions)
    assert any("grabs" in line for line in through.cautions)
    for goes_through in (True, False):
        tapped = advise_tap(Asking(read_thread("1/4-20"), material="1018", depth_mm=12.7, through=goes_through),
                            (drill.but(diameter_mm=5.1),), Shop())
        assert any("grabs" in line for line in tapped.cautions) == goes_through


def test_magnesium_is_asked_about_before_it_is_planned():
    """Magnesium burns: no plan until the owner has said that the bench is ready. Common practice, no source."""
    mill = Cutter(1, "end-mill", "1/2 end mill", diameter_mm=12.7, material="hss", condition="sharp", flutes=4,
                  measured=("diameter_mm",))
    request = read_request("slot", {"width": "1/2+.006-0", "depth": ".2", "material": "AZ31B"}, Shop(), "in")
    with pytest.raises(CribError) as caught:
        advise(request, (mill,), Shop())
    assert caught.value.finding.id == "magnesium" and "class D" in (caught.value.finding.fix or "")
    assert advise(request, (mill,), Shop(magnesium=True)).advice.plans
