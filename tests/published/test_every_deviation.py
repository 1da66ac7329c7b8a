"""Twenty things that a way of cutting gives away, each met in an answer as a measured number and held to its closed
formula, worked here from raw numbers; and a question beside it in which nobody is bothered with it.

All of it is geometry but for the bend (elementary beam theory; a fluted mill counts as 0.8 of its diameter, common
practice), for run-out and for paper (common practice, no source).
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from math import cos, hypot, pi, radians, sin, sqrt, tan
from re import search
from typing import Any, NamedTuple

import pytest

from crib.cutters.base import Cutter
from crib.findings.message import Message, Mm, Text
from crib.planning.advise import advise
from crib.planning.ask import read_request
from crib.shop import Shop
from tests.spelt import spelt

IN = 25.4
SHOP = Shop()
SURE: dict[str, Any] = {"material": "hss", "condition": "sharp", "measured": ("diameter_mm",), "shank_mm": 12.7}


def mill(inches: float, **more: Any) -> Cutter:
    same = {"flutes": 2, "length_of_cut_mm": 1.25 * IN, "centre_cutting": True, "corner_radius_mm": 0.0}
    return Cutter(1, "end-mill", f"{inches} mill", diameter_mm=inches * IN, **(
        SURE | {"shank_mm": inches * IN} | same | more))


def some(kind: str, inches: float, **more: Any) -> Cutter:
    return Cutter(2, kind, f"{inches} {kind}", diameter_mm=inches * IN, **(SURE | more))


def ask(kind: str, *cutters: Cutter, shop: Shop = SHOP, **texts: str) -> Any:
    return advise(read_request(kind, {"material": "6061"} | texts, shop, "in"), cutters, shop).advice


def told(advice: Any, rule: str, says: str = "") -> Iterator[Any]:
    """What a rule says of the best plan or of why not."""
    best = advice.plans[:1]
    for one in (*(d for plan in best for d in (*plan.deviations, *plan.warnings)), *advice.refused):
        if one.id == rule and says in spelt(one.says):
            yield one


def facts(text: Text) -> Iterator[tuple[str, float]]:
    """The lengths that are said, by name [in]."""
    if isinstance(text, Message):
        for name, fact in text.facts:
            if isinstance(fact, Mm):
                yield name, fact.mm / IN
            elif isinstance(fact, Message):
                yield from facts(fact)


def by_fact(name: str, rule: str, says: str = "") -> Callable[[Any], list[float]]:
    return lambda advice: [mm for one in told(advice, rule, says) for key, mm in facts(one.says) if key == name]


def by_size(rule: str, says: str = "") -> Callable[[Any], list[float]]:
    return lambda advice: [one.has_mm / IN for one in told(advice, rule, says)]


def by_figure(says: str) -> Callable[[Any], list[float]]:
    return lambda advice: [mm for plan in advice.plans[:1] for one in plan.figures if says in spelt(one.what)
                           for mm in ([one.mm / IN] if one.mm is not None else [mm for _, mm in facts(one.value)])]


class Check(NamedTuple):
    """Where a number is met and where it isn't: two answers, how it is read out of them, and what it must be by hand;
    `printed`: the same of the numbers that the formula is known by."""

    met: Callable[[], Any]
    beside: Callable[[], Any]
    read: Callable[[Any], list[float]]
    by_hand: float
    within: float
    printed: tuple[float, float]


def corner(cutter: float, own: float) -> float:
    return (cutter - own) * (sqrt(2) - 1)


def walked(cutter: float, own: float, settings: int) -> float:
    rho, half = own - cutter, radians(45 / (settings - 1))
    return own - (rho * cos(half) + sqrt(cutter**2 - (rho * sin(half)) ** 2))


def cusp(radius: float, step: float) -> float:
    return radius - sqrt(radius**2 - (step / 2) ** 2)


def pecked(across: float, cutter: float, places: int) -> float:
    off, half = across / 2 - cutter, pi / places
    return across / 2 - (off * cos(half) + sqrt(cutter**2 - (off * sin(half)) ** 2))


def flats(radius: float, number: int) -> float:
    return radius * (1 / cos(radians(45 / (number + 1))) - 1)


def flank(height: float, one: float, other: float) -> float:
    return height * abs(1 / tan(radians(one)) - 1 / tan(radians(other)))


def hollow(cutter: float, wide: float, off: float) -> float:
    return cusp(cutter / 2, wide) * sin(radians(off))


def proud(rim: float, hole: float, screw: float, cutter: float) -> float:
    return (rim - hole) * (1 / tan(radians(screw / 2)) - 1 / tan(radians(cutter / 2)))


def bend(pounds: float, out: float, across: float) -> float:
    return 64 * pounds * out**3 / (3 * pi * 30e6 * (0.8 * across) ** 4)


POCKET = {"width": "1.5", "length": "2", "depth": ".4", "corner_radius": ".1875+.002-.002"}
BALL = mill(0.25, corner_radius_mm=0.125 * IN, length_of_cut_mm=0.5 * IN)
POINT = some("chamfer-cutter", 0.75, angle_deg=90.0, tip_mm=0.0, flutes=4)
ROUNDER = some("corner-rounding-cutter", 0.625, radius_mm=0.125 * IN, tip_mm=0.375 * IN, flutes=4)
TAIL = {"face_mm": 0.32 * IN, "neck_mm": 0.2 * IN, "reach_mm": IN, "flutes": 6, "corner_radius_mm": 0.0}
DOVETAIL = {"width": "1.25", "depth": ".3", "angle": "60", "length": "3", "material": "grey iron"}
FLY, NARROW = some("fly-cutter", 3.0), some("fly-cutter", 0.75)
FACE = {"depth": ".03", "length": "4"}
BAND = ".4+.0015-.0015"
LONG = mill(0.375, length_of_cut_mm=1.3 * IN, overall_length_mm=3.6 * IN)
SINK = {"diameter": ".385", "angle": "82", "hole": ".201"}
TEE = {"throat": ".344", "depth": ".5", "head_width": ".572+.002-.002", "head_height": ".25", "length": "3"}
DISC = some("t-slot-cutter", 0.5625, face_mm=0.25 * IN, neck_mm=0.312 * IN, reach_mm=IN, flutes=6)
SAW = some("slitting-saw", 3.0, face_mm=0.032 * IN, bore_mm=IN, flutes=40)
WHEEL = {"face_mm": 0.1875 * IN, "neck_mm": 0.15 * IN, "reach_mm": IN, "flutes": 10}
WOBBLES = replace(SHOP, saw_runout_mm=0.002 * IN, mill_runout_mm=0.0015 * IN)

def short_out() -> Any:
    return ask("slot", mill(0.375, length_of_cut_mm=0.75 * IN), width=".4", depth=".4", length="3")


def times_as_much(advice: Any) -> list[float]:
    said = [search(r"bends ([.0-9]+) times", spelt(one.says)) for one in told(advice, "RE4")]
    return [float(found[1]) for found in said if found]


CHECKS = {
    "DV1": Check(lambda: ask("pocket", mill(0.5), **POCKET), lambda: ask("pocket", mill(0.375), **POCKET),
                 by_size("LF1", "corners"), corner(0.25, 0.1875), 5e-5, (corner(0.25, 0.1875), 0.0259)),
    "DV2": Check(lambda: ask("pocket", mill(0.3125), **POCKET), lambda: ask("pocket", mill(0.375), **POCKET),
                 by_fact("left", "PK2"), walked(0.15625, 0.1875, 3), 5e-5, (walked(0.15625, 0.1875, 3), 0.0028)),
    "DV3": Check(lambda: ask("inside-fillet", BALL, radius=".25+.006-.006", length="3"),
                 lambda: ask("inside-fillet", BALL, radius=".125+.006-.006", length="3"),
                 by_figure("ridge between two"),
                 0.125 * (1 - cos(radians(11.25))) + cusp(0.125, 0.25 * sin(radians(11.25))), 1e-6,
                 (cusp(0.25, 0.05), 0.0013)),
    "DV4": Check(lambda: ask("slot", LONG, width=".4", depth="1.2", length="3"),
                 lambda: ask("slot", mill(0.375, length_of_cut_mm=0.75 * IN), width=".4", depth=".4", length="3"),
                 by_fact("left", "RE4"), cusp(0.1875, 0.06), 1e-6, (cusp(0.1875, 0.06), 0.0024)),
    "DV5": Check(lambda: ask("counterbore", mill(0.5), diameter="3/4+.005-0", depth="1/4", hole=".4"),
                 lambda: ask("counterbore", mill(0.25), diameter="3/4+.005-0", depth="1/4", hole=".4"),
                 by_fact("left", "SZ3"), pecked(0.7525, 0.25, 12), 1e-6, (pecked(0.75, 0.25, 12), 0.0064)),
    "DV6": Check(lambda: ask("corner-round", POINT, radius=".125+.003-.003", length="3"),
                 lambda: ask("corner-round", ROUNDER, radius=".125+.003-.003", length="3"),
                 by_size("LF1"), hypot(0.125, 0.125 * tan(pi / 8)) - 0.125, 5e-4, (flats(0.125, 2), 0.0044)),
    "DV7": Check(lambda: ask("dovetail", mill(0.5), some("dovetail-cutter", 0.75, angle_deg=45.0, **TAIL), **DOVETAIL),
                 lambda: ask("dovetail", mill(0.5), some("dovetail-cutter", 0.75, angle_deg=60.0, **TAIL), **DOVETAIL),
                 by_size("AN1"), flank(0.3, 45, 60), 1e-4, (flank(0.3, 45, 60), 0.1268)),
    "DV8": Check(lambda: ask("dovetail", mill(0.25), **DOVETAIL), lambda: ask("slot", mill(0.25), width=".3",
                                                                              depth=".3", length="3"),
                 by_size("AN3"), 0.25 * cos(radians(60)), 1e-6, (0.25 * cos(radians(60)), 0.1250)),
    "DV9": Check(lambda: ask("facing", FLY, width="2.5", **FACE), lambda: ask("facing", NARROW, width=".5", **FACE),
                 by_fact("hollow", "TM1"), hollow(3, 2.5, 0.05), 1e-6, (hollow(3, 2.5, 0.05), 0.0006)),
    "DV10": Check(lambda: ask("step", mill(0.5), width=".4+.001-0", depth="1", length="3"),
                  lambda: ask("step", mill(0.5), width=".4", depth="1", length="3"),
                  by_fact("lean", "TM1", "wall"), tan(radians(0.05)), 5e-6, (tan(radians(0.1)), 0.0017)),
    "DV11": Check(lambda: ask("slot", mill(0.5), width="1.1+.02-0", depth="1/4+.0005-.0005", length="3"),
                  lambda: ask("slot", mill(0.5), width="1.1+.02-0", depth="1/4", length="3"),
                  by_fact("lean", "TM1", "floor"), 1.1 * tan(radians(0.05)), 2e-5, (0.5 * tan(radians(0.1)), 0.0009)),
    "DV12": Check(lambda: ask("bevel", mill(0.5), width=".25", angle="30", length="3"),
                  lambda: ask("step", mill(0.5), width=".25", depth=".25", length="3"),
                  by_figure("ridges of a staircase"), 0.020 * cos(radians(30)), 1e-6,
                  (0.020 * cos(radians(30)), 0.0173)),
    "DV13": Check(lambda: ask("countersink", some("countersink", 1.0, angle_deg=90.0, tip_mm=0.0, flutes=3), **SINK),
                  lambda: ask("countersink", some("countersink", 1.0, angle_deg=82.0, tip_mm=0.0, flutes=3), **SINK),
                  by_size("AN2"), proud(0.1925, 0.1005, 82, 90), 4e-4, (proud(0.1925, 0.1005, 82, 90), 0.0138)),
    "DV14": Check(lambda: ask("slot", LONG, width=".4", depth="1.2", length="3"), short_out,
                  by_fact("aside", "RE4"), bend(30, 1.6, 0.375), 1e-6, (bend(30, 1.5, 0.375), 0.0028)),
    "DV15": Check(lambda: ask("slot", LONG, width=".4", depth="1.2", length="3"), short_out, times_as_much,
                  (1.6 / (3 * 0.375)) ** 3, 0.05, ((2.0 / 1.5) ** 3, 2.3704)),
    "DV16": Check(lambda: ask("slit", SAW, width=".032+.004-0", depth="1/4", length="3", shop=WOBBLES),
                  lambda: ask("slot", mill(0.3), width=".4", depth=".25", length="3", shop=WOBBLES),
                  by_figure("one cut, by its run-out"), 0.032 + 0.002, 1e-6, (0.032 + 0.002, 0.0340)),
    "DV17": Check(lambda: ask("slot", mill(0.499), width=".499+.006-0", depth="1/4", length="3", shop=WOBBLES),
                  lambda: ask("slot", mill(0.3), width=".499+.006-0", depth=".25", length="3", shop=WOBBLES),
                  by_figure("one cut, by its run-out"), 0.499 + 0.0015, 1e-6, (0.4990 + 0.0015, 0.5005)),
    "DV18": Check(lambda: ask("t-slot", mill(0.25), DISC, **TEE), lambda: ask("t-slot", mill(0.25), DISC, **TEE | {
        "head_width": ".605+.002-.002"}), by_figure("widest head"), 0.5625 + 0.344 - 0.312 - 2 * 0.010, 1e-6,
                  (0.5625 + 0.344 - 0.312 - 2 * 0.010, 0.5745)),
    "DV19": Check(lambda: ask("woodruff", some("keyseat-cutter", 0.625, **WHEEL), key="606", shaft="1"),
                  lambda: ask("woodruff", some("keyseat-cutter", 0.75, **WHEEL), key="606", shaft="1"),
                  by_fact("side", "SZ3", "key rocks"), cusp(0.375, 0.748 - 0.625), 5e-4, (cusp(0.375, 0.125), 0.0052)),
    "DV20": Check(lambda: ask("step", mill(0.5), width=".4", depth=".008+.0006-.0006", length="3"),
                  lambda: ask("step", mill(0.5), width=".4", depth=".25+.0006-.0006", length="3"),
                  by_fact("off", "TO1"), 0.001, 1e-9, (0.001, 0.0010)),
}


@pytest.mark.parametrize("name", CHECKS)
def test_it_is_met_as_a_number(name: str) -> None:
    one = CHECKS[name]
    assert round(one.printed[0], 4) == one.printed[1]
    found = one.read(one.met())
    assert found and found[0] == pytest.approx(one.by_hand, abs=one.within), name


@pytest.mark.parametrize("name", CHECKS)
def test_nobody_is_bothered_where_it_is_nothing(name: str) -> None:
    assert not CHECKS[name].read(CHECKS[name].beside())
