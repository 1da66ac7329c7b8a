"""One question about something round, one answer: what that is owned can make it, and how."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from typing import NamedTuple

from crib.cutters.base import Cutter
from crib.cutters.drill import flutes_of
from crib.features.base import Feature
from crib.findings.finding import NO_CHANGE, Finding
from crib.findings.message import Mm, Text, said
from crib.findings.verdicts import ANSWERS
from crib.geometry.axis_view import lowest
from crib.geometry.region import NOTHING
from crib.geometry.silhouette import Form
from crib.handbook.bands import drill_mean
from crib.handbook.boring import STOP_OVER
from crib.handbook.materials import Material
from crib.planning.advice import Advice, Plan, Refusal
from crib.planning.cost import WEAR, scrap_class
from crib.planning.holes.boring import heads_of, stands_out
from crib.planning.holes.draft import Draft, Question, Stroke
from crib.planning.holes.finish import ProvedHole, finish
from crib.planning.holes.not_with import not_with
from crib.planning.holes.plain_holes import counterbore_drafts, counterbore_refusals, hole_drafts
from crib.planning.holes.rules import is_guessed, judge
from crib.planning.holes.why_not import hole_refusals
from crib.safety.cautions import THROUGH, cautions
from crib.shop import Shop
from crib.units import nm


def advise_hole(feature: Feature, material: Material, shop: Shop, cutters: Sequence[Cutter],
                assumed: tuple[str, ...], most: int) -> tuple[Advice, tuple[ProvedHole, ...]]:
    """The advice for a feature on one axis, and the proved plans behind it.

    Raises `CribError` for a thread or a choice that isn't known.
    """
    question = Question(feature, shop, material, heads=heads_of(shop, cutters))
    tried = _tried(question, cutters)
    given = list(tried.drafts)
    proved = _ranked(filter(None, map(finish, given)), feature.request.hours)[:most]
    best = tuple(_with(one, assumed) for one in proved)
    plans = tuple(one.plan for one in best)
    used = {cutter.id for plan in plans for cutter in plan.cutters}
    stopped = list(_stopped(question, given)) if not plans else []
    told = list(_once_each([*stopped, *sorted((one for one in tried.refused if one.cutter.id not in used),
                                              key=_nearness)]))
    others = not_with(question, cutters, used | {one.cutter.id for one in told})
    refused = tuple(replace(one, fix=one.fix or NO_CHANGE) for one in sorted((*told, *others), key=_nearness))
    kinds = [cutter.kind for cutter in plans[0].cutters] if plans else []
    through = (THROUGH,) if plans and _breaks_through(feature, plans[0]) else ()
    advice = Advice(
        feature=feature.as_json(),
        answer=plans[0].answer if plans else _without_plans(tried, refused),
        plans=plans,
        refused=refused,
        says="" if plans else (tried.says or _why(question, stopped, refused)),
        assumed=assumed,
        cautions=cautions(material, kinds, through) if plans else (),
        buy={"advice": "work around" if plans else "buy", "says": tried.without} if tried.without else None,
    )
    return advice, best


def _breaks_through(feature: Feature, plan: Plan) -> bool:
    """Whether a drill comes out at the far side of the work."""
    under = feature.outline.stock.bounds()[1]
    drills = {cutter.id for cutter in plan.cutters if cutter.kind == "drill"}
    return any(one.cutter_id in drills and nm(one.z_mm) <= under for one in plan.passes)


_NO = ("cannot", "measure first")


class _Tried(NamedTuple):
    """The drafts, why not with the rest, what decides where nothing does it, and what it costs to do without."""

    drafts: Iterable[Draft]
    refused: Iterable[Refusal]
    says: Text = ""
    without: str = ""
    answer: str = "cannot"


def _tried(question: Question, cutters: Sequence[Cutter]) -> _Tried:
    kind = question.feature.kind
    if kind == "hole":
        return _Tried(hole_drafts(question, cutters), hole_refusals(question, cutters))
    if kind == "counterbore":
        return _Tried(counterbore_drafts(question, cutters), counterbore_refusals(question, cutters))
    from crib.planning.holes.gib_screws import gib_drafts
    from crib.planning.holes.tapped_holes import tap_question, tap_refusals, tapped_drafts

    advice = tap_question(question, cutters)
    made = gib_drafts if kind == "gib-screw-holes" else tapped_drafts
    is_no = advice.answer in _NO
    without = "" if is_no and not advice.taps else advice.without  # a drill alone would serve nothing
    return _Tried(made(question, cutters, advice), tap_refusals(advice), advice.says if is_no else "", without,
                  advice.answer if is_no else "cannot")


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
                yield _stopped_by(question, stroke, stop)
                break
        else:
            stop = next((w for w in draft.warnings if w.severity == "stop"), None)
            if stop is not None:
                yield Refusal(draft.strokes[-1].tool.owned, "cannot", stop.rule, stop.says, short_mm=0.0)
            else:
                yield _too_short(question, draft)


def _stopped_by(question: Question, stroke: Stroke, stop: Finding) -> Refusal:
    """The refusal that a stop comes to, with both its numbers; flutes that nobody measured are asked about."""
    held, cutter, deep = stroke.tool.held, stroke.tool.owned, -stroke.z_mm
    if stop.rule == "RE1":
        guessed = is_guessed(stroke)
        unsure = guessed and deep <= flutes_of(cutter).longest + 1e-6
        fix = said("measure its flutes: {deep} would do" if guessed else "flutes of {deep}", deep=Mm(deep))
        cut = stroke.tool.cutter.length_of_cut_mm or 0.0
        return Refusal(cutter, "measure first" if unsure else "cannot", "RE1", stop.says, cut, deep, fix,
                       0.0 if unsure else deep - cut)
    if stop.rule == "RE3":
        out, bar = stands_out(stroke.tool.cutter, deep), cutter.diameter_mm or 0.0
        if cutter.reach_mm is not None and cutter.reach_mm < deep:
            return Refusal(cutter, "cannot", "RE3", stop.says, cutter.reach_mm, deep, "a longer bar",
                           deep - cutter.reach_mm)
        least = Mm(out / STOP_OVER)
        return Refusal(cutter, "cannot", "RE3", stop.says, out, STOP_OVER * bar, said("a bar of {least} or more",
                                                                                      least=least), 0.0)
    if stop.rule == "HD1":
        answer = "measure first" if held.unsure else "cannot"
        return Refusal(cutter, answer, stop.rule, held.says, held.has, held.needs, held.fix, 0.0)
    return Refusal(cutter, "cannot", stop.rule, stop.says, held.has, held.needs, held.fix, 0.0)


def _nearness(one: Refusal) -> tuple[float, int]:
    return one.short_mm, one.cutter.id


def _once_each(refused: Iterable[Refusal]) -> Iterator[Refusal]:
    """What was refused, each cutter once by the first that is said of it."""
    seen: set[int] = set()
    for one in refused:
        if one.cutter.id not in seen:
            seen.add(one.cutter.id)
            yield one


def _without_plans(tried: _Tried, refused: Sequence[Refusal]) -> str:
    """Where nothing makes it: `measure first` where a measurement may turn that."""
    if tried.says:
        return tried.answer
    return "measure first" if any(one.answer == "measure first" and one.short_mm == 0 for one in refused) else "cannot"


def _too_short(question: Question, draft: Draft) -> Refusal:
    """The cutter whose holder or shank comes down on the work: how far it stands out, and how far it would have to."""
    outline = question.feature.outline
    for stroke in draft.strokes:
        bare = Form((), (), stroke.tool.form.clear)
        low = lowest(bare, NOTHING, outline.stock - outline.most) / 1e6
        if low > stroke.z_mm and stroke.on is None and stroke.tool.form.clear:
            part = stroke.tool.form.clear[-1]
            has, needs = part.low / 1e6, part.low / 1e6 + low - stroke.z_mm
            says = (said("{cutter}: the {name} comes down on the work: it stands out {has}, {needs} is needed",
                         cutter=stroke.tool.owned.label, name=part.name, has=Mm(has), needs=Mm(needs)))
            return Refusal(stroke.tool.owned, "cannot", "G6", says, has, needs, "a longer one would go in", needs - has)
    last = draft.strokes[-1].tool.owned
    return Refusal(last, "cannot", "G6", "the hole doesn't come out inside its limits with it", short_mm=0.0)


def _why(question: Question, stopped: Sequence[Refusal], refused: Sequence[Refusal]) -> Text:
    """The sentence where nothing makes it: what stopped the best plan, else what came nearest and what would do."""
    if stopped:
        return stopped[0].says
    if refused:
        near = refused[0]
        fix = said("; {fix}", fix=near.fix) if near.fix else ""
        return said("nothing in the crib makes it within its limits; nearest is the {cutter}: {says}{fix}",
                    cutter=near.cutter.label, says=near.says, fix=fix)
    size = question.feature.request.size("diameter")
    if question.feature.kind == "counterbore":
        return said("nothing in the crib makes a flat floor {mid} across: a counterbore of it would", mid=Mm(size.mid))
    over = drill_mean(size.mid)
    least, most = (Mm(mm - over, places=4) for mm in (size.lo, size.hi))
    return said("nothing in the crib makes a hole: a drill of {least} to {most} would", least=least, most=most)
