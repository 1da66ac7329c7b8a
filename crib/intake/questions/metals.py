"""Words of which nothing was made, where they name what isn't cut at a bench, or has no figures: it is asked about,
and never planned for as if no material had been named."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator

from crib.handbook.materials import DEFAULT_MATERIAL
from crib.handbook.not_here import Sort, special
from crib.intake.questions.sheet import Sheet

_TO_A_MATERIAL = (r"(?:in(?: (?:some|old))*|(?:out of|made (?:of|from|out of)|"
                  r"(?:from an? )?(?:piece|bit|lump|bar|block|plate|chunk|slab) of)(?: (?:an?|some|my|old|the))*)")
_IDIOMS = {"place", "situ", "line", "parallel", "series", "general", "particular", "total", "all", "passes", "steps",
           "full", "time", "future", "stages", "turn", "hand", "scratch", "new", "end", "front", "behind", "stock",
           "each", "both", "every", "edge", "edges", "ends", "side", "sides", "corner", "corners", "middle", "centre"}
"""What stands behind such an `in`, alone or with others, and is no material."""

_LEADS = {"in", "of", "from", "a", "an", "the", "some", "my", "old"}


def ask_of_metals(sheet: Sheet, line: str, strange: Collection[str]) -> None:
    """Ask about what a line names besides its sizes, where it is a material with an answer of its own. A skin is asked
    about whatever lies under it; a word for anything, such as `casting`, only where it says what is cut."""
    low = line.lower()
    for run, ahead in _runs(low, strange):
        own = special(run)
        if own is None and "material" not in sheet.texts and _is_led(low, run):
            sheet.ask(f"material {run!r} is not known", run, "its name or grade, as crib materials lists them; if it "
                      f"is no material leave it out, and {DEFAULT_MATERIAL} is planned for")
            return
        if own is None or (own.sort is Sort.VAGUE and ahead not in _LEADS):
            continue
        if own.sort is Sort.SKIN or "material" not in sheet.texts:
            sheet.ask(f"material {run!r}: {own.what}", run, own.help)
            return


def _is_led(line: str, run: str) -> bool:
    """Whether what leads to a material, and to hardly anything else, stands right before words at the end of a clause:
    the `in` of `deep in unobtainium`, not of `in place`."""
    led = rf"\b{_TO_A_MATERIAL} {re.escape(run)}\s*(?:[,;.]|$)"
    return _IDIOMS.isdisjoint(run.split()) and re.search(led, line) is not None


def _runs(line: str, strange: Collection[str]) -> Iterator[tuple[str, str]]:
    """The longest runs of such words, each with the word ahead of it."""
    run: list[str] = []
    ahead = ""
    for word in (*re.findall(r"[^\W\d_]+|\S", line), ""):
        if word in strange:
            run.append(word)
            continue
        if run:
            yield " ".join(run), ahead
        run, ahead = [], word
