"""Every rule of the catalogue: asked once so that it speaks, and once nearly the same so that it is silent."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path

import pytest

from crib.cutters.base import Cutter
from crib.features import KINDS
from crib.features.request import Request
from crib.findings.finding import Grade
from crib.geometry.region import NOTHING
from crib.handbook.threads import read_thread
from crib.machining.draft import Draft
from crib.planning.advise import advise, jobs_for
from crib.planning.ask import read_request
from crib.planning.reckoning.cost import chance_of
from crib.rules import judge
from crib.rules.catalogue import BY_ID, EFFECTS, RULES
from crib.shop import SETTINGS, Arbor, BoringHead, Shop
from crib.tapping.advise import advise_tap
from crib.tapping.shape import Asking
from tests.docs import findings
from tests.docs.catalogue import BLOCK, PAGE, SUBJECTS, block

IN = 25.4
ROOT = Path(__file__).parents[2]
SURE = ("diameter_mm", "face_mm", "neck_mm", "length_of_cut_mm", "shank_mm")
SHOP = Shop(spindle_rpm=(60, 120, 240, 480, 960, 1900), collets_mm=(6.35, 9.525, 12.7), chuck_mm=12.7,
            arbors=(Arbor(25.4, 44.45),), backlash_mm=0.0, unknown_steel="hss")


@dataclass(frozen=True)
class Ask:
    """A question of these cutters in this shop."""

    kind: str
    cutters: tuple[Cutter, ...]
    texts: tuple[tuple[str, str], ...]
    shop: Shop = SHOP

    def but(self, *cutters: Cutter, shop: Shop | None = None, **texts: str) -> Ask:
        """The same with other cutters, another shop, some texts changed; an empty text is left out."""
        said = {**dict(self.texts), **texts}
        return Ask(self.kind, cutters or self.cutters, tuple((k, v) for k, v in said.items() if v), shop or self.shop)


def q(kind: str, *cutters: Cutter, shop: Shop = SHOP, **texts: str) -> Ask:
    return Ask(kind, cutters, tuple(texts.items()), shop)


def some(kind: str, inches: float, **more: object) -> Cutter:
    same = {"material": "hss", "condition": "sharp", "measured": SURE, "shank_mm": 12.7, "label": f"{inches:g} {kind}",
            "id": 1, "diameter_mm": inches * IN}
    return Cutter(kind=kind, **{**same, **more})  # type: ignore[arg-type]


def mill(inches: float = 0.5, **more: object) -> Cutter:
    return some("end-mill", inches, **{"flutes": 2, "length_of_cut_mm": 25.4, "centre_cutting": True, **more})


def disc(kind: str = "keyseat-cutter", inches: float = 0.75, **more: object) -> Cutter:
    return some(kind, inches, **{"id": 2, "face_mm": 4.7625, "neck_mm": 7.0, "reach_mm": 25.0, "flutes": 8, **more})


def tail(**more: object) -> Cutter:
    return some("dovetail-cutter", 0.75, **{"id": 3, "face_mm": 9.0, "angle_deg": 60.0, "neck_mm": 7.0, "flutes": 6,
                                           "reach_mm": 20.0, **more})


def saw(**more: object) -> Cutter:
    return some("slitting-saw", 4.0, **{"face_mm": 0.032 * IN, "bore_mm": 25.4, "flutes": 20, "shank_mm": None, **more})


def drill(inches: float = 0.25, number: int = 1, **more: object) -> Cutter:
    return some("drill", inches, **{"id": number, "length_of_cut_mm": 70.0, "shank_mm": inches * IN, **more})


def tap(thread: str, number: int = 5, **more: object) -> Cutter:
    same = {"tap_chamfer": "plug", "tap_form": "cutting", "tap_point": "straight", "material": "hss",
            "condition": "sharp"}
    return Cutter(id=number, kind="tap", thread=thread, label=f"{thread} tap", **{**same, **more})  # type: ignore[arg-type]


def cone(kind: str = "chamfer-cutter", **more: object) -> Cutter:
    return some(kind, 0.5, **{"angle_deg": 90.0, "tip_mm": 0.0, "flutes": 3, **more})


SLOT = q("slot", mill(), width="1/2+.006-0", depth=".2", length="3", material="grey iron")
WIDE = SLOT.but(mill(0.375), width="1/2+.010-0")
STEP = q("step", mill(), width=".4", depth=".2", length="3", material="mild steel")
TEE = q("t-slot", mill(0.5), disc(), throat="1/2+.006-0", depth=".5", head_width=".9+.02-.02",
        head_height=".1875+.01-0", length="4", material="grey iron")
SHARED = q("shared slot", mill(condition="chipped"), mill(0.375, id=2), width="5/8+.005-0", depth=".4", length="3",
           material="mild steel")
TWO = TEE.but(mill(0.5), disc(face_mm=3.175))
TAIL = q("dovetail", mill(0.5), tail(), angle="60", width="1.3", depth=".3", length="4", material="grey iron")
FACE = q("facing", some("fly-cutter", 2.5, shank_mm=12.7), width="2", depth=".04", length="4", material="grey iron")
SIDE = q("undercut", disc(face_mm=3.175), width="1/8+.01-0", depth=".1", length="3", material="mild steel")
EDGE = q("chamfer", cone(), size="1/16", length="4", material="mild steel")
SLIT = q("slit", saw(), width=".032+.004-0", depth=".4", length="3", material="mild steel")
HOLE = q("hole", drill(), diameter="1/4+.010-0", depth="1/2", material="mild steel")
REAM = q("hole", drill(0.238), some("reamer", 0.25, id=2, flutes=6, length_of_cut_mm=38.0, shank_mm=6.0),
         diameter="1/4+.001-0", depth="3/4", material="mild steel", finish="reamed")
BORED = q("hole", drill(31 / 64), some("boring-bar", 0.375, id=2, min_hole_mm=11.1125), diameter="3/4+.001-0",
          depth="3/4", material="grey iron", finish="bored",
          shop=replace(SHOP, boring_heads=(BoringHead(12.7, 9.0, 90.0),)))
BORE = q("counterbore", some("counterbore", 0.4375, pilot_mm=0.2625 * IN, shank_mm=9.525), diameter="7/16+.010-0",
         depth=".25", hole=".266", material="mild steel")
SINK = q("countersink", cone("countersink", angle_deg=82.0), diameter=".385", angle="82", hole=".201",
         material="mild steel")
SPOTTER = some("counterbore", 0.5625, id=7, shank_mm=12.7, pilot_mm=5.3975)
GIB = q("gib-screw-holes", SPOTTER, drill(0.213), tap("1/4-28"), some("spot-drill", 0.375, id=8, angle_deg=90.0),
        some("countersink", 0.5, id=9, angle_deg=90.0, flutes=3), thread="1/4-28", number="2", length="6", angle="60",
        height="3/4", gib="1/8", nut="7/16", material="grey iron", thickness=".5", use="slide")
TAP = q("tap", drill(0.201), tap("1/4-20"), thread="1/4-20", material="mild steel", depth="1/2", below="1")
CLOSED = SLOT.but(ends="closed", length="2")
CLOSED_TEE = TEE.but(mill(0.5), disc(inches=0.48, neck_mm=5.0, face_mm=4.8), ends="closed", length="3",
                     head_width=".6+.02-.02")

RUN_OUT = q("keyseat", disc(inches=1.5, face_mm=6.35, neck_mm=9.5, reach_mm=40.0), width="1/4+.002-0",
            depth="1/8+.015-0", shaft="1.25", length="2", material="mild steel", run_out="yes")
FLATS = q("flats", mill(), across="1/2+.005-.005", number="4", length="3/8", stock="3/4", material="mild steel")
CIRCLE = q("bolt-circle", drill(), diameter="2", number="4", hole="1/4+.010-0", depth="1/2", material="mild steel")
POCKET = q("pocket", mill(), width="1-1/4", length="2", depth=".2", corner_radius="1/4", material="grey iron")

GROOVE = q("internal-groove", some("grooving-bar", 0.5, id=2, face_mm=4.7625, length_of_cut_mm=2.2, min_hole_mm=15.0,
                                   reach_mm=40.0),
           bore="1+.001-0", diameter="1.066+.006-0", width="3/16+.004-0", from_face="1/4", material="mild steel",
           shop=replace(SHOP, boring_heads=(BoringHead(12.7, 9.0, 90.0),)))
FLAT = q("flat-bottomed-hole", diameter="3/8+.006-0", depth="1/2", material="mild steel")

ROUND = q("corner-round", some("corner-rounding-cutter", 0.625, radius_mm=3.175, tip_mm=9.525, shank_mm=12.7),
          radius="1/8", material="6061")

SLOT_IN_BORE = q("bore-keyseat", some("slotting-tool", 0.5, face_mm=0.251 * IN, min_hole_mm=0.69 * IN), bore="1",
                 width="1/4+.002-0", depth=".130+.010-0", hub="3/4", material="mild steel")
BROACHED = q("bore-keyseat", some("broach", 0.251), bore="1", width="1/4+.002-0", depth=".130+.010-0", hub="3/4",
             material="mild steel")

SPEAKS: dict[str, tuple[Ask, Ask]] = {
    "HD1": (SLOT.but(mill(shank_mm=14.0)), SLOT),
    "HD2": (SLOT.but(shop=replace(SHOP, collets_mm=(6.35,))), SLOT),
    "HD3": (SLIT.but(depth="1.4"), SLIT),
    "MT1": (SLOT.but(material="O1", hardness="45 HRC"), SLOT.but(material="O1", hardness="25 HRC")),
    "MT3": (HOLE.but(material="304"), HOLE),
    "MT4": (SIDE.but(depth=".002+.0005-.0005", material="304"), SIDE.but(depth=".002+.0005-.0005")),
    "MT5": (HOLE.but(material="brass"), HOLE),
    "SP1": (SLOT.but(shop=replace(SHOP, spindle_rpm=(2400,))), SLOT),
    "FD1": (SLOT.but(material="6061"), SLOT.but(material="6061", shop=replace(SHOP, power_feed_mm=2000.0))),
    "UN1": (SLOT.but(mill(material="unknown"), shop=Shop()), SLOT.but(mill(material="unknown"))),
    "CD1": (SLOT.but(mill(condition="chipped")), SLOT),
    "G10": (SLOT.but(mill(hand="left")), SLOT),
    "G5": (SIDE.but(mill(0.75, length_of_cut_mm=2.0, corner_radius_mm=0.8, shank_mm=6.35)), SIDE),
    "G6": (STEP.but(wall=".1@.405"), STEP),
    "G7": (SLOT.but(mill(diameter_mm=None, nominal_mm=12.7, reground=True, measured=())), SLOT),
    "G8": (TEE, SLOT),
    "G11": (WIDE.but(mill(0.496, corner_radius_mm=2.0)),
            WIDE.but(mill(0.496, corner_radius_mm=2.0), floor_radius=".1")),
    "G12": (WIDE.but(width="1/2+.0015-0"), WIDE),
    "G14": (TEE.but(hours="9"), TEE.but(hours="2")),
    "KD1": (SLOT.but(mill(), drill(number=4)), SLOT),
    "PR1": (SLOT.but(mill(measured=())), SLOT),
    "RE1": (SLOT.but(mill(length_of_cut_mm=4.0)), SLOT),
    "RE2": (TEE.but(mill(0.5), disc(reach_mm=6.0, shank_mm=15.0)), TEE),
    "RE4": (SLOT.but(mill(overall_length_mm=110.0)), SLOT),
    "SZ2": (SLOT.but(mill(0.497)), SLOT),
    "SZ3": (SLOT.but(mill(0.625)), SLOT),
    "SU1": (SLOT.but(disc("side-cutter", 4.0, face_mm=6.35, bore_mm=25.4, neck_mm=None, reach_mm=None, shank_mm=None),
                     width="1/4+.006-0"), SLOT),
    "JN1": (SHARED, SLOT),
    "RO1": (WIDE.but(width=".5003+.0005-0", shop=replace(SHOP, dro=False)), WIDE),
    "RO2": (STEP.but(depth=".2500+.001-0", shop=replace(SHOP, dro=False)), STEP),
    "TO1": (STEP.but(depth=".008+.0006-.0006"), STEP.but(depth=".25+.0006-.0006")),
    "BU1": (SLOT.but(disc(inches=0.5, face_mm=6.35, neck_mm=5.0, shank_mm=6.35)), SLOT),
    "CL1": (SLOT.but(shop=replace(SHOP, backlash_mm=0.3)), SLOT),
    "CL2": (TEE, SLOT),
    "LR1": (SLOT, SIDE),
    "PO1": (SLOT.but(material="mild steel"), SLOT),
    "CL3": (WIDE.but(ends="one"), WIDE),
    "NK1": (TEE.but(mill(0.5), disc(neck_mm=11.0)), TEE),
    "NK2": (SIDE.but(disc(face_mm=3.175, neck_mm=17.0)), SIDE),
    "NK3": (TAIL.but(mill(0.5), tail(face_mm=4.5, neck_mm=14.0)), TAIL),
    "FC1": (TEE.but(mill(0.5), disc(face_mm=6.35)), TEE),
    "FC2": (TWO, TEE),
    "CH1": (TEE, SLOT),
    "EN1": (CLOSED.but(mill(flutes=4, centre_cutting=False), length=".8"), CLOSED),
    "EN2": (CLOSED_TEE.but(mill(0.5), disc(inches=0.59, neck_mm=5.0, face_mm=4.8)), CLOSED_TEE),
    "EN3": (TEE, CLOSED_TEE),
    "EN4": (CLOSED_TEE.but(head_length="3.3"), CLOSED_TEE),
    "EN5": (CLOSED.but(mill(0.375)), CLOSED),
    "PK1": (POCKET, POCKET.but(mill(0.375))),
    "PK2": (POCKET.but(mill(0.375)), POCKET),
    "PK3": (POCKET.but(width="2", length="1-1/4"), POCKET),
    "CR1": (ROUND, ROUND.but(cone())),
    "CR2": (ROUND.but(cone()), ROUND),
    "AN1": (TAIL.but(mill(0.5), tail(angle_deg=55.0)), TAIL),
    "AN3": (TAIL.but(mill(0.5, id=4), mill(1.2)), TAIL),
    "LF1": (q("v-groove", cone(tip_mm=1.0), angle="90", width=".3", length="3", material="6061"),
            q("v-groove", cone(), angle="90", width=".3", length="3", material="6061")),
    "CN1": (q("v-groove", cone(), angle="90", width=".7", length="3", material="6061"),
            q("v-groove", cone(), angle="90", width=".3", length="3", material="6061")),
    "CH2": (EDGE.but(cone("countersink")), EDGE),
    "CH3": (EDGE.but(cone(flutes=2)), EDGE),
    "DT1": (TAIL.but(width="1.1"), SLOT),
    "DT2": (TAIL, SLOT), "DT3": (TAIL, SLOT),
    "DT4": (q("dovetail-slide", mill(0.5), tail(), angle="60", width="1", height=".3", length="4",
              material="grey iron"), TAIL),
    "DT5": (TAIL.but(material="mild steel"), TAIL),
    "DT6": (TAIL, SLOT),
    "SW1": (SLIT.but(width=".05+.004-0"), SLIT),
    "SW2": (SLIT, SLOT),
    "SW3": (SLIT.but(saw(flutes=100)), SLIT),
    "WA1": (STEP.but(wall=".1@.505"), STEP),
    "WA2": (STEP.but(mill(overall_length_mm=90.0), wall="1.5@1"), STEP),
    "WA3": (STEP.but(mill(overall_length_mm=90.0), wall=".5@1"), STEP),
    "WL1": (SLIT.but(edge=".04"), SLIT),
    "WL2": (SLOT.but(below=".02"), SLOT.but(below="1")),
    "ST1": (SIDE, SLOT),
    "AN2": (SINK.but(cone("countersink")), SINK),
    "TM1": (FACE, FACE.but(mill(0.5))),
    "HO1": (REAM.but(drill(0.2), REAM.cutters[1]), REAM),
    "HO2": (GIB.but(direction="square"), GIB),
    "HO3": (GIB, GIB.but(angle="85")),
    "HO6": (HOLE.but(drill(0.75, shank_mm=12.7), diameter="3/4+.015-0"),
            HOLE.but(drill(0.75, shank_mm=12.7), drill(0.25, number=2), diameter="3/4+.015-0")),
    "HO8": (HOLE, HOLE.but(drill(), some("spot-drill", 0.375, id=8, angle_deg=90.0))),
    "HO7": (HOLE.but(mill(0.25)), HOLE),
    "HO9": (REAM.but(drill(0.242), some("reamer", 0.25, id=2, flutes=6, note="hand"), through="yes"), REAM),
    "SL1": (SLOT_IN_BORE, BROACHED),
    "SL2": (SLOT_IN_BORE.but(hub="1-3/4"), SLOT_IN_BORE),
    "SL3": (SLOT_IN_BORE.but(some("blank", 0.5, overall_length_mm=101.6)), SLOT_IN_BORE),
    "RE3": (BORED.but(depth="2"), BORED),
    "HO4": (HOLE.but(depth="1.5"), HOLE),
    "HO5": (REAM.but(finish="bored"), REAM),
    "FB1": (FLAT.but(drill(0.3), drill(0.375, number=2, angle_deg=180.0), depth="1/2+.002-.002"), HOLE),
    "IG1": (GROOVE.but(disc()), GROOVE),
    "IG2": (GROOVE, GROOVE.but(disc(), shop=replace(SHOP, rotary_turns=72))),
    "IG3": (GROOVE.but(seal="yes"), GROOVE),
    "RG1": (GROOVE, GROOVE.but(material="6061")),
    "CB1": (BORE.but(some("counterbore", 0.4375, shank_mm=9.525)), BORE),
    "FL1": (FLATS.but(stock=".6"), FLATS),
    "FL2": (FLATS, FLATS.but(shop=replace(SHOP, collet_blocks=True))),
    "EN6": (RUN_OUT.but(ends="one"), RUN_OUT),
    "BC1": (CIRCLE.but(number="22"), CIRCLE),
    "BC2": (CIRCLE.but(diameter="2+.001-.001"), CIRCLE),
    "CB2": (BORE.but(screw="1/4", depth=".1"), BORE.but(screw="1/4", depth=".26")),
    "HF1": (GIB.but(*GIB.cutters[1:]), GIB),
    "GB1": (GIB.but(height="3/8"), GIB), "GB2": (GIB.but(height=".3"), GIB),
    "GB3": (GIB.but(thickness=".2"), GIB), "GB4": (GIB, TAP), "GB5": (GIB, TAP),
    "GB6": (GIB.but(gib=""), TAP),
    "TP1": (TAP.but(drill(0.201)), TAP),
    "TH1": (TAP.but(drill(29 / 64), tap("1/2-20"), thread="1/2-20"), TAP),
    "TH2": (TAP, TAP.but(material="grey iron", depth=".2")),
    "TH3": (TAP.but(below=".1"), TAP),
    "TH4": (TAP.but(drill(0.201), tap("1/4-20", tap_chamfer="bottoming")), TAP),
    "TB1": (TAP.but(drill(0.07), tap("2-56"), thread="2-56", material="304", depth=".4"), TAP),
    "MT2": (TAP.but(drill(0.2284), tap("1/4-20", tap_form="forming"), material="grey iron"), TAP),
    "SF1": (SLOT.but(use="lifting eye"), SLOT),
    "SF2": (TAP.but(drill(0.4375), thread="1/4-18 NPT"), TAP),
}
"""By id, a question of which the rule speaks and one of which it doesn't."""


@cache
def said(ask: Ask) -> frozenset[tuple[str, str]]:
    """The rules that speak, each with how grave it is; `refuses` where it is why a cutter can't."""
    texts = dict(ask.texts)
    if ask.kind == "tap":
        return frozenset(_tapping(ask.cutters, ask.shop, texts))
    if ask.kind.startswith("shared "):
        return frozenset(_shared(read_request(ask.kind.removeprefix("shared "), texts, ask.shop, "in"), ask))
    found = advise(read_request(ask.kind, texts, ask.shop, "in"), ask.cutters, ask.shop).advice
    warned = {(warning.id, warning.grade) for plan in found.plans for warning in plan.warnings}
    warned |= {(one.id, one.grade) for plan in found.plans for one in plan.deviations}
    refused = {(refusal.id, refusal.grade) for refusal in found.refused}
    return frozenset(warned | refused | ({("SF1", "refuses")} if found.answer == "refer" else set()))


def _shared(request: Request, ask: Ask) -> Iterator[tuple[str, str]]:
    """The first cutter begins a room and the second ends it: no plan that is shown does so where one would do."""
    jobs, *_ = jobs_for(request, ask.cutters, ask.shop)
    first, second = jobs.tools
    begun = Draft(jobs.question, next(jobs.of(first, NOTHING)))
    for warning in judge(begun.then(*next(jobs.of(second, begun.removed)))):
        yield warning.id, warning.grade


def _tapping(cutters: tuple[Cutter, ...], shop: Shop, texts: dict[str, str]) -> Iterator[tuple[str, str]]:
    depth, below = (float(texts[key].replace("1/2", ".5")) * IN if key in texts else None for key in ("depth", "below"))
    asking = Asking(read_thread(texts["thread"]), texts.get("class"), texts["material"], depth, below_mm=below)
    for warning in advise_tap(asking, cutters, shop).warnings:
        yield warning.id, warning.grade


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.id)
def test_every_rule_speaks_once_and_is_silent_once(rule):
    """A rule that no test fires may be dead; one that never is silent says nothing."""
    speaks, silent = SPEAKS[rule.id]
    fired = {grave for one, grave in said(speaks) if one == rule.id}
    assert fired, "it is silent where it should speak"
    assert rule.id not in {one for one, _ in said(silent)}, "it speaks where it should be silent"


def test_what_comes_of_a_rule_is_what_the_catalogue_says():
    """Of all the questions above: no warning is graver than its rule may be, none has an id that isn't there."""
    wrong = {(rule, grave) for pair in SPEAKS.values() for ask in pair for rule, grave in said(ask)
             if rule not in BY_ID or EFFECTS[grave] not in BY_ID[rule].effects}
    assert not wrong


def literals() -> dict[str, set[str]]:
    """Every id that the program names, with the files that do."""
    found: dict[str, set[str]] = {}
    for folder in ("planning", "holders", "rules", "machining", "tapping", "pages"):
        for path in (ROOT / "crib" / folder).rglob("*.py"):
            if path.name == "catalogue.py":
                continue
            for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
                if isinstance(node, ast.Constant) and re.fullmatch(r"[A-Z]{2}\d|G\d{1,2}", str(node.value)):
                    found.setdefault(str(node.value), set()).add(path.name)
    return found


def test_every_id_is_in_the_catalogue_once():
    """An id stood for two things, and what came of it was written down in seven files."""
    assert len(BY_ID) == len(RULES) == len({rule.check for rule in RULES})
    named = literals()
    assert set(named) - set(BY_ID) <= {"B2"}, "ids that the catalogue doesn't have; B2 is a drawer"
    assert set(BY_ID) - set(named) == {"SF1"}, "SF1 is the answer `refer`"
    assert set(SPEAKS) == set(BY_ID)
    assert not [rule.id for rule in RULES if rule.chance and rule.chance not in SETTINGS]
    assert not [rule.id for rule in RULES if rule.chance and "chance of scrap" not in rule.effects]
    assert {chance_of.__module__} and {rule.subject for rule in RULES} <= {subject.name for subject in SUBJECTS}


def test_each_id_means_one_thing_wherever_it_is_described():
    """A rule's function begins with its id; no two functions of one file describe the same one."""
    for folder in ("rules", "holes"):
        for path in (ROOT / "crib" / "planning" / folder).rglob("*.py"):
            ids = [re.match(r"[A-Z]{1,2}\d{1,2}(?=:)", ast.get_docstring(node) or "") for node in
                   ast.walk(ast.parse(path.read_text(encoding="utf-8"))) if isinstance(node, ast.FunctionDef)]
            named = [one.group() for one in ids if one]
            assert len(named) == len(set(named)), path.name
            assert set(named) <= set(BY_ID), path.name


def test_what_is_in_force_is_written_from_the_catalogue():
    [written] = BLOCK.findall(PAGE.read_text(encoding="utf-8"))
    assert written == block(), "python -m tests.docs.catalogue writes it anew"
    assert not [one.name for one in SUBJECTS if not one.holds and one.name.replace(" ", "-") in KINDS], "it is there"


def test_all_that_is_said_is_written_from_the_source():
    """A shop's editor and a program that reads ids have one page with every template."""
    assert findings.PAGE.read_text(encoding="utf-8") == findings.page(), "python -m tests.docs.findings writes it anew"


def test_every_rule_has_its_templates():
    told = findings.templates()
    assert {one.id for one in told} >= set(BY_ID) - {"SF1"}, "SF1 is the answer `refer`, worded in crib/safety"
    assert {one.id for one in told if re.fullmatch(r"[A-Z]{1,2}\d+", one.id)} - set(BY_ID) <= {
        one.id for one in told if one.grade == Grade.FAULT}


def test_the_holes_of_a_template_have_names_that_say_something():
    """A hole is the name of a fact in `--json`: `x2` tells nobody anything, and one that is filled before there are
    units isn't there at all."""
    holes = {(one.id, hole) for one in findings.templates() if one.id in BY_ID
             for hole in re.findall(r"\{([^}]*)\}", one.says + one.fix)}
    assert len(holes) > 150
    name = r"(?!amount|value|text|thing)[a-z]{2,}(?:_[a-z]+)*(?::\.?\d?[fg])?"
    assert not [one for one in holes if not re.fullmatch(name, one[1])]
