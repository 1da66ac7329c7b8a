"""The proof: operations are cut again from stock, sharing nothing with whoever planned them but the bodies and where
they go."""

from __future__ import annotations

from collections.abc import Iterable

from crib.geometry.operation import Operation, Work
from crib.geometry.trace import Trace


def prove(work: Work, operations: Iterable[Operation]) -> Trace:
    """Follow the operations in order, in every frame that the work concerns.

    >>> from crib.geometry.outline import Outline
    >>> from crib.geometry.region import box
    >>> from crib.geometry.silhouette import Silhouette, Part
    >>> room, body = box(-5, -4, 5, 0), (Part("a", 0, 9, 5, 5),)
    >>> outline = Outline(box(-99, -99, 99, 0), room, room, room, ())
    >>> trace = prove(Work(outline), [Operation.along(Silhouette(body, body), 0, z) for z in (-3, -4)])
    >>> trace.holds, [stage.met for stage in trace.elevation.stages]
    (True, [Engagement(width=10, height=3, area=30), Engagement(width=10, height=1, area=10)])
    """
    return Trace(work, tuple(operations))
