"""Closed ends: how far a disc may run under them, what lets it in, how an end mill gets down. Any one unit of length,
but where a number stands."""

from __future__ import annotations

from math import ceil, radians, sqrt, tan

from crib.findings.errors import CribError

_INCH = 25.4

LOWERED_MM = 0.010 * _INCH
"""How much wider than a cutter the room is into which it is lowered [mm]. Common practice, no source."""

HOLE_MM = 0.020 * _INCH
"""How much wider than a disc its entry hole is [mm]. Common practice, no source."""

DRILLED_MM = 0.010 * _INCH
"""How much narrower than the slot a hole is that is drilled in it first [mm]. Common practice, no source."""

CORE_SHARE = 0.40
"""The middle of an end mill that its end teeth don't reach, of its diameter [-], where it isn't centre-cutting. From
memory; measure it."""

RAMP_DEG = 3.0
"""The steepest ramp that an end mill without centre teeth goes down [degrees]: 1 to 3. Common practice, no source."""


def ends_short(throat_cutter_mm: float, disc_mm: float) -> float:
    """How far from the throat's end the head ends, where the stops of the throat's cutter are kept.

    (Dt - Dk) / 2

    Parameters: Dt of the throat's cutter, disc Dk [mm]. Returns: length [mm], below nought where it runs over.
    References: geometry. Examples: computed here.

    >>> round(ends_short(0.625, 0.600), 4)
    0.0125
    """
    return (throat_cutter_mm - disc_mm) / 2


def corner_overcut(width_mm: float, cutter_mm: float) -> float:
    """How far the corners of an end stand outside of a true half round, where a cutter narrower than the room goes
    straight across at its stop.

    (sqrt(2) - 1) (W - D) / 2

    Parameters: width W, cutter D [mm]. Returns: length [mm], nothing for a cutter as wide as the room. References:
    geometry. Examples: computed here, .125 * .4142.

    >>> round(corner_overcut(1.0, 0.75), 3), corner_overcut(0.5, 0.5)
    (0.052, 0.0)
    """
    return max(0.0, (sqrt(2) - 1) * (width_mm - cutter_mm) / 2)


def ramp_strokes(drop_mm: float, run_mm: float, ramp_deg: float = RAMP_DEG) -> int:
    """How many strokes along a run take a cutter down so far without going steeper than the ramp.

    n = ceil(drop / (run tan a))

    Parameters: drop, run [mm], a [degrees]. Returns: n [-]. Raises: `ramp` where there is no run. References: geometry.
    Examples: computed here; tan 3 degrees is .0524.

    >>> ramp_strokes(0.170, 1.5), ramp_strokes(0.0524, 1.0), ramp_strokes(0.0, 1.0)
    (3, 1, 0)
    """
    if not run_mm > 0:
        raise CribError("ramp", f"a run of {run_mm:g} is none to ramp along", f"{run_mm:g}", "a run above zero")
    return max(0, ceil(drop_mm / (run_mm * tan(radians(ramp_deg))) - 1e-9))
