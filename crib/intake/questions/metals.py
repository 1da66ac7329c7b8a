"""Words of which nothing was made, where they name what isn't cut at a bench, or has no figures: it is asked about,
and never planned for as if no material had been named."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator

from crib.handbook.not_here import Sort, special
from crib.intake.questions.sheet import Sheet

_LEADS = {"in", "of", "from", "a", "an", "the", "some", "my", "old"}


def ask_of_metals(sheet: Sheet, line: str, strange: Collection[str]) -> None:
    """Ask about what a line names besides its sizes, where it is a material with an answer of its own. A skin is asked
    about whatever lies under it; a word for anything, such as `casting`, only where it says what is cut."""
    for run, ahead in _runs(line.lower(), strange):
        own = special(run)
        if own is None or (own.sort is Sort.VAGUE and ahead not in _LEADS):
            continue
        if own.sort is Sort.SKIN or "material" not in sheet.texts:
            sheet.ask(f"material {run!r}: {own.what}", run, own.help)
            return


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
