"""One plan for the bench: what to get out, the picture, the passes, what it leaves, and what to look out for."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from crib.cutters.base import Cutter
from crib.findings.finding import FINE_MM, Figure
from crib.findings.message import Fact, Measure, Text, joined, said
from crib.pages import passes, process
from crib.pages.blocks import Block, Drawing, Fit, Heading, Paragraph, clauses, table
from crib.pages.remarks import name, place, warnings
from crib.pages.scene import Scene, tight_words
from crib.planning.advice import Plan

_NOTHING_MM = 1e-4
_COST_LINES = 5


def plan_sheet(plan: Plan, scene: Scene | None, assumed: Sequence[Text]) -> list[Sequence[Block]]:
    """The plan in groups; `assumed` is what the question took for granted."""
    return [
        _get_out(plan),
        [Drawing(scene)] if scene else [],
        [Drawing(scene.above)] if scene and scene.above else [],
        passes.table(plan.passes, plan.zeros, bool(plan.checks)),
        list(process.blocks(plan)),
        list(_outcome(plan)),
        warnings(plan.warnings),
        list(_reckoned(plan, assumed)),
    ]


def _get_out(plan: Plan) -> list[Block]:
    """The cutters, where they lie, the size they are reckoned at, and what holds them."""
    paired = len(plan.holders) == len(plan.cutters)
    rows = [(name(cutter), place(cutter), _size(cutter), plan.holders[at] if paired else "")
            for at, cutter in enumerate(plan.cutters)]
    more = [("hold in", "" if paired else joined(", ", plan.holders)),
            ("set up", plan.setup if plan.setup != "upright" else ""), ("fluid", plan.fluid)]
    return [Heading("Get out"), table(("",) * 4, rows, Fit.LIST, 2),
            *(Paragraph(text, label, 2) for label, text in more if text)]


def _size(cutter: Cutter) -> Text:
    """The diameter that was reckoned with, and how it is known."""
    if cutter.diameter_mm is None:
        return ""
    known = "measured" if "diameter_mm" in cutter.measured else "not measured"
    return said("{size} {known}", size=Measure(cutter.diameter_mm), known=known)


def _outcome(plan: Plan) -> Iterator[Paragraph]:
    """What the proof found, and what lies outside the drawing."""
    proof = plan.proof
    left, gouge = Measure(proof.left_mm), Measure(proof.gouge_mm)
    found: list[Fact] = [
        said("{left} left standing", left=left) if left.mm > _NOTHING_MM else "nothing left standing",
        said("gouges {gouge}", gouge=gouge) if gouge.mm > _NOTHING_MM else "no gouge",
    ]
    if proof.tight:
        in_pass = f" in pass {proof.tight.pass_no}" if proof.tight.pass_no else ""
        found.append(said("{spot}{in_pass}", spot=tight_words(proof.tight), in_pass=in_pass))
    elif proof.neck_gap_mm is not None:
        found.append(said("clears by {gap}", gap=Measure(proof.neck_gap_mm)))
    yield Paragraph(said("{found}.", found=joined(", ", found)), "Proved", hang=2)
    for one in plan.deviations:
        off = one.has_mm or 0.0
        yield Paragraph(said("{what} {by}, the drawing allows {allowed}", what=one.says,
                             by=Measure(off, places=4 if off < FINE_MM else 3), allowed=Measure(one.needs_mm or 0.0)),
                        "Outside the drawing", hang=2)


def _reckoned(plan: Plan, assumed: Sequence[Text]) -> Iterator[Paragraph]:
    """Figures, what was assumed, minutes and money."""
    if plan.figures:
        yield Paragraph(said("{all}.", all=joined("; ", map(_figure, plan.figures))), "Figures", hang=2)
    if taken := tuple(dict.fromkeys((*assumed, *plan.assumed))):
        yield Paragraph(clauses(taken), "Assumed", hang=2)
    yield Paragraph(_cost(plan), "Cost", hang=2)


def _figure(figure: Figure) -> Text:
    if figure.mm is not None:
        return said("{what} {size}", what=figure.what, size=Measure(figure.mm, places=figure.places))
    value = f"{figure.value:g}" if isinstance(figure.value, float) else figure.value
    return said("{what} {value}", what=figure.what, value=value if value is not None else "")


def _cost(plan: Plan) -> str:
    """The sum, then its lines, the largest first."""
    ranked = sorted(plan.cost_lines, key=lambda line: (-line.money, -line.minutes, line.what))
    parts = [f"{one.what} {one.minutes:.0f} min" if one.minutes else f"{one.what} {one.money:.2f}" for one in ranked]
    rest = [f"{len(parts) - _COST_LINES} smaller"] if len(parts) > _COST_LINES else []
    detail = ", ".join([*parts[:_COST_LINES], *rest])
    return f"{plan.minutes:.0f} min, {plan.cost:.2f} {plan.currency}" + (f": {detail}." if detail else ".")
