"""Whole commands on the sample crib, as ratios of their processor time to that of an empty Python, timed in turn with
them; beside it what `argparse` and `sqlite3` alone take, which is as little as a command that finds could."""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import NamedTuple

from crib.features import KINDS
from crib.sample import questions

ROOT = Path(__file__).parents[2]
EMPTY = (sys.executable, "-c", "pass")
FLOOR = (sys.executable, "-c", "import argparse, sqlite3")
CRIB = (sys.executable, "-c", "from crib.cli import main; main()")
REFUSED = ("make", "t-slot", "--throat", "1/4", "--depth", ".6", "--head-width", "1", "--head-height", ".2")
ASKED = 4
"""So many questions are asked before what goes by the questions asked is timed."""


class Timed(NamedTuple):
    """A command, and how many times an empty Python it may take; None: only to be seen."""

    name: str
    words: tuple[str, ...]
    limit: float | None
    status: int | None = 0


def commands() -> list[Timed]:
    """The quick commands, the sample's questions, every usual sort of cut, and what asks many questions."""
    asked = [("make", *one.make) for one in questions()]
    return [
        Timed("--help", ("--help",), 1.8),
        Timed("find", ("find",), 4.3),
        Timed("find keyseat 5/8", ("find", "keyseat", "5/8"), 8.6),
        Timed("show 27", ("show", "27"), 3.7),
        Timed("shop", ("shop",), 4.6),
        Timed("held-back", ("held-back",), 4.2),
        Timed("tap 1/4-20", ("tap", "1/4-20"), 6.3),
        Timed("make --help", ("make", "t-slot", "--help"), None),
        Timed("T-slot", asked[0], AIM),
        Timed("T-slot --json", (*asked[0], "--json"), AIM),
        Timed("slot", asked[1], AIM),
        Timed("step", asked[2], AIM),
        Timed("measure first", asked[3], AIM, 1),
        Timed("closed slot", ("make", "slot", "--width", ".5", "--depth", ".25", "--ends", "closed", "--length", "2"),
              AIM),
        Timed("pocket", ("make", "pocket", "--width", "1-1/2", "--length", "2-1/2", "--depth", "1/2", "--corner-radius",
                         "1/4"), AIM),
        Timed("slide", ("make", "dovetail-slide", "--angle", "60", "--height", ".25", "--width", "1"), 13.5),
        Timed("chamfer", ("make", "chamfer", "--size", "1/16"), AIM),
        Timed("refused", REFUSED, AIM, 1),
        Timed("refused --relax", (*REFUSED, "--relax"), 25.0, 1),
        Timed("worth T-slot", ("worth", *asked[0][1:]), 20.0),
        Timed("wish-list", ("wish-list", "--budget", "60"), 25.0),
        Timed("to-mic", ("to-mic",), 21.0),
    ]


AIM = 14.0
"""Times an empty Python: as much as a usual `make` is to take."""

def usual() -> list[Timed]:
    """Each kind of feature, as its example asks for it."""
    asked = {name: [word for key, text in kind.example.items() for word in (f"--{key.replace('_', '-')}", text)]
             for name, kind in KINDS.items()}
    return [Timed(name, ("make", name, *words), AIM, None) for name, words in asked.items()]


def seconds(words: Sequence[str], environment: Mapping[str, str], status: int | None = 0) -> float:
    """The processor time of a process, from start to end; None: whatever its status."""
    process = subprocess.Popen(words, env=environment, stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL,
                               stderr=subprocess.PIPE)
    assert process.stderr is not None
    said = process.stderr.read()
    _, ended, used = os.wait4(process.pid, 0)
    process.returncode = os.waitstatus_to_exitcode(ended)
    process.stderr.close()
    if status is not None and process.returncode != status:
        raise SystemExit(f"{' '.join(words)} ended with {process.returncode}: {said.decode()}")
    return used.ru_utime + used.ru_stime


def times(timed: Sequence[Timed], rounds: int) -> tuple[float, float, list[float]]:
    """The best of so many rounds of the empty Python, the floor and each command, all in turn. Compiled code is kept,
    and each is timed on the same crib, with as many questions asked."""
    with tempfile.TemporaryDirectory() as folder:
        environment = {key: value for key, value in os.environ.items()
                       if key not in ("PYTHONDONTWRITEBYTECODE", "CRIB_UNITS")}
        environment |= {"PYTHONPYCACHEPREFIX": f"{folder}/compiled", "PYTHONPATH": str(ROOT), "COLUMNS": "100",
                        "CRIB_DB": f"{folder}/crib.db", "PYTHONIOENCODING": "utf-8"}
        seconds((*CRIB, "demo", "--into", f"{folder}/crib.db"), environment)
        for one in questions()[:ASKED]:
            subprocess.run((*CRIB, "make", *one.make), env=environment, capture_output=True, check=False)
        seconds((*CRIB, "shop", "--remember-questions", "no"), environment)
        lines: list[tuple[tuple[str, ...], int | None]] = [
            (EMPTY, 0), (FLOOR, 0), *(((*CRIB, *one.words), one.status) for one in timed)]
        best = [float("inf")] * len(lines)
        for _ in range(rounds + 1):
            for place, (words, status) in enumerate(lines):
                best[place] = min(best[place], seconds(words, environment, status))
    return best[0], best[1], best[2:]


def report(rounds: int, timed: Sequence[Timed]) -> bool:
    """Print the table; whether all is within its limits."""
    empty, floor, taken = times(timed, rounds)
    print(f"processor time, best of {rounds}; an empty Python {empty * 1000:.1f} ms, argparse and sqlite3 alone "
          f"{floor / empty:.1f} times that\n")
    print(f"{'command':18}{'ms':>7}{'ratio':>8}{'limit':>8}")
    over = 0
    for one, best in zip(timed, taken, strict=True):
        ratio = best / empty
        over += one.limit is not None and ratio > one.limit
        verdict = "" if one.limit is None else f"{one.limit:8.1f}  {'over' if ratio > one.limit else 'ok'}"
        print(f"{one.name:18}{best * 1000:7.0f}{ratio:8.1f}{verdict}")
    return not over
