"""From strokes to a plan: proved, numbered, with speeds, words and figures."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from crib.features.rounds import is_through
from crib.findings.message import Mm, Text, said
from crib.findings.verdicts import ANSWERS
from crib.geometry.operation import Operation, Work
from crib.geometry.prove import prove
from crib.geometry.trace import Trace, View
from crib.machining.tool import run_as
from crib.planning.advice import Pass, Plan, Proof, TightSpot
from crib.planning.holes.cost import reckon, stroke_minutes
from crib.planning.holes.draft import Draft
from crib.planning.holes.rules import judge
from crib.planning.process.sheet import for_holes
from crib.units import nm


@dataclass(frozen=True)
class ProvedHole:
    """A plan, and what comes of its strokes, cut again from stock. `score`: its draft's."""

    plan: Plan
    trace: Trace
    score: float = 0.0


def finish(draft: Draft) -> ProvedHole | None:
    """The plan that a draft is, proved at the depths that are dialled; None where a rule forbids it or it fails."""
    question = draft.question
    trace = _traced(draft)
    warnings = (*draft.warnings, *judge(question, draft.strokes))
    if any(warning.severity == "stop" for warning in warnings) or not trace.holds:
        return None
    reckoning = reckon(draft, warnings)
    unsure = any(warning.rule == "RE1" for warning in warnings)
    plan = Plan(
        answer=max(draft.answer, "measure first", key=ANSWERS.index) if unsure else draft.answer,
        way=draft.way,
        cutters=tuple(dict.fromkeys(tool.owned for tool in draft.tools)),
        passes=tuple(_passes(draft)),
        proof=_proof(trace.elevation),
        deviations=draft.deviations,
        figures=draft.figures,
        setup=draft.setup,
        holders=tuple(dict((tool.owned, tool.held.label) for tool in draft.tools).values()),
        assumed=tuple(dict.fromkeys(_assumed(draft))),
        warnings=warnings,
        minutes=reckoning.minutes,
        cost=reckoning.cost,
        currency=question.shop.currency,
        cost_lines=reckoning.lines,
        scrap_chance=reckoning.scrap,
    )
    return ProvedHole(for_holes(plan, draft), trace, draft.score)


def _traced(draft: Draft) -> Trace:
    """The strokes as they are dialled, each about the axis of the section that it is proved in."""
    axes, operations = [draft.question.feature.outline], []
    for stroke in draft.strokes:
        axes += [stroke.on] if stroke.on else []
        z = nm(stroke.dialled(draft.question.shop.readout_mm))
        operations.append(Operation.down(stroke.tool.form, z, stroke.tool.id, len(axes) - 1 if stroke.on else 0))
    return prove(Work(axes=tuple(axes)), operations)


def _passes(draft: Draft) -> Iterator[Pass]:
    shop = draft.question.shop
    for number, stroke in enumerate(draft.strokes, start=1):
        tool, z = stroke.tool, stroke.dialled(shop.readout_mm)
        yield Pass(
            no=number, cutter_id=tool.id, role=stroke.role, room=stroke.room, x_mm=0.0, z_mm=z, dial_x_mm=0.0,
            dial_z_mm=z, radial_mm=stroke.radial_mm, diameter_mm=stroke.diameter_mm,
            axial_mm=abs(z), feed="down", direction="axial",
            rpm=None if tool.by_hand or tool.step is None else tool.step.rpm, wanted_rpm=round(tool.wanted_rpm),
            mm_per_min=0.0 if tool.by_hand else tool.feed,
            minutes=stroke_minutes(stroke, shop.pass_minutes) * draft.number, says=stroke.says,
        )


def _proof(view: View) -> Proof:
    spot = TightSpot.of(view.tight) if view.tight else None
    return Proof(view.left / 1e6, view.gouge / 1e6, spot.gap_mm if spot else None, spot)


def _assumed(draft: Draft) -> Iterator[Text]:
    question = draft.question
    yield from draft.assumed
    request = question.feature.request
    known = {"depth": is_through(request), "thickness": True, "hole": request.kind == "counterbore"}
    for key, size in request.sizes.items():
        if not known.get(key) and not size.given and nm(size.lo) != nm(size.hi):
            yield (said("tolerance of the {key}: {lo} to {hi}, the shop's default", key=key.replace('_', ' '),
                        lo=Mm(size.lo), hi=Mm(size.hi)))
    for tool in draft.tools:
        if tool.held.assumed:
            yield tool.held.assumed
        if tool.owned.material == "unknown" and not tool.by_hand:
            yield f"{tool.owned.label}: {run_as(tool.cutter.material)}"
        if tool.step is None and not tool.by_hand:
            yield f"{tool.owned.label} at the speed wanted: no spindle speeds on record"
        for key in tool.cutter.assumed:
            value = getattr(tool.cutter, key)
            amount = Mm(value) if key.endswith("_mm") else f"{value:g}" if key.endswith("_deg") else value
            yield said("{cutter}: {key} {amount}, usual", cutter=tool.owned.label,
                       key=key.removesuffix('_mm').removesuffix('_deg').replace('_', ' '), amount=amount)
