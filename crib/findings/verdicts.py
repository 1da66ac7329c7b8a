"""Verdicts, best first, and their words."""

from __future__ import annotations

ANSWERS = ("as drawn", "extra passes", "compromise", "measure first", "cannot", "refer")
"""Verdicts, best first; `refer` stands outside the order: no plan is given."""

WORDS = {
    "as drawn": "right cutter for the job",
    "extra passes": "will do - to the drawing, with another cutter or more passes",
    "compromise": "will do if you say yes - not all of it comes out to the drawing",
    "measure first": "measure first - a size that decides isn't known",
    "cannot": "not with this crib - nothing in it makes this",
    "refer": "not a bench decision - take it to who answers for it",
}
"""A verdict as it stands over an answer."""

SHORT = {answer: words.split(" - ")[0] for answer, words in WORDS.items()}
"""The same in a list or in a sentence: its first words."""
