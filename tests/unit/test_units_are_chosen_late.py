"""Units, rounding and spelling are chosen where something is shown: nothing below puts a length into words."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from dataclasses import fields, is_dataclass, replace
from pathlib import Path
from typing import Any

import pytest

from crib.cutters.base import Cutter
from crib.findings.message import Message
from crib.planning.advice import Advice
from crib.planning.advise import advise
from crib.planning.ask import read_request
from crib.render.json import advice_json
from crib.render.words import words
from crib.shop import Arbor, Shop

ROOT = Path(__file__).parents[2] / "crib"
SPELLING = {"show", "in_words", "show_apart"}
PARTS = ("geometry", "machining", "rules", "planning", "tapping", "safety", "audits", "holders")
INCH = 25.4


def calls(path: Path) -> Iterator[str]:
    """Whatever in a file spells a length, or asks for units to do so."""
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.ImportFrom) and node.module == "crib.units":
            yield from (f"{path.name}: {alias.name}" for alias in node.names if alias.name in SPELLING)
        if isinstance(node, ast.FunctionDef) and node.name not in ("_rounded", "_ways", "read_request", "in_thous"):
            yield from (f"{path.name}: {node.name} takes units" for arg in node.args.args if arg.arg == "units"
                        if path.name != "ask.py")


@pytest.mark.parametrize("part", PARTS)
def test_no_length_is_spelt_before_it_is_shown(part: str) -> None:
    """A sentence made too early is in the wrong unit for whoever reads it later."""
    assert not [found for path in (ROOT / part).rglob("*.py") for found in calls(path)]


MILL = Cutter(1, "end-mill", "mill", diameter_mm=12.7, flutes=4, length_of_cut_mm=25.4, shank_mm=12.7,
              centre_cutting=True, material="hss", condition="sharp")
SAW = Cutter(2, "slitting-saw", "saw", diameter_mm=76.2, face_mm=1.5875, bore_mm=25.4, flutes=36, material="hss",
             condition="sharp")
DISC = Cutter(3, "t-slot-cutter", "disc", diameter_mm=24.0, face_mm=6.0, neck_mm=11.0, reach_mm=20.0, shank_mm=12.7,
              flutes=6, material="hss", condition="sharp")
DRILL = Cutter(4, "drill", "drill", diameter_mm=6.35, shank_mm=6.35, length_of_cut_mm=60.0, flutes=2, material="hss",
               condition="sharp")
OWNED = (MILL, SAW, DISC, DRILL)
ASKED = (
    ("slot", {"width": "15.9", "depth": "6", "length": "80", "material": "6061"}),
    ("slot", {"width": "14", "depth": "6", "length": "80", "ends": "closed"}),
    ("slit", {"width": "1.6", "depth": "6", "length": "40"}),
    ("t-slot", {"throat": "13", "depth": "15", "head_width": "26", "head_height": "7", "length": "90"}),
    ("step", {"width": "12", "depth": "9", "length": "50", "wall": "30@20"}),
    ("undercut", {"width": "6.5", "depth": "2", "length": "40"}),
    ("hole", {"diameter": "6.5", "depth": "30"}),
    ("dovetail", {"angle": "60", "depth": "9", "width": "50", "length": "90", "below": "1"}),
)
SHOP = Shop(units="mm", dro=False, arbors=(Arbor(25.4, 40.0),))


def answer(kind: str, texts: dict[str, str], shop: Shop) -> Advice:
    return advise(read_request(kind, texts, shop, "mm"), OWNED, shop).advice


def messages(value: Any) -> Iterator[Message]:
    """Every message in an answer, and those in messages."""
    if isinstance(value, Message):
        yield value
        yield from (found for _, fact in value.facts for found in messages(fact))
    elif is_dataclass(value):
        yield from (found for field in fields(value) for found in messages(getattr(value, field.name)))
    elif isinstance(value, tuple | list):
        yield from (found for inner in value for found in messages(inner))


@pytest.mark.parametrize(("kind", "texts"), ASKED)
def test_one_answer_is_read_in_both_units(kind: str, texts: dict[str, str]) -> None:
    """Planned once, worded twice: what is no sentence is the same, and every length is the same length. An inch is
    25.4 mm; three decimals of an inch are good to .0005 in."""
    advice = answer(kind, texts, SHOP)
    inch, metric = advice_json(advice, "in"), advice_json(advice, "mm")
    assert [plan["passes"][0]["x_mm"] for plan in inch["plans"]] == [plan["passes"][0]["x_mm"]
                                                                     for plan in metric["plans"]]
    told = 0
    for message in messages(advice):
        for name, fact in message.facts:
            if (mm := getattr(fact, "mm", None)) is None or not isinstance(mm, float):
                continue
            read = [words(Message(f"{{{name}}}", ((name, fact),)), units) for units in ("in", "mm")]
            told += 1
            if re.fullmatch(r"[-+]?\d*\.\d+", read[0]):
                assert float(read[0]) * INCH == pytest.approx(mm, abs=0.0005 * INCH + 1e-6), (message, read)
            assert float(read[1].removesuffix(" mm")) == pytest.approx(mm, abs=0.00051), (message, read)
    assert told


@pytest.mark.parametrize(("kind", "texts"), ASKED)
def test_the_units_of_the_shop_say_nothing_of_what_is_said(kind: str, texts: dict[str, str]) -> None:
    """What an inch shop's answer would say in mm, a metric shop's says: but for the handwheels and feelers, and the
    sizes that are rounded to the user's own steps, no number is made for one unit."""
    there = answer(kind, texts, replace(SHOP, edge_finder_mm=10.0, paper_mm=0.08, screw_lead_mm=5.0,
                                    knee_lead_mm=2.5))
    here = answer(kind, texts, replace(SHOP, units="in", edge_finder_mm=10.0, paper_mm=0.08, screw_lead_mm=5.0,
                                    knee_lead_mm=2.5))
    assert there.answer == here.answer
    for one, other in zip(there.plans, here.plans, strict=True):
        assert [words(w.says, "mm") for w in one.warnings] == [words(w.says, "mm") for w in other.warnings]
        assert [words(text, "mm") for text in one.assumed] == [words(text, "mm") for text in other.assumed]
