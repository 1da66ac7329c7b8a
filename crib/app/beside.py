"""What is said beside the plans of an answer: money, what is lent, what was held back, what the drawing would bear.

Each is imported where it is needed: most answers need none of it.
"""

from __future__ import annotations

from crib.features.request import Request
from crib.findings.message import joined
from crib.findings.verdicts import Verdict
from crib.light.hints import TYPE_CHECKING
from crib.light.records import replace
from crib.planning.advise import Answered
from crib.planning.search.watch import Watch
from crib.planning.told.advice import Advice
from crib.shop import Shop
from crib.store import Holdings

if TYPE_CHECKING:
    from crib.store import HeldBack

_WITH_A_WAY_IN = (Verdict.COMPROMISE, Verdict.CANNOT, Verdict.MEASURE_FIRST)
_WITH_A_HINT = (Verdict.EXTRA_PASSES, Verdict.COMPROMISE, Verdict.CANNOT)


def with_all_beside(found: Answered, request: Request, shop: Shop, there: Holdings, relax: bool,
                    watch: Watch) -> Advice:
    """The advice with all of it; `relax`: with changes of the drawing too, where it is stopped those found by then."""
    advice = found.advice
    if advice.answer in _WITH_A_HINT and advice.buy is None:
        advice = _with_a_hint(found, request, shop, there)
    if there.held_back and advice.answer in (Verdict.CANNOT, Verdict.MEASURE_FIRST):
        advice = _with_held_back(advice, request, there)
    if there.away:
        from crib.planning.out_of_reach import would_do

        better = would_do(request, advice.answer, there.cutters, there.away, shop, found.asked)
        advice = replace(advice, away=tuple(one.as_json() for one in better))
    if request.ends == "closed" and advice.answer in _WITH_A_WAY_IN:
        from crib.planning.entry_hole import way_in

        advice = replace(advice, way_in=way_in(request, advice.answer, there.cutters, shop, watch))
    if relax and advice.answer not in (Verdict.AS_DRAWN, Verdict.REFER):
        from crib.planning.relax import relax as relaxed

        advice = replace(advice, changes=relaxed(request, advice, there.cutters, shop, watch))
    return advice


def _with_a_hint(found: Answered, request: Request, shop: Shop, there: Holdings) -> Advice:
    """With the line about money."""
    from crib.app.remembered import lent_of, prices_of
    from crib.buying.hint import hint

    prices, lent = prices_of(there.notes, shop.units), lent_of(there.notes, shop.units)
    return replace(found.advice, buy=hint(request, found.advice, there.cutters, shop, prices, lent, found.asked))


def _with_held_back(advice: Advice, request: Request, there: Holdings) -> Advice:
    """A no with the lines that were held back and might be what lacks."""
    from crib.buying.bench import feature_of
    from crib.planning.held import may_be

    more = may_be([(_where(one), one.text) for one in there.held_back], feature_of(request))
    return replace(advice, says=joined("; ", filter(None, (advice.says, more))))


def _where(held: HeldBack) -> str:
    """Where a line that was held back stands."""
    from pathlib import PurePath

    if held.file == "-":
        return f"line {held.line} of a list that was piped in"
    return f"line {held.line} of {PurePath(held.file).name}" if held.file else f"held-back line {held.id}"
