"""Amending many cutters at once: those with some numbers, or those that a search finds."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence

from crib.cutters.base import Cutter
from crib.findings.errors import CribError
from crib.intake.options import amend_by_options
from crib.intake.query import read_query
from crib.store import Crib
from crib.units.words import told

_SPAN = re.compile(r"(\d{1,9})(?:\s*-\s*(\d{1,9}))?", re.ASCII)
_HELP = "numbers as 1-20,25, or --where \"end mills in B3\""


def numbered(crib: Crib, text: str) -> list[Cutter]:
    """The cutters with the numbers of a text, `1-20,25`: each that is named alone must be there, of a span those that
    are. Raises `CribError`."""
    there = {cutter.id: cutter for cutter in crib.cutters()}
    found: dict[int, Cutter] = {}
    for part in text.split(","):
        span = _SPAN.fullmatch(part.strip())
        if span is None:
            raise CribError("usage", f"{part.strip()!r} is not a cutter's number", text, _HELP)
        if span[2] is None:
            found[int(span[1])] = there.get(int(span[1])) or crib.cutter(int(span[1]))
        else:
            found |= {number: there[number] for number in sorted(there) if int(span[1]) <= number <= int(span[2])}
    if not found:
        raise CribError("no-cutter", f"there is no cutter from {text}", text, "crib find lists them")
    return list(found.values())


def wanted(crib: Crib, words: str) -> list[Cutter]:
    """The cutters that a search finds, which must be for something. Raises `CribError` where it finds none."""
    if not words.strip():
        raise CribError("usage", "--where says nothing to look for", words, _HELP)
    found = list(crib.find(read_query(words.split(), crib.units)).cutters)
    if not found:
        raise CribError("no-cutter", f"nothing fits {words}", words, "crib find shows what a search finds")
    return sorted(found, key=lambda cutter: cutter.id)


def amending(crib: Crib, cutters: Sequence[Cutter], texts: Mapping[str, str]) -> Callable[[], object]:
    """The deed of amending some cutters, all of them or none. It raises `CribError` with the number of the one that it
    can't be done to."""
    numbers = [cutter.id for cutter in cutters]

    def deed() -> None:
        currency = crib.shop().currency
        for number in numbers:
            before = crib.cutter(number)
            try:
                after, typed = amend_by_options(before, texts, crib.units, currency)
            except CribError as error:
                why, help = told(error.finding, crib.units)
                raise CribError(error.finding.id, f"no. {number}, {before.label}: {why}", str(number), help) from error
            crib.amend(after, typed)

    return deed
