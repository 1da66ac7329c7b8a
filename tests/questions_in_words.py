"""How questions in words are read: tests/data/questions_in_words.csv against what a machinist means by each.

`python -m tests.questions_in_words [FILE]` counts those that are read, asked about rightly or without need, and wrong
in silence. A `?` for the kind: it must be asked.
"""

from __future__ import annotations

import csv
import sys
from collections import Counter
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from crib.findings.errors import CribError
from crib.handbook.sizes import read_size
from crib.intake.questions import lacking, read_question

DATA = Path(__file__).parent / "data" / "questions_in_words.csv"
OTHERS = DATA.with_name("questions_in_other_words.csv")
"""Written after the reader, in other habits: a machinist who learned the trade in German, a schoolboy, a catalogue's
clerk, a dictating program. At their first reading 40 of 60 were read, 4 asked rightly, 14 without need, 2 wrong in
silence; what was mended was mended by rule."""

BENCH = DATA.with_name("questions_at_the_bench.csv")
"""Written later by another who reads prints and talks at the bench: tolerances behind the names of their sizes, odd
orders, mixed units, eight that lack something. At their first reading 81 of 107 were read or asked rightly, 4 wrong in
silence; what was mended was mended by rule."""

TYPED = DATA.with_name("questions_as_typed.csv")
"""Written later still, as one types them who has taught the trade: sizes without their names, threads and keys by their
standards, metals by their common names. Each stands here for how such a line was read wrongly or asked about."""

WORDS = ("material", "use", "mating", "ends", "finish", "through", "head", "fit", "class", "direction", "thread",
         "hardness", "wall", "to", "form")


@dataclass(frozen=True)
class Case:
    """A question as it is said, in a crib of which units; the kind and the texts that are meant, no kind where it must
    be asked."""

    said: str
    units: str
    kind: str
    texts: tuple[tuple[str, str], ...]


@cache
def cases(path: Path = DATA) -> tuple[Case, ...]:
    """The questions of a file."""
    with path.open(encoding="utf-8") as file:
        return tuple(Case(row["said"], row["units"], row["kind"].strip("?"), _texts(row["texts"] or ""))
                     for row in csv.DictReader(file, delimiter="|", quoting=csv.QUOTE_NONE))


def _texts(text: str) -> tuple[tuple[str, str], ...]:
    return tuple((one.partition("=")[0], one.partition("=")[2].rpartition(">")[2]) for one in text.split("; ") if one)


def judged(case: Case) -> tuple[str, str]:
    """`read`, `asked` where it must be, `needless`, or `wrong` in silence; and what differs."""
    found = read_question(case.said)
    wrong = differs(case, found.kind, dict(found.texts))
    asks = "; ".join(map(str, found.asks))
    if not case.kind:
        lacks = found.asks or lacking(found.kind, found.texts, case.units)
        return ("asked", asks) if lacks else ("wrong", f"nothing is asked: {found.echo}")
    if found.asks:
        return "needless", asks
    return ("wrong", wrong) if wrong else ("read", "")


def differs(case: Case, kind: str, texts: dict[str, str]) -> str:
    """In what a reading isn't what was meant."""
    meant = dict(case.texts)
    if kind != case.kind:
        return f"kind {kind}"
    return "; ".join(f"{key} {texts.get(key)!r}, not {meant.get(key)!r}" for key in sorted(meant.keys() | texts.keys())
                     if not _same(key, texts.get(key), meant.get(key), case.units))


def _same(key: str, one: str | None, other: str | None, units: str) -> bool:
    """Whether two texts say the same: to the nanometre where they are sizes."""
    if one is None or other is None:
        return one is other
    if key in WORDS:
        return one.lower() == other.lower()
    try:
        both = [read_size(text, units, key, (-1.0, 1.0)) for text in (one, other)]
    except CribError:
        return one.lower() == other.lower()
    return all(abs(getattr(both[0], at) - getattr(both[1], at)) < 1e-6 for at in ("nominal", "lo", "hi"))


def main() -> int:
    """Print the counts, and every question that is neither read nor asked about rightly."""
    counts: Counter[str] = Counter()
    path = Path(sys.argv[1]) if len(sys.argv) > 1 else DATA
    for case in cases(path):
        verdict, why = judged(case)
        counts[verdict] += 1
        if verdict in ("needless", "wrong"):
            print(f"{verdict:>9}  {case.said!r}: {why}")
    print(*(f"{counts[verdict]} {verdict}" for verdict in ("read", "asked", "needless", "wrong")),
          f"of {sum(counts.values())}")
    return int(counts["wrong"] > 0)


if __name__ == "__main__":
    sys.exit(main())
