"""How far the point of a drill, a spot drill or a countersink reaches. Geometry; any one unit of length."""

from __future__ import annotations

from math import radians, tan

IN = 25.4


def point_length(diameter_mm: float, angle_deg: float, flat_mm: float = 0.0) -> float:
    """The length of a cone from its small end to a diameter; nothing for a flat end.

    L = (D - d0) / (2 tan(A / 2))

    Parameters: D, flat d0 at the small end [mm]; included angle A [deg]. Returns: L [mm]. References: geometry.

    >>> [round(point_length(1, angle), 4) for angle in (118, 135, 90, 82, 60, 180)]
    [0.3004, 0.2071, 0.5, 0.5752, 0.866, 0.0]
    """
    if angle_deg >= 180:
        return 0.0
    return max(0.0, diameter_mm - flat_mm) / (2 * tan(radians(angle_deg) / 2))


def countersink_travel(rim_mm: float, hole_mm: float, angle_deg: float) -> float:
    """How far a countersink goes down after it touches the edge of a hole.

    z = (D - d) / (2 tan(A / 2))

    Parameters: rim D, hole d [mm]; included angle A [deg]. Returns: z [mm]. References: geometry.

    >>> round(countersink_travel(0.531, 0.25, 82), 4)
    0.1616
    """
    return point_length(rim_mm, angle_deg, hole_mm)


def keep_below(diameter_mm: float) -> float:
    """The metal to keep between a drill's point and whatever is below: .030 in or a tenth of the drill [mm].

    References: common practice.

    >>> round(keep_below(5.0), 3), keep_below(10.0)
    (0.762, 1.0)
    """
    return max(0.030 * IN, 0.1 * diameter_mm)
