"""One question, one answer: what that is owned can make it, and how."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial

from crib.cutters import goes_down
from crib.cutters.base import Cutter, Down
from crib.cutters.two_ends import each_end
from crib.features import KINDS, draw
from crib.features.base import Feature
from crib.features.request import Request
from crib.findings.verdicts import Verdict
from crib.geometry.outline import Room
from crib.handbook.materials import Material
from crib.light.records import dataclass, replace
from crib.machining.metal import metal_of
from crib.machining.overruled import said_of
from crib.machining.question import Question
from crib.machining.tool import Tool, at_kindest, ready, unknowns
from crib.planning.as_drawn import called_for
from crib.planning.best_plans import best_of, better_of, proved_plans
from crib.planning.dialled.finish import Proved
from crib.planning.refused.refusals import Refused, refusals
from crib.planning.rivals import MOST_PLANS, as_good, least_missed_first, nearer, quicker
from crib.planning.search.jobs import Jobs
from crib.planning.search.set_ups import Asked, Readied, asked_of, best, may_beat, may_still_beat, opened, shut_of
from crib.planning.search.shortlist import Shortlist
from crib.planning.search.watch import A_LOOK, OutOfPatience, Watch
from crib.planning.told.advice import Advice, Plan
from crib.planning.told.later import Each
from crib.safety.cautions import THROUGH, cautions
from crib.safety.refer import NO_USE, refer
from crib.shop import Shop
from crib.units import nm

_NOT_ALL = "nothing was found in the time there was; not everything that is owned was tried"
_NOT_TOGETHER = "each of its cuts could be made by itself, but nothing that is owned makes all of them as drawn"


@dataclass(frozen=True)
class Answered:
    """The advice, the proved plans behind it for whoever draws them, and what was worked out for whoever asks again."""

    advice: Advice
    proved: tuple[Proved, ...] = ()
    asked: Asked = ()


def advise(request: Request, cutters: Sequence[Cutter], shop: Shop, most: int = MOST_PLANS,
           most_refused: int | None = None, watch: Watch | None = None) -> Answered:
    """What of these cutters can make a feature in this shop: so many plans at the `most`, and of the cutters that are
    refused so many in full. With a `watch`, what it is at is written there, and when it is interrupted the plans that
    were found till then are the answer.

    Raises `CribError` for sizes that can't be together, ends that aren't reckoned with and a material that isn't
    known. The same question of the same crib gives the same answer.
    """
    if text := refer(request.use, request.mating):
        asked = {"kind": request.kind, "material": request.material, "use": request.use}
        return Answered(Advice(asked, Verdict.REFER, says=text))
    return answered(jobs_for(request, cutters, shop), request, cutters, most, most_refused, watch)


def _taken_for_granted(request: Request, material: Material, shop: Shop) -> tuple[str, ...]:
    """What goes for every plan of a question."""
    return (*(() if request.material else (f"material {material.name}: none was given",)),
            *(() if request.use or request.mating else (NO_USE,)), *_own_pace(shop), *_own_words(shop))


def answered(every: Asked, request: Request, cutters: Sequence[Cutter], most: int = MOST_PLANS,
             most_refused: int | None = None, watch: Watch | None = None, is_none: bool = False) -> Answered:
    """The same by what these cutters can do: the plans, who is refused, and where there is no plan what is lacking.
    `is_none`: there surely is none."""
    assumed = _taken_for_granted(request, every[0].question.material, every[0].question.shop)
    proved = () if is_none else least_missed_first(proved_plans(every, most, watch))
    plans = Each([partial(_told, one, assumed) for one in proved])
    used = {int(cutter.id) for one in proved for cutter in one.cutters}
    was_stopped = watch is not None and watch.stopped
    refused = Refused(0, (), False) if was_stopped else refusals(every, each_end(cutters), used, most_refused)
    question, down = every[0].question, every[0].down
    kindest = [] if plans or down else at_their_kindest(every[0], cutters)
    answer = _answer(proved, refused.unsure, every, kindest)
    in_part = watch is not None and watch.ran_out
    return Answered(
        Advice(
            feature=question.feature.as_json(),
            answer=answer,
            plans=plans,
            refused=refused.nearest,
            all_refused=refused.count,
            says="" if plans else (_NOT_ALL if in_part else "") or refused.says or lacking(every, kindest) or
            (_NOT_TOGETHER if answer == Verdict.CANNOT else ""),
            in_part=in_part,
            as_good=tuple(as_good(proved)),
            nearer=tuple(nearer(proved)),
            quicker=tuple(quicker(proved)),
            assumed=assumed,
            cautions=_cautions(question, proved),
            buy={"advice": "work around" if plans else "buy", "says": down.without} if down and down.without else None,
        ),
        proved,
        every,
    )


def best_plan(request: Request, cutters: Sequence[Cutter], shop: Shop, readied: Readied | None = None) -> Plan | None:
    """What `advise` puts first, without runners-up and without why not with the rest; None where there is no plan."""
    if refer(request.use, request.mating):
        return None
    every = jobs_for(request, cutters, shop, readied)
    proved = best_of(every)
    if proved and proved.weighed.answer == Verdict.COMPROMISE:
        proved = next(iter(least_missed_first(proved_plans(every, MOST_PLANS, Watch()))), proved)
    return granted(proved.plan, request, shop) if proved else None


def granted(plan: Plan, request: Request, shop: Shop) -> Plan:
    """A plan with what goes for every plan of its question."""
    return _with(plan, _taken_for_granted(request, metal_of(request, shop), _at_its_word(request, shop)))


def better_plan(request: Request, cutters: Sequence[Cutter], shop: Shop, than: Verdict,
                readied: Readied | None = None, watch: Watch | None = None) -> Plan | None:
    """The best plan where its verdict is better than this one; what can't be better isn't looked for."""
    every = to_beat(request, cutters, shop, than, readied)
    found = better_of(every, than, watch=watch) if every else None
    return granted(found.proved.plan, request, shop) if found and found.proved else None


def to_beat(request: Request, cutters: Sequence[Cutter], shop: Shop, than: Verdict, readied: Readied | None = None
            ) -> Asked:
    """The question in each set-up in which a better verdict than this may come out, of those cutters that count for it;
    nothing where none may."""
    return still_to_beat(opened_to_beat(request, cutters, shop, than, readied), than)


def opened_to_beat(request: Request, cutters: Sequence[Cutter], shop: Shop, than: Verdict,
                   readied: Readied | None = None, but: Feature | None = None) -> Asked:
    """The same as far as it is told before a set-up is opened; nothing too where it is drawn as another is that it is
    asked of again (`but`)."""
    if refer(request.use, request.mating):
        return ()
    only = called_for if than == Verdict.EXTRA_PASSES else tuple[Jobs, ...]
    feature, material, there = _drawn(request, shop)
    if but and _is_drawn_alike(feature, but):
        return ()
    shut = shut_of(feature, material, there, each_end(cutters), readied)
    every = tuple(jobs for jobs, some in zip(shut, only(shut), strict=True) if may_beat(some, than))
    return only(tuple(map(opened, every))) if every else ()


def still_to_beat(every: Asked, than: Verdict) -> Asked:
    """Those of some set-ups in which a better verdict than this may still come out, once they are opened."""
    return tuple(jobs for jobs in every if may_still_beat(jobs, than))


def _is_drawn_alike(one: Feature, other: Feature) -> bool:
    """Whether two features are the same, or differ in nothing but a floor radius that isn't in their drawing: then only
    what comes down an axis is asked for it."""
    radius = one.request.floor_radius if one.down else other.request.floor_radius
    return replace(one, request=replace(one.request, floor_radius=radius)) == other


def jobs_for(request: Request, cutters: Sequence[Cutter], shop: Shop, readied: Readied | None = None,
             drawn: Feature | None = None) -> Asked:
    """What these cutters can do for a feature; `drawn`: the feature, where it was drawn before."""
    return asked_of(*_drawn(request, shop, drawn), each_end(cutters), readied)


def _drawn(request: Request, shop: Shop, drawn: Feature | None = None) -> tuple[Feature, Material, Shop]:
    """The feature, its metal, and the shop that it is asked in."""
    material = metal_of(request, shop)
    is_it = drawn is not None and drawn.request.material == material.name
    feature = drawn if drawn is not None and is_it else draw(replace(request, material=material.name))
    return feature, material, _at_its_word(request, shop.at_own_pace())


def _at_its_word(request: Request, shop: Shop) -> Shop:
    """The shop with what the owner overrules for this question."""
    return replace(shop, this_time=request.overruled) if request.overruled else shop


def _own_words(shop: Shop) -> tuple[str, ...]:
    """What the owner overrules for this question and in the shop."""
    return tuple(f'{one.rule} doesn\'t hold for {one.by}, by your word: "{one.words}"' for one in said_of(shop))


def _own_pace(shop: Shop) -> tuple[str, ...]:
    """That minutes are reckoned at the owner's pace, where there is one."""
    if not shop.own.timed:
        return ()
    of = f"the median of {shop.own.timed} jobs timed" if shop.own.timed > 1 else "one job timed"
    return (f"minutes at {shop.pace:.2f} times the reckoned, {of} here",)


def _told(proved: Proved, assumed: tuple[str, ...]) -> Plan:
    """The plan that was proved, with what goes for every plan of its question."""
    return _with(proved.plan, assumed)


def _with(plan: Plan, assumed: tuple[str, ...]) -> Plan:
    return replace(plan, assumed=(*assumed, *(one for one in plan.assumed if one not in assumed)))


def _answer(proved: Sequence[Proved], unsure: bool, every: Asked, kindest: Sequence[Tool]) -> Verdict:
    """The best plan's verdict; without one, whether measuring could bring one."""
    if proved:
        return proved[0].weighed.answer
    if down := every[0].down:
        return down.answer or (Verdict.MEASURE_FIRST if unsure else Verdict.CANNOT)
    return Verdict.MEASURE_FIRST if unsure and could_be(every, kindest) else Verdict.CANNOT


def unmade(every: Asked, cutters: Sequence[Cutter], is_turned: bool = False) -> Verdict:
    """The verdict where there is no plan: whether measuring could bring one; `is_turned`: surely one is made by what is
    cut along with everything that isn't known at its kindest."""
    unsure = refusals(every, cutters, set(), 0).unsure
    if is_turned and not every[0].down:
        return Verdict.MEASURE_FIRST if unsure else Verdict.CANNOT
    return _answer((), unsure, every, [] if every[0].down else at_their_kindest(every[0], cutters))


def at_their_kindest(jobs: Jobs, cutters: Sequence[Cutter]) -> list[Tool]:
    """Every cutter with what isn't known of it at its kindest."""
    question, found = jobs.question, []
    for cutter in cutters:
        known = jobs.tool(cutter)
        if unknowns(cutter):
            kind = at_kindest(cutter, question.feature.kindest)
            known = ready(kind, question.shop, question.material, cutter)
        if known is not None and not _is_shank_known(known) and known.held.unsure:
            shank = known.cutter.but(shank_mm=known.held.has, assumed=())
            known = ready(shank, question.shop, question.material, cutter)
        if known is not None:
            found.append(known)
    return found


def _is_shank_known(tool: Tool) -> bool:
    """Whether it goes in a collet by a shank that is on record, so that it is sure what holds it."""
    cutter = tool.known
    return cutter.shank_mm is not None and cutter.bore_mm is None and "shank_mm" not in cutter.assumed


def lacking(every: Asked, kindest: Sequence[Tool]) -> str:
    """Which rooms nothing owned clears in any set-up, whatever its sizes that aren't known turn out to be."""
    from crib.planning.refused.near_limits import wider

    every = (*every, *wider(every))
    rooms = zip(*(jobs.question.outline.rooms for jobs in every), strict=True)
    none = [here[0].name for here in rooms
            if not any(_clears(jobs, tool, room) for jobs, room in zip(every, here, strict=True)
                       for tool in jobs.bare.may_clear(kindest, room))]
    return f"nothing that is owned clears the {' or the '.join(none)}" if none else ""


def _clears(jobs: Jobs, tool: Tool, room: Room) -> bool:
    return jobs.is_feasible(tool, room) and not jobs.stops(tool, room)


def could_be(every: Asked, kindest: Sequence[Tool]) -> bool:
    """Whether there is a plan if everything that isn't known is at its kindest; there may be where a short look
    doesn't tell."""
    again = tuple(Jobs(jobs.question, kindest, known=jobs) for jobs in every)
    try:
        return next(best(again, Shortlist(watch=Watch(most=A_LOOK))), None) is not None
    except OutOfPatience:
        return True


def _cautions(question: Question, proved: Sequence[Proved]) -> tuple[str, ...]:
    if not proved:
        return ()
    through = (THROUGH,) if _breaks_through(question, proved[0]) else ()
    return cautions(question.material, [cutter.kind for cutter in proved[0].cutters],
                    (*KINDS[question.feature.kind].cautions, *question.feature.cautions, *through))


def _breaks_through(question: Question, best: Proved) -> bool:
    """Whether a drill comes out at the far side of the work."""
    under = question.outline.stock.bounds()[1]
    drills = {cutter.id for cutter in best.cutters if goes_down(cutter, Down.DRILLING)}
    return bool(drills) and any(one.cutter_id in drills and nm(one.z_mm) <= under for one in best.plan.passes)
