"""Nonsense for everything that reads: words, options, tables, JSON, threads, sizes, angles, queries, threads, money.
`python -m tests.trials.fuzz [HOW MANY]`

Nothing may end in anything but a value or a sentence of our own, nothing may take two seconds, and the memory must not
grow with it.
"""

from __future__ import annotations

import random
import resource
import sys
import time
from collections import Counter
from collections.abc import Callable
from datetime import date
from pathlib import Path
from tempfile import TemporaryDirectory

from crib.cutters.base import Cutter
from crib.features import KINDS
from crib.findings.errors import CribError
from crib.handbook.hardness import read_hardness
from crib.handbook.materials import find_material
from crib.handbook.threads import read_thread
from crib.intake.life import now
from crib.intake.lists.csv_lines import open_csv
from crib.intake.lists.files import read_file
from crib.intake.lists.headings import meaning, units_of
from crib.intake.lists.json_list import read_json
from crib.intake.money import read_day
from crib.intake.options import texts_as_typed
from crib.intake.query import read_query
from crib.intake.shorthand import Shop, read_line
from crib.intake.shorthand.again import asked
from crib.planning.ask import read_request
from crib.safety.refer import refer
from crib.shop import Shop as Settings
from crib.units import read, read_size
from crib.units.angles import read_angle

WORDS = (
    "1/4", "3/8", ".250", "12mm", "6,5", "end mill", "drill", "tap", "1/4-20", "M6x1", "#7", "no. 7", "keyseat",
    "606", "woodruff", "drawer", "B2", "reground", "miked", ".4875", "4fl", "hss", "lot of", "x4", "$8", "set",
    "1-60", "by", "16ths", "missing", "dull", "lent", "to", "bob", "back", "undo", "same as last but", "that's",
    "metric", "±", "+.002-0", "H7", "60°", "note", "--drawer", "--kind", "'", '"', ",", ";", "\t", "{", "[", "]",
    "}", ":", "=1+1", "½", "Ø", "ø12", "\u200b", "\u202e", "\x1b[31m", "\x00", "\udce4", "NaN", "inf", "-1",
    "1/0", "1e400", "9" * 400, "/" * 40, "(" * 60, "a" * 300, "тест", "\u4e94", "kind,diameter", "null", "true",
    "45 HRC", "302 HB", "grey iron", "for 3/8 bolt", "and",
)


def nonsense(chance: random.Random) -> str:
    """A line that looks like something."""
    sort = chance.random()
    if sort < 0.7:
        words = [chance.choice(WORDS) for _ in range(chance.randint(1, 9))]
        return chance.choice((" ", " ", ",", "")).join(words)
    if sort < 0.85:
        return "".join(chr(chance.choice((chance.randint(32, 126), chance.randint(0, 0x2FFF)))) for _ in range(
            chance.randint(0, 60)))
    return chance.choice(WORDS) * chance.randint(1, 200)


def _file(text: str, ending: str) -> None:
    with TemporaryDirectory() as folder:
        path = Path(folder) / f"list{ending}"
        path.write_bytes(text.encode("utf-8", "surrogateescape" if "\udce4" in text else "replace"))
        read_file(path, "in", "USD")


READERS: dict[str, Callable[[str, random.Random], object]] = {
    "line": lambda text, _: read_line(text, Shop()),
    "line in mm": lambda text, _: read_line(text, Shop("mm")),
    "again": lambda text, _: asked(text),
    "query": lambda text, _: read_query(text.split(" "), "in"),
    "length": lambda text, _: read(text),
    "size": lambda text, _: read_size(text, "mm", "width", (0.0, 0.0)),
    "angle": lambda text, _: read_angle(text, "angle"),
    "thread": lambda text, _: read_thread(text),
    "hardness": lambda text, _: read_hardness(text),
    "material": lambda text, _: find_material(text),
    "refer": lambda text, _: refer(text, text),
    "day": lambda text, _: read_day(text, date(2026, 11, 27), "seen", past=True),
    "heading": lambda text, _: (meaning(text), units_of(text)),
    "options": lambda text, _: texts_as_typed(text),
    "life": lambda text, _: now(Cutter(1, "end-mill", diameter_mm=6.0), text, date(2026, 11, 27), "in", "USD"),
    "csv": lambda text, _: open_csv(f"kind,diameter,note,ends,description\n{text}\n{text}", "x", "in", "USD",
                                    {}).whole(),
    "csv heading": lambda text, _: open_csv(f"{text}\n{text}", "x", "in", "USD", {}).whole(),
    "json": lambda text, _: read_json('[{"kind": "drill", "diameter_mm": 6, "note": ' + text + "}]", "x", "in", "USD",
                                      {}),
    "file": lambda text, chance: _file(text, chance.choice((".csv", ".json", ".txt", ".tsv", ""))),
    "request": lambda text, chance: read_request(*_request(text, chance), Settings(), "in"),
}


def _request(text: str, chance: random.Random) -> tuple[str, dict[str, str]]:
    name = chance.choice(sorted(KINDS))
    keys = [spec.key for spec in (*KINDS[name].sizes, *KINDS[name].angles, *KINDS[name].options)]
    texts = {key: chance.choice((text, "1/2", "1/4+.002-0", "60")) for key in keys}
    return name, {**texts, "wall": text, "count": text} if chance.random() < 0.3 else texts


def run(many: int, seed: int = 1) -> tuple[Counter[str], list[str]]:
    """So many inputs; what came of them, and those that ended badly."""
    chance, counts, bad = random.Random(seed), Counter[str](), []
    names = list(READERS)
    for number in range(many):
        name, text = names[number % len(names)], nonsense(chance)
        began = time.process_time()
        try:
            READERS[name](text, chance)
            counts["read"] += 1
        except CribError as error:
            counts["refused in words"] += 1
            if not error.finding.says:
                bad.append(f"{name}: no sentence for {text[:80]!a}")
        except Exception as error:
            counts["failed"] += 1
            bad.append(f"{name}: {type(error).__name__}: {str(error)[:60]} for {text[:80]!a}")
        if time.process_time() - began > 2.0:
            counts["slow"] += 1
            bad.append(f"{name}: {time.process_time() - began:.1f} s for {text[:80]!a}")
    return counts, bad


if __name__ == "__main__":
    counts, bad = run(int(sys.argv[1]) if len(sys.argv) > 1 else 50_000)
    print(dict(counts), f"{resource.getrusage(resource.RUSAGE_SELF).ru_maxrss // 1024} MB at the most")
    print("\n".join(bad[:40]))
