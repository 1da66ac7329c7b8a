"""Fields and their values as they are said."""

from __future__ import annotations

from collections.abc import Sequence

from crib.findings.message import Fact, InWords, Mm, Text, joined, said, templates
from crib.light.hints import Any

NONE_WAS_GIVEN = " (none was given)"
"""Behind a metal that is only taken for granted."""


def if_none_was_given(assumed: Sequence[Text]) -> str:
    """What stands behind the metal of an answer that took it for granted."""
    return NONE_WAS_GIVEN if any(one.startswith("material ") for one in map(templates, assumed)) else ""


def of_several(pieces: int) -> str:
    """What stands behind the minutes of one of so many that are to be made.

    >>> of_several(1), of_several(4)
    ('', ' for the first of 4')
    """
    return f" for the first of {pieces}" if pieces > 1 else ""


def name_of(key: str) -> str:
    """A field as it is said.

    >>> name_of("neck_fillet_mm"), name_of("angle_deg"), name_of("centre_cutting")
    ('neck fillet', 'angle', 'centre cutting')
    """
    return key.removesuffix("_mm").removesuffix("_deg").replace("_", " ")


def value_of(key: str, value: Any) -> Fact:
    """A value as it is said.

    >>> value_of("neck_mm", 6.35), value_of("dro", False), value_of("angle_deg", 60.0)
    (InWords(mm=6.35), 'no', '60 degrees')
    """
    if value is None:
        return "not known"
    if isinstance(value, str):
        return value
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, dict):
        return joined(", ", (said("{name} {part}", name=name_of(name), part=value_of(name, part))
                             for name, part in value.items() if part is not None))
    if isinstance(value, list | tuple):
        between = "; " if key in ("arbors", "boring_heads", "questions", "ends", "away", "overruled") else ", "
        if key in ("measured", "stamped", "assumed"):
            return between.join(map(name_of, value)) or "none"
        return joined(between, (value_of(key, part) for part in value)) or "none"
    if key.endswith("_runout_mm"):
        return Mm(value, places=4)
    if key.endswith("_mm"):
        return InWords(value) if value else "0"
    if key.endswith("_deg"):
        return f"{value:g} degrees"
    return f"{value:g}" if isinstance(value, float) else str(value)
