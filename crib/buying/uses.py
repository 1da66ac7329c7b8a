"""How often something would be wanted: from what was asked before, with a doubt about what is to come."""

from __future__ import annotations

from collections.abc import Sequence

from crib.buying.bench import Bench, Extra
from crib.buying.compare import is_better
from crib.cutters import and_stand_ins
from crib.features.request import Request
from crib.findings.verdicts import ANSWERS
from crib.light.hints import TYPE_CHECKING
from crib.light.records import dataclass
from crib.planning.told.advice import AnyPlan
from crib.shop import Shop

if TYPE_CHECKING:
    from datetime import date

_SAME_JOB_DAYS = 30
_YEAR_DAYS = 365.25
_MOST_LOOKED_AT = 12
_CENT = 0.005


@dataclass(frozen=True)
class Past:
    """A question of the past: its number, what was asked, how often, and from which day to which."""

    number: int
    request: Request
    times: int
    first: date
    last: date

    @property
    def jobs(self) -> int:
        """How many jobs it stands for: asked again within a month it is still the same one."""
        return min(self.times, 1 + (self.last - self.first).days // _SAME_JOB_DAYS)


def expected_uses(served: Sequence[Past], today: date, shop: Shop) -> float:
    """This use, and those to come: as many a year as in the past, for the years ahead, less the doubt.

    1 + rate years doubt. A past of less than a year counts as a year. Common practice, from memory.

    >>> from datetime import date
    >>> day = date(2026, 1, 1)
    >>> expected_uses([Past(1, Request("slot", {}), 1, day, day)] * 3, date(2026, 7, 1), Shop())
    5.2
    """
    if not served:
        return 1.0
    years = max(1.0, (today - min(past.first for past in served)).days / _YEAR_DAYS)
    rate = sum(past.jobs for past in served) / years
    return round(1 + rate * shop.years_ahead * shop.future_doubt, 6)


def served_by(extra: Extra, history: Sequence[Past], bench: Bench) -> tuple[Past, ...]:
    """The questions of the past, the latest few, that an extra would have served: cheaper, or more of the drawing."""
    kinds = {cutter.kind for cutter in extra.cutters}
    asked = [past for past in history if not kinds or kinds & _kinds(past.request, bench)]
    return tuple(past for past in asked[:_MOST_LOOKED_AT] if _serves(extra, past.request, bench))


def _kinds(request: Request, bench: Bench) -> set[str]:
    return {*and_stand_ins(kind for calls in bench.feature(request).calls_for.values() for kind in calls.kinds)}


def _serves(extra: Extra, request: Request, bench: Bench) -> bool:
    return is_gain(bench.best(request, extra), bench.best(request))


def is_gain(after: AnyPlan | None, before: AnyPlan | None) -> bool:
    """Whether a plan is better than another in what it keeps of the drawing, or else in money."""
    if after is None:
        return False
    if before is None or is_better(after, before):
        return True
    return ANSWERS.index(after.answer) <= ANSWERS.index(before.answer) and after.cost < before.cost - _CENT
