"""Journals left by killed programs, beside the file that they belong to and beside others: a copy, a backup put back, a
new crib, another state of the same. `python -m tests.trials.journals [HOW MANY]`"""

from __future__ import annotations

import random
import shutil
import sqlite3
import subprocess
import sys
from collections import Counter
from pathlib import Path
from tempfile import TemporaryDirectory

from tests.trials.common import content, crib, fresh, is_raw, is_sound, told

_KILLED = """
import os, signal, sqlite3, sys
database = sqlite3.connect(sys.argv[1], isolation_level=None)
database.execute("PRAGMA cache_size = 5")
database.execute("PRAGMA cache_spill = 1")
database.execute("BEGIN IMMEDIATE")
for number in range(int(sys.argv[2])):
    database.execute("INSERT INTO cutter (kind, count, condition, material, typed, rest) "
                     "VALUES ('drill', 1, 'unknown', 'unknown', ?, '{}')", ('{"words":"' + "x" * 400 + '"}',))
os.kill(os.getpid(), signal.SIGKILL)
"""


def leave_a_journal(path: Path, rows: int = 400) -> bool:
    """Kill a program in the middle of writing so many rows; whether it left a journal."""
    subprocess.run([sys.executable, "-c", _KILLED, str(path), str(rows)], check=False)
    journal = path.with_name(path.name + "-journal")
    return journal.exists() and journal.read_bytes()[:8] == bytes.fromhex("d9d505f920a163d7")


def _trial(folder: Path, case: str, chance: random.Random) -> Counter[str]:
    """One case: what is in the crib then must be exactly what was committed, or be refused in our words."""
    path, other = folder / "c.db", folder / "other.db"
    fresh(path, chance.randint(5, 60))
    older = folder / "older.db"
    shutil.copyfile(path, older)
    crib(path, "take-in", "1/4 drill")
    wanted = content(path)["cutter"]
    newer = folder / "newer.db"
    shutil.copyfile(path, newer)
    left = leave_a_journal(path, chance.randint(100, 800))
    at = path
    if case == "older put back":
        shutil.copyfile(older, path)
        wanted = content(older)["cutter"]
    elif case == "same put back":
        shutil.copyfile(newer, path)
    elif case == "copied away":
        shutil.copyfile(path, other)
        at = other
    elif case == "begun anew":
        path.unlink()
        wanted = []
    elif case == "longer put back":
        crib(older, "take-in", "set 1-60 number drills")
        shutil.copyfile(older, path)
        wanted = content(older)["cutter"]
    elif case == "restored":
        crib(path, "restore", str(older), "--over")
        wanted = content(older)["cutter"]
    said = crib(at, "take-in", "--kind", "drill", "--diameter", "3/8")
    looked = crib(at, "find", "--json")
    found = Counter(tried=1, journals=left, raw=is_raw(said.stderr) + is_raw(looked.stderr))
    if said.returncode == 0:
        found["into damage"] += not is_sound(at)
        found["lost or false"] += is_sound(at) and content(at)["cutter"][:-1] != wanted
        found["written"] += 1
    else:
        found["refused"] += 1
    return found


CASES = ("its own", "older put back", "same put back", "longer put back", "copied away", "begun anew", "restored")


def run(each: int, seed: int = 1) -> dict[str, Counter[str]]:
    """So many of each case."""
    chance = random.Random(seed)
    found: dict[str, Counter[str]] = {}
    for case in CASES:
        found[case] = Counter()
        for _ in range(each):
            with TemporaryDirectory() as folder:
                found[case] += _trial(Path(folder), case, chance)
    return found


if __name__ == "__main__":
    assert sqlite3.sqlite_version
    for case, counts in run(int(sys.argv[1]) if len(sys.argv) > 1 else 15).items():
        print(told(case, [(word, counts[word]) for word in
                          ("tried", "journals", "written", "refused", "into damage", "lost or false", "raw")]))
