"""`python -m tests.benchmarks.tap`: how long `crib tap` and the plans for holes take from start to end on the sample
bench, the least of some rounds. Status 1 with `--check` where one is over its limit. Not a test: a busy machine tells
nothing."""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
import time
from pathlib import Path

ROOT = Path(__file__).parents[2]
CRIB = (sys.executable, "-c", "from crib.cli import main; main()")
ROUNDS = 7
LIMITS = {"tap": 0.3, "gauge": 0.3, "make": 0.4}
"""Seconds that an answer may take from start to end on a quiet machine."""

ASKED: tuple[tuple[str, ...], ...] = (
    ("tap", "10-32"),
    ("tap", "1/4-20", "--depth", "1/2", "--below", "1/4", "--json"),
    ("tap", "--check-all"),
    ("gauge", "--diameter", ".2495", "--tpi", "28"),
    ("make", "tapped-hole", "--thread", "1/4-20", "--depth", "1/2", "--material", "grey iron"),
    ("make", "gib-screw-holes", "--thread", "1/4-28", "--height", "3/8", "--nut", "7/16", "--gib", "1/8"),
)


def seconds(words: tuple[str, ...], place: str) -> float:
    """The least of some rounds of one command line."""
    taken = []
    for _ in range(ROUNDS):
        began = time.perf_counter()
        subprocess.run((*CRIB, *words), env=os.environ | {"CRIB_DB": place}, capture_output=True, check=False, cwd=ROOT)
        taken.append(time.perf_counter() - began)
    return min(taken)


def main() -> int:
    """Time each question on a copy of the sample bench."""
    over = 0
    with tempfile.TemporaryDirectory() as folder:
        place = f"{folder}/bench.db"
        subprocess.run((*CRIB, "demo", "--into", place), capture_output=True, check=True, cwd=ROOT)
        for words in ASKED:
            took = seconds(words, place)
            late = took > LIMITS[words[0]]
            over += late
            print(f"{took:6.3f} s  {'over' if late else 'ok  '}  crib {' '.join(words)}")
    return int(bool(over) and "--check" in sys.argv)


if __name__ == "__main__":
    sys.exit(main())
