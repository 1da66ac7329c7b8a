"""What a plan comes to: what the proof found, what lies outside the drawing, what was reckoned and assumed."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from crib.findings.finding import FINE_MM, LEAST_TOLD_MM, Figure, Finding, Grade
from crib.findings.message import Fact, Measure, Reading, Text, joined, said
from crib.findings.verdicts import Verdict
from crib.pages.blocks import Paragraph, Tone, clauses
from crib.pages.scene import tight_words
from crib.planning.told.advice import Plan
from crib.rules.catalogue import ids

_OTHERWISE = ids("otherwise")
"""Rules whose findings tell what comes out otherwise than as drawn, with no figure."""

_NOTHING_MM = 1e-4
_FAR_MM = 6.35
"""What clears by so much goes without saying."""


def proved(plan: Plan) -> Text:
    """What the proof found."""
    proof = plan.proof
    left, gouge = Measure(proof.left_mm), Measure(proof.gouge_mm)
    stands = "nothing left standing but what is outside the drawing" if plan.deviations else (
        said("{left} left standing", left=left))
    found: list[Fact] = [
        stands if left.mm > _NOTHING_MM else "nothing left standing",
        said("gouges {gouge}", gouge=gouge) if gouge.mm > _NOTHING_MM else "no gouge",
    ]
    if proof.tight and proof.tight.gap_mm >= _FAR_MM:
        pass
    elif proof.tight:
        in_pass = f" in pass {proof.tight.pass_no}" if proof.tight.pass_no else ""
        found.append(said("{spot}{in_pass}", spot=tight_words(proof.tight), in_pass=in_pass))
    elif proof.neck_gap_mm is not None:
        found.append(said("clears by {gap}", gap=Measure(proof.neck_gap_mm)))
    return said("{found}.", found=joined(", ", found))


def outside(plan: Plan) -> Iterator[Paragraph]:
    """What lies outside the drawing, for whoever must say yes to it."""
    for one in plan.deviations:
        off = one.has_mm or 0.0
        by: Fact = Measure(off, places=4) if off < FINE_MM else Reading(off)
        yield Paragraph(off_by(one, by), "Outside the drawing", hang=2, tone=Tone.MIND)
    for other in otherwise(plan):
        yield Paragraph(other.says, "Outside the drawing", hang=2, tone=Tone.MIND)


def otherwise(plan: Plan) -> tuple[Finding, ...]:
    """What comes out otherwise than as drawn though nothing of it measures outside: a hole that isn't reamed."""
    if plan.answer != Verdict.COMPROMISE or plan.deviations:
        return ()
    return tuple(one for one in plan.warnings if one.id in _OTHERWISE and one.grade in (Grade.CAUTION, Grade.WARN))


def off_by(one: Finding, by: Fact | None = None) -> Text:
    """What comes out otherwise than as drawn, by how much, and how much of it is allowed; `by`: as it is to be told.

    >>> from crib.findings.finding import off_drawing
    >>> off_by(off_drawing("G12", "the width may come out outside its limits", 0.1, beyond=True, of_mm=0.2)).template
    '{what} by {by}'
    """
    by = by or Measure(one.has_mm or 0.0, places=4)
    if one.beyond and (one.has_mm or 0.0) < LEAST_TOLD_MM:
        return said("{what} by less than {by}", what=one.says, by=Measure(2 * LEAST_TOLD_MM, places=4))
    if one.beyond:
        return said("{what} by {by}", what=one.says, by=by)
    return said("{what} {by}, the drawing allows {allowed}", what=one.says, by=by, allowed=Measure(one.needs_mm or 0.0))


def figures(plan: Plan) -> list[Paragraph]:
    """What was reckoned on the way."""
    told = said("{all}.", all=joined("; ", map(_figure, plan.figures)))
    return [Paragraph(told, "Figures", hang=2)] if plan.figures else []


def assumed(those: Sequence[Text]) -> list[Paragraph]:
    """What was taken for granted."""
    taken = tuple(dict.fromkeys(those))
    return [Paragraph(clauses(taken), "Assumed", hang=2)] if taken else []


def _figure(figure: Figure) -> Text:
    if figure.mm is not None:
        return said("{what} {size}", what=figure.what, size=Measure(figure.mm, places=figure.places))
    value = f"{figure.value:g}" if isinstance(figure.value, float) else figure.value
    return said("{what} {value}", what=figure.what, value=value if value is not None else "")
