"""Messages in words, for those that show them: see `crib.units.words`."""

from crib.units.words import sentence, told, worded, words

__all__ = ["sentence", "told", "worded", "words"]
