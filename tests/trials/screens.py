"""How many lines an answer takes at a hundred columns, over questions that are on record.

`python -m tests.trials.screens [HOW MANY]` prints a line for each that takes more than a screen."""

from __future__ import annotations

import sys
from collections.abc import Iterator, Sequence
from pathlib import Path
from random import Random

from tests.answers import kept
from tests.answers.asking import Question, asked, prepare

MOST, WIDE = 40, 100
RECORD = Path(__file__).parents[1] / "answers"
_FLAGS = ("--why", "--relax", "--others", "--steps", "--all")


def questions(count: int, seed: int = 1) -> list[Question]:
    """So many questions of `crib make` that are on record, without what they ask for beside the first screen."""
    made = {(one.crib, plainly(one.steps[-1])) for one in kept.read(RECORD)[1] if one.steps[-1][0] == "make"}
    drawn = Random(seed).sample(sorted(made), min(count, len(made)))
    return [Question(crib, (words,), ("in", "mm")) for crib, words in drawn]


def plainly(words: Sequence[str]) -> tuple[str, ...]:
    """A command line without what asks for more."""
    more = (*_FLAGS, "--refused")
    return tuple(word for at, word in enumerate(words) if word not in more and words[at - 1] != "--refused")


def screens(those: Sequence[Question], processes: int = 1) -> Iterator[tuple[Question, str, list[str]]]:
    """Each question with its page, in inches and in millimetres."""
    cribs = kept.read(RECORD)[0]
    for place, answer in asked(those, cribs, processes):
        for units, page in answer.pages.items():
            yield those[place], units, page.rpartition("[")[0].splitlines()


def passes_of(page: Sequence[str]) -> int:
    """How many lines of a page the passes take, with what is said of them."""
    first = next((at for at, line in enumerate(page) if line.startswith("pass ")), None)
    if first is None:
        return 0
    ends = (at for at in range(first, len(page)) if not page[at] or page[at].split(":")[0] in ("Take care", "Caution",
                                                                                           "Mind", "Note", "STOP"))
    return next(ends, len(page)) - first


def main(count: int) -> None:
    prepare()
    every = list(screens(questions(count)))
    for one, units, page in every:
        if len(page) > MOST or max(map(len, page)) > WIDE:
            print(f"{len(page)} lines, {passes_of(page)} of passes, {max(map(len, page))} wide, {units}, {one.crib}: "
                  f"{' '.join(one.steps[-1])}")
    print(f"{len(every)} pages, {sum(len(page) <= MOST for _, _, page in every)} on one screen")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 200)
