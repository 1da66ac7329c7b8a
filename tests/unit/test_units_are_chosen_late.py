"""Units, rounding and spelling are chosen where something is shown: nothing below puts a length into words."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator, Sequence
from dataclasses import fields, is_dataclass, replace
from pathlib import Path
from typing import Any

import pytest

from crib.cutters.base import Cutter
from crib.findings.message import Message
from crib.planning.advise import advise
from crib.planning.ask import read_request
from crib.planning.told.advice import Advice
from crib.render.json.answer import advice_json
from crib.render.words import words
from crib.shop import Arbor, Shop

ROOT = Path(__file__).parents[2] / "crib"
SPELLING = {"show", "in_words", "show_apart"}
PARTS = ("findings", "geometry", "handbook", "cutters", "holders", "features", "setups", "machining", "safety",
         "tapping", "rules", "planning", "buying", "audits")
"""All that stands below the pages but what reads words: it takes units, and answers in the units that it read."""

INCH = 25.4

BY_THE_READER = {
    "planning/ask.py": {"read_request", "_angles", "_sizes", "_length", "_walls", "_mate"},
    "planning/relax.py": {"_ways", "relax"},
    "planning/refused/case.py": {"_rounded", "geometry", "_turns_between", "_changed"},
    "planning/to_mic.py": {"_threshold"},
    "planning/process/dials.py": {"lead_mm", "division_mm"},
    "machining/methods/down_the_axis/boring.py": {"dial_step"},
    "rules/gib_screws.py": {"figures"},
    "handbook/dovetails.py": {"suitable_pin"},
    "handbook/sizes.py": {"read_size", "_unit"},
    "handbook/mates.py": {"from_mate"},
    "features/slants.py": {"pin_of"},
    "features/dovetail.py": {"_side_by_side"},
    "features/bolt_circle.py": {"_signed"},
    "features/woodruff.py": {"for_shaft"},
    "audits/use.py": {"only_one"},
    "buying/needs.py": {"needs"},
}
"""What is read in the user's units, and round sizes that are chosen by them: whole thous or hundredths, the divisions
of a handwheel, pins, screws and counterbores as they are made. No word is spelt there."""

NAMES = {
    "cutters/__init__.py": {"_named"},
    "cutters/label.py": {"label", "in_full", "named", "_named", "_size", "_across", "_in_shop", "as_said", "_phrase",
                         "_reground", "_measured"},
    "cutters/cutter.py": {"unnamed"},
    "cutters/gauged.py": {"parts_of_an_inch"},
    "cutters/on_arbor.py": {"made"},
    "buying/candidates.py": {"candidates", "said_cutter", "_numbered"},
    "buying/elsewhere.py": {"regrinds"},
    "buying/offers.py": {"collets"},
    "handbook/drill_sizes.py": {"drill_name"},
    "handbook/keys.py": {"parallel_key", "square_key", "key_height"},
    "handbook/woodruff.py": {"key_for_shaft"},
    "handbook/screws.py": {"hexagon_seat"},
    "features/for_screws.py": {"fitted", "counterbore_for", "countersink_for"},
    "features/t_slot.py": {"for_bolt", "_size"},
    "features/bore_keyseat.py": {"for_shaft"}, "features/keyseat.py": {"for_shaft"},
    "features/woodruff.py": {"_seat_of", "size"},
}
"""Names of tools and of a standard's sizes, in the unit that they are marked, said and tabled in: a 12.4 mm countersink
is called that in an inch shop too."""


def spelt_early(path: Path) -> Iterator[str]:
    """The functions of a file that spell a length, or ask in which units to do so."""
    place = path.relative_to(ROOT).as_posix()
    allowed = BY_THE_READER.get(place, set()) | NAMES.get(place, set())
    for function in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(function, ast.FunctionDef) and function.name not in allowed:
            yield from (f"{place}: {function.name}" for node in ast.walk(function) if _asks_for_units(node))


def _asks_for_units(node: ast.AST) -> bool:
    if isinstance(node, ast.Call):
        return isinstance(node.func, ast.Name) and node.func.id in SPELLING
    if isinstance(node, ast.arg):
        return node.arg == "units"
    return isinstance(node, ast.Attribute) and node.attr == "units"


@pytest.mark.parametrize("part", PARTS)
def test_no_length_is_spelt_before_it_is_shown(part: str) -> None:
    """A sentence made too early is in the wrong unit for whoever reads it later."""
    assert not [found for path in (ROOT / part).rglob("*.py") for found in spelt_early(path)]


@pytest.mark.parametrize("place", [*BY_THE_READER, *NAMES])
def test_what_may_know_of_units_still_does(place: str) -> None:
    """A function that is excused and needs it no more is taken off the list."""
    tree = ast.parse((ROOT / place).read_text(encoding="utf-8"))
    found = {function.name for function in ast.walk(tree) if isinstance(function, ast.FunctionDef)
             and any(map(_asks_for_units, ast.walk(function)))}
    assert BY_THE_READER.get(place, set()) | NAMES.get(place, set()) == found


def test_what_rounds_by_the_users_units_spells_nothing() -> None:
    for place, names in BY_THE_READER.items():
        for function in ast.walk(ast.parse((ROOT / place).read_text(encoding="utf-8"))):
            if isinstance(function, ast.FunctionDef) and function.name in names:
                assert not [node for node in ast.walk(function) if isinstance(node, ast.Call)
                            and isinstance(node.func, ast.Name) and node.func.id in SPELLING], (place, function.name)


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
    elif isinstance(value, Sequence) and not isinstance(value, str):
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
