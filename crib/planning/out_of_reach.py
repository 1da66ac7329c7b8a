"""Cutters that are owned and aren't there: nothing is planned with them, and the answer says which would have done
better."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from crib.cutters.away import abroad
from crib.cutters.base import Cutter
from crib.cutters.two_ends import each_end
from crib.features.request import Request
from crib.findings.verdicts import Verdict
from crib.light.records import dataclass
from crib.planning.advise import better_plan
from crib.planning.again import better_with
from crib.planning.search.set_ups import Asked, usable
from crib.planning.told.advice import AnyPlan
from crib.shop import Shop


@dataclass(frozen=True)
class OutOfReach:
    """A cutter that is lent or lost, in words how, and the verdict that it would earn."""

    cutter: Cutter
    says: str
    answer: Verdict

    def as_json(self) -> dict[str, Any]:
        """Its number, its label, how it is away, and the verdict."""
        return {"cutter_id": self.cutter.id, "label": self.cutter.label, "says": self.says, "answer": self.answer}


def would_do(request: Request, answer: Verdict, cutters: Sequence[Cutter], away: Sequence[Cutter], shop: Shop,
             asked: Asked = ()) -> tuple[OutOfReach, ...]:
    """What is lent or lost and would make a better plan than the answer's; none where nothing would. `asked`: what was
    worked out for the answer."""
    gone = {cutter.id: (cutter, one) for cutter, one in abroad(away)}
    if not gone or answer in (Verdict.AS_DRAWN, Verdict.REFER):
        return ()
    there = {cutter.id for cutter in cutters}
    more = [cutter.but(count=1) for number, (cutter, _) in gone.items() if number not in there]
    plan = _better(request, answer, cutters, more, shop, asked) if more else None
    used = [] if plan is None else [cutter for cutter in plan.cutters if int(cutter.id) not in there]
    return tuple(OutOfReach(cutter, gone[int(cutter.id)][1].words, plan.answer) for cutter in used) if plan else ()


def _better(request: Request, answer: Verdict, cutters: Sequence[Cutter], more: Sequence[Cutter], shop: Shop,
            asked: Asked) -> AnyPlan | None:
    """What the best plan with more cutters comes to where it is better than the answer. Of what is cut along only
    plans with one of them are looked for, for without them it is as the answer says."""
    if not asked or asked[0].down or asked[0].question.layers:
        return better_plan(request, [*cutters, *more], shop, answer)
    found = better_with(asked, asked, [*asked[0].tools, *usable(asked[0].question, each_end(more))], answer)
    return found.gist if found else None
