"""Chamfers and V-grooves with a pointed cutter: where it stands, and what another angle gives. Geometry, unless a line
says otherwise; any one unit of length. Angles of a chamfer count from the wall, which is along the cutter's axis."""

from __future__ import annotations

from math import radians, tan

_INCH = 25.4
BELOW_MM = 0.030 * _INCH
"""How far the tip hangs below the lower edge of a chamfer, so that the tip doesn't cut [mm]. Common practice."""

LEAST_BELOW_MM = 0.020 * _INCH
"""The least that it hangs below, where the cone is short [mm]. Common practice, no source."""


def leg_ratio(included_deg: float) -> float:
    """The leg across the top of what a cutter chamfers, over the leg down the wall.

    tan(A / 2)

    Parameters: A of the cutter [deg]. Returns: ratio [-]. References: geometry.

    >>> [round(leg_ratio(angle), 3) for angle in (60, 82, 90)]
    [0.577, 0.869, 1.0]
    """
    return tan(radians(included_deg) / 2)


def leg_across(leg_mm: float, angle_deg: float) -> float:
    """The leg across the top of a chamfer from the one down its wall.

    ch = cv tan(b)

    Parameters: cv [mm]; b from the wall [deg]. Returns: ch [mm]. References: geometry.

    >>> round(leg_across(0.125, 45), 4), round(leg_across(0.100, 30), 4)
    (0.125, 0.0577)
    """
    return leg_mm * tan(radians(angle_deg))


def groove_depth(width_mm: float, included_deg: float) -> float:
    """The depth of a V-groove to its sharp root.

    W / (2 tan(A / 2))

    Parameters: W at the surface [mm]; A [deg]. Returns: depth [mm]. References: geometry.

    >>> round(groove_depth(0.500, 90), 4), round(groove_depth(0.500, 60), 4)
    (0.25, 0.433)
    """
    return width_mm / (2 * leg_ratio(included_deg))


def root_left(tip_mm: float, included_deg: float) -> float:
    """What the tip flat of a pointed cutter leaves in the root of a V-groove, measured down its middle.

    d0 / (2 tan(A / 2))

    Parameters: tip flat d0 [mm]; A [deg]. Returns: height [mm]. References: geometry.

    >>> round(root_left(0.030, 90), 4)
    0.015
    """
    return tip_mm / (2 * leg_ratio(included_deg))
