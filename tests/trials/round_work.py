"""Random questions of holes, counterbores, tapped and gib-screw holes over mixed cribs, each plan upheld from raw
numbers: `python -m tests.trials.round_work [HOW MANY] [SEED]`."""

from __future__ import annotations

import random
import sys
import time
from dataclasses import replace
from math import radians, tan

from crib.cutters.base import Cutter
from crib.cutters.label import label
from crib.findings.errors import CribError
from crib.pages.answer import page
from crib.planning.advise import advise
from crib.planning.ask import read_request
from crib.planning.told.advice import Advice, Plan
from crib.planning.told.passes import Pass
from crib.render.json.answer import advice_json
from crib.render.terminal import lines as terminal
from crib.shop import BoringHead, Shop
from tests.spelt import spelt

IN = 25.4
METALS = ("mild steel", "grey iron", "6061", "304", "brass", "titanium", "nylon", "4140")
THREADS = ("1/4-20", "1/4-28", "10-32", "M6x1", "M8", "5/16-18", "3/8-16")
STEPS = (60, 80, 135, 210, 325, 660, 1115, 1750, 2720)
KINDS = ("hole", "hole", "counterbore", "tapped-hole", "gib-screw-holes")


def crib(draw: random.Random) -> tuple[Cutter, ...]:
    """Up to 14 cutters of every sort, some with sizes that nobody measured."""
    found = [_cutter(draw, number) for number in range(1, draw.randint(1, 15))]
    if draw.random() < 0.7:  # what goes with a thread, a reamer or a bar of the rest, so that plans come of it
        size = draw.choice((0.201, 0.213, 0.159, 0.1968, 0.257, 0.3125, 0.484)) * IN
        usual = {"material": "hss", "condition": "sharp", "shank_mm": 12.7}
        found += [Cutter(31, "drill", diameter_mm=size, length_of_cut_mm=draw.choice((None, 70.0))).but(**usual),
                  Cutter(32, "reamer", diameter_mm=round(size + draw.uniform(0.05, 0.8), 3)).but(**usual),
                  Cutter(33, "boring-bar", diameter_mm=9.525, min_hole_mm=11.0).but(**usual),
                  Cutter(34, "drill", diameter_mm=12.0, length_of_cut_mm=draw.choice((None, 90.0))).but(**usual),
                  Cutter(35, "end-mill", diameter_mm=12.7, flutes=2, centre_cutting=True).but(**usual)]
        found += [Cutter(40 + at, "tap", thread=thread, tap_chamfer="plug", material="hss", condition="sharp")
                  for at, thread in enumerate(THREADS)]
    return tuple(one.but(label=label(one, "in")) for one in found)


def _cutter(draw: random.Random, number: int) -> Cutter:
    size = round(draw.choice((draw.randint(4, 70) * IN / 64, draw.randint(15, 250) / 10)), 6)
    kind = draw.choice(("drill",) * 6 + ("reamer", "reamer", "boring-bar", "end-mill", "counterbore", "tap",
                                        "spot-drill", "countersink", "boring-head"))
    same = Cutter(number, kind, material=draw.choice(("hss", "hss", "carbide", "unknown", "carbon-steel")),
                  condition=draw.choice(("sharp", "sharp", "sharp", "used", "dull", "chipped", "unknown")),
                  diameter_mm=size, shank_mm=draw.choice((None, size, 12.7, 9.525)),
                  measured=draw.choice(((), ("diameter_mm",))),
                  overall_length_mm=draw.choice((None, None, 60.0, 120.0)))
    more: dict[str, object] = {"length_of_cut_mm": draw.choice((None, 20.0, 45.0)) if kind in (
        "drill", "reamer", "end-mill") else None}
    if kind == "tap":
        more = {"thread": draw.choice(THREADS), "tap_chamfer": draw.choice(("plug", "taper", "bottoming", None)),
                "diameter_mm": None}
    elif kind == "boring-bar":
        more = {"min_hole_mm": draw.choice((None, round(size * 1.15, 6))), "reach_mm": draw.choice((None, 30.0))}
        if more["min_hole_mm"]:
            more["diameter_mm"] = draw.choice((None, size, size))
    elif kind in ("spot-drill", "countersink"):
        more = {"angle_deg": draw.choice((60.0, 82.0, 90.0, 120.0))}
    elif kind == "counterbore":
        more = {"pilot_mm": draw.choice((None, round(size * 0.6, 3)))}
    elif kind == "end-mill":
        more |= {"centre_cutting": draw.choice((True, False, None)), "flutes": 2}
    elif kind == "boring-head":
        more = {"bore_mm": 12.7, "diameter_mm": 50.8}
    if more.get("length_of_cut_mm") and same.overall_length_mm:
        more["length_of_cut_mm"] = min(20.0, same.overall_length_mm / 2)
    return same.but(**more)


def shop(draw: random.Random) -> Shop:
    heads = draw.choice((None, (), (BoringHead(12.7, 8.0, 80.0, draw.choice((300.0, 1200.0)),
                                              draw.choice(("diameter", "radius"))),)))
    return replace(Shop(), units=draw.choice(("in", "mm")), spindle_rpm=draw.choice((None, STEPS, STEPS)),
                   collets_mm=draw.choice((None, (6.35, 9.525, 12.7, 19.05))), chuck_mm=draw.choice((None, 13.0)),
                   dro=draw.random() < 0.5, boring_heads=heads, stiffness=draw.choice(("bench", "knee", "heavy")))


def question(draw: random.Random, kind: str, cutters: tuple[Cutter, ...]) -> dict[str, str]:
    sizes = [c.diameter_mm for c in cutters if c.diameter_mm] or [8.0]
    size = draw.choice((draw.choice(sizes), draw.choice(sizes), draw.uniform(2, 60))) + draw.uniform(0, 0.15)
    band = draw.choice((0.01, 0.03, 0.1, 0.4))
    texts = {"material": draw.choice(METALS)}
    if kind in ("hole", "counterbore"):
        texts |= {"diameter": f"{size:.3f}mm+{band}mm-0mm" if draw.random() < 0.5 else f"{size:.3f}±{band} mm",
                  "depth": f"{draw.uniform(2, 60):.2f} mm"}
    if kind == "hole":
        texts |= {"finish": draw.choice(("drilled", "reamed", "bored")), "through": draw.choice(("yes", "no"))}
    elif kind == "counterbore":
        texts |= {"hole": f"{size * draw.uniform(0.3, 0.9):.3f} mm"}
    else:
        texts |= {"thread": draw.choice(THREADS)}
    if kind == "tapped-hole":
        texts |= {"depth": f"{draw.uniform(4, 25):.2f} mm", "through": draw.choice(("yes", "no"))}
    elif kind == "gib-screw-holes":
        texts |= {"height": f"{draw.uniform(12, 30):.2f} mm", "thickness": f"{draw.uniform(6, 20):.2f} mm",
                  "angle": draw.choice(("45", "60", "90")), "gib": "4 mm", "nut": "11 mm", "number": "3",
                  "direction": draw.choice(("level", "square"))}
    return texts


def faults(draw: random.Random) -> tuple[str, list[str]]:
    """One question, and what is wrong with its answer."""
    kind, cutters, bench = draw.choice(KINDS), crib(draw), shop(draw)
    texts = question(draw, kind, cutters)
    try:
        request = read_request(kind, texts, bench, bench.units)
        found = advise(request, cutters, bench)
    except CribError:
        return "asked wrongly", []
    terminal.lines(page(found.advice), "in")
    advice_json(found.advice, "in")
    wrong = [fault for plan in found.advice.plans for fault in _of_plan(kind, request, plan, bench)]
    return found.advice.answer, [*wrong, *_of_refusals(found.advice), *_of_units(found.advice, bench)]


def _of_plan(kind: str, request: object, plan: Plan, bench: Shop) -> list[str]:
    cutters = {cutter.id: cutter for cutter in plan.cutters}
    wrong = []
    for one in plan.passes:
        cutter = cutters[one.cutter_id]
        if one.role in ("drill", "plunge") and cutter.length_of_cut_mm and -one.z_mm > cutter.length_of_cut_mm + 0.03:
            wrong.append(f"{cutter.label} goes {-one.z_mm} deep with {cutter.length_of_cut_mm} of flutes")
    if (plan.proof.left_mm > 1e-6 and plan.answer == "as drawn") or plan.proof.gouge_mm > 1e-6:
        wrong.append(f"left {plan.proof.left_mm}, gouge {plan.proof.gouge_mm}")
    if kind == "hole":
        wrong += _of_hole(request, plan, cutters)
    if kind == "gib-screw-holes":
        wrong += _of_gib(request, plan, cutters)
    wrong += _of_bore([one for one in plan.passes if one.role == "bore"], plan, cutters)
    return wrong


def _of_hole(request: object, plan: Plan, cutters: dict[int, Cutter]) -> list[str]:
    """The size that the last cutter makes lies in the limits, and it reaches the depth at its full diameter."""
    size, depth = request.size("diameter"), request.size("depth")  # type: ignore[attr-defined]
    last = next(one for one in reversed(plan.passes) if one.role in ("drill", "ream", "bore", "plunge"))
    across = last.diameter_mm or cutters[last.cutter_id].diameter_mm or 0.0
    least, most = {"drill": (across + 0.0254, across + 0.0508 + 0.005 * across), "ream": (across, across + 0.0127),
                   "bore": (across, across), "plunge": (across, across + 0.0254)}[last.role]
    cone = across / 2 / tan(radians((cutters[last.cutter_id].angle_deg or 118) / 2)) if last.role == "drill" else 0.0
    deep = depth.nominal if request.said.get("through") == "yes" else depth.lo  # type: ignore[attr-defined]
    wrong = []
    if most < size.lo - 1e-3 or least > size.hi + 1e-3:
        wrong.append(f"makes {least:.4f} to {most:.4f}, limits {size.lo:.4f} to {size.hi:.4f}")
    if -last.z_mm < deep + cone - 1e-3:
        wrong.append(f"full diameter to {-last.z_mm - cone:.4f} of {deep:.4f}")
    return wrong


def _of_gib(request: object, plan: Plan, cutters: dict[int, Cutter]) -> list[str]:
    wall, said = request.sizes["thickness"].mid, request.said  # type: ignore[attr-defined]
    slope = 90 - float(said["angle"]) if said["direction"] == "level" else 0.0
    drilled = [one for one in plan.passes if one.role == "drill"][-1]
    across = cutters[drilled.cutter_id].diameter_mm or 0.0
    cone = across / 2 / tan(radians((cutters[drilled.cutter_id].angle_deg or 118) / 2))
    far = wall + across / 2 * tan(radians(slope))
    full = -drilled.z_mm - cone
    return [f"full diameter to {full:.3f}, the far side is {far:.3f}"] if full < far else []


def _of_bore(cuts: list[Pass], plan: Plan, cutters: dict[int, Cutter]) -> list[str]:
    """The ladder starts at the drilled hole, sums to the size, ends in two equal cuts; the bar bears it."""
    if not cuts:
        return []
    before = cutters[[one for one in plan.passes if one.role == "drill"][-1].cutter_id].diameter_mm or 0.0
    bar, wrong = cutters[cuts[0].cutter_id], []
    across = before + 0.0508 + 0.005 * before
    for one in cuts:
        across += 2 * one.radial_mm
        if abs(across - (one.diameter_mm or 0.0)) > 1e-4:
            wrong.append(f"the cuts come to {across}, not {one.diameter_mm}")
    sides = [one.radial_mm for one in cuts if one.radial_mm > 0]
    if abs(sides[-1] - sides[-2]) > 1e-6 or sides[-1] > 0.1271 or max(sides) > 1.28:
        wrong.append(f"cuts {sides}")
    if before < (bar.min_hole_mm or 0.0) or -cuts[0].z_mm / (bar.diameter_mm or 1.0) > 6:
        wrong.append(f"{bar.label} in {before}, {-cuts[0].z_mm} deep")
    if not any(spelt(one).startswith("boring head") for one in plan.holders):
        wrong.append("no boring head")
    return wrong


def _of_refusals(advice: Advice) -> list[str]:
    """Where nothing makes it there is a reason; numbers stand together or not at all."""
    wrong = [] if advice.plans or spelt(advice.says) else ["cannot, without a word"]
    return wrong + [f"no reason: {one}" for one in advice.refused if not spelt(one.says)]


def _of_units(advice: Advice, bench: Shop) -> list[str]:
    """No inches among millimetres, no millimetres among inches, beyond what something is called."""
    if bench.units != "mm":
        return []
    texts = [spelt(w.says) for plan in advice.plans for w in plan.warnings] + [spelt(p.says) for plan in advice.plans
                                                                        for p in plan.passes]
    return [f"inches: {text}" for text in texts if " in " in text and any(
        word.startswith(".") and word[1:2].isdigit() and after == "in"
        for word, after in zip(text.split(), text.split()[1:], strict=False))]


def main(many: int = 2000, seed: int = 1) -> int:
    answers: dict[str, int] = {}
    bad, slowest, began = 0, 0.0, time.perf_counter()
    for number in range(many):
        at = time.perf_counter()
        try:
            answer, wrong = faults(random.Random(seed * 1_000_003 + number))
        except Exception as error:
            answer, wrong = "crash", [repr(error)]
        slowest = max(slowest, time.perf_counter() - at)
        answers[answer] = answers.get(answer, 0) + 1
        for fault in wrong:
            bad += 1
            print(f"{number}: {answer}: {fault}")
    took = time.perf_counter() - began
    print(f"{many} questions, {bad} faults, slowest {slowest:.2f} s, {took:.0f} s in all: {answers}")
    return bad


if __name__ == "__main__":
    sys.exit(main(*map(int, sys.argv[1:])) > 0)
