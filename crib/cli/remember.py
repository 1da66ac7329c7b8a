"""Writing down what was asked, once it was answered: never in the answer's way."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from crib.cli import out
from crib.cli.asked import Asked
from crib.findings.errors import CribError
from crib.store import Holdings, PastQuestion, open_crib

if TYPE_CHECKING:
    from crib.planning.advice import Advice

_PATIENCE = 0.25
"""How long a locked crib is waited for [s]: whoever has the answer wants the prompt back."""


def remember(asked: Asked, question: PastQuestion, then: Holdings | None = None) -> None:
    """Write a question down in the crib that answered it; `then`: what it was answered from, where that was read in one
    go. Where it can't be written down, a note says so and no more."""
    out.flush()
    try:
        with open_crib(asked.crib, units=question.units, patience=_PATIENCE, known=True) as crib:
            crib.remember(question, then)
    except CribError as error:
        out.note(f"this question won't be remembered: {error.diagnostic.what}")


def past_question(kind: str, texts: Mapping[str, str], units: str, advice: Advice) -> PastQuestion:
    """A question with the answer that it got, as the crib keeps it."""
    if not advice.plans:
        return PastQuestion(kind, texts, units, advice.answer)
    best = advice.plans[0]
    return PastQuestion(kind, texts, units, advice.answer, cost=best.cost, currency=best.currency,
                        minutes=best.minutes, cutters=tuple(cutter.id for cutter in best.cutters))
