"""`python -m tests.benchmarks [--rounds N] [--commands | --makes] [--check]`: how long commands take from start to end,
as ratios to an empty Python timed in turn with them, and how long planning takes from large cribs, beside reading them.

Not a test: a busy machine tells little. With `--check` the status is 1 where something is over its limit.
"""

from __future__ import annotations

import argparse
import sys
from collections.abc import Sequence

from tests.benchmarks import commands, large

SIZES = (10_000, 100_000)
"""How many cutters questions are answered from."""


def main(words: Sequence[str]) -> int:
    """Time everything, print the tables, tell whether all is within its limit."""
    parser = argparse.ArgumentParser(prog="python -m tests.benchmarks", description=__doc__)
    parser.add_argument("--rounds", type=int, default=10, help="the best of how many (10)")
    parser.add_argument("--questions", type=int, default=60, help="so many random questions of each kind (60)")
    parser.add_argument("--commands", action="store_true", help="only whole commands, not large cribs")
    parser.add_argument("--makes", action="store_true", help="only each kind of feature, as its example asks for it")
    parser.add_argument("--check", action="store_true", help="status 1 where something is over its limit")
    given = parser.parse_args(words)
    within = commands.report(given.rounds, commands.usual() if given.makes else commands.commands())
    if not (given.commands or given.makes):
        within = large.report(SIZES, given.questions) and within
    return int(given.check and not within)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
