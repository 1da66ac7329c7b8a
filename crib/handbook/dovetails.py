"""Dovetails: widths, sizes over and between pins, offsets, and what a wrong cutter would leave.

Angles are between flank and floor. Any one unit of length, unless a line says otherwise. The reference width of a
dovetail is always the one across its acute corners: of a slot the wide floor, of a slide the narrow root.
"""

from __future__ import annotations

from math import cos, radians, sin, tan

from crib.handbook.bands import INSIDE_MM
from crib.handbook.materials import Material

_INCH = 25.4
LAST_BITE_MM = 0.005 * _INCH
"""What is left for the last step along a flank [mm]. Common practice, no source."""

_STEPS_IN = {"iron": 0.030, "bronze": 0.030, "copper": 0.030, "aluminium": 0.040, "brass": 0.040, "magnesium": 0.040,
             "plastic": 0.040}
_STEEL_STEP_IN = 0.020

UNDERCUT_FIRST_MM = 0.150 * _INCH
"""More metal than this at the corner, in steel, is better opened by an undercut in steps first. Common practice."""

SLOT_UNDER_MM = 0.020 * _INCH
"""A rough slot is this much narrower on each side than the mouth, so that the flank is all the cutter's. Common
practice, no source."""

GIB_GAP_MM = 0.0075 * _INCH
"""Left for adjusting a parallel gib, the middle of .005 to .010 in. Common practice, no source."""

EDGE_BREAK_MM = 0.015 * _INCH
"""Knocked off a sharp edge at least. Common practice, no source."""


def pin_constant(angle_deg: float) -> float:
    """How much further out than its corner a pin lies, in diameters.

    k = 1 + cot(a / 2)

    Parameters: a between flank and floor [deg]. Returns: k [-]. References: Machinery's Handbook, measuring dovetail
    slides.

    >>> [round(pin_constant(angle), 5) for angle in (60, 55, 50, 45)]
    [2.73205, 2.92098, 3.14451, 3.41421]
    """
    return 1 + 1 / tan(radians(angle_deg) / 2)


def over_pins(root_mm: float, pin_mm: float, angle_deg: float) -> float:
    """The size over two pins in the corners of a slide.

    M = Wn + d (1 + cot(a / 2))

    Parameters: width across the sharp corners at the root Wn, pin d [mm]; a [deg]. Returns: M [mm].
    References: Machinery's Handbook, measuring dovetail slides.

    >>> round(over_pins(2.000, 0.500, 60), 4)
    3.366
    """
    return root_mm + pin_mm * pin_constant(angle_deg)


def between_pins(floor_mm: float, pin_mm: float, angle_deg: float) -> float:
    """The size between two pins in the corners of a slot.

    M = Wb - d (1 + cot(a / 2))

    Parameters: width across the sharp corners at the floor Wb, pin d [mm]; a [deg]. Returns: M [mm].
    References: Machinery's Handbook, measuring dovetail slides. Examples: worked here, 3.366 less 2 x .5 x 2.73205.

    >>> round(between_pins(3.366, 0.5, 60), 4)
    2.0
    """
    return floor_mm - pin_mm * pin_constant(angle_deg)


def flank_run(height_mm: float, angle_deg: float) -> float:
    """How far a flank leans over its height.

    c = h cot(a)

    Parameters: h [mm]; a [deg]. Returns: c [mm]. References: Machinery's Handbook, measuring dovetail slides.

    >>> round(flank_run(0.500, 55), 4)
    0.3501
    """
    return height_mm / tan(radians(angle_deg))


def pin_contact(pin_mm: float, angle_deg: float) -> float:
    """The height over the floor at which a pin touches the flank; the flank must be higher, its broken edge left out.

    (d / 2)(1 + cos a)

    Parameters: d [mm]; a [deg]. Returns: height [mm]. References: geometry.

    >>> round(pin_contact(1.0, 60), 4)
    0.75
    """
    return pin_mm / 2 * (1 + cos(radians(angle_deg)))


def suitable_pin(height_mm: float, angle_deg: float, units: str = "in", width_mm: float | None = None) -> float | None:
    """The largest standard pin that touches a flank below its broken edge: by sixteenths, or whole millimetres. Of a
    slot so wide the largest two of which leave an inside micrometer room between them, else the smallest, if they do
    go in side by side.

    Parameters: h [mm]; a [deg]; `in` or `mm`; width across the sharp corners [mm], None for a slide. Returns: d [mm],
    None where none is small enough. References: geometry.

    >>> suitable_pin(7.62, 60), suitable_pin(7.62, 60, "mm"), suitable_pin(1.0, 60)
    (9.525, 9.0, None)
    >>> suitable_pin(7.62, 60, width_mm=25.4), suitable_pin(7.62, 60, width_mm=4.5), suitable_pin(7.62, 60, width_mm=4)
    (6.35, 1.5875, None)
    """
    step = _INCH / 16 if units == "in" else 1.0
    most = (height_mm - EDGE_BREAK_MM) / pin_contact(1.0, angle_deg)
    if width_mm is not None:
        across = pin_constant(angle_deg)
        smallest = step if step * across < width_mm else 0.0
        most = min(most, max(smallest, (width_mm - INSIDE_MM) / across))
    count = int(most / step + 1e-9)
    return round(count * step, 6) if count >= 1 else None


def flank_error(height_mm: float, cutter_deg: float, angle_deg: float) -> float:
    """How far off a flank comes out over its height when the cutter has another angle.

    h |1 / tan(ac) - 1 / tan(a)|

    Parameters: h [mm]; ac of the cutter, a wanted [deg]. Returns: error [mm]. References: geometry.

    >>> round(flank_error(0.300, 45, 60), 4)
    0.1268
    """
    return abs(flank_run(height_mm, cutter_deg) - flank_run(height_mm, angle_deg))


def square_corner_short(diameter_mm: float, angle_deg: float) -> float:
    """What a square cutter laid along an acute flank leaves of the flank, or gouges of the floor.

    D cos(a)

    Parameters: D [mm]; a [deg]. Returns: length [mm]. References: geometry.

    >>> round(square_corner_short(0.250, 60), 4)
    0.125
    """
    return diameter_mm * cos(radians(angle_deg))


def widest_neck(diameter_mm: float, height_mm: float, angle_deg: float, clearance_mm: float) -> float:
    """The thickest neck with which teeth shorter than a flank can make it in two heights.

    dn = Dd - 2 h / tan(a) - 2 cn

    Parameters: Dd across the sharp corners, h, clearance a side cn [mm]; a [deg]. Returns: dn [mm].
    References: geometry. Examples: worked here for Dd .750, h .300, cn .010.

    >>> round(widest_neck(0.750, 0.300, 60, 0.010), 4)
    0.3836
    """
    return diameter_mm - 2 * flank_run(height_mm, angle_deg) - 2 * clearance_mm


def corner_left(corner_mm: float, angle_deg: float) -> float:
    """What a cutter's rounded corner leaves in a sharp one, from the arc to the corner.

    r (1 / sin(a / 2) - 1)

    Parameters: r [mm]; a [deg]. Returns: length [mm]. References: geometry.

    >>> round(corner_left(1.0, 60), 4)
    1.0
    """
    return corner_mm * (1 / sin(radians(angle_deg) / 2) - 1)


def gib_room(gib_mm: float, angle_deg: float, gap_mm: float = GIB_GAP_MM) -> float:
    """How much wider a slot is for a gib, measured along its floor.

    (g + gap) / sin(a)

    Parameters: thickness of the gib square to the flank g, gap for adjusting [mm]; a [deg]. Returns: width [mm].
    References: geometry; the gap is common practice, no source.

    >>> round(gib_room(0.1875, 60, 0.0), 4)
    0.2165
    """
    return (gib_mm + gap_mm) / sin(radians(angle_deg))


def flank_step(material: Material) -> float:
    """The most that a dovetail cutter takes sideways at its corner in one pass: .020 in in steel, .030 in iron, .040 in
    in aluminium; bronze and copper as iron, other soft metals as aluminium.

    Parameters: material. Returns: step [mm]. References: common practice, no source; other metals from memory.

    >>> from crib.handbook.materials import find_material
    >>> [round(flank_step(find_material(m)) / 25.4, 3) for m in ("mild steel", "grey iron", "6061")]
    [0.02, 0.03, 0.04]
    """
    return _STEPS_IN.get(material.group, _STEEL_STEP_IN) * _INCH * material.bite_share
