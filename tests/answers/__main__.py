"""`python -m tests.answers record|compare|choose FOLDER`: see the package."""

from __future__ import annotations

import argparse
import sys
import time
from collections import Counter
from collections.abc import Sequence
from fnmatch import fnmatchcase
from pathlib import Path

from tests.answers import __doc__ as about
from tests.answers import kept
from tests.answers.asking import Answer, Question, asked, prepare
from tests.answers.differences import Difference, accepted, line, of_answers, told

ACCEPTED = Path(__file__).with_name("accepted.toml")


def main(words: Sequence[str] | None = None) -> int:
    """Do what is asked for; the status of it."""
    given = _parser().parse_args(words)
    prepare(given.of)
    began = time.monotonic()
    if given.do == "compare":
        return _compare(given)
    if given.do == "choose":
        from tests.answers.choose import chosen

        cribs, questions, answers = chosen(given.n)
    else:
        cribs, questions, _ = kept.read(given.questions or given.folder)
        answers = [one for _, one in sorted(asked(questions, cribs, given.n), key=lambda pair: pair[0])]
    size = kept.write(given.folder, cribs, questions, answers)
    print("\n".join(_counts(questions, answers)))
    print(f"{len(questions)} questions, {size:,} bytes, {time.monotonic() - began:.0f} s with {given.n} processes")
    return 0


def _compare(given: argparse.Namespace) -> int:
    """Ask again and tell what differs; 1 where something does that isn't accepted."""
    began = time.monotonic()
    cribs, questions, before = kept.read(given.folder)
    places = [place for place, one in enumerate(questions)
              if (one.quick or not given.quick) and (not given.only or fnmatchcase(line(one), f"*{given.only}*"))]
    found: list[Difference] = []
    for at, now in sorted(asked([questions[place] for place in places], cribs, given.n), key=lambda pair: pair[0]):
        found += of_answers(questions[places[at]], before[places[at]], now)
    lines, wrong = told(found, accepted(given.accepted))
    print("\n".join(lines))
    print(f"{len(places)} questions asked again in {time.monotonic() - began:.0f} s: {wrong} differences, "
          f"{len(found) - wrong} more are accepted")
    return int(wrong > 0)


def _counts(questions: Sequence[Question], answers: Sequence[Answer]) -> list[str]:
    """How many of each sort, and how they ended."""
    last = [one.steps[-1] for one in questions]
    sorts = {"command": Counter(words[0] for words in last), "crib": Counter(one.crib for one in questions),
             "kind of make": Counter(words[1] for words in last if words[0] == "make"),
             "status": Counter(str(one.steps[-1][0]) for one in answers),
             "verdict of make": Counter(str(one.steps[-1][1].get("answer", "an error")) for one, words in zip(
                 answers, last, strict=True) if words[0] == "make" and isinstance(one.steps[-1][1], dict))}
    return [f"{name}: " + ", ".join(f"{what} {many}" for what, many in counted.most_common())
            for name, counted in sorts.items()] + [f"pages: {sum(len(one.pages) for one in questions)}",
                                                   f"seconds: {sum(one.seconds for one in answers):.0f}"]


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(prog="python -m tests.answers", description=about,
                                     formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("do", choices=("record", "compare", "choose"))
    parser.add_argument("folder", type=Path, help="where the record is or shall be")
    parser.add_argument("-n", type=int, default=2, help="processes")
    parser.add_argument("--of", type=Path, help="another checkout, whose program is asked")
    parser.add_argument("--only", default="", help="compare: a pattern of the command lines that are asked")
    parser.add_argument("--quick", action="store_true", help="compare: only the few that are asked with every test run")
    parser.add_argument("--questions", type=Path, help="record: the folder of the record whose questions are asked")
    parser.add_argument("--accepted", type=Path, default=ACCEPTED, help="compare: what is meant to differ")
    return parser


if __name__ == "__main__":
    sys.exit(main())
