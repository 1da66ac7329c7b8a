"""`python -m tests.benchmarks [--rounds N] [--check]`: how long commands take from start to end, as ratios to an empty
Python timed in turn with them, and how long planning takes by the number of cutters.

Not a test: a busy machine tells nothing. With `--check` the status is 1 where something is over its limit.
"""

from __future__ import annotations

import argparse
import os
import signal
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from tests.benchmarks.cribs import crib

ROOT = Path(__file__).parents[2]
EMPTY_SECONDS = 0.013
"""What an empty Python takes on the quiet machine that the limits are meant for."""

EMPTY = (sys.executable, "-c", "pass")
CRIB = (sys.executable, "-c", "from crib.cli import main; main()")
SIZES = (60, 300, 1000)
PATIENCE = 60
"""Seconds after which planning is given up."""


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


def planning(count: int, rounds: int) -> list[float]:
    """The best time to answer each question of the sample from so many made-up cutters, within one process."""
    from crib.planning.advise import advise
    from crib.planning.ask import read_request, texts_of
    from crib.planning.shop import from_json
    from crib.sample import questions, shop_settings

    shop, cutters = from_json(shop_settings()), crib(count)
    taken = []
    for asked in questions()[:4]:
        request = read_request(asked.make[0], texts_of(asked.make[1:]), shop, "in")
        taken.append(best_of(rounds, lambda request=request: advise(request, cutters, shop)))  # type: ignore[misc]
    return taken


def best_of(rounds: int, call: Callable[[], object]) -> float:
    """The best time of a call; once is enough where it takes a second, and a minute is infinite."""
    best = float("inf")
    signal.signal(signal.SIGALRM, _too_long)
    for _ in range(rounds):
        begun = time.perf_counter()
        signal.alarm(PATIENCE)
        try:
            call()
        except TimeoutError:
            return float("inf")
        finally:
            signal.alarm(0)
        best = min(best, time.perf_counter() - begun)
        if best > 1:
            break
    return best


def _too_long(*_: object) -> None:
    raise TimeoutError


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
    print(f"\n{'planning, ms':18}" + "".join(f"{name:>15}" for name in ("T-slot", "slot", "step", "small T-slot")))
    for count in SIZES:
        row = planning(count, min(3, given.rounds))
        print(f"{count:5} cutters     " + "".join(f"{one * 1000:15.0f}" for one in row), flush=True)
    return 1 if over and given.check else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
