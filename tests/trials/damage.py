"""Damaged copies of a crib: bits turned, pages overwritten, pages zeroed, ends cut off.
`python -m tests.trials.damage [HOW MANY]`

Nothing may be written into a copy that SQLite finds amiss, nothing may be said in raw words, and most of the rows must
come out of it again.
"""

from __future__ import annotations

import random
import shutil
import sqlite3
import sys
from collections import Counter
from contextlib import closing
from pathlib import Path
from statistics import median
from tempfile import TemporaryDirectory

from tests.trials.common import crib, fresh, is_raw, is_sound, told

PAGE = 4096
SORTS = ("bits", "page", "zeroed", "cut off")
WRITES = (("take-in", "1/4 drill"), ("amend", "3", "--neck", ".1"), ("undo",))


def damaged(whole: Path, copy: Path, sort: str, chance: random.Random) -> None:
    """A copy with one sort of damage, anywhere but in the first page."""
    data = bytearray(whole.read_bytes())
    page = chance.randrange(1, len(data) // PAGE) * PAGE
    if sort == "bits":
        for _ in range(chance.randint(1, 20)):
            data[chance.randrange(PAGE, len(data))] ^= 1 << chance.randrange(8)
    elif sort == "page":
        data[page:page + PAGE] = chance.randbytes(PAGE)
    elif sort == "zeroed":
        data[page:page + PAGE] = bytes(PAGE)
    else:
        del data[chance.randrange(len(data) // 2, len(data)):]
    copy.write_bytes(data)


def trial(folder: Path, whole: Path, sort: str, chance: random.Random) -> tuple[Counter[str], float]:
    """One copy: each write on its own, a look, and what is salvaged of its cutters."""
    copy = folder / "copy.db"
    damaged(whole, copy, sort, chance)
    amiss = not is_sound(copy)
    found = Counter(tried=1, amiss=amiss)
    for number, words in enumerate(WRITES):
        here = folder / f"{number}.db"
        shutil.copyfile(copy, here)
        done = crib(here, *words)
        found["raw"] += is_raw(done.stderr)
        found["into damage"] += amiss and done.returncode == 0
    looked = crib(copy, "find")
    found["raw"] += is_raw(looked.stderr)
    found["looked without a word"] += amiss and looked.returncode == 0 and not looked.stderr
    into = folder / "salvaged.db"
    done = crib(copy, "salvage", str(copy), "--to", str(into))
    found["raw"] += is_raw(done.stderr)
    rows = 0
    if done.returncode == 0:
        found["salvage unsound"] += not is_sound(into)
        with closing(sqlite3.connect(into)) as database:
            rows = int(database.execute("SELECT count(*) FROM cutter").fetchone()[0])
    return found, rows


def run(each: int, seed: int = 1, cutters: int = 300) -> dict[str, tuple[Counter[str], float]]:
    """So many of each sort; of the cutters the share that came out, in the median."""
    chance, found = random.Random(seed), {}
    with TemporaryDirectory() as name:
        whole = Path(name) / "whole.db"
        fresh(whole, cutters)
        for sort in SORTS:
            counts: Counter[str] = Counter()
            shares = []
            for _ in range(each):
                with TemporaryDirectory() as folder:
                    one, rows = trial(Path(folder), whole, sort, chance)
                counts += one
                shares.append(rows / cutters)
            found[sort] = (counts, median(shares))
    return found


if __name__ == "__main__":
    for sort, (counts, share) in run(int(sys.argv[1]) if len(sys.argv) > 1 else 35).items():
        print(told(sort, [(word, counts[word]) for word in
                          ("tried", "amiss", "into damage", "looked without a word", "salvage unsound", "raw")]),
              f"; salvaged {100 * share:.0f} % of the cutters in the median")
