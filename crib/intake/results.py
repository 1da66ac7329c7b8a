"""What came of a job, as it is typed: how long it took, what the hole measured."""

from __future__ import annotations

from crib.cutters import kind_of
from crib.cutters.base import Cutter, Down
from crib.findings.errors import CribError
from crib.intake.attributes import read_length, read_number
from crib.units import show

_LONGEST_MINUTES = 60_000.0
_AS_FAST, _AS_SLOW = 5.0, 20.0
"""Nobody works so many times as fast as is reckoned, for the cutter takes its time, or as slowly (common practice, no
source)."""

_UNDER_MM, _OVER_MM = 0.005 * 25.4, 0.030 * 25.4
"""A hole further under or over its drill than this was typed wrong, or isn't that drill's [mm]."""


def read_minutes(text: str) -> float:
    """Minutes, or hours and minutes: `95`, `1:35`, `1.5h`. Raises `CribError`.

    >>> read_minutes("95"), read_minutes("1:35"), read_minutes("1.5h")
    (95.0, 95.0, 90.0)
    """
    bare = text.strip().lower()
    what, such = "a time above nothing", "95, 1:35 or 1.5h"
    hours, colon, minutes = bare.partition(":")
    if colon:
        return 60 * read_number(hours, "hours", 0, 999, what, such) + read_number(minutes, "minutes", 0, 59.99, what,
                                                                                  such)
    if bare.endswith("h"):
        return 60 * read_number(bare[:-1], "hours", 0.001, _LONGEST_MINUTES / 60, what, such)
    return read_number(bare.removesuffix("min"), "minutes", 0.1, _LONGEST_MINUTES, what, such)


def check_minutes(real: float, reckoned: float, text: str) -> None:
    """Raises `CribError` for minutes that can't be those of the whole job: they would turn every later cost."""
    if not reckoned / _AS_FAST <= real <= reckoned * _AS_SLOW:
        raise CribError("minutes", f"{real:g} min for a job reckoned at {reckoned:.0f} can't be the same job", text,
                        f"all of it, from setting up to the finished part: {reckoned / _AS_FAST:.0f} to "
                        f"{reckoned * _AS_SLOW:.0f} min; --question N where another one was meant")


def read_hole(text: str, drill: str, units: str, owned: Cutter | None = None) -> tuple[float, float]:
    """The drill's size and the hole's [mm]. `owned`: the drill out of the crib, in the place of its size in words.

    Raises `CribError` for what can't be read, for a cutter that is no drill of known size, and for a hole that can't be
    that drill's.
    """
    if owned is not None and (Down.DRILLING not in kind_of(owned).down or owned.diameter_mm is None):
        raise CribError("drill", f"cutter {owned.id}, {owned.label}, is not a drill of known size", str(owned.id),
                        "the number of a drill, or its size: --drill '#7'")
    if owned is None and drill.strip().isdigit() and units == "in":
        raise CribError("drill", f"--drill {drill} could be a number drill or whole inches", drill,
                        f"#{drill}, {drill}mm, a fraction, or --cutter {drill} for the crib's number")
    size = owned.diameter_mm or 0.0 if owned is not None else read_length(drill, units, "drill")
    hole = read_length(text, units, "hole")
    if not -_UNDER_MM <= hole - size <= _OVER_MM:
        made, of = show(hole, units, places=4), show(size, units, places=4)
        raise CribError("hole", f"a hole of {made} is not that of a drill of {of}", text,
                        "what was measured across the hole, and the drill that made it")
    return size, hole
