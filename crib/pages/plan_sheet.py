"""One plan for the bench: what to get out, the picture, the passes, what it leaves, and what to look out for."""

from __future__ import annotations

from collections.abc import Sequence

from crib.cutters.base import Cutter
from crib.cutters.label import label
from crib.findings.finding import FINE_MM, Figure
from crib.findings.message import Text
from crib.pages import passes, picture, plan_view, process
from crib.pages.remarks import place, warning_lines
from crib.pages.scene import Scene
from crib.pages.text import columns, exact, join, paragraph
from crib.planning.advice import Plan
from crib.render.words import worded, words

_NOTHING_MM = 1e-4
_COST_LINES = 5


def plan_sheet(
    plan: Plan, scene: Scene | None, assumed: Sequence[Text], units: str, width: int = 100, lines: bool = True
) -> list[str]:
    """The plan as lines of at most `width` characters; `assumed` is what the question took for granted."""
    blocks = [
        _get_out(plan, units, width),
        picture.of_scene(scene, units, width, lines) if scene else [],
        plan_view.of_scene(scene.above, width, lines) if scene and scene.above else [],
        passes.table(plan.passes, units, width, lines, plan.zeros, bool(plan.checks)),
        process.block(plan, units, width),
        _outcome(plan, units, width),
        warning_lines(plan.warnings, units, width),
        _reckoned(plan, assumed, units, width),
    ]
    return [line for number, block in enumerate(b for b in blocks if b) for line in ([""] if number else []) + block]


def name(cutter: Cutter, units: str) -> str:
    """A cutter by its number and what it is."""
    return f"no. {cutter.id}, {cutter.label or label(cutter, units)}"


def _get_out(plan: Plan, units: str, width: int) -> list[str]:
    """The cutters, where they lie, the size they are reckoned at, and what holds them."""
    paired = len(plan.holders) == len(plan.cutters)
    rows = [
        (f"  {name(cutter, units)}", place(cutter), _size(cutter, units),
         words(plan.holders[at], units) if paired else "")
        for at, cutter in enumerate(plan.cutters)
    ]
    body = columns(rows)
    if any(len(line) > width for line in body):
        body = [line for row in rows for line in paragraph(", ".join(cell for cell in row if cell), width, "", 4)]
    if plan.holders and not paired:
        body += paragraph(", ".join(worded(plan.holders, units)), width, "  hold in: ")
    if plan.setup != "upright":
        body += paragraph(plan.setup, width, "  set up: ")
    if plan.fluid:
        body += paragraph(plan.fluid, width, "  fluid: ")
    return ["Get out", *body]


def _size(cutter: Cutter, units: str) -> str:
    """The diameter that was reckoned with, and how it is known."""
    if cutter.diameter_mm is None:
        return ""
    known = "measured" if "diameter_mm" in cutter.measured else "not measured"
    return f"{exact(cutter.diameter_mm, units)} {known}"


def _outcome(plan: Plan, units: str, width: int) -> list[str]:
    """What the proof found, and what lies outside the drawing."""
    proof = plan.proof
    found = [
        "nothing left standing" if proof.left_mm <= _NOTHING_MM else f"{exact(proof.left_mm, units)} left standing",
        "no gouge" if proof.gouge_mm <= _NOTHING_MM else f"gouges {exact(proof.gouge_mm, units)}",
    ]
    if proof.tight:
        spot = f"in pass {proof.tight.pass_no}" if proof.tight.pass_no else ""
        found.append(f"{picture.tight_words(proof.tight, units)} {spot}".strip())
    elif proof.neck_gap_mm is not None:
        found.append(f"clears by {exact(proof.neck_gap_mm, units)}")
    out = paragraph(", ".join(found) + ".", width, "Proved: ", 2)
    for deviation in plan.deviations:
        by = exact(deviation.mm, units, places=4 if deviation.mm < FINE_MM else 3)
        text = f"{words(deviation.what, units)} {by}, the drawing allows {exact(deviation.allowed_mm, units)}"
        out += paragraph(text, width, "Outside the drawing: ", 2)
    return out


def _reckoned(plan: Plan, assumed: Sequence[Text], units: str, width: int) -> list[str]:
    """Figures, what was assumed, minutes and money."""
    out: list[str] = []
    if plan.figures:
        out += paragraph("; ".join(_figure(figure, units) for figure in plan.figures) + ".", width, "Figures: ", 2)
    taken = tuple(dict.fromkeys(worded((*assumed, *plan.assumed), units)))
    if taken:
        out += paragraph(join(taken), width, "Assumed: ", 2)
    out += paragraph(_cost(plan), width, "Cost: ", 2)
    return out


def _figure(figure: Figure, units: str) -> str:
    if figure.mm is not None:
        return f"{figure.what} {exact(figure.mm, units, places=figure.places)}"
    value = f"{figure.value:g}" if isinstance(figure.value, float) else str(figure.value)
    return f"{figure.what} {value}"


def _cost(plan: Plan) -> str:
    """The sum, then its lines, the largest first."""
    ranked = sorted(plan.cost_lines, key=lambda line: (-line.money, -line.minutes, line.what))
    parts = [f"{one.what} {one.minutes:.0f} min" if one.minutes else f"{one.what} {one.money:.2f}" for one in ranked]
    rest = [f"{len(parts) - _COST_LINES} smaller"] if len(parts) > _COST_LINES else []
    detail = ", ".join([*parts[:_COST_LINES], *rest])
    return f"{plan.minutes:.0f} min, {plan.cost:.2f} {plan.currency}" + (f": {detail}." if detail else ".")
