"""A line with the signs of a keyboard, whatever it was typed on: `½`, `×`, `−`, `5/8ths`."""

from __future__ import annotations

import re

from crib.light.patterns import pattern

_SIGNS = str.maketrans({"×": "x", "–": "-", "—": "-", "−": "-", "‑": "-", "″": '"', "”": '"', "“": '"', "’": "'",
                        "\u00a0": " ", "\u2044": "/", "\u2215": "/", "\t": " ", "\n": " ", "\r": " ", "º": "°",
                        "⌀": "ø", "Ø": "ø"})
_FRACTIONS = {"¼": "1/4", "½": "1/2", "¾": "3/4", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8"}


_COUNTED = pattern(r"\d(?:th|nd|rd)")


def in_signs(text: str) -> str:
    """The line in signs that everything else knows.

    >>> in_signs("1½ × ⅜ slot, 5/8ths deep")
    '1-1/2 x 3/8 slot, 5/8 deep'
    """
    line = text if text.isascii() and text.isprintable() else text.translate(_SIGNS)
    if not line.isascii():
        for sign, fraction in _FRACTIONS.items():
            line = re.sub(rf"(\d)[ -]?{sign}", rf"\1-{fraction}", line).replace(sign, fraction)
    if _COUNTED.search(line):
        line = re.sub(r"\b(\d+)-(\d+)(?:ths|nds|rds)\b", r"\1/\2", line)
        line = re.sub(r"\b(\d+)/(\d+)(?:ths|nds|th|nd)\b", r"\1/\2", line)
    return line
