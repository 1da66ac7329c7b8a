"""What a part lacks for the features that nothing makes: what is nearest, and what would do."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from crib.cutters.base import Cutter
from crib.features.down import Thread
from crib.features.request import Request
from crib.findings.finding import NO_CHANGE
from crib.findings.message import Deg, Measure, Message, Text, said
from crib.findings.verdicts import Verdict
from crib.planning.advise import jobs_for
from crib.planning.parts.planned import Lacking, Unmade
from crib.planning.relax import relax
from crib.planning.search.watch import Watch
from crib.planning.told.advice import Advice, Change, Refusal
from crib.shop import Shop

CUTTER, COLLET, TAP, MEASURE, GIVING_IN = "cutter", "collet", "tap", "measure", "yes to a change of the drawing"


def lacking_of(unmade: Sequence[Unmade], requests: Mapping[str, Request], shop: Shop) -> Iterator[Lacking]:
    """For each feature that nothing makes what it lacks."""
    for one in unmade:
        if one.advice.answer in (Verdict.REFER,) or one.advice.in_part:
            continue
        yield Lacking(_what(one.advice, requests[one.feature], shop), one.feature, _says(one.advice))


def _what(advice: Advice, request: Request, shop: Shop) -> str:
    """What sort of thing it lacks."""
    if advice.answer is Verdict.MEASURE_FIRST:
        return MEASURE
    if not advice.refused_count and advice.feature.get("kind") and len(advice.feature) == 1:
        return ""
    near = _nearest(advice)
    if near is not None and near.id.startswith("HD"):
        return COLLET
    down = jobs_for(request, (), shop)[0].question.feature.down
    return TAP if isinstance(down, Thread) and near is not None and near.cutter.thread else CUTTER


def _says(advice: Advice) -> Text:
    """What decides, and what would do."""
    near = _nearest(advice)
    if near is None or _names(advice.says, near.cutter.label):
        return advice.says
    does = said("{cutter}: {says}; {fix}", cutter=near.cutter.label, says=near.says, fix=near.fix or NO_CHANGE)
    return said("{says}; nearest is {near}", says=advice.says, near=does) if advice.says else does


def _names(text: Text, label: str) -> bool:
    """Whether what is said is of a cutter already."""
    return isinstance(text, Message) and any(
        fact == label or (isinstance(fact, Message) and _names(fact, label)) for _, fact in text.facts)


def _nearest(advice: Advice) -> Refusal | None:
    """The refusal with a change that would do."""
    return next((one for one in advice.refused if one.fix and one.fix != NO_CHANGE), None)


def given_in(unmade: Sequence[Unmade], requests: Mapping[str, Request], cutters: Sequence[Cutter], shop: Shop,
             watch: Watch) -> Iterator[Lacking]:
    """For each feature that nothing makes wherever it lies the smallest change of the drawing that would do; as long as
    there is patience."""
    for one in unmade:
        if one.advice.answer is not Verdict.CANNOT or not one.advice.refused or watch.stopped or watch.ran_out:
            continue
        if changes := relax(requests[one.feature], one.advice, cutters, shop, watch):
            yield Lacking(GIVING_IN, one.feature, _changed(changes[0]))


def _changed(change: Change) -> Text:
    labels = ", ".join(cutter.label for cutter in change.plan.cutters)
    words = change.key.removesuffix("_mm").removesuffix("_deg").replace("_", " ")
    before, after = (said("{deg} degrees", deg=Deg(value)) if change.key.endswith(("_deg", "angle")) else Measure(value)
                     for value in (change.before, change.after))
    return said("with its {size} {after} instead of {before} {cutters} would make it", size=words, after=after,
                before=before, cutters=labels)
