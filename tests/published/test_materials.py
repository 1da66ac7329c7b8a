"""Names that a shop says, and what they must not be taken for."""

from __future__ import annotations

import subprocess
import sys

import pytest

from crib.diagnostics import CribError
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
    assert caught.value.diagnostic.code == "material"
    assert caught.value.diagnostic.help


@pytest.mark.parametrize("material", materials(), ids=lambda m: m.name)
def test_every_name_and_word_finds_its_own(material):
    for word in (material.name, *material.words):
        assert find_material(word) is material
    for source in ("speed", "feed", "bite", "side_step", "fluid"):
        assert getattr(material, f"{source}_source")


def test_near_ones_are_named():
    with pytest.raises(CribError) as caught:
        find_material("gray irn")
    assert "grey cast iron" in caught.value.diagnostic.help
    assert caught.value.diagnostic.read == "gray irn"


def test_steels_are_named():
    with pytest.raises(CribError) as caught:
        find_material("steel")
    assert all(name in caught.value.diagnostic.help for name in ("mild steel", "tool steel, annealed"))


def test_nothing_heavy_is_imported():
    code = ("import sys; import crib.handbook.materials, crib.handbook.tslots, crib.handbook.bands, "
            "crib.handbook.bites, crib.handbook.feeds, crib.handbook.speeds, crib.handbook.deviations; "
            "from crib.handbook.materials import find_material; find_material('grey iron'); "
            "print([m for m in ('rapidfuzz', 'numpy', 'csv', 'json', 'pydantic', 'sqlalchemy') if m in sys.modules])")
    assert subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True).stdout == "[]\n"
