"""Verdicts, best first, and their words."""

from __future__ import annotations

ANSWERS = ("as drawn", "extra passes", "compromise", "measure first", "cannot", "refer")
"""Verdicts, best first; `refer` stands outside the order: no plan is given."""

WORDS = {
    "as drawn": "right cutter for the job",
    "extra passes": "will do - another cutter or more passes, drawing kept",
    "compromise": "will do, at a price - needs your yes",
    "measure first": "mic it before you cut",
    "cannot": "not from this drawer",
    "refer": "not a bench decision - take it to who answers for it",
}
