"""The middle of an end mill that its end teeth don't reach, and the hole that must be under it before the mill goes
down."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from crib.cutters import goes_down
from crib.cutters.base import Cutter, Down
from crib.findings.message import Mm, Text, said
from crib.machining.own_holes import whole_range
from crib.shop import Own

CORE = 0.4
"""The core of an end mill that doesn't cut, of its diameter [-], to be measured. Common practice."""

ROOM_MM = 0.010 * 25.4
"""How much wider than a core the hole is that lets it by [mm]. Common practice."""


def core_mm(mill: Cutter) -> float:
    """The width in the middle of a plunged end mill that surely has no teeth [mm]: nought where it is on record that
    they reach the centre.

    >>> round(core_mm(Cutter(1, "end-mill", diameter_mm=12.7, centre_cutting=False)) / 25.4, 3)
    0.2
    """
    if not goes_down(mill, Down.MILLING) or mill.centre_cutting:
        return 0.0
    return CORE * (mill.diameter_mm or 0.0)


def lets_by(drill: Cutter, mill: Cutter, own: Own) -> bool:
    """Whether the least hole of a drill is room for an end mill's core; where teeth reach the centre they still hardly
    cut there, and the hole is as wide as that."""
    across = drill.diameter_mm or 0.0
    if core := core_mm(mill):
        return across + whole_range(own, across)[0] >= core + ROOM_MM
    return across >= CORE * (mill.diameter_mm or 0.0)


def unlike(drills: Sequence[Cutter]) -> Iterator[Cutter]:
    """The first of the drills that rules speak of alike: of one condition and material, with flutes that are known or
    aren't."""
    seen = set()
    for drill in drills:
        alike = drill.condition, drill.material, drill.length_of_cut_mm is None
        if alike not in seen:
            seen.add(alike)
            yield drill


def taken_as(mill: Cutter) -> Iterator[Text]:
    """That the core of a mill is taken as usual; nothing where teeth reach its centre."""
    if core := core_mm(mill):
        yield said("{cutter}: the middle without teeth is taken as {core}, two fifths of its diameter: measure it "
                   "before it goes down", cutter=mill.label, core=Mm(core))
