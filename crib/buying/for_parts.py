"""The one thing that would change most for a part: bought, lent by a friend, ground, or a collet."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import islice, zip_longest

from crib.buying.bench import Bench, Extra, feature_of
from crib.buying.candidates import candidates
from crib.buying.compare import Way
from crib.buying.offers import borrowed, bought, collets, ground
from crib.cutters import and_stand_ins
from crib.features.base import Feature
from crib.features.request import Request
from crib.findings.message import Text, joined, said
from crib.findings.verdicts import Verdict
from crib.handbook.materials import DEFAULT_MATERIAL, find_material
from crib.light.records import dataclass
from crib.parts.part import Part
from crib.planning.parts.known import Known
from crib.planning.parts.plan import plan_part
from crib.planning.parts.planned import Lacking, PlannedPart, Unmade
from crib.planning.search.watch import OutOfPatience, Watch

_EACH, _FEATURES, _MOST = 3, 4, 8
"""So many things are bought for each room, on trial; for so many features; so many are tried in all, of each feature
in turn. They are counted and not timed: one part has one answer, however slow the machine and whatever was asked."""

_WORTH_IT = 5.0
"""Minutes that it must save at the least where everything is made already: less is within what is reckoned."""


_SORTS = {Way.BORROW: "loan", Way.GRIND: "grind", Way.HOLDER: "collet"}


@dataclass(frozen=True)
class AskedPart:
    """A part, what is asked of its features, the order that must hold, and the keys of what is done."""

    part: Part
    requests: Mapping[str, Request]
    order: Sequence[tuple[str, str]]
    done: Sequence[str] = ()


def one_thing(asked: AskedPart, planned: PlannedPart, bench: Bench, known: Known, watch: Watch) -> Lacking | None:
    """What changes most: what makes the most features that nothing makes, then what keeps the drawing where it was
    given in, then what saves most. Only features that call for such a thing are asked anew; as long as there is
    patience."""
    names = wanting(planned)
    best: tuple[tuple[int, int, float], Extra, PlannedPart] | None = None
    for extra in islice(_offers(asked, names, planned.unmade, bench), _MOST):
        try:
            watch.check()
        except OutOfPatience:
            break
        again = _with(asked, bench, extra, known, watch)
        gain = _gain(planned, again)
        if (best is None or gain > best[0]) and gain > (0, 0, _WORTH_IT):
            best = gain, extra, again
    return _said(planned, best[2], best[1]) if best else None


def wanting(planned: PlannedPart) -> tuple[str, ...]:
    """The features that nothing makes wherever they lie, or only outside of the drawing; then those that take longest
    without the right cutter."""
    given = [one.feature for one in planned.operations if one.proved.plan.answer is Verdict.COMPROMISE]
    slow = sorted((one for one in planned.operations if one.proved.plan.answer is Verdict.EXTRA_PASSES),
                  key=lambda one: -one.minutes)
    every = [*(one.feature for one in planned.unmade if one.advice.refused), *given, *(one.feature for one in slow)]
    return tuple(dict.fromkeys(every))[:_FEATURES]


def _offers(asked: AskedPart, names: Sequence[str], unmade: Sequence[Unmade], bench: Bench) -> Iterator[Extra]:
    """The collet that most owned cutters wait for; what could be got for some features, of each in turn."""
    if any(one.advice.refused and one.advice.refused[0].id.startswith("HD") for one in unmade):
        yield from sorted(collets(bench), key=lambda one: -one.offer.idle)[:1]
    for row in zip_longest(*(_offers_for(asked.requests[name], bench) for name in names)):
        yield from (one for one in row if one is not None)


def _offers_for(request: Request, bench: Bench) -> Iterator[Extra]:
    """What could be got for a feature."""
    feature = feature_of(request)
    wanted = candidates(feature, bench.shop, bench.cutters)
    for calls in feature.calls_for.values():
        kinds = set(and_stand_ins(calls.kinds))
        mine = [one for one in wanted if one.cutter.kind in kinds and (calls.diameter is None or (
            calls.diameter[0] - 1e-6 <= (one.cutter.diameter_mm or 0.0) <= calls.diameter[1] + 1e-6))]
        yield from (bought(one, bench, request) for one in mine[:_EACH])
        yield from (one for one in borrowed(bench) if one.cutters[0].kind in kinds)
        yield from ground(mine[:1], bench, find_material(request.material or DEFAULT_MATERIAL))


def _with(asked: AskedPart, bench: Bench, extra: Extra, known: Known, watch: Watch) -> PlannedPart:
    """The part with it: the features that call for such a cutter have it, the others are made as they are."""
    kinds = {cutter.kind for cutter in extra.cutters}
    for_feature = {name: (*bench.cutters, *extra.cutters) for name, request in asked.requests.items()
                   if kinds & _called(feature_of(request))}
    return plan_part(asked.part, asked.requests, asked.order, bench.cutters, extra.shop(bench), asked.done,
                     Watch(patience=watch.patience, timer=watch.timer), known=known, for_feature=for_feature)


def _called(feature: Feature) -> set[str]:
    return set(and_stand_ins(kind for calls in feature.calls_for.values() for kind in calls.kinds))


def _gain(before: PlannedPart, after: PlannedPart) -> tuple[int, int, float]:
    """More features made, more of them as drawn, minutes saved."""
    saved = before.minutes - after.minutes if len(before.unmade) == len(after.unmade) else 0.0
    return len(before.unmade) - len(after.unmade), len(_given(before)) - len(_given(after)), saved


def _given(planned: PlannedPart) -> set[str]:
    """The features that come out outside of the drawing."""
    return {one.feature for one in planned.operations if one.proved.plan.answer is Verdict.COMPROMISE}


def _said(before: PlannedPart, after: PlannedPart, extra: Extra) -> Lacking:
    missing = {one.feature for one in after.unmade}
    makes = [one.feature for one in before.unmade if one.feature not in missing]
    does: list[Text] = [f"would make the {name}" for name in makes]
    if not makes and (kept := _given(before) - _given(after)):
        does.append(f"would keep the drawing of the {', the '.join(sorted(kept))}")
    saved = before.minutes - after.minutes
    if not makes and saved > _WORTH_IT:
        does.append(f"would save {saved:.0f} min")
    offer = extra.offer
    price = f" at {offer.price:.2f} {before.currency}" if offer.price else ""
    return Lacking(_SORTS.get(offer.way, "cutter"), "", said("{label}{price} {does}; nothing else tried changes more",
                                                            label=offer.label, price=price,
                                                            does=joined(" and ", does)))
