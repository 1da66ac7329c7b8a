"""What a way of cutting gives away, as lengths. Geometry, unless a line says otherwise; any one unit of length."""

from __future__ import annotations

from math import cos, pi, radians, sin, sqrt, tan


def corner_left(cutter_radius_mm: float, corner_radius_mm: float) -> float:
    """The metal that a cutter too big leaves in an inside corner, along the diagonal.

    (r - R)(sqrt 2 - 1)

    Parameters: r of the cutter, R of the corner [mm]. Returns: metal left [mm], 0 where it fits. References: geometry.

    >>> round(corner_left(0.250, 0.1875), 4)
    0.0259
    """
    return max(0.0, cutter_radius_mm - corner_radius_mm) * (sqrt(2) - 1)


def walked_corner_left(cutter_radius_mm: float, corner_radius_mm: float, settings: int) -> float:
    """The metal that a cutter leaves in a rounder inside corner, walked round it in settings a like angle apart.

    R - (rho cos(a/2) + sqrt(r^2 - (rho sin(a/2))^2)), rho = R - r, a = 90 / (k - 1)

    Parameters: r of the cutter, R of the corner [mm], k settings, 2 or more. Returns: metal left half-way between two
    [mm]. References: geometry.

    >>> round(walked_corner_left(0.15625, 0.1875, 3), 4)
    0.0028
    """
    rho, half = corner_radius_mm - cutter_radius_mm, radians(90 / (settings - 1)) / 2
    return corner_radius_mm - (rho * cos(half) + sqrt(cutter_radius_mm**2 - (rho * sin(half)) ** 2))


def flats_proud(radius_mm: float, flats: int) -> float:
    """How far an outside round that is cut in flats, each along the arc, stands proud of the true one.

    R (1 / cos(45 / (n + 1)) - 1)

    Parameters: R [mm], n flats beside the two faces. Returns: height between two of them [mm]. References: geometry.

    >>> [round(flats_proud(0.125, flats), 4) for flats in (1, 2, 3)]
    [0.0103, 0.0044, 0.0024]
    """
    return radius_mm * (1 / cos(radians(45 / (flats + 1))) - 1)


def plunged_round_left(bore_mm: float, cutter_mm: float, plunges: int) -> float:
    """What stands between plunges on a circle, of a round that is wider than the cutter.

    D/2 - [o cos(180/k) + sqrt(r^2 - (o sin(180/k))^2)], o = D/2 - r

    Parameters: D of the round, diameter 2 r of the cutter [mm], k plunges. Returns: height between two [mm].
    Where two plunges don't meet all of the ring stands between them, as wide as the cutter. References: geometry.

    >>> round(plunged_round_left(0.750, 0.500, 12), 4), plunged_round_left(2.0, 0.125, 12)
    (0.0064, 0.125)
    """
    radius = cutter_mm / 2
    off, half = bore_mm / 2 - radius, pi / plunges
    if off * sin(half) > radius:
        return cutter_mm
    return bore_mm / 2 - (off * cos(half) + sqrt(radius**2 - (off * sin(half)) ** 2))


def cusp(radius_mm: float, step_mm: float) -> float:
    """The ridge between two passes of a round edge, or two plunges along a line; how far a round key stands off a flat.

    r - sqrt(r^2 - (s/2)^2)

    Parameters: r, s [mm], s up to 2 r. Returns: ridge [mm]. References: geometry.

    >>> round(cusp(0.250, 0.050), 4), round(cusp(0.1875, 0.060), 4)
    (0.0013, 0.0024)
    """
    return radius_mm - sqrt(radius_mm**2 - (step_mm / 2) ** 2)


def tram_hollow(cutter_mm: float, width_mm: float, tilt_deg: float) -> float:
    """The hollow that a face cutter leaves with the head out of tram.

    (D/2 - sqrt((D/2)^2 - (w/2)^2)) sin a

    Parameters: D of the cutter, width w of the strip [mm], tilt a [deg]. Returns: hollow [mm]. References: geometry.

    >>> round(tram_hollow(3, 2.5, 0.05), 4)
    0.0006
    """
    return cusp(cutter_mm / 2, width_mm) * sin(radians(tilt_deg))


def wall_lean(depth_mm: float, tilt_deg: float) -> float:
    """How far a wall leans over its depth with the head tilted.

    d tan a

    Parameters: d [mm], a [deg]. Returns: lean [mm]. References: geometry.

    >>> round(wall_lean(1.0, 0.1), 4)
    0.0017
    """
    return depth_mm * tan(radians(tilt_deg))


SAW_LEAN = 0.004
"""How far a saw that cuts on one side only leans, for its depth [-]: four thou in the inch. From memory."""


def saw_lean(depth_mm: float) -> float:
    """How far a saw leans away from the metal when it cuts on one side only.

    0.004 d

    Parameters: d [mm]. Returns: lean [mm]. References: from memory.

    >>> round(saw_lean(12.7) / 25.4, 4)
    0.002
    """
    return SAW_LEAN * depth_mm


PAPER_MM = 0.001 * 25.4
"""How far a touch-off by paper may be off, either way [mm]. Common practice."""


def floor_tilt(width_mm: float, tilt_deg: float) -> float:
    """How far a slot's floor is out of level across its width.

    W tan a

    Parameters: W [mm], a [deg]. Returns: difference [mm]. References: geometry.

    >>> round(floor_tilt(0.5, 0.1), 4)
    0.0009
    """
    return width_mm * tan(radians(tilt_deg))


def staircase_ridge(step_mm: float, angle_deg: float) -> float:
    """The ridge square to a bevel that is cut in steps.

    p cos a

    Parameters: height p of a step [mm], a of the face from the horizontal [deg]. Returns: ridge [mm].
    References: geometry.

    >>> round(staircase_ridge(0.020, 30), 4)
    0.0173
    """
    return step_mm * cos(radians(angle_deg))


def widest_head(disc_mm: float, throat_mm: float, neck_mm: float, clearance_mm: float) -> float:
    """The widest T-slot head that a disc can make before its neck meets the throat.

    Dk + A - dn - 2 cn

    Parameters: disc Dk, throat A, neck dn, clearance a side cn [mm]. Returns: head width [mm]. References: geometry.

    >>> round(widest_head(0.5625, 0.344, 0.312, 0.010), 4)
    0.5745
    """
    return disc_mm + throat_mm - neck_mm - 2 * clearance_mm


def widest_neck(disc_mm: float, throat_mm: float, head_mm: float, clearance_mm: float) -> float:
    """The thickest neck with which a disc makes a T-slot's head.

    A - (B - Dk) - 2 cn

    Parameters: disc Dk, throat A, head B, clearance a side cn [mm]. Returns: neck diameter [mm]. References: geometry.
    Examples: computed here for head .938, throat .562, disc .875, clearance .020 in both sides together.

    >>> round(widest_neck(0.875, 0.562, 0.938, 0.010), 4)
    0.479
    """
    return throat_mm - (head_mm - disc_mm) - 2 * clearance_mm
