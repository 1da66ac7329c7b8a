"""Many at once on one crib, in a file and on a server: `python -m tests.trials.together [PROCESSES CHANGES]`.

Counted: changes that were answered and aren't there, that are there twice, whose `before` isn't what the change before
left, and answers in other words than ours.
"""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path
from tempfile import TemporaryDirectory

from crib.cutters.base import Cutter
from crib.diagnostics import CribError
from crib.intake.undo import undo
from crib.store import open_crib

_FIELDS = ("drawer", "note", "marking")
_OURS = ("locked", "changed", "gone", "slow", "undone", "nothing-to-undo", "in-the-way", "no-line")


def one(where: str, name: int, changes: int) -> None:
    """One of those at it: it amends cutter 1, sets the shop and undoes; what it was answered, as JSON."""
    done, refused, raw = [], 0, 0
    for number in range(changes):
        try:
            with open_crib(where, create=True) as crib, crib.transaction():
                if number % 5 == 3:
                    crib.set_shop({"backlash_mm": name / 100 + number / 10_000})
                elif number % 5 == 4:
                    undo(crib)
                else:
                    crib.amend(crib.cutter(1).but(**{_FIELDS[number % 3]: f"{name}-{number}"}))
                last = crib.last_change()
            done.append(last)
        except CribError as error:
            refused += 1
            raw += error.diagnostic.code not in _OURS
        except Exception:
            raw += 1
    print(json.dumps([done, refused, raw]))


def trial(where: str, processes: int, changes: int) -> dict[str, int]:
    """What came of many at once, counted."""
    with open_crib(where) as crib:
        start = crib.last_change()
    at_it = [subprocess.Popen([sys.executable, "-m", "tests.trials.together", where, str(name), str(changes)],
                              stdout=subprocess.PIPE, text=True, cwd=Path(__file__).resolve().parents[2])
             for name in range(processes)]
    told = [json.loads(process.communicate()[0]) for process in at_it]
    with open_crib(where) as crib:
        history = [one for one in crib.changes() if one.id > start]
        wrong, now = 0, {}
        for change in history:
            for key in (*_FIELDS, "backlash_mm"):
                if key in (change.after or {}):
                    wrong += (change.before or {}).get(key) != now.get((change.subject, key),
                                                                      (change.before or {}).get(key))
                    now[change.subject, key] = (change.after or {})[key]
        wrong += any(getattr(crib.cutter(1), key) != now.get(("cutter 1", key), getattr(crib.cutter(1), key))
                     for key in _FIELDS)
    answered = [number for done, _, _ in told for number in done]
    undone = [change.undoes for change in history if change.undoes is not None]
    return {"done": len(answered), "told": sum(refused for _, refused, _ in told),
            "lost": len(set(answered) - {change.id for change in history}),
            "doubled": len(answered) - len(set(answered)) + len(undone) - len(set(undone)),
            "wrong before": wrong, "raw words": sum(raw for _, _, raw in told)}


def main(processes: int, changes: int) -> None:
    """Both databases, told."""
    from tests.server import NONE, Server, binaries, with_schema

    with TemporaryDirectory() as folder:
        programs = binaries()
        server = Server(programs) if programs else None
        places = [("file", str(Path(folder) / "crib.db")), *([("server", with_schema(server.url))] if server else [])]
        for name, where in places:
            with open_crib(where, create=True) as crib:
                crib.take_in([Cutter(0, "drill", diameter_mm=5.0)])
            print(name, trial(where, processes, changes))
        if server is None:
            print(NONE)
        else:
            server.stop()


if __name__ == "__main__":
    if len(sys.argv) == 4:
        one(sys.argv[1], int(sys.argv[2]), int(sys.argv[3]))
    else:
        main(*(map(int, sys.argv[1:3]) if len(sys.argv) == 3 else (20, 50)))
