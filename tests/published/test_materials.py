"""Names that a shop says, and what they must not be taken for."""

from __future__ import annotations

import subprocess
import sys

import pytest

from crib.findings.errors import CribError
from crib.handbook.materials import find_material, materials

SAID = {
    "cast iron": "grey cast iron", "Grey Iron": "grey cast iron", "gray iron": "grey cast iron", "CI": "grey cast iron",
    "GRAY CAST IRON": "grey cast iron", "meehanite": "grey cast iron", "nodular": None, "sg iron": "ductile cast iron",
    "CRS": "mild steel", "1018": "mild steel", "mild steel": "mild steel", "low-carbon steel": "mild steel",
    "A36": "mild steel", "steel 1018": "mild steel", "AISI 1018": "mild steel", "12L14": "free-machining steel",
    "12l14 steel": "free-machining steel", "EN8": "medium-carbon steel", "silver steel": "tool steel, annealed",
    "drill-rod": "tool steel, annealed", "O1": "tool steel, annealed", "o-1": "tool steel, annealed",
    "4140": "alloy steel, annealed", "4140 prehard": "pre-hard steel", "4140 hardened": None, "303": "stainless 303",
    "304": "stainless 304/316", "316L stainless": "stainless 304/316", "304 SS": "stainless 304/316",
    "6061": "aluminium 6061", "6061-T6": "aluminium 6061", "aluminum": "aluminium 6061",
    "7075 aluminium": "aluminium 6061", "A356": "cast aluminium", "brass": "free-cutting brass",
    "360": "free-cutting brass", "C360 brass": "free-cutting brass", "bronze": "bronze", "SAE 660": "bronze",
    "aluminum bronze": "aluminium bronze", "gunmetal": "bronze", "delrin": "acetal", "nylon 66": "nylon",
    "grade 5 titanium": "titanium 6Al-4V", "AZ31B magnesium": "magnesium", "BeCu": "beryllium copper",
    "copper": "copper", "steel": None, "stainless": None, "iron": None, "6061 steel": None, "1050": None, "wood": None,
    "brass 260": None, "": None, "  ": None, "cast steel": None, "#7": None, "nan": None,
}


@pytest.mark.parametrize("words", SAID)
def test_what_is_said(words):
    """Names and grades in common use, no one source; what could be several, or nothing, is asked and not guessed."""
    if SAID[words]:
        assert find_material(words).name == SAID[words]
        return
    with pytest.raises(CribError) as caught:
        find_material(words)
    assert caught.value.finding.id == "material"
    assert caught.value.finding.fix


@pytest.mark.parametrize("material", materials(), ids=lambda m: m.name)
def test_every_name_and_word_finds_its_own(material):
    for word in (material.name, *material.words):
        assert find_material(word) is material
    for source in ("speed", "feed", "bite", "side_step", "fluid"):
        assert getattr(material, f"{source}_source")


def test_near_ones_are_named():
    with pytest.raises(CribError) as caught:
        find_material("gray irn")
    assert "grey cast iron" in caught.value.finding.fix
    assert caught.value.finding.read == "gray irn"


def test_steels_are_named():
    with pytest.raises(CribError) as caught:
        find_material("steel")
    assert all(name in caught.value.finding.fix for name in ("mild steel", "tool steel, annealed"))


def test_nothing_heavy_is_imported():
    code = ("import sys; import crib.handbook.materials, crib.handbook.tslots, crib.handbook.bands, "
            "crib.handbook.bites, crib.handbook.feeds, crib.handbook.speeds, crib.handbook.deviations; "
            "from crib.handbook.materials import find_material; find_material('grey iron'); "
            "print([m for m in ('rapidfuzz', 'numpy', 'csv', 'json', 'pydantic', 'sqlalchemy') if m in sys.modules])")
    assert subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True).stdout == "[]\n"


OWN = """
asbestos | old brake lining | asbestos cement sheet | casting | unknown casting | an old casting | die casting
pot metal | mystery metal | scrap | unknown | chrome plated | chrome-plated steel | hard chrome rod | chromed bar
cadmium plated | cad plated steel | nickel plated brass | electroless nickel on 6061 | galvanised steel | galvanized
zinc plated mild steel | anodised 6061 | case hardened steel | nitrided steel | copper plated steel | chilled iron
white iron | white cast iron | tungsten carbide | HSS | high speed steel | wood | oak | white oak | MDF | plywood
fibreglass | GRP | G10 | FR4 | carbon fibre | glass | ceramic | marble | concrete | graphite | carbon brush | rubber
leather | beryllium | uranium
"""
BENCH = {
    "lead": "white metal", "lead sheet": "white metal", "babbitt": "white metal", "white metal": "white metal",
    "type metal": "white metal", "PVC": "PVC", "uPVC pipe": None, "PTFE": "PTFE",
    "glass-filled nylon": "glass-filled plastic", "PA66-GF30": "glass-filled plastic",
    "glass filled PTFE": "glass-filled plastic", "zamak": "zinc die casting", "zinc die cast": "zinc die casting",
    "cast iron with chill": "grey cast iron, hard skin", "cast iron with scale": "grey cast iron, hard skin",
    "copper bar": "copper", "acrylic": "acrylic", "HDPE": "polythene", "phenolic": "phenolic",
    "nickel silver": "nickel silver", "17-4PH": "stainless 400 series", "440C": "stainless 400 series",
    "magnesium casting": "magnesium", "aluminium casting": "cast aluminium", "chrome moly": "alloy steel, annealed",
    "leaded steel": "free-machining steel", "leaded bronze": "bronze", "titanium plate": "titanium 6Al-4V",
    "4140 plate": "alloy steel, annealed", "brass plate": "free-cutting brass", "tungsten": None, "monel": None,
    "silver": None, "tin": None, "lead free brass": None, "carbon steel": None, "spring steel": None, "plastic": None,
    "chrome": None, "nickel": None, "lead and tin": None,
}
"""What a bench meets, and what it is there: common practice, no source. None: it is asked about."""


@pytest.mark.parametrize("words", [each.strip() for line in OWN.strip().splitlines() for each in line.split("|")])
def test_what_is_not_cut_or_not_told_by_its_name_has_an_answer_of_its_own(words):
    """Asbestos, plated work and a casting of nobody knows what were answered with what is spelt like them. Common
    practice, no source."""
    with pytest.raises(CribError) as caught:
        find_material(words)
    said = caught.value.finding
    assert said.id == "material" and "is not known" not in said.says and "could be" not in said.says
    assert said.fix and "near" not in said.fix and "one of" not in said.fix


def test_no_wrong_neighbour_among_what_a_bench_meets():
    """Every phrase means what a shop means by it, or is asked about; wrong neighbours are counted."""
    wrong = []
    for words, means in BENCH.items():
        try:
            found = find_material(words).name
        except CribError:
            found = None
        if found != means:
            wrong.append((words, found, means))
    assert not wrong, f"{len(wrong)} of {len(BENCH)}"
