"""Programs killed with -9 at random: an import, a piped list, an undo of a range, a put-right, an upgrade, a backup, a
restore. `python -m tests.trials.kills [HOW MANY OF EACH]`

Whatever happens whole or not at all must be the state before or after; of a list that is taken in line by line every
line that was said to be in must be in, and given again it comes in once.
"""

from __future__ import annotations

import random
import shutil
import sys
import time
from collections import Counter
from collections.abc import Callable
from pathlib import Path
from tempfile import TemporaryDirectory

from tests.trials.common import ROOT, content, crib, fresh, is_raw, is_sound, started, told

LINES = 600
Counted = Counter[str]


def _list(folder: Path) -> Path:
    path = folder / "list.csv"
    rows = (f"end-mill,{number % 31 + 1}/64,B{number % 90},row {number}" for number in range(LINES))
    path.write_text("kind,diameter,drawer,note\n" + "\n".join(rows) + "\n")
    return path


def _words(folder: Path) -> Path:
    path = folder / "list.txt"
    path.write_text("".join(f"{number % 31 + 1}/64 end mill drawer C{number}\n" for number in range(LINES)))
    return path


def _killed(path: Path, words: tuple[str, ...], stdin: Path | None, seconds: float) -> bytes:
    running = started(path, *words, stdin=stdin)
    time.sleep(seconds)
    running.kill()
    out, _ = running.communicate()
    return out


def all_or_nothing(folder: Path, words: tuple[str, ...], chance: random.Random, longest: float,
                   before: Callable[[Path], None] = fresh) -> Counted:
    """One command, killed: the state before it or after it, and the next command in our words."""
    path, whole, untouched = (folder / f"{name}.db" for name in ("killed", "whole", "untouched"))
    before(path)
    for copy in (whole, untouched):
        shutil.copyfile(path, copy)
    crib(untouched, "find")
    was = content(untouched)
    crib(whole, *words)
    then = content(whole)
    _killed(path, words, None, chance.uniform(0.05, longest))
    found: Counted = Counter(tried=1)
    after = crib(path, "find")
    found["raw"] += is_raw(after.stderr) or is_raw(after.stdout)
    now = content(path)
    found["unsound"] += not is_sound(path)
    same = [_rows(now) == _rows(was), _rows(now) == _rows(then)]
    found["half"] += not any(same)
    found["before" if same[0] else "after"] += 1
    return found


def _rows(state: dict[str, list[tuple[object, ...]]]) -> dict[str, list[tuple[object, ...]]]:
    """A state without the days and hours in it."""
    return {table: [tuple(value for value in row if not _is_time(value)) for row in rows]
            for table, rows in state.items()}


def _is_time(value: object) -> bool:
    return isinstance(value, str) and len(value) == 25 and value[10:11] == "T"


def piped(folder: Path, chance: random.Random) -> Counted:
    """A list on standard input, killed and given again."""
    path = folder / "piped.db"
    fresh(path, 3)
    lines = _words(folder)
    out = _killed(path, ("take-in",), lines, chance.uniform(0.2, 1.2))
    said = out.count(b"\n")
    found: Counted = Counter(tried=1)
    taken = len(content(path)["cutter"]) - 3
    found["lost"] += max(0, said - taken)
    crib(path, "take-in", stdin=lines.read_text())
    found["doubled"] += max(0, len(content(path)["cutter"]) - 3 - LINES) if taken >= 3 or taken == 0 else 0
    found["lost"] += max(0, LINES - (len(content(path)["cutter"]) - 3))
    found["unsound"] += not is_sound(path)
    return found


def _beside_another(path: Path) -> None:
    """A crib, and a larger one that is put in its place."""
    fresh(path)
    fresh(path.with_name("other.db"), LINES)


def _old(path: Path) -> None:
    import sqlite3

    with sqlite3.connect(path) as database:
        database.executescript((ROOT / "tests" / "migrations" / "schema_0001.sql").read_text())


def run(each: int, seed: int = 1) -> dict[str, Counted]:
    """So many of each sort."""
    chance, found = random.Random(seed), {}
    with TemporaryDirectory() as name:
        rows = _list(Path(name))
        sorts: dict[str, Callable[[Path], Counted]] = {
            "import": lambda folder: all_or_nothing(folder, ("take-in", "--file", str(rows)), chance, 0.8),
            "undo of a range": lambda folder: all_or_nothing(folder, ("undo", "1-62"), chance, 0.6),
            "put-right": lambda folder: all_or_nothing(folder, ("held-back", "put-right", "1", "404 keyseat cutter"),
                                                       chance, 0.4),
            "amend": lambda folder: all_or_nothing(folder, ("amend", "2", "--neck", ".1"), chance, 0.4),
            "upgrade": lambda folder: all_or_nothing(folder, ("take-in", "3/8 drill"), chance, 1.5, _old),
            "piped list": lambda folder: piped(folder, chance),
            "restore": lambda folder: all_or_nothing(folder, ("restore", str(folder / "other.db"), "--over"), chance,
                                                     0.5, _beside_another),
            "backup": lambda folder: all_or_nothing(folder, ("backup",), chance, 0.5),
        }
        for sort, trial in sorts.items():
            found[sort] = Counter()
            for _ in range(each):
                with TemporaryDirectory() as folder:
                    found[sort] += trial(Path(folder))
    return found


if __name__ == "__main__":
    for sort, counts in run(int(sys.argv[1]) if len(sys.argv) > 1 else 25).items():
        print(told(sort, [(word, counts[word]) for word in
                          ("tried", "before", "after", "half", "lost", "doubled", "unsound", "raw")]))
