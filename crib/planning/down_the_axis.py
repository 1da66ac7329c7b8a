"""Which method makes what is asked for down an axis."""

from __future__ import annotations

from collections.abc import Sequence

from crib.cutters.base import Cutter
from crib.features.rounds import Counterbore, PlainHole, Thread
from crib.machining.chain import DownTheAxis
from crib.machining.draft import Question
from crib.machining.methods.down_the_axis.counterbores import Counterbores
from crib.machining.methods.down_the_axis.plain_holes import PlainHoles
from crib.tapping.threads import Threads


def method_of(question: Question, cutters: Sequence[Cutter]) -> DownTheAxis | None:
    """The method with so many cutters; None for what isn't round."""
    asked = question.feature.down
    if isinstance(asked, PlainHole):
        return PlainHoles(question, asked, cutters)
    if isinstance(asked, Counterbore):
        return Counterbores(question, asked, cutters)
    return Threads(question, asked, cutters) if isinstance(asked, Thread) else None
