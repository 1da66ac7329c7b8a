"""`python -m tests.benchmarks [--rounds N] [--check]`: how long commands take from start to end, as ratios to an empty
Python timed in turn with them, and how long planning takes by the number of cutters, beside reading them.

Not a test: a busy machine tells nothing. With `--check` the status is 1 where something is over its limit.
"""

from __future__ import annotations

import argparse
import os
import subprocess
import sys
import tempfile
import time
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from tests.benchmarks import bench, large

ROOT = Path(__file__).parents[2]
EMPTY_SECONDS = 0.013
"""What an empty Python takes on the quiet machine that the limits are meant for."""

EMPTY = (sys.executable, "-c", "pass")
CRIB = (sys.executable, "-c", "from crib.cli import main; main()")
SIZES = (60, 1000, 10_000, 100_000)
"""How many cutters questions are answered from."""


@dataclass(frozen=True)
class Timed:
    """A command with the seconds that it may take on a quiet machine; None: only to be seen."""

    name: str
    words: tuple[str, ...]
    limit: float | None
    status: int = 0


def commands() -> list[Timed]:
    """What is timed: each question of the sample, and the quick commands."""
    from crib.sample import questions

    asked = [("make", *one.make) for one in questions()]
    return [
        Timed("--help", ("--help",), 0.12),
        Timed("find", ("find",), 0.15),
        Timed("find keyseat 5/8", ("find", "keyseat", "5/8"), 0.15),
        Timed("show 27", ("show", "27"), 0.15),
        Timed("make --help", ("make", "t-slot", "--help"), None),
        Timed("T-slot", asked[0], 0.4),
        Timed("T-slot --json", (*asked[0], "--json"), 0.4),
        Timed("slot", asked[1], 0.4),
        Timed("step", asked[2], 0.4),
        Timed("measure first", asked[3], 0.4, status=1),
    ]


def seconds(words: Sequence[str], environment: Mapping[str, str], status: int = 0) -> float:
    """How long a process takes from start to end."""
    begun = time.perf_counter()
    done = subprocess.run(words, env=environment, stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL,
                          stderr=subprocess.PIPE, check=False)
    taken = time.perf_counter() - begun
    if done.returncode != status:
        raise SystemExit(f"{' '.join(words)} ended with {done.returncode}: {done.stderr.decode()}")
    return taken


def times(timed: Sequence[Timed], rounds: int) -> list[float]:
    """The best of so many rounds for the empty Python and each command, all in turn; compiled code is kept."""
    with tempfile.TemporaryDirectory() as folder:
        environment = {key: value for key, value in os.environ.items()
                       if key not in ("PYTHONDONTWRITEBYTECODE", "CRIB_UNITS")}
        environment |= {"PYTHONPYCACHEPREFIX": f"{folder}/compiled", "PYTHONPATH": str(ROOT), "COLUMNS": "100",
                        "CRIB_DB": f"{folder}/crib.db", "PYTHONIOENCODING": "utf-8"}
        seconds((*CRIB, "demo", "--into", f"{folder}/crib.db"), environment)
        lines = [(EMPTY, 0), *(((*CRIB, *one.words), one.status) for one in timed)]
        for words, status in lines:
            seconds(words, environment, status)
        best = [float("inf")] * len(lines)
        for _ in range(rounds):
            for place, (words, status) in enumerate(lines):
                best[place] = min(best[place], seconds(words, environment, status))
    return best


def main(words: Sequence[str]) -> int:
    """Time everything, print the tables, tell whether all is within its limit."""
    parser = argparse.ArgumentParser(prog="python -m tests.benchmarks", description=__doc__)
    parser.add_argument("--rounds", type=int, default=10, help="the best of how many (10)")
    parser.add_argument("--check", action="store_true", help="status 1 where something is over its limit")
    given = parser.parse_args(words)
    timed = commands()
    empty, *taken = times(timed, given.rounds)
    print(f"an empty Python: {empty * 1000:.1f} ms, best of {given.rounds}; limits for {EMPTY_SECONDS * 1000:.0f} ms\n")
    print(f"{'command':18}{'ms':>7}{'ratio':>8}{'limit':>8}")
    over = 0
    for one, best in zip(timed, taken, strict=True):
        ratio, limit = best / empty, None if one.limit is None else one.limit / EMPTY_SECONDS
        over += limit is not None and ratio > limit
        verdict = "" if limit is None else f"{limit:8.1f}  {'over' if ratio > limit else 'ok'}"
        print(f"{one.name:18}{best * 1000:7.0f}{ratio:8.1f}{verdict}")
    within = large.report(SIZES, min(3, given.rounds))
    within = bench.report(given.rounds) and within
    return 1 if (over or not within) and given.check else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
