"""What goes on a hole that is there, a counterbore or a countersink, where nothing in the part makes that hole."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from crib.features.down import Counterbore, Countersink, FlatHole, InsideGroove, PlainHole
from crib.findings.finding import Finding, Grade
from crib.findings.message import Measure, said
from crib.parts.lying import Lying, is_one_line
from crib.units import Size


def without_hole(one: Lying, lying: Sequence[Lying]) -> Iterator[Finding]:
    """That no feature on one of its axes makes its hole, or that one makes it of another size."""
    hole = _there(one)
    if hole is None:
        return
    for axis in one.axes:
        on_it = [its for its in lying if its is not one and _there(its) is None
                 and any(is_one_line(axis, other) for other in its.axes)]
        sizes = [its.feature.down.diameter for its in on_it if isinstance(its.feature.down, PlainHole | FlatHole)]
        if not on_it:
            yield Finding("part-no-hole", Grade.CAUTION,
                          said("{one}: nothing in the part drills its {hole} hole", one=one.name,
                               hole=Measure(hole.nominal)), "geometry", fix="add the hole at the same places",
                          read=one.name)
            return
        if len(sizes) == len(on_it) and not any(its.lo <= hole.hi and hole.lo <= its.hi for its in sizes):
            yield Finding("part-no-hole", Grade.CAUTION,
                          said("{one}: is for a hole of {hole}, and {other} is {made}", one=one.name,
                               hole=Measure(hole.nominal), other=on_it[0].name, made=Measure(sizes[0].nominal)),
                          "geometry", has_mm=sizes[0].nominal, needs_mm=hole.nominal,
                          fix="one size for both", read=one.name)
            return


def _there(one: Lying) -> Size | None:
    """The hole that it goes on."""
    down = one.feature.down
    if isinstance(down, InsideGroove):
        return down.bore
    return down.hole if isinstance(down, Counterbore | Countersink) else None
