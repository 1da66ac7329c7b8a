"""What is said of a draft, whatever an hour is worth."""

from __future__ import annotations

from crib.findings.finding import Finding
from crib.findings.verdicts import Verdict
from crib.light.tuples import NamedTuple
from crib.machining.draft import Draft
from crib.planning.reckoning.minutes import Timed, timed_of
from crib.planning.told.verdict import answer, deviations
from crib.rules import judge


class Judged(NamedTuple):
    """What the rules say of a draft, what it gives away, the verdict, and the minutes that it takes."""

    warnings: tuple[Finding, ...]
    deviations: tuple[Finding, ...]
    answer: Verdict
    timed: tuple[Timed, ...]


def judged(draft: Draft, finished: bool) -> Judged:
    """That of a draft; what an unfinished one leaves isn't held against it."""
    warnings = judge(draft)
    gives_away = deviations(draft, finished)
    return Judged(warnings, gives_away, answer(draft, warnings, bool(gives_away)), tuple(timed_of(draft)))
