"""One question about a thread: the taps and drills that are owned for it, best first, and everything round them."""

from __future__ import annotations

from collections.abc import Sequence

from crib.cutters import goes_down
from crib.cutters.base import Cutter, Down
from crib.findings.finding import Grade
from crib.findings.verdicts import ANSWERS, Verdict
from crib.handbook.bands import drill_mean
from crib.handbook.drill_sizes import drill_name, drill_sizes
from crib.handbook.materials import DEFAULT_MATERIAL, Material, find_material
from crib.handbook.speeds import SpindleStep, cutting_speed, spindle_step, wanted_rpm
from crib.handbook.tapping import fluid, tapping_torque, target_percent
from crib.handbook.threads import hole_limits
from crib.light.records import replace
from crib.machining.cores import core_mm
from crib.machining.holes import NO_OWN, Hole, drilled, drilled_hole, other_ways
from crib.machining.metal import ask_first
from crib.machining.tool import as_run
from crib.safety.refer import refer
from crib.shop import Own, Shop
from crib.tapping import steps as words
from crib.tapping.depth import best_budget
from crib.tapping.judge import Case, chart_drill, judge
from crib.tapping.shape import Asking, Depth, JudgedHole, NotOwned, TapAdvice
from crib.tapping.taps import BROKEN, hand_of, out_of_place, taps_for
from crib.units import nm

_MOST_NOT_OWNED = 3


def advise_tap(asking: Asking, cutters: Sequence[Cutter], shop: Shop) -> TapAdvice:
    """The advice. Raises `CribError` for a class or a material that isn't known."""
    thread = asking.reading.thread
    material = find_material(asking.material or DEFAULT_MATERIAL)
    limits = hole_limits(thread, asking.class_name or asking.reading.class_name)
    if text := refer(asking.use, asking.mating):
        return TapAdvice(thread, asking.reading.hand, limits, None, Verdict.REFER, text, material=material.name)
    ask_first(material, shop)
    every = taps_for(thread, cutters)
    taps = usable_taps(asking, every, material)
    forming = (asking.form or (taps[0].tap_form if taps else None)) == "forming"
    target = target_percent(thread, material, asking.depth_mm)
    case = Case(thread, limits, target, material, forming, shop.own, asking.called)
    drills = _drills(case, asking, cutters)
    plain = any(v.answer == Verdict.AS_DRAWN and not v.edge for v in drills)
    others = [] if plain or asking.drill_mm is not None else _others(case, cutters)
    best = _best(drills, others)
    advice = TapAdvice(
        thread=thread,
        hand=asking.reading.hand,
        limits=limits,
        target=target,
        answer=_answer(asking, taps, best, drills),
        says="",
        taps=tuple(taps),
        drills=tuple(drills),
        other_ways=tuple(others),
        not_owned=tuple(_not_owned(case, asking, cutters)),
        depth=_depth(asking, taps, best, case),
        material=material.name,
        fluid=fluid(material),
        notes=asking.reading.notes,
        without=_without(case, asking, best, cutters, shop),
        power=asking.power,
    )
    return words.told(_with_speed(advice, asking, shop, material, best), case, asking, every, best)


def usable_taps(asking: Asking, every: Sequence[Cutter], material: Material) -> list[Cutter]:
    """The taps of the right hand that aren't broken and may go into this metal, those out of place in it last."""
    found = [t for t in every if hand_of(t) == asking.reading.hand and t.condition not in BROKEN]
    if asking.form:
        found = [t for t in found if (t.tap_form or "cutting") == asking.form]
    may = [t for t in found if t.tap_form != "forming" or material.ductile or asking.form == "forming"]
    return sorted(may, key=lambda tap: out_of_place(tap, material, asking.is_blind) is not None)


def _drills(case: Case, asking: Asking, cutters: Sequence[Cutter]) -> list[JudgedHole]:
    if asking.drill_mm is not None:
        return [judge(case, in_hand(asking.drill_mm, cutters, case.own))]
    near = (hole for hole in drilled(cutters, case.own) if _is_near(case, hole))
    return sorted((judge(case, hole) for hole in near), key=_order)


def _is_near(case: Case, hole: Hole) -> bool:
    """Whether a drill is worth a word: from a fifth under the least hole to the thread's own size."""
    return 0.8 * case.window[0] <= hole.diameter_mm <= case.thread.major_mm * 1.02


def in_hand(mm: float, cutters: Sequence[Cutter], own: Own = NO_OWN) -> Hole:
    """The hole of a drill that was named by its size: the owned one of that size where there is one."""
    drills = (c for c in cutters if goes_down(c, Down.DRILLING) and c.diameter_mm is not None)
    same = (c for c in drills if abs(nm(c.diameter_mm or 0.0) - nm(mm)) < 1000)
    owned = next(same, None)
    return drilled_hole(owned, owned.label if owned else f"{drill_name(mm)} drill", mm, own)


def _order(verdict: JudgedHole) -> tuple[int, float, int]:
    return ANSWERS.index(verdict.answer), verdict.score, verdict.hole.cutter.id if verdict.hole.cutter else 0


def _others(case: Case, cutters: Sequence[Cutter]) -> list[JudgedHole]:
    if case.thread.taper:
        return []
    ways = other_ways(cutters, *case.window, case.own)
    found = (judge(case, hole) for hole in ways if not (hole.cutter and core_mm(hole.cutter)))  # a drill is had sooner
    return sorted((v for v in found if v.serves), key=_order)


def _best(drills: Sequence[JudgedHole], others: Sequence[JudgedHole]) -> JudgedHole | None:
    serving = [v for v in (*drills[:1], *others[:1]) if v.serves]
    return min(serving, key=_order) if serving else None


def _answer(asking: Asking, taps: Sequence[Cutter], best: JudgedHole | None, drills: Sequence[JudgedHole]
            ) -> Verdict:
    """The best hole's answer; no without a tap, unless a drill in hand is asked about: that serves, with a tap that
    must still be got. Where none is sure but one may do, that one is measured first."""
    if not (taps or asking.drill_mm is not None):
        return Verdict.CANNOT
    if best is None:
        unsure = any(judged.answer == Verdict.MEASURE_FIRST for judged in drills)
        return Verdict.MEASURE_FIRST if unsure else Verdict.CANNOT
    return best.answer if taps else max(best.answer, Verdict.EXTRA_PASSES, key=ANSWERS.index)


def _depth(asking: Asking, taps: Sequence[Cutter], best: JudgedHole | None, case: Case) -> Depth | None:
    if asking.depth_mm is None:
        return None
    size = best.hole.diameter_mm if best else case.aim
    drill = best.hole.cutter if best else None
    angle = drill.angle_deg if drill and goes_down(drill, Down.DRILLING) else None
    return best_budget(case.thread, asking.depth_mm, asking.through, taps, size, angle, asking.below_mm)


def _not_owned(case: Case, asking: Asking, cutters: Sequence[Cutter]) -> list[NotOwned]:
    """The drills that would be right and aren't owned: the one that charts give first, if it keeps the limits."""
    owned = {nm(c.diameter_mm) for c in cutters if goes_down(c, Down.DRILLING) and c.diameter_mm is not None}
    owned |= {nm(asking.drill_mm)} if asking.drill_mm is not None else set()
    low, high = case.window
    span = (low - drill_mean(low) - 0.1, high + 0.1)
    sizes = [size for size in drill_sizes() if span[0] <= size[0] <= span[1]]
    right = [judge(case, drilled_hole(None, name, mm, case.own)) for mm, name in sizes]
    right = sorted((v for v in right if v.answer == Verdict.AS_DRAWN and not v.edge), key=lambda v: v.score)
    charted = chart_drill(case)
    first = [v for v in right if charted is not None and abs(v.hole.diameter_mm - charted) < 1e-4]
    ranked = [*first, *(v for v in right if v not in first)]
    missing = [v for v in ranked if nm(v.hole.diameter_mm) not in owned][:_MOST_NOT_OWNED]
    return [NotOwned(v.hole.label, v.hole.diameter_mm, v.percent_thread, v.hole.expected_mm, v.says) for v in missing]


def _without(case: Case, asking: Asking, best: JudgedHole | None, cutters: Sequence[Cutter], shop: Shop) -> str:
    """What it costs to do without the drill that charts give; nothing to say where it is owned or breaks the limits."""
    charted = chart_drill(case)
    if charted is None or not judge(case, in_hand(charted, (), case.own)).serves:
        return ""
    if asking.drill_mm is not None and abs(asking.drill_mm - charted) < 1e-3:
        return ""
    drills = (c.diameter_mm for c in cutters if goes_down(c, Down.DRILLING))
    if any(mm is not None and abs(mm - charted) < 1e-3 for mm in drills):
        return ""
    name = drill_name(charted)
    if best is None:
        return f"the right drill, {name}, isn't owned, and nothing in the crib does its work: get one"
    with_it = judge(case, in_hand(charted, (), case.own))
    points = abs((best.percent_expected or 0.0) - (with_it.percent_expected or 0.0))
    money = best.hole.extra_minutes / 60 * shop.hour_rate
    costs = [f"{best.hole.extra_minutes:.0f} min, {money:.2f} {shop.currency} a hole"] if money else []
    less = (best.percent_expected or 0.0) < (with_it.percent_expected or 0.0)
    costs += [f"gives {points:.0f} percent {'less' if less else 'more'} thread"] if round(points) else []
    costs += ["wants a trial hole"] if best.edge else []
    if not costs:
        return f"{name} is what charts give and isn't owned; {best.hole.label} does as well"
    takes = "takes " if money else ""
    return f"{name} is what charts give and isn't owned: doing without it {takes}{' and '.join(costs)}"


def _with_speed(advice: TapAdvice, asking: Asking, shop: Shop, material: Material,
                best: JudgedHole | None) -> TapAdvice:
    tap = advice.taps[0] if advice.taps else None
    steel = as_run(tap, shop).material if tap else "hss"
    speed = cutting_speed(material, "tapping", steel, tap.condition if tap else "sharp")
    wanted = wanted_rpm(speed, advice.thread.major_mm)
    step: SpindleStep | None = spindle_step(wanted, shop.spindle_rpm) if shop.spindle_rpm else None
    too_fast = step is not None and step.grade in (Grade.WARN, Grade.STOP)
    forming = bool(tap and tap.tap_form == "forming")
    hard = bool(tap and tap.condition in ("dull", "used")) or (asking.depth_mm is not None and not asking.through)
    hole = best.hole.expected_mm if best else advice.limits.least or advice.thread.minor_basic_mm
    torque = None if advice.thread.taper else tapping_torque(advice.thread, hole, material, hard, forming)
    rpm = None if step is None or too_fast or not asking.power else step.rpm
    return replace(advice, rpm=rpm, wanted_rpm=round(wanted), torque_nm=torque)
