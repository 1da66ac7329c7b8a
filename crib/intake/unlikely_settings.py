"""Settings that no shop has: backlash of 12 inches, a spindle of 3 rpm."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from crib.intake.shop_settings import SETTINGS
from crib.units import as_fraction, show

_LENGTHS: dict[str, tuple[float, float]] = {
    "collets_mm": (0.8, 51.0), "chuck_mm": (3.0, 32.0), "nose_mm": (10.0, 205.0), "collet_nose_mm": (8.0, 155.0),
    "collet_nose_length_mm": (1.0, 305.0), "backlash_mm": (0.0, 3.0), "screw_lead_mm": (0.5, 13.0),
    "knee_lead_mm": (0.5, 13.0), "edge_finder_mm": (1.0, 26.0), "paper_mm": (0.01, 0.6),
    "neck_clearance_mm": (0.0, 7.0), "end_clearance_mm": (0.0, 13.0), "general_tolerance_mm": (0.002, 3.0),
    "loose_tolerance_mm": (0.01, 7.0), "hand_feed_mm": (10.0, 6000.0), "power_feed_mm": (2.0, 6000.0),
    "mill_runout_mm": (0.0, 0.3), "saw_runout_mm": (0.0, 0.6),
}
"""From and to what lengths settings are met with [mm] (common practice, no source)."""

_SPEEDS = (20, 40_000)
"""The slowest and the fastest spindle of a mill [rev/min] (common practice, no source)."""


def unlikely(texts: Mapping[str, str], values: Mapping[str, Any], units: str) -> Iterator[tuple[str, str]]:
    """A question for each setting that can hardly be meant, with what would be right.

    >>> [question for question, _ in unlikely({"backlash_mm": "12"}, {"backlash_mm": 304.8}, "in")]
    ["backlash 12 is 12 in: is that meant? shops' go from 0 to .118 in"]
    """
    for key, text in texts.items():
        value, name = values.get(key), SETTINGS[key].name
        if key == "spindle_rpm":
            odd = [speed for speed in value or () if not _SPEEDS[0] <= speed <= _SPEEDS[1]]
            if odd:
                yield (f"{name} {odd[0]}: is that meant? mills turn from {_SPEEDS[0]} to {_SPEEDS[1]}",
                       "its speeds in turns a minute: 60,95,150; --yes where it is meant")
        elif key in _LENGTHS and value is not None:
            least, most = _LENGTHS[key]
            for size in value if isinstance(value, list | tuple) else (value,):
                if not least <= size <= most:
                    yield (f"{name} {text.strip()} is {_shown(size, units)}: is that meant? shops' go from "
                           f"{_said(least, units)} to {_shown(most, units)}",
                           f"say it with its unit: {text.strip()} thou or {text.strip()} mm; --yes where it is meant")
                    break


def _said(mm: float, units: str) -> str:
    return (as_fraction(mm) or show(mm, "in")) if units == "in" and mm else f"{mm:g}"


def _shown(size: float, units: str) -> str:
    return f"{_said(size, units)} {units}"
