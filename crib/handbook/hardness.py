"""Hardness as it is said, in Rockwell C."""

from __future__ import annotations

from itertools import pairwise

from crib.findings.errors import CribError
from crib.light.patterns import pattern

BRINELL: tuple[tuple[float, float], ...] = ((226, 20), (253, 25), (286, 30), (327, 35), (371, 40), (421, 45), (481, 50),
                                            (560, 55))
"""Brinell hardness (3000 kg) and Rockwell C. ASTM E140, from memory."""

SOFT = ("annealed", "soft", "normalised", "normalized", "as rolled", "as cast", "as supplied", "half hard")
HARD = {"pre-hard": 30.0, "prehard": 30.0, "prehardened": 30.0, "hard": 60.0, "hardened": 60.0, "case hardened": 60.0,
        "hardened and tempered": 45.0}
"""What words without a number come to [HRC]. From memory."""

_ROCKWELL = pattern(r"^(?:hrc|rc|rockwell c?)?\s*(\d+(?:\.\d+)?)\s*(?:hrc|rc|rockwell c?)?$")
_BRINELL = pattern(r"^(?:hbw?|bhn|brinell)?\s*(\d+(?:\.\d+)?)\s*(?:hbw?|bhn|brinell)?$")


def read_hardness(text: str) -> float | None:
    """The hardness [HRC] that a text says; None for soft metal. Above 100 a bare number is Brinell.

    Raises `CribError` for what says nothing. References: ASTM E140, from memory; words from memory.

    >>> read_hardness("45 HRC"), read_hardness("annealed"), read_hardness("286 HB"), read_hardness("Rc 30")
    (45.0, None, 30.0, 30.0)
    """
    words = " ".join(text.lower().replace("-", " ").split())
    if words in SOFT:
        return None
    named = {name.replace("-", " "): hrc for name, hrc in HARD.items()}
    if words in named:
        return named[words]
    if (found := _ROCKWELL.match(words)) and float(found.group(1)) <= 70:
        return float(found.group(1))
    if (found := _BRINELL.match(words)) and 70 < float(found.group(1)) <= 800:
        return _from_brinell(float(found.group(1)))
    raise CribError("hardness", f"hardness {text.strip()!r} can't be read", text,
                    "45 HRC, 230 HB, annealed or hardened")


def _from_brinell(brinell: float) -> float | None:
    if brinell < BRINELL[0][0]:
        return None
    for (low, at_low), (high, at_high) in pairwise(BRINELL):
        if brinell <= high:
            return at_low + (at_high - at_low) * (brinell - low) / (high - low)
    return 60.0
