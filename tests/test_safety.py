"""What is referred, what isn't, and what is printed under a plan."""

from __future__ import annotations

import pytest

from crib.handbook.materials import find_material, materials
from crib.planning.cautions import BURIED, GENERAL, cautions
from crib.planning.refer import TEXT, refer

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
    ("6061", ("grind",))])
def test_materials_dangers_come_first(name, must):
    """Common practice, no source."""
    said = cautions(find_material(name), ["end-mill"])
    first = said[: said.index(GENERAL[0])]
    assert all(any(word in line for line in first) for word in must)


def test_discs_and_saws():
    assert BURIED in cautions(find_material("grey iron"), ["end-mill", "keyseat-cutter"])
    assert BURIED not in cautions(find_material("grey iron"), ["end-mill"])
    assert any("every inch" in line for line in cautions(find_material("6061"), ["t-slot-cutter"]))
    assert any("guard the saw" in line for line in cautions(find_material("6061"), ["slitting-saw"]))


@pytest.mark.parametrize("material", [*materials(), None], ids=lambda m: m.name if m else "unknown")
def test_everyday_ones_are_always_there(material):
    said = cautions(material, ["end-mill", "keyseat-cutter", "keyseat-cutter"])
    assert any("spindle stopped" in line for line in said) and any("burrs" in line for line in said)
    assert len(said) == len(set(said)) and all(len(line) < 110 for line in said)
