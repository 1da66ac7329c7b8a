"""A part on file planned whole: what was done stays done, and what changed since is told."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import AbstractContextManager, nullcontext
from typing import Any

from crib.app.part.lacking import with_what_would_help
from crib.app.part.made import State, numbered, state_of
from crib.app.part.measured import meaning
from crib.app.part.on_file import read_part
from crib.cutters.base import Cutter
from crib.cutters.label import label
from crib.findings.finding import Finding, Grade
from crib.findings.message import ByUnits, Fact, Head, Text, joined, said
from crib.light.records import dataclass, replace
from crib.parts.blank import blank_of
from crib.parts.meeting import check
from crib.parts.order import cuts_off, order_of
from crib.parts.part import Part
from crib.planning.parts.asked import asked_of
from crib.planning.parts.known import Known
from crib.planning.parts.plan import plan_part
from crib.planning.parts.planned import PlannedPart
from crib.planning.parts.works import work_of
from crib.planning.search.watch import Watch
from crib.safety.cautions import cautions
from crib.shop import Shop
from crib.store import Crib

__all__ = ["PART_PATIENCE", "Known", "PartReply", "plan", "planned_of"]

Around = Callable[[Callable[[], str]], AbstractContextManager[None]]
"""What stands around the planning: it is handed what says how far that is."""

PART_PATIENCE = 60.0
"""Seconds of the processor's time that a part may take before it is told with what was found."""


@dataclass(frozen=True)
class PartReply:
    """A part with its plan. `state`: how far it is; `news`: what changed since something was ticked last; `cautions`:
    what keeps hands and eyes whole."""

    part: Part
    planned: PlannedPart
    shop: Shop
    state: State
    news: tuple[Fact, ...] = ()
    cautions: tuple[Text, ...] = ()
    blank: Text = ""
    sawn: Mapping[str, Any] = {}
    ran_out: bool = False
    stopped: bool = False

    @property
    def squaring(self) -> tuple[Text, ...]:
        """How the blank is squared, step by step."""
        return tuple(self.sawn.get("squaring", ()))

    @property
    def beside(self) -> dict[str, Any]:
        """What stands in JSON beside the plan."""
        return {"measured": [{"what": one.what, "feature": one.feature, "mm": one.mm, "low_mm": one.low,
                              "high_mm": one.high, "outside": one.is_outside} for one in self.state.measured],
                "changed": list(self.news), "cautions": list(self.cautions)}


def plan(crib: Crib, name: str, patience: float = PART_PATIENCE, around: Around = lambda says: nullcontext(),
         known: Known | None = None, lacking: bool = True) -> PartReply:
    """A part on file, planned from where it stands; `lacking`: with what would change most for it. Raises `CribError`
    where there is none, and for an order that goes round."""
    part, there = read_part(crib, name), crib.holdings()
    shop = replace(there.shop, units=crib.units)
    state, watch = state_of(crib, part.name), Watch(patience=patience)
    known, beside = known or Known(), ""
    with around(lambda: beside or watch.says):
        planned = numbered(planned_of(part, there.cutters, shop, state, watch, known), state)
        if lacking and not watch.stopped:
            beside = "trying what could be got"
            planned = with_what_would_help(part, planned, there, shop, state, known)
    sawn = blank_of(part, shop, cuts_off(part, asked_of(part, shop).drawn))
    reply = PartReply(part, planned, shop, state, cautions=tuple(_cautions(planned)), blank=sawn.says,
                      sawn=sawn.as_json(), ran_out=watch.ran_out, stopped=watch.stopped)
    return replace(reply, news=tuple(_news(reply, {one.id: one for one in there.cutters})))


def planned_of(part: Part, cutters: Sequence[Cutter], shop: Shop, state: State, watch: Watch | None = None,
               known: Known | None = None) -> PlannedPart:
    """A part planned with some cutters, what is done standing as it is, with what is to be minded where features
    meet."""
    asked = asked_of(part, shop)
    order = [(one.first, one.then) for one in order_of(part, asked.drawn)]
    met = check(part, asked.drawn)
    planned = plan_part(part, asked.requests, order, cutters, shop, done=state.keys, watch=watch, were=state.were,
                        known=known)
    if rest := _was_to_go_on(state, planned):
        planned = plan_part(part, asked.requests, order, cutters, shop, done=state.keys, watch=watch,
                            were=(*rest, *state.were), known=known)
    return replace(planned, findings=(*planned.findings, *met, *_worn(planned)))


def _worn(planned: PlannedPart) -> Iterator[Finding]:
    """What is to be done to the edges of a cutter that still goes to work: in the passes it would be read too late."""
    left = dict.fromkeys((one.feature, one.cutter.id) for one in planned.operations if not one.done)
    plans = {one.feature: one.proved.plan for one in planned.operations}
    for feature, number in left:
        for one in plans[feature].warnings:
            if one.id == "CD1" and one.grade == Grade.CAUTION and one.cutter_id == number:
                yield replace(one, says=said("{feature}: {says}", feature=feature, says=one.says))


def _was_to_go_on(state: State, planned: PlannedPart) -> tuple[Cutter, ...]:
    """The cutters, as they were, without which there is no plan in which what is done stands: what is done stays in the
    list, whether its rest is made by something or not."""
    there = {one.key for one in planned.operations}
    lost = [one for key, one in state.done.items() if key not in there]
    return tuple({each.id: each for one in lost for each in one.rest}.values())


def _cautions(planned: PlannedPart) -> Iterator[Text]:
    """What its metal and its cutters can do."""
    proved = [one.proved for one in planned.operations]
    if proved:
        kinds = dict.fromkeys(one.cutter.kind for one in planned.operations)
        yield from cautions(proved[0].draft.question.material, kinds)


def _news(reply: PartReply, there: Mapping[int, Cutter]) -> Iterator[Fact]:
    """What is otherwise than when something was ticked last, and what was measured outside of the drawing."""
    state, planned = reply.state, reply.planned
    if state.told:
        yield from _otherwise(state, planned, there)
    yield from (meaning(reply.part, planned, one) for one in state.measured if one.is_outside)


def _otherwise(state: State, planned: PlannedPart, there: Mapping[int, Cutter]) -> Iterator[Fact]:
    now = {one.key: one for one in planned.operations}
    gone = {key: one for key, one in state.told.items() if key not in now}
    lost = [state.done[key] for key in gone if key in state.done]
    unmade = {one.feature for one in planned.unmade}
    if begun := [one for one in state.done.values() if one.feature in unmade]:
        yield said("{works} stays done; what is left of it nothing makes now", works=", ".join(
            one.work for one in begun))
    if others := [one for one in lost if one.feature not in unmade]:
        yield said("done and no longer in the plan: {works}", works=", ".join(one.work for one in others))
    left = [key for key in gone if key not in state.done]
    for number in dict.fromkeys(int(state.told[key]["cutter_id"]) for key in left):
        works = [str(state.told[key]["work"]) for key in left if int(state.told[key]["cutter_id"]) == number]
        yield said("no. {number} {why}: it was to do {works}", number=number, why=_why(there.get(number)),
                   works=", ".join(works))
    if new := [one for one in planned.operations if one.key not in state.told and not one.done]:
        yield said("instead: {works}", works=joined("; ", (
            said("{no} {work} with {cutter}", no=one.no, work=work_of(planned, one),
                 cutter=_name(one.cutter)) for one in new)))
    if (gone or new) and state.minutes and abs(more := planned.minutes - state.minutes) >= 1:
        yield f"that takes {abs(more):.0f} min {'more' if more > 0 else 'less'}"


def _name(cutter: Cutter) -> Text:
    return said("no. {number}, {what}", number=cutter.id, what=Head(
        cutter.label or ByUnits(label(cutter, "in"), label(cutter, "mm"))))


def _why(cutter: Cutter | None) -> str:
    """Why a cutter doesn't do any more what it was to do."""
    if cutter is None or not cutter.count:
        return "is no longer there"
    if cutter.away:
        return "is lent"
    return f"is {cutter.condition} now" if cutter.condition in _WORN else "isn't used now"


_WORN = ("dull", "chipped", "burnt", "bent")
