"""`python -m tests.benchmarks.intake [LINES] [--check]`: how quick 100,000 lines come in, what that takes, and finding
in them.

Each row is measured in a process of its own; memory is the most that the process held. Beside each import stands how
long the same lines take to be split into cells and written into one table, as the least that reading and keeping them
could take. With `--check` the status is 1 where one takes more times that than it may.
"""

from __future__ import annotations

import csv
import json
import os
import resource
import sqlite3
import subprocess
import sys
import tempfile
import time
from pathlib import Path
from random import Random

from tests.shorthand import LINES

ROWS, TEN_THOUSAND = 100_000, 10_000
QUERIES = ("keyseat about 5/8", "5/8", "woodruff in drawer B7", "carbide end mill 3/8", "what fits the 3/8 collet",
           "reemer", "1/4-20 plug tap", "zzzz", "#7 drill")
_KINDS = ("end-mill", "end-mill", "keyseat-cutter", "drill", "reamer", "tap")


def table(path: Path, count: int) -> None:
    """A CSV of so many cutters, a hundredth of its lines not to be read."""
    chance = Random(count)
    with path.open("w", encoding="utf-8") as file:
        file.write("Qty,Location,Type,Dia (in),Flutes,Shank (in),Material,Thread,Remarks\n")
        for number in range(count):
            kind = chance.choice(_KINDS) if number % 100 else "gizmo"
            size = f"{chance.randrange(8, 97)}/64"
            thread = chance.choice(("1/4-20", "10-32", "M6x1")) if kind == "tap" else ""
            file.write(f"1,{chance.choice('ABCD')}{chance.randrange(1, 60)},{kind},{size},{chance.choice((2, 4, 6))},"
                       f"{chance.choice(('3/8', '1/2'))},{chance.choice(('hss', 'carbide', 'cobalt'))},{thread},lot "
                       f"{number % 977}\n")


def words(path: Path, count: int) -> None:
    """So many lines of shorthand, said again and again."""
    said = [line["said"] for line in LINES if not line.get("before") and not line.get("items")]
    path.write_text("\n".join(said[number % len(said)] for number in range(count)) + "\n", encoding="utf-8")


def other_words(path: Path, count: int) -> None:
    """So many lines of shorthand, hardly two of them alike."""
    chance = Random(count)
    ways = (lambda: f"{chance.randrange(8, 97)}/64 {chance.choice((2, 3, 4))} flute end mill hss "
                    f"{chance.randrange(20, 99) / 32:.3f} loc",
            lambda: f"{chance.randrange(8, 97)}/64 drill cobalt {chance.randrange(200, 900) / 100} long",
            lambda: f"{chance.randrange(40, 120) / 64:.4f} x {chance.randrange(60, 250) / 1000:.3f} keyseat cutter",
            lambda: f".{chance.randrange(1000, 9999)} reamer 1/2 shank")
    path.write_text("".join(f"{chance.choice(ways)()} drawer {chance.choice('ABCD')}{chance.randrange(1, 60)}\n"
                            for _ in range(count)), encoding="utf-8")


MOST_TIMES = {"csv": 18.0, "csv, as JSON": 95.0, "txt": 91.0, "words": 250.0}
"""So many times the floor may an import take, by what the file is."""

FIND = {"": 5.5, "1/4-20": 4.9, "keyseat about 5/8": 14.0, "end mill": 17.0, "--all": 28.0}
"""So many times an empty Python may `crib find` take among 10,000 cutters, by its words. Those that aren't figures
alone are read as a shop's are, which takes as long in a small crib."""

FLAT = 1.3
"""So many times the memory that a tenth of the lines take may a file take."""


def floor(file: Path) -> float:
    """Processor time of splitting the lines of a file into cells and writing them into a table [s]."""
    began = time.process_time()
    with file.open(encoding="utf-8", newline="") as lines, sqlite3.connect(":memory:") as database:
        rows = [(*row, *[""] * 9)[:9] for row in csv.reader(lines)]
        database.execute("CREATE TABLE line (a, b, c, d, e, f, g, h, i)")
        database.executemany("INSERT INTO line VALUES (?,?,?,?,?,?,?,?,?)", rows)
    return time.process_time() - began


def _measured(code: str, *arguments: str, crib: Path) -> dict[str, float]:
    """Run a piece of this file in its own process: seconds, and the most memory that it held [MB]."""
    done = subprocess.run([sys.executable, "-m", "tests.benchmarks.intake", code, *arguments], check=True,
                          capture_output=True, text=True, env=_as_installed(crib.parent, crib))
    answer: dict[str, float] = json.loads(done.stdout.splitlines()[-1])
    return answer


def _as_installed(folder: Path, crib: Path) -> dict[str, str]:
    """What a command of an installed program finds: its modules are compiled."""
    environment = dict(os.environ, CRIB_DB=str(crib), PYTHONPYCACHEPREFIX=str(folder / "compiled"))
    environment.pop("PYTHONDONTWRITEBYTECODE", None)
    return environment


def _import(file: str, *options: str) -> dict[str, float]:
    from crib.cli.app import run

    began = time.process_time()
    stdout, sys.stdout = sys.stdout, open(os.devnull, "w", encoding="utf-8")  # noqa: SIM115
    run(["take-in", "--file", file, *options])
    sys.stdout = stdout
    return {"seconds": time.process_time() - began}


def _find(query: str) -> dict[str, float]:
    from crib.intake.query import read_query
    from crib.store import open_crib

    with open_crib(None) as crib:
        wanted = read_query(query.split(), crib.units)
        crib.find(wanted)
        began = time.perf_counter()
        found = crib.find(wanted)
        return {"seconds": time.perf_counter() - began, "found": len(found.cutters)}


def _inside(code: str, *arguments: str) -> None:
    answer = _import(*arguments) if code == "import" else _find(*arguments)
    memory = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    print(json.dumps(answer | {"memory": memory}))


def _commands(crib: Path) -> bool:
    """Print what finding takes as a command; whether all of it is within its limits."""
    from crib.store import open_crib
    from tests.benchmarks.commands import EMPTY, seconds
    from tests.benchmarks.cribs import crib as made_up

    with open_crib(str(crib), create=True) as ten:
        ten.take_in(made_up(TEN_THOUSAND))
    environment = _as_installed(crib.parent, crib)
    empty = min(seconds(EMPTY, environment) for _ in range(5))
    within = True
    for words, limit in FIND.items():
        command = (sys.executable, "-m", "crib", "find", *words.split())
        times = min(seconds(command, environment, None) for _ in range(4)) / empty
        within = within and times <= limit
        print(f"crib find {words:22} among {TEN_THOUSAND}: {times:6.1f} times an empty Python, limit {limit:g}")
    return within


def main(rows: int) -> bool:
    """Measure, and print a row for each; whether all imports are within their limits."""
    within = True
    with tempfile.TemporaryDirectory() as folder:
        place = Path(folder)
        for name, make, options in (("csv", table, ()), ("csv, as JSON", table, ("--json",)), ("txt", words, ()),
                                    ("words", other_words, ())):
            held = []
            for count in (rows // 10, rows):
                file, crib = place / f"{name}-{count}.{'csv' if make is table else 'txt'}", place / f"{name}-{count}.db"
                make(file, count)
                took, least = _measured("import", str(file), *options, crib=crib), min(floor(file) for _ in range(3))
                times = took["seconds"] / least
                held.append(took["memory"])
                is_flat = held[-1] <= FLAT * held[0]
                within = within and (count < rows or (times <= MOST_TIMES[name] and is_flat))
                print(f"import {count:>7} lines of {name}: {took['seconds']:7.1f} s, {times:6.1f} times the floor, "
                      f"{count / took['seconds']:8.0f} lines/s, {took['memory']:6.0f} MB")
        for query in QUERIES:
            took = _measured("find", query, crib=place / f"csv-{rows}.db")
            print(f"find {query!r:28} among {rows}: {took['seconds'] * 1000:7.0f} ms, {took['found']:>6.0f} found")
        return _commands(place / "ten.db") and within


if __name__ == "__main__":
    if sys.argv[1:2] in (["import"], ["find"]):
        _inside(*sys.argv[1:])
    else:
        given = [word for word in sys.argv[1:] if word != "--check"]
        sys.exit(int(not main(int(given[0]) if given else ROWS) and "--check" in sys.argv))
