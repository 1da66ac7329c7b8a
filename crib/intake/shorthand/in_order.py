"""Sizes without a label put into fields in their order, and what is left over asked about."""

from __future__ import annotations

import re

from crib.intake.shorthand.slip import Slip
from crib.light.patterns import pattern

NEAR_MM = 0.02 * 25.4
"""Two sizes that are nearer than this are one, as stamped and as measured."""

_ROUNDED_MM = 0.0005 * 25.4
WHOLE = pattern(r"^\d+$")


def in_order(slip: Slip, keys: tuple[str, ...]) -> None:
    """Put the sizes into those of the fields that aren't told yet, and ask about what is left over."""
    free = [key for key in keys if key not in slip.values]
    if free[:2] == ["diameter_mm", "face_mm"] and len(slip.sizes) > 1:
        first, second = (slip.mm(text) or 0.0 for text in slip.sizes[:2])
        if 0 < first < second / 3:
            slip.sizes[:2] = reversed(slip.sizes[:2])
    for place, (key, text) in enumerate(zip(free, slip.sizes, strict=False)):
        slip.size(key, text)
        if place and WHOLE.match(text) and not re.search(rf"x {text}\b|\b{text} x", slip.said):
            slip.ask(key, f"is {text} its {key.removesuffix('_mm').replace('_', ' ')}?")
    left_over(slip, slip.sizes[len(free):])


def _is_said_again(slip: Slip, text: str) -> bool:
    """Whether a size between brackets is the cutter's own in decimals, to the half thou that these are rounded by."""
    mm, across = slip.mm(text), slip.values.get("nominal_mm", slip.values.get("diameter_mm"))
    return bool(mm and across and abs(mm - across) <= _ROUNDED_MM and f"({text})" in slip.said.replace("( ", "("))


def left_over(slip: Slip, texts: list[str]) -> None:
    """Ask about sizes of which nothing is made."""
    for text in texts:
        if _is_said_again(slip, text):
            continue
        slip.ask(f"size {text}", f"what is the {text}? add its name, such as {text} shank or {text} loc")
