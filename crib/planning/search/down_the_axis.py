"""Which method makes what is asked for down an axis."""

from __future__ import annotations

from collections.abc import Sequence

from crib.cutters.base import Cutter
from crib.features.down import (
    BoreKeyseat,
    Counterbore,
    Countersink,
    FlatHole,
    InsideGroove,
    PlainHole,
    RingGroove,
    Thread,
)
from crib.machining.chain import DownTheAxis
from crib.machining.question import Question


def method_of(question: Question, cutters: Sequence[Cutter]) -> DownTheAxis | None:
    """The method with so many cutters; None for what isn't round. What isn't asked for isn't loaded."""
    asked = question.feature.down
    if isinstance(asked, PlainHole):
        from crib.machining.methods.down_the_axis.plain_holes import PlainHoles

        return PlainHoles(question, asked, cutters)
    if isinstance(asked, FlatHole):
        from crib.machining.methods.down_the_axis.flat_holes import FlatHoles

        return FlatHoles(question, asked, cutters)
    if isinstance(asked, Counterbore):
        from crib.machining.methods.down_the_axis.counterbores import Counterbores

        return Counterbores(question, asked, cutters)
    if isinstance(asked, Countersink):
        from crib.machining.methods.down_the_axis.countersinks import Countersinks

        return Countersinks(question, asked, cutters)
    if isinstance(asked, InsideGroove):
        from crib.machining.methods.down_the_axis.inside_grooves import InsideGrooves

        return InsideGrooves(question, asked, cutters)
    if isinstance(asked, RingGroove):
        from crib.machining.methods.down_the_axis.ring_grooves import RingGrooves

        return RingGrooves(question, asked, cutters)
    if isinstance(asked, BoreKeyseat):
        from crib.machining.methods.down_the_axis.bore_keyseats import BoreKeyseats

        return BoreKeyseats(question, asked, cutters)
    if isinstance(asked, Thread):
        from crib.tapping.threads import Threads

        return Threads(question, asked, cutters)
    return None
