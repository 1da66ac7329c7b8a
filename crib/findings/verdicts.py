"""Verdicts, best first, and their words."""

from __future__ import annotations

from crib.light.choices import StrEnum


class Verdict(StrEnum):
    """What an answer comes to, best first; `REFER` stands outside the order: no plan is given."""

    AS_DRAWN = "as drawn"
    EXTRA_PASSES = "extra passes"
    COMPROMISE = "compromise"
    MEASURE_FIRST = "measure first"
    CANNOT = "cannot"
    REFER = "refer"


ANSWERS = tuple(Verdict)
"""Verdicts, best first."""

WORDS = {
    Verdict.AS_DRAWN: "right cutter for the job",
    Verdict.EXTRA_PASSES: "will do - to the drawing, with another cutter or more passes",
    Verdict.COMPROMISE: "will do if you say yes - not all of it comes out to the drawing",
    Verdict.MEASURE_FIRST: "measure first - a size that decides isn't known",
    Verdict.CANNOT: "not with this crib - nothing in it makes this",
    Verdict.REFER: "not a bench decision - take it to who answers for it",
}
"""A verdict as it stands over an answer."""

SHORT = {answer: words.split(" - ")[0] for answer, words in WORDS.items()}
"""The same in a list or in a sentence: its first words."""
