"""How many of something a feature has, as it is told in words."""

from __future__ import annotations

from crib.findings.errors import CribError


def number_in(text: str, what: str, least: int, most: int, right: str) -> int:
    """A whole number between two. Raises `CribError` for anything else: what it is the number of, and what would be
    right.

    >>> number_in("6", "holes round a circle", 2, 99, "2 to 99: --number 6")
    6
    """
    if not (text.isascii() and text.isdigit()) or not least <= int(text) <= most:
        raise CribError("number", f"number {text!r} is not a number of {what}", text, right)
    return int(text)
