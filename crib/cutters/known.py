"""How what is known of a cutter is known: measured, read off its marking, typical of its kind, or only stated."""

from __future__ import annotations

from crib.cutters.base import LENGTH_KEYS, Cutter

KEYS = (
    *LENGTH_KEYS, "angle_deg", "flutes", "centre_cutting", "end_teeth", "material", "thread", "tap_chamfer", "tap_form",
    "tap_point", "limit",
)
"""What can be known in more ways than one. A place, a count, a price or a note is what somebody says, and no more."""

METHODS = ("measured", "stamped", "typical", "stated")
"""The best founded first, but for what was stated: whoever states a size may have measured it and not said so."""


def how_known(cutter: Cutter, key: str) -> str | None:
    """One of `METHODS` for a value that is known, None for one that isn't, or that can be known in one way only.

    >>> end_mill = Cutter(1, "end-mill", diameter_mm=12.7, flutes=4, measured=("diameter_mm",))
    >>> how_known(end_mill, "diameter_mm"), how_known(end_mill, "flutes"), how_known(end_mill, "shank_mm")
    ('measured', 'stated', None)
    """
    if key not in KEYS or getattr(cutter, key) in (None, "unknown"):
        return None
    if key in cutter.measured:
        return "measured"
    if key in cutter.stamped or key == "nominal_mm":
        return "stamped"
    return "typical" if key in cutter.assumed else "stated"


def known(cutter: Cutter) -> dict[str, str]:
    """How each value that is known is known, by its field."""
    return {key: how for key in KEYS if (how := how_known(cutter, key)) is not None}
