"""Boring with a head: how much a bar takes at a time, and the ladder of cuts from a hole that is there to the size."""

from __future__ import annotations

from math import ceil, floor

from crib.handbook.bites import E_CARBIDE, E_HSS, FLUTED_SHARE, bend
from crib.handbook.materials import Material
from crib.handbook.power import unit_power

_INCH = 25.4
ROUGH_MM: dict[str, float] = {"bench": 0.015 * _INCH, "knee": 0.040 * _INCH, "heavy": 0.050 * _INCH}
"""A roughing cut a side by the mill's build [mm]: .030 to .050 in on a knee mill, .015 on a bench mill. Common
practice."""

LAST_MM = 0.005 * _INCH
"""The most that each of the two last, equal cuts takes a side [mm]. Common practice."""

FEED_MM, LAST_FEED_MM = 0.003 * _INCH, 0.0015 * _INCH
"""The quill's feed a revolution, roughing and for the last cuts [mm]: usual steps of a knee mill's quill feed. From
memory."""

BEND_MM = 0.002 * _INCH
"""The most that a bar may bend under a roughing cut [mm]. From memory."""

FACING_FEED_MM = 0.001 * _INCH
"""What a head that feeds out by itself goes out a side with each turn [mm]. From memory."""

GROOVE_MM, GROOVE_SOFT_MM, GROOVE_TURNS = 0.003 * _INCH, 0.005 * _INCH, 20
"""How far a grooving tooth is set out a side at once, in metal and in what cuts freely [mm], and how often it is let
round then until it takes nothing more [-]: it cuts on all of its width. Common practice, no source."""

FREE_CUTTING = ("aluminium", "brass", "plastic")
"""Groups of metal that a single tooth cuts freely."""

CHATTERS_MM = 0.125 * _INCH
"""A single tooth that cuts on a width over this chatters in what doesn't cut freely [mm]. Common practice, no
source."""

BORED_LEAST, BEFORE_BORING_MM = 0.030 * _INCH, 0.010 * _INCH
"""Room that a bar wants beyond the least hole that it goes into, and what the hole before a bore is under its least
size, at the least [mm]. Common practice."""

CAUTION_OVER, STOP_OVER = 4.0, 6.0
"""Diameters that a bar stands out, from which it is a caution and beyond which it isn't done [-]. Common practice."""

_LEAST_MM = 0.003 * _INCH
"""A roughing cut is never reckoned thinner [mm]: it would rub. Common practice."""


def rough_cut(bar_mm: float, stands_out_mm: float, material: Material, stiffness: str, carbide: bool = False) -> float:
    """The roughing cut a side that a bar stands: what the mill takes, less where the bar would bend too far.

    The force is the metal's unit power times the cut's area, the bar a beam that is held at one end.
    Parameters: bar, how far it stands out [mm]; material; stiffness of the mill; whether the bar is solid carbide.
    Returns: cut a side [mm]. References: common practice; elementary beam theory.
    Examples: computed here for a 1/2 in bar in mild steel, 1-1/2 and 3 in out.

    >>> from crib.handbook.materials import find_material
    >>> steel = find_material("mild steel")
    >>> [round(rough_cut(12.7, out * 25.4, steel, "knee") / 25.4, 3) for out in (1.5, 3.0)]
    [0.04, 0.025]
    """
    force = unit_power(material) * 1000 * FEED_MM
    each_mm = bend(force, stands_out_mm, bar_mm / FLUTED_SHARE, E_CARBIDE if carbide else E_HSS)
    return max(_LEAST_MM, min(ROUGH_MM[stiffness], BEND_MM / each_mm))


def groove_step(group: str) -> float:
    """How far a grooving tooth is set out a side at once, in a group of metals [mm]. References: common practice.

    >>> groove_step("steel") < groove_step("aluminium")
    True
    """
    return GROOVE_SOFT_MM if group in FREE_CUTTING else GROOVE_MM


def ladder(start_mm: float, size_mm: float, rough_mm: float, step_mm: float) -> tuple[float, ...]:
    """The diameter after each cut: roughing in cuts of whole steps of a dial, all alike but for the last, which takes
    what is over; then two equal last ones.

    Parameters: the hole that is there, the size aimed at, a roughing cut a side, the step of a dial on the
    diameter [mm]. Returns: diameters [mm], the last two of them finishing. References: common practice.
    Examples: computed here for a hole of .489 opened to .750 in, .040 a side.

    >>> [round(mm / 25.4, 4) for mm in ladder(0.489 * 25.4, 0.75 * 25.4, 0.040 * 25.4, 0.0254)]
    [0.55, 0.611, 0.672, 0.73, 0.74, 0.75]
    """
    rough_end = ceil((size_mm - 4 * LAST_MM) / step_mm - 1e-6) * step_mm
    if rough_end <= start_mm:
        return (start_mm + size_mm) / 2, size_mm
    number = ceil((rough_end - start_mm) / 2 / rough_mm - 1e-9)
    each = min(ceil((rough_end - start_mm) / number / step_mm - 1e-6), floor(2 * rough_mm / step_mm + 1e-6)) * step_mm
    number = ceil((rough_end - start_mm) / each - 1e-9)
    rough = (start_mm + each * k for k in range(1, number))
    return *rough, rough_end, (rough_end + size_mm) / 2, size_mm
