"""Where a depth may be aimed besides its middle: at the height of teeth that are lower than it but inside the limits,
so that a flank is made at one height. The slot before it goes to the same floor."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import floor

from crib.cutters import kind_of
from crib.cutters.base import Motion
from crib.features import draw
from crib.features.base import Feature
from crib.findings.message import Mm, Text, said
from crib.geometry.outline import Lean
from crib.light.records import replace
from crib.machining.methods.base import lies_along
from crib.machining.question import Question
from crib.machining.tool import Tool
from crib.machining.tools import sieved

_SLACK = 1e-6


def aimed(question: Question, tools: Sequence[Tool]) -> tuple[Question, ...]:
    """The same question aimed at each height of teeth that would do, as it can be dialled; none for a feature without
    flanks over the cutter."""
    feature, request = question.feature, question.feature.request
    lean = next((room.lean for room in feature.outline.rooms if room.lean and room.lean.run > 0), None)
    key = next((one.name for one in feature.dimensions if one.sort == "depth" and one.name in request.sizes), None)
    if lean is None or key is None:
        return ()
    heights = sorted(set(_heights(feature, key, lean, tools, question.shop.readout_mm)), reverse=True)
    size = request.sizes[key]
    return tuple(
        replace(question, feature=draw(replace(request, sizes={**request.sizes, key: replace(size, aim=height)})))
        for height in heights
    )


def _heights(feature: Feature, key: str, lean: Lean, tools: Sequence[Tool], step: float) -> Iterator[float]:
    size = feature.request.sizes[key]
    for tool in sieved(tools, lambda kind: Motion.FLANK in kind_of(kind).motions):
        if lies_along(tool, lean):
            high = tool.form.height / 1e6
            dialled = round(floor(high / step + _SLACK) * step, 6)
            if size.lo - _SLACK <= dialled and high < size.mid - _SLACK:
                yield dialled


def what_is_aimed(question: Question) -> Text:
    """What is aimed at in words."""
    for key, size in question.feature.request.sizes.items():
        if size.aim is not None:
            return (said("the middle of every tolerance but that of the {key}: {aim}, the height of the teeth, inside "
                         "{least} to {most}", key=key, aim=Mm(size.aim), least=Mm(size.lo), most=Mm(size.hi)))
    return "the middle of every tolerance"
