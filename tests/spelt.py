"""Findings in words, for tests that look at what is said."""

from __future__ import annotations

from crib.findings.message import Message, Text
from crib.render.words import words


def spelt(text: Text | float | None, units: str = "in") -> str:
    """What is said, in the units asked for; nothing where nothing is."""
    return words(text, units) if isinstance(text, str | Message) else "" if text is None else str(text)
