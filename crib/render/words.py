"""Messages in words, for those that show them: see `crib.units.words`; and a size as a drawing says it."""

from __future__ import annotations

from crib.findings.message import InWords, Mm
from crib.light.hints import TYPE_CHECKING
from crib.units.words import sentence, told, worded, words

if TYPE_CHECKING:
    from crib.pages.scene import DimensionLine

__all__ = ["drawn", "sentence", "told", "worded", "words"]


def drawn(one: DimensionLine, units: str) -> str:
    """A size as it stands in a drawing."""
    return words(Mm(one.mm, fine=one.fine) if units == "in" else InWords(one.mm), units)
