"""How much to take at a time: depth of a slot's bites, side steps and levels of a disc, what is left to finish, and
how far a cutter may stand out."""

from __future__ import annotations

from math import acos, ceil, pi

from crib.findings.errors import CribError
from crib.findings.finding import Grade
from crib.handbook.materials import Material

_THOU = 0.0254
_INCH = 25.4
_SLACK = 1e-9

STIFFNESS_FACTORS: dict[str, float] = {"bench": 0.5, "knee": 1.0, "heavy": 1.25}
"""Share of the bite that a mill of this build takes [-]. From memory."""

FULL_BITE_STICKOUT = 3.0
"""Up to this stick-out over diameter a cutter takes its full bite [-]. From memory."""

FAR_OUT, FAR_OUT_BAND_MM = 6.0, 5 * _THOU
"""Over this stick-out over diameter [-] no tolerance band under this [mm] is held. From memory."""

E_HSS, E_CARBIDE = 30e6 * 0.45359237 * 9.80665 / _INCH**2, 85e6 * 0.45359237 * 9.80665 / _INCH**2
"""Young's modulus [N/mm2]: 30 and 85 million lb/in2. From memory."""

FLUTED_SHARE = 0.8
"""Diameter of a solid bar that bends like the fluted part, of the cutter's own [-].
Kops and Vo, CIRP Annals 39 (1990), ratio in the abstract."""


def slot_bite(diameter_mm: float, material: Material, stiffness: str = "knee", stickout_ratio: float = 3.0) -> float:
    """The depth of one bite of an end mill that is buried full width.

    ap = kd x D x stiffness x overhang; overhang = 1 up to a stick-out of 3 D, else (3 / ratio)^2

    Parameters: D [mm]; material; stiffness bench, knee or heavy; stick-out over D [-]. Returns: ap [mm].
    Raises: `stiffness`. References: from memory.

    >>> from crib.handbook.materials import find_material
    >>> round(slot_bite(12.7, find_material("grey iron")), 4)
    6.35
    """
    if stiffness not in STIFFNESS_FACTORS:
        raise CribError("stiffness", f"stiffness {stiffness!r} is not known", stiffness,
                        f"one of: {', '.join(STIFFNESS_FACTORS)}")
    overhang = 1.0 if stickout_ratio <= FULL_BITE_STICKOUT else (FULL_BITE_STICKOUT / stickout_ratio) ** 2
    return material.bite_fraction * diameter_mm * STIFFNESS_FACTORS[stiffness] * overhang


def side_step(diameter_mm: float, material: Material) -> float:
    """The most that a buried disc cutter takes sideways in one pass.

    .030 in in steel, .050 in in iron and aluminium for discs 1/2 to 1 in across; smaller and larger in proportion.

    Parameters: D [mm]; material. Returns: step [mm]. References: from memory.

    >>> from crib.handbook.materials import find_material
    >>> [round(side_step(19.05, find_material(m)) / 25.4, 4) for m in ("mild steel", "grey iron")]
    [0.03, 0.05]
    """
    half, whole = _INCH / 2, _INCH
    share = diameter_mm / half if diameter_mm < half else diameter_mm / whole if diameter_mm > whole else 1.0
    return material.side_step_mm * share


def centre_bite_limit(diameter_mm: float, material: Material) -> float:
    """The side bite at each wall above which a disc's centre pass wants a slower feed.

    0.10 D in steel, 0.15 D in iron and aluminium.

    Parameters: D [mm]; material. Returns: bite a side [mm]. References: from memory.

    >>> from crib.handbook.materials import find_material
    >>> round(centre_bite_limit(25.4, find_material("1018")), 3)
    2.54
    """
    return material.centre_bite_fraction * diameter_mm


def bites_needed(total_mm: float, most_mm: float) -> int:
    """How many equal bites take a whole without one above the most; none for nothing.

    n = ceil(total / most), counted so that an exact multiple stays exact.

    Parameters: total, most [mm]. Returns: n [-]. Raises: `bite` where the most isn't above zero. References: geometry.

    >>> bites_needed(5.08, 1.27), bites_needed(0.0, 1.27), bites_needed(0.79375, 1.27)
    (4, 0, 1)
    """
    if not most_mm > 0:
        raise CribError("bite", f"a bite of {most_mm} mm takes nothing", str(most_mm), "a bite above zero")
    return max(0, ceil(total_mm / most_mm - _SLACK))


def teeth_in_cut(teeth: int, radius: float, depth: float) -> float:
    """The teeth of a disc that are in the cut at once.

    z acos(1 - d / r) / (2 pi)

    Parameters: z [-], r, d, any one unit of length. Returns: teeth [-]. References: geometry.

    >>> teeth_in_cut(36, 1.0, 1.0)
    9.0
    """
    return teeth * acos(max(-1.0, 1 - depth / radius)) / (2 * pi)


MOST_ALLOWANCE_MM = 10 * _THOU
"""The most that is left at a wall for the finishing pass [mm]."""


def finish_allowance(diameter_mm: float) -> float:
    """The metal to leave at a wall for the finishing pass: .010 in, .005 in for cutters under 1/4 in.

    Parameters: D [mm]. Returns: allowance a wall [mm]. References: from memory.

    >>> finish_allowance(6.35), finish_allowance(6.0)
    (0.254, 0.127)
    """
    return MOST_ALLOWANCE_MM if diameter_mm >= _INCH / 4 else 5 * _THOU


def level_overlap(face_mm: float) -> float:
    """The overlap of two levels of a disc cutter.

    ov = max(.010 in, 0.10 x face)

    Parameters: face [mm]. Returns: overlap [mm]. References: from memory.

    >>> round(level_overlap(6.35), 4), round(level_overlap(1.5875), 4)
    (0.635, 0.254)
    """
    return max(10 * _THOU, 0.10 * face_mm)


def levels_needed(height_mm: float, face_mm: float, overlap_mm: float, tolerance_mm: float = 0.0) -> int:
    """How many levels a disc needs for a groove taller than its face.

    n = 1 where |C - Wk| is within the tolerance, else ceil((C - Wk) / (Wk - ov)) + 1

    Parameters: height C, face Wk, overlap ov, half the height's tolerance [mm]. Returns: n [-].
    Raises: `overlap` where the overlap isn't less than the face. References: geometry; the overlap from memory.
    Examples: computed here for a head .375 high and a face of .250 in.

    >>> levels_needed(9.525, 6.35, level_overlap(6.35))
    2
    """
    if not 0 <= overlap_mm < face_mm:
        raise CribError("overlap", f"an overlap of {overlap_mm} mm leaves nothing of a face of {face_mm} mm",
                        str(overlap_mm), "an overlap less than the face")
    rise = height_mm - face_mm
    return 1 if rise <= tolerance_mm + _SLACK else bites_needed(rise, face_mm - overlap_mm) + 1


def level_heights(bottom_mm: float, height_mm: float, face_mm: float, levels: int) -> tuple[float, ...]:
    """Where the disc's lower face stands at each level, floor first, evenly to the ceiling.

    z_k = -H + (k - 1)(C - Wk) / (n - 1)

    Parameters: bottom H below the surface, height C, face Wk [mm]; levels n [-]. Returns: heights, downwards negative
    [mm]. References: geometry. Examples: computed here for H .875, C .375, Wk .250 in.

    >>> [round(z / 25.4, 4) for z in level_heights(22.225, 9.525, 6.35, 2)]
    [-0.875, -0.75]
    """
    if levels <= 1:
        return (-bottom_mm,)
    return tuple(-bottom_mm + k * (height_mm - face_mm) / (levels - 1) for k in range(levels))


def stickout_grade(stickout_ratio: float, band_mm: float | None = None) -> Grade | None:
    """How bad it is for an end mill to stand out so far: warn over 3, caution over 4, stop over 6 diameters where the
    tolerance band is under .005 in.

    Parameters: stick-out over D [-]; the tightest band that it must hold [mm], None for an open one.
    Returns: warn, caution, stop or None. References: from memory.

    >>> [stickout_grade(r, 0.1) for r in (3, 3.5, 5, 7)], stickout_grade(7)
    ([None, <Grade.WARN: 'warn'>, <Grade.CAUTION: 'caution'>, <Grade.STOP: 'stop'>], <Grade.CAUTION: 'caution'>)
    """
    if stickout_ratio > FAR_OUT and band_mm is not None and band_mm < FAR_OUT_BAND_MM - _SLACK:
        return Grade.STOP
    return Grade.CAUTION if stickout_ratio > 4 else Grade.WARN if stickout_ratio > 3 else None


def bend(force_n: float, stickout_mm: float, diameter_mm: float, modulus_n_mm2: float = E_HSS) -> float:
    """How far an end mill bends under a force at its end.

    delta = 64 F L^3 / (3 pi E (0.8 D)^4)

    Parameters: F [N], L, D [mm], E [N/mm2]. Returns: delta [mm]. References: elementary beam theory; 0.8 D as above.
    Examples: computed here for 30 lb, 1.5 in out, 3/8 in HSS.

    >>> round(bend(30 * 4.4482216, 38.1, 9.525) / 25.4, 4)
    0.0028
    """
    return 64 * force_n * stickout_mm**3 / (3 * pi * modulus_n_mm2 * (FLUTED_SHARE * diameter_mm) ** 4)


def bend_ratio(stickout_mm: float, other_mm: float) -> float:
    """How many times more the same cutter bends when it stands out further.

    (L / L0)^3

    Parameters: stick-out L, other stick-out L0 [mm]. Returns: ratio [-]. References: geometry.

    >>> round(bend_ratio(2.0, 1.5), 4)
    2.3704
    """
    return (stickout_mm / other_mm) ** 3
