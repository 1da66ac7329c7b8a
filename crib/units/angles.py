"""Reading an angle: `60`, `60deg`, `60°`, `45±.5`."""

from __future__ import annotations

import re

from crib.findings.errors import CribError
from crib.light.patterns import pattern
from crib.light.records import dataclass

_WRITTEN = pattern(
    r"^\s*(?P<size>\d*\.?\d+)\s*(?:°|deg(?:rees?)?)?\s*(?:(?:±|\+\s*/?\s*-)\s*(?P<band>\d*\.?\d+)\s*(?:°|deg(?:rees?)?)?)?\s*$",
    re.IGNORECASE)


@dataclass(frozen=True)
class Angle:
    """An angle as it was typed, in degrees. `band`: how far it may be off to each side, None where none was typed."""

    deg: float
    text: str
    band: float | None = None


def read_angle(text: str, what: str, most: float = 90.0) -> Angle:
    """Read an angle. Raises `CribError` for anything that isn't one between nought and the most, ends excluded.

    >>> read_angle("60°", "angle").deg, read_angle("45±.5", "angle").band
    (60.0, 0.5)
    """
    found = _WRITTEN.match(text)
    if found is None:
        raise CribError("angle", f"{what} {text.strip()!r} is not an angle", text, "degrees: 60, or 60±.25")
    deg, band = float(found["size"]), found["band"]
    if not 0 < deg < most:
        raise CribError("angle", f"{what} {text.strip()!r} is not between 0 and {most:g} degrees", text,
                        f"more than 0 and less than {most:g} degrees")
    around = float(band) if band else None
    if around is not None and not 0 <= around < min(deg, most - deg):
        raise CribError("angle", f"the tolerance of {what} {text.strip()!r} is more than the angle bears", text,
                        "a smaller tolerance: 60±.25")
    return Angle(deg, text.strip(), around)


def minutes_of(deg: float) -> str:
    """An angle in degrees and minutes, as dials have it.

    >>> minutes_of(60.0), minutes_of(360 / 7)
    ('60°', "51° 26'")
    """
    whole, rest = divmod(round(deg * 60), 60)
    return f"{whole}° {rest}'" if rest else f"{whole}°"
