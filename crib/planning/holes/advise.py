"""One question about something round, one answer: what that is owned can make it, and how."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from typing import NamedTuple

from crib.cutters.base import Cutter
from crib.features.base import Feature
from crib.handbook.materials import Material
from crib.lengths import nm, show
from crib.planning.advice import ANSWERS, NO_CHANGE, Advice, Plan, Refusal
from crib.planning.cautions import THROUGH, cautions
from crib.planning.cost import WEAR, scrap_class
from crib.planning.holes.draft import Draft, Question
from crib.planning.holes.finish import ProvedHole, finish
from crib.planning.holes.not_with import not_with
from crib.planning.holes.plain_holes import (
    counterbore_drafts,
    counterbore_refusals,
    hole_drafts,
    hole_refusals,
    reamer_refusals,
)
from crib.planning.holes.rules import judge
from crib.planning.shop import Shop
from crib.section.form import Form
from crib.section.region import NOTHING
from crib.section.rounds import lowest


def advise_hole(feature: Feature, material: Material, shop: Shop, cutters: Sequence[Cutter],
                assumed: tuple[str, ...], most: int) -> tuple[Advice, tuple[ProvedHole, ...]]:
    """The advice for a feature on one axis, and the proved plans behind it.

    Raises `CribError` for a thread or a choice that isn't known.
    """
    question = Question(feature, shop, material)
    tried = _tried(question, cutters)
    given = list(tried.drafts)
    proved = _ranked(filter(None, map(finish, given)), feature.request.hours)[:most]
    best = tuple(_with(one, assumed) for one in proved)
    plans = tuple(one.plan for one in best)
    used = {cutter.id for plan in plans for cutter in plan.cutters}
    stopped = list(_stopped(question, given)) if not plans else []
    refused = [one for one in (*stopped, *tried.refused) if one.cutter.id not in used]
    refused += not_with(question, cutters, used | {one.cutter.id for one in refused})
    kinds = [cutter.kind for cutter in plans[0].cutters] if plans else []
    if plans and _breaks_through(feature, plans[0]):
        kinds.append(THROUGH)
    advice = Advice(
        feature=feature.as_json(),
        answer=plans[0].answer if plans else tried.answer,
        plans=plans,
        refused=tuple(sorted((replace(one, fix=one.fix or NO_CHANGE) for one in refused),
                             key=lambda one: (one.short_mm, one.cutter.id))),
        says="" if plans else (tried.says or _why(stopped)),
        assumed=assumed,
        cautions=cautions(material, kinds) if plans else (),
        buy={"advice": "work around" if plans else "buy", "says": tried.without} if _is_to_buy(tried) else None,
    )
    return advice, best


def _breaks_through(feature: Feature, plan: Plan) -> bool:
    """Whether a drill comes out at the far side of the work."""
    under = feature.outline.stock.bounds()[1]
    drills = {cutter.id for cutter in plan.cutters if cutter.kind == "drill"}
    return any(one.cutter_id in drills and nm(one.z_mm) <= under for one in plan.passes)


def _is_to_buy(tried: _Tried) -> bool:
    """Whether the right drill is what lacks: without a tap it would serve nothing."""
    return bool(tried.without) and not tried.says.startswith("no tap")


_NO = ("cannot", "measure first")


class _Tried(NamedTuple):
    """The drafts, why not with the rest, what decides where nothing does it, and what it costs to do without."""

    drafts: Iterable[Draft]
    refused: Iterable[Refusal]
    says: str = ""
    without: str = ""
    answer: str = "cannot"


def _tried(question: Question, cutters: Sequence[Cutter]) -> _Tried:
    kind = question.feature.kind
    if kind == "hole":
        return _Tried(hole_drafts(question, cutters),
                      (*reamer_refusals(question, cutters), *hole_refusals(question, cutters)))
    if kind == "counterbore":
        return _Tried(counterbore_drafts(question, cutters), counterbore_refusals(question, cutters))
    from crib.planning.holes.gib_screws import gib_drafts
    from crib.planning.holes.tapped_holes import tap_question, tap_refusals, tapped_drafts

    advice = tap_question(question, cutters)
    made = gib_drafts if kind == "gib-screw-holes" else tapped_drafts
    says = advice.says if advice.answer in _NO else ""
    return _Tried(made(question, cutters, advice), tap_refusals(advice), says, advice.without,
                  advice.answer if advice.answer in _NO else "cannot")


def _ranked(proved: Iterable[ProvedHole], hours: float) -> list[ProvedHole]:
    """Best first; where the money is the same to the cent, wear left out, by what `crib tap` ranks drills by."""
    def key(one: ProvedHole) -> tuple[int, bool, float, float, float, float, tuple[int, ...]]:
        scrap = scrap_class(one.plan.scrap_chance, hours)
        trial = any(w.rule in ("TH1", "G12") and w.severity == "caution" for w in one.plan.warnings)
        ids = tuple(cutter.id for cutter in one.plan.cutters)
        cost = sum(line.money for line in one.plan.cost_lines if line.what != WEAR)
        return (ANSWERS.index(one.plan.answer), trial, scrap, round(cost, 2), one.score, round(cost, 6), ids)

    return sorted(proved, key=key)


def _with(proved: ProvedHole, assumed: tuple[str, ...]) -> ProvedHole:
    plan: Plan = replace(proved.plan, assumed=tuple(dict.fromkeys((*assumed, *proved.plan.assumed))))
    return replace(proved, plan=plan)


def _stopped(question: Question, drafts: Iterable[Draft]) -> Iterator[Refusal]:
    """The drafts that a rule forbids, each by the cutter that it is about."""
    for draft in drafts:
        for stroke in draft.strokes:
            stop = next((w for w in judge(question, [stroke]) if w.severity == "stop"), None)
            if stop is not None:
                held, flutes = stroke.tool.held, stroke.tool.owned.length_of_cut_mm
                has, needs, fix = held.has, held.needs, held.fix
                if stop.rule == "RE1" and flutes is not None:
                    has, needs, fix = flutes, -stroke.z_mm, "a longer one would do"
                yield Refusal(stroke.tool.owned, "cannot", stop.rule, stop.says, has, needs, fix, 0.0)
                break
        else:
            stop = next((w for w in draft.warnings if w.severity == "stop"), None)
            if stop is not None:
                yield Refusal(draft.strokes[-1].tool.owned, "cannot", stop.rule, stop.says, short_mm=0.0)
            else:
                yield _too_short(question, draft)


def _too_short(question: Question, draft: Draft) -> Refusal:
    """The cutter whose holder or shank comes down on the work: how far it stands out, and how far it would have to."""
    units, outline = question.shop.units, question.feature.outline
    for stroke in draft.strokes:
        bare = Form((), (), stroke.tool.form.clear)
        low = lowest(bare, NOTHING, outline.stock - outline.most) / 1e6
        if low > stroke.z_mm and stroke.on is None and stroke.tool.form.clear:
            part = stroke.tool.form.clear[-1]
            has, needs = part.low / 1e6, part.low / 1e6 + low - stroke.z_mm
            says = (f"{stroke.tool.owned.label}: the {part.name} comes down on the work: it stands out "
                    f"{show(has, units)}, {show(needs, units)} is needed")
            return Refusal(stroke.tool.owned, "cannot", "G6", says, has, needs, "a longer one would go in", needs - has)
    last = draft.strokes[-1].tool.owned
    return Refusal(last, "cannot", "G6", "the hole doesn't come out inside its limits with it", short_mm=0.0)


def _why(stopped: Sequence[Refusal]) -> str:
    return stopped[0].says if stopped else "nothing in the crib makes it within its limits"
