"""Writes the dump of a crib as this schema has it: `python -m tests.migrations.make_dump NUMBER`, once for each schema.

A dump that is there already is a record of what people have on their disks and is never written again.
"""

from __future__ import annotations

import json
import sqlite3
import sys
import tempfile
from pathlib import Path

from crib.cutters import KINDS
from crib.store import HeldBack, PastQuestion, open_crib
from crib.store.notes import hole_note, price_note

HERE = Path(__file__).parent
SLIDE = 'name = "slide"  # ours\nstock = "6 x 2 x 1"\n\n[[feature]]\nkind = "slot"\nwidth = 1/2\n'


def write(number: int) -> None:
    """A crib with a cutter of every kind, a setting, a change, a held back line, a question, notes: as SQL and JSON."""
    dump = HERE / f"schema_{number:04d}.sql"
    if dump.exists():
        raise SystemExit(f"{dump} is there already")
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "crib.db"
        with open_crib(str(path), create=True) as crib:
            examples = [kind.example for kind in KINDS.values() if kind.example]
            crib.take_in(examples, source="gift", typed=[{"diameter_mm": "1/2"}])
            crib.amend(crib.cutter(2).but(reground=True, nominal_mm=15.875, diameter_mm=None, drawer="B2"))
            crib.set_shop({"collets_mm": [6.35], "arbors": [{"bore_mm": 25.4, "flange_mm": 44.45}]})
            crib.hold_back([HeldBack(3, "½ großer Fräser", "no kind", "say --kind", "list.csv",
                                     beside={"heading": "what,size", "units": "mm"})])
            for _ in range(2):
                crib.remember(PastQuestion("slot", {"width": "1/2", "depth": ".250"}, "in", "as drawn",
                                           8.5, "USD", 31.0, (1,)))
            crib.write_down(hole_note("the #7", 5.1054, 5.2, 47))
            crib.write_down(price_note("3/8 end mill", 9.5, 6.0, "2026-03-01", "a list", examples[0]))
            crib.keep_part("slide", SLIDE)
            rows = [cutter.as_json() for cutter in crib.cutters()]
        with sqlite3.connect(path) as database:
            pragmas = [
                f"PRAGMA {name} = {database.execute(f'PRAGMA {name}').fetchone()[0]};"
                for name in ("application_id", "user_version")
            ]
            dump.write_text("\n".join([*pragmas, *database.iterdump()]) + "\n", encoding="utf-8")
    dump.with_suffix(".json").write_text(json.dumps(rows, indent=1) + "\n", encoding="utf-8")


if __name__ == "__main__":
    write(int(sys.argv[1]))
