"""Plans for a tapped hole."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from crib.cutters.base import Cutter, Down
from crib.features.gib_screw_holes import exit_run, wall_of
from crib.features.rounds import is_through
from crib.features.tapped_hole import RIM_MM, reading_of
from crib.findings.finding import Figure
from crib.findings.message import Torque, said
from crib.planning.advice import Refusal
from crib.planning.holes.draft import Draft, Question, Stroke
from crib.planning.holes.strokes import countersink, hole_strokes, spot, tool
from crib.tapping.advise import advise_tap
from crib.tapping.depth import budget
from crib.tapping.shape import Asking, Depth, TapAdvice, Verdict

_MOST_WAYS = 3
_LARGEST_DIMPLE_MM = 25.4 / 16
_LAND_OVER = 1.4


def tap_question(question: Question, cutters: Sequence[Cutter]) -> TapAdvice:
    """What `crib tap` would say of the same hole."""
    request = question.feature.request
    thread = reading_of(request).thread
    gib = request.kind == "gib-screw-holes"
    depth = wall_of(request, thread).mid + exit_run(request, thread) if gib else request.size("depth").mid
    asking = Asking(reading_of(request), request.said.get("class"), question.material.name, depth,
                    gib or is_through(request), request.below, use=request.use, mating=request.mating)
    return advise_tap(asking, cutters, question.shop)


def tapped_drafts(question: Question, cutters: Sequence[Cutter], advice: TapAdvice) -> Iterator[Draft]:
    """A draft for each drill that serves, best first."""
    if advice.answer == "cannot" or advice.depth is None:
        return
    for verdict in [v for v in (*advice.drills, *advice.other_ways) if v.serves][:_MOST_WAYS]:
        strokes = _tapped(question, cutters, advice, verdict)
        if strokes:
            yield Draft(question, verdict.answer, _way(advice, verdict), strokes, advice.warnings,
                        figures=_figures(question, advice, verdict), assumed=advice.assumed,
                        number=question.feature.request.count, score=verdict.score)


def _way(advice: TapAdvice, verdict: Verdict) -> str:
    used = advice.depth.taps if advice.depth else ()
    taps = " then ".join(dict.fromkeys(tap.tap_chamfer or "plug" for tap in used))
    how = "drill" if verdict.hole.way == "drill" else verdict.hole.way
    return f"{how} {verdict.hole.label.removesuffix(' drill')}, tap {advice.thread.designation} {taps}"


def _tapped(question: Question, cutters: Sequence[Cutter], advice: TapAdvice, verdict: Verdict) -> tuple[Stroke, ...]:
    """Spot, drill, countersink, tap: the depth as the taps and this very drill want it."""
    depth = _depth_with(question, advice, verdict)
    if depth is None:
        return ()
    hole = hole_strokes(question, verdict.hole, depth.full_thread_mm if depth.through else depth.hole_mm, depth.through,
                        cutters)
    if hole is None:
        return ()
    size = verdict.hole.expected_mm
    mouth = countersink(question, cutters, size, advice.thread.major_mm + RIM_MM)
    return (*spot(question, cutters, size), *hole, *mouth, *_taps(question, advice, depth))


def _depth_with(question: Question, advice: TapAdvice, verdict: Verdict) -> Depth | None:
    if advice.depth is None or not advice.depth.taps:
        return None
    cutter = verdict.hole.cutter
    angle = cutter.angle_deg if cutter and cutter.kind == "drill" else None
    request = question.feature.request
    found = budget(advice.thread, advice.depth.full_thread_mm, advice.depth.through, advice.depth.taps[-1], advice.taps,
                   verdict.hole.diameter_mm, angle, None if advice.depth.through else request.below)
    return None if found.short_mm else found


def _taps(question: Question, advice: TapAdvice, depth: Depth) -> Iterator[Stroke]:
    thread = advice.thread
    for number, tap in enumerate(depth.taps):
        found = tool(question, tap, Down.TAPPING, thread.major_mm)
        if found is None:
            continue
        chamfer = max((part.high for part in found.form.sure if part.name == "chamfer"), default=0) / 1e6
        last = number == len(depth.taps) - 1
        if depth.through:
            z = depth.full_thread_mm + chamfer + thread.pitch_mm
        else:
            z = depth.full_thread_mm + (depth.chamfer_mm if last else min(chamfer, depth.chamfer_mm))
        turn = "against the clock" if advice.hand == "left" else "with the clock"
        says = f"start it square from the spindle, power off; by hand {turn}; {advice.fluid}"
        yield Stroke(found, "tap", "thread", -z, says, turns=1.5 * z / thread.pitch_mm)


def _figures(question: Question, advice: TapAdvice, verdict: Verdict) -> tuple[Figure, ...]:
    found = [Figure("hole expected", verdict.hole.expected_mm)]
    if verdict.percent_expected is not None:
        found.append(Figure("percent of thread by it", value=f"{verdict.percent_expected:.0f}"))
    if advice.limits.least is not None and advice.limits.most is not None:
        found += [Figure(f"least by {advice.limits.name}", advice.limits.least),
                  Figure(f"most by {advice.limits.name}", advice.limits.most)]
    if advice.depth and not advice.depth.through:
        found += [Figure("full diameter to", advice.depth.hole_mm), Figure("drill's tip to", advice.depth.tip_mm)]
    if advice.torque_nm is not None:
        found.append(Figure("torque about", value=said("{torque}", torque=Torque(advice.torque_nm, of_a_tap=True))))
    return tuple(found)


def tap_refusals(advice: TapAdvice) -> Iterator[Refusal]:
    """Why not with the other drills."""
    for verdict in advice.drills:
        if verdict.serves or verdict.hole.cutter is None:
            continue
        over = verdict.hole.expected_mm - (advice.limits.most or advice.thread.major_mm)
        under = (advice.limits.least or advice.thread.minor_basic_mm) - verdict.hole.expected_mm
        limit = advice.limits.most if over > 0 else advice.limits.least
        answer = "measure first" if verdict.answer == "measure first" else "cannot"
        yield Refusal(verdict.hole.cutter, answer, "TH1", verdict.says, verdict.hole.expected_mm, limit,
                      verdict.fix or None, max(over, under))
