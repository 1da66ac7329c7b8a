"""What goes before, beside and after the passes of a plan, for whoever wants it told in full."""

from __future__ import annotations

from collections.abc import Sequence

from crib.pages import passes, process
from crib.pages.blocks import Block, Drawing, Heading, Paragraph
from crib.pages.first_screen import leading, to_mind
from crib.pages.of_chips import remarks_of
from crib.pages.remarks import warnings
from crib.pages.scene import Scene
from crib.planning.told.advice import Advice, Plan


def steps(advice: Advice, plan: Plan, scene: Scene | None) -> list[Sequence[Block]]:
    """The view that the first screen hasn't, holding, touching off, dials, what to measure with what, every remark."""
    other = scene if scene and leading(scene) is not scene else scene.above if scene else None
    drawn: list[Block] = [Drawing(other)] if other else []
    told = list(process.blocks(plan))
    seen = [one.text for one in to_mind(advice, plan)]
    rest = [one for one in warnings(remarks_of(plan.warnings, advice.cautions, plan)) if one.text not in seen]
    timed = list(passes.rows(plan.passes, timed=True)) if plan.passes else []
    return [drawn, [Heading("Step by step"), *told] if told else [], timed, _LAST if plan.passes else [], rest]


_LAST = [Paragraph("spindle off; burrs off; all sizes measured once more before the work comes loose: what was touched "
                   "off is lost then.", "Last", hang=2)]
