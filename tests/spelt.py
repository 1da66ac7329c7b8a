"""Findings in words, for tests that look at what is said."""

from __future__ import annotations

from crib.findings.message import Text
from crib.render.words import words


def spelt(text: Text | None, units: str = "in") -> str:
    """What is said, in the units asked for; nothing where nothing is."""
    return "" if text is None else words(text, units)
