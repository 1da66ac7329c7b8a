"""From strokes to a plan: proved, numbered, with speeds, words and figures."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from crib.features.rounds import is_through
from crib.findings.message import Text
from crib.findings.verdicts import ANSWERS
from crib.geometry.axis_view import Plunge, prove
from crib.geometry.outline import Outline
from crib.geometry.prove import Verdict
from crib.geometry.silhouette import Form
from crib.machining.tool import run_as
from crib.planning.advice import Pass, Plan, Proof, TightSpot
from crib.planning.holes.cost import reckon, stroke_minutes
from crib.planning.holes.draft import Draft, Stroke
from crib.planning.holes.rules import judge
from crib.planning.process.sheet import for_holes
from crib.units import nm, show


@dataclass(frozen=True)
class Deciding:
    """The stroke to look at: on the axis, down to z [nm]."""

    stroke: Plunge
    x: int = 0

    @property
    def form(self) -> Form:
        return self.stroke.form

    @property
    def z(self) -> int:
        return self.stroke.z


@dataclass(frozen=True)
class ProvedHole:
    """A plan, and the verdict of its proof. `score`: its draft's."""

    plan: Plan
    outline: Outline
    strokes: tuple[Plunge, ...]
    verdict: Verdict
    score: float = 0.0

    @property
    def decides(self) -> bool:
        """Whether the tightest spot is down inside the work."""
        return self.verdict.tight is not None and self.verdict.tight.gap.z < 0

    @property
    def deciding(self) -> Deciding:
        """The last stroke, or the one that stands tightest in the work."""
        at = self.verdict.tight.step if self.verdict.tight and self.decides else len(self.strokes) - 1
        return Deciding(self.strokes[at])


def finish(draft: Draft) -> ProvedHole | None:
    """The plan that a draft is, proved at the depths that are dialled; None where a rule forbids it or it fails."""
    question = draft.question
    readout = question.shop.readout_mm
    here = [stroke for stroke in draft.strokes if stroke.on is None]
    plunges = tuple(stroke.plunge(readout) for stroke in here)
    verdict = prove(question.feature.outline, plunges)
    others = [prove(stroke.on, [stroke.plunge(readout)]) for stroke in draft.strokes if stroke.on is not None]
    warnings = (*draft.warnings, *judge(question, draft.strokes))
    if any(warning.severity == "stop" for warning in warnings) or not all(v.holds for v in (verdict, *others)):
        return None
    reckoning = reckon(draft, warnings)
    unsure = any(warning.rule == "RE1" for warning in warnings)
    plan = Plan(
        answer=max(draft.answer, "measure first", key=ANSWERS.index) if unsure else draft.answer,
        way=draft.way,
        cutters=tuple(dict.fromkeys(tool.owned for tool in draft.tools)),
        passes=tuple(_passes(draft)),
        proof=_proof(verdict, here, draft),
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
    return ProvedHole(for_holes(plan, draft), question.feature.outline, plunges, verdict, draft.score)


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


def _proof(verdict: Verdict, strokes: list[Stroke], draft: Draft) -> Proof:
    tight = verdict.tight
    if tight is None:
        return Proof(verdict.left / 1e6, verdict.gouge / 1e6, None)
    number = 1 + next(at for at, stroke in enumerate(draft.strokes) if stroke is strokes[tight.step])
    gap = tight.gap
    spot = TightSpot(number, gap.part.name, gap.x / 1e6, gap.z / 1e6, gap.gap / 1e6)
    return Proof(verdict.left / 1e6, verdict.gouge / 1e6, gap.gap / 1e6, spot)


def _assumed(draft: Draft) -> Iterator[Text]:
    question = draft.question
    units = question.shop.units
    yield from draft.assumed
    request = question.feature.request
    known = {"depth": is_through(request), "thickness": True, "hole": request.kind == "counterbore"}
    for key, size in request.sizes.items():
        if not known.get(key) and not size.given and nm(size.lo) != nm(size.hi):
            yield (f"tolerance of the {key.replace('_', ' ')}: {show(size.lo, units)} to {show(size.hi, units)}, the "
                   "shop's default")
    for tool in draft.tools:
        if tool.held.assumed:
            yield tool.held.assumed
        if tool.owned.material == "unknown" and not tool.by_hand:
            yield f"{tool.owned.label}: {run_as(tool.cutter.material)}"
        if tool.step is None and not tool.by_hand:
            yield f"{tool.owned.label} at the speed wanted: no spindle speeds on record"
        for key in tool.cutter.assumed:
            value = getattr(tool.cutter, key)
            said = show(value, units) if key.endswith("_mm") else f"{value:g}" if key.endswith("_deg") else value
            yield f"{tool.owned.label}: {key.removesuffix('_mm').removesuffix('_deg').replace('_', ' ')} {said}, usual"
