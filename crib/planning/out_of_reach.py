"""Cutters that are owned and aren't there: nothing is planned with them, and the answer says which would have done
better."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from crib.cutters.away import abroad
from crib.cutters.base import Cutter
from crib.features.base import Request
from crib.findings.verdicts import Verdict
from crib.planning.advice import Plan
from crib.planning.advise import better_plan
from crib.records import dataclass
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


def would_do(request: Request, answer: Verdict, cutters: Sequence[Cutter], away: Sequence[Cutter], shop: Shop
             ) -> tuple[OutOfReach, ...]:
    """What is lent or lost and would make a better plan than the answer's; none where nothing would."""
    gone = {cutter.id: (cutter, one) for cutter, one in abroad(away)}
    if not gone or answer in (Verdict.AS_DRAWN, Verdict.REFER):
        return ()
    there = {cutter.id for cutter in cutters}
    more = [cutter.but(count=1) for number, (cutter, _) in gone.items() if number not in there]
    plan: Plan | None = better_plan(request, [*cutters, *more], shop, answer) if more else None
    used = [] if plan is None else [cutter for cutter in plan.cutters if int(cutter.id) not in there]
    return tuple(OutOfReach(cutter, gone[int(cutter.id)][1].words, plan.answer) for cutter in used) if plan else ()
