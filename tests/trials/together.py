"""Many at once on one crib, in a file and on a server: `python -m tests.trials.together [PROCESSES CHANGES]`.

Counted: changes that were answered and aren't there, that are there twice, whose `before` isn't what the change before
left, and answers in other words than ours. Then what is done only once though many try: beginning a crib, putting a
line right, undoing a change; and a server that is stopped or killed in the middle of a list.
"""

from __future__ import annotations

import json
import os
import signal
import subprocess
import sys
import threading
import time
from collections.abc import Callable
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from crib.cutters.base import Cutter
from crib.findings.errors import CribError
from crib.intake.talk.put_right import put_right
from crib.intake.undo import undo
from crib.store import Crib, HeldBack, open_crib
from tests.server import NONE, Server, binaries, with_schema
from tests.trials.common import RAW, ROOT

_FIELDS = ("drawer", "note", "marking")
_OURS = ("locked", "changed", "gone", "slow", "undone", "nothing-to-undo", "in-the-way", "no-line", "no-cutter")
_DRILL = Cutter(0, "drill", diameter_mm=5.0)


def _change(crib: Crib, name: int, number: int) -> None:
    """One of many changes: of cutter 1, of the shop, or an undoing."""
    if number % 5 == 3:
        crib.set_shop({"backlash_mm": name / 100 + number / 10_000})
    elif number % 5 == 4:
        undo(crib)
    else:
        crib.amend(crib.cutter(1).but(**{_FIELDS[number % 3]: f"{name}-{number}"}))


def _begin(crib: Crib, name: int, _: int) -> None:
    crib.take_in([_DRILL.but(note=f"{name}")])


def _line(crib: Crib, name: int, _: int) -> None:
    put_right(crib, HeldBack(1, "404", "", "", id=1), f"404 woodruff drawer {name}", {}, "in", "USD")


def _undo(crib: Crib, _name: int, _: int) -> None:
    undo(crib, 1)


DEEDS: dict[str, Callable[[Crib, int, int], None]] = {
    "change": _change, "begin": _begin, "put-right": _line, "undo": _undo}


def one(where: str, deed: str, name: int, changes: int) -> str:
    """One of those at it; what it was answered, as JSON: the changes that were kept, how many were refused in our
    words, and what was said in others."""
    done, refused, raw = [], 0, []
    for number in range(changes):
        try:
            with open_crib(where, create=True) as crib, crib.transaction():
                DEEDS[deed](crib, name, number)
                last = crib.last_change()
            done.append(last)
        except CribError as error:
            said = str(error.finding)
            if error.finding.id in _OURS and not any(word in said for word in RAW):
                refused += 1
            else:
                raw.append(said)
        except Exception as error:
            raw.append(repr(error))
    return json.dumps([done, refused, raw])


def several(where: str, deed: str, processes: int, changes: int) -> None:
    """Several processes at it, which begin at once: they come of this one, when it has loaded what they need. A line of
    what each was answered."""
    told = []
    for name in range(processes):
        reads, writes = os.pipe()
        if not os.fork():
            try:
                with open(writes, "w", encoding="utf-8") as out:
                    out.write(one(where, deed, name, changes))
            finally:
                os._exit(0)
        os.close(writes)
        told.append(reads)
    for reads in told:
        with open(reads, encoding="utf-8") as said:
            print(said.read())


def _at_once(where: str, deed: str, processes: int, changes: int = 1) -> tuple[list[int], int, list[str]]:
    """Several processes at it; what they were answered together."""
    said = subprocess.run([sys.executable, "-m", "tests.trials.together", where, deed, str(processes), str(changes)],
                          stdout=subprocess.PIPE, text=True, cwd=ROOT, check=True).stdout
    told = [json.loads(line) for line in said.splitlines()]
    assert len(told) == processes
    raw = [said for _, _, those in told for said in those]
    for said in raw:
        print("  in other words:", said)
    return [number for done, _, _ in told for number in done], sum(refused for _, refused, _ in told), raw


def trial(where: str, processes: int, changes: int) -> dict[str, int]:
    """What came of many changes at once, counted."""
    with open_crib(where) as crib:
        start = crib.last_change()
    answered, told, raw = _at_once(where, "change", processes, changes)
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
    undone = [change.undoes for change in history if change.undoes is not None]
    return {"done": len(answered), "told": told,
            "lost": len(set(answered) - {change.id for change in history}),
            "doubled": len(answered) - len(set(answered)) + len(undone) - len(set(undone)),
            "wrong before": wrong, "raw words": len(raw)}


def begun(where: str, processes: int) -> dict[str, int]:
    """Several begin the same crib at once, each with a cutter of their own."""
    answered, told, raw = _at_once(where, "begin", processes)
    with open_crib(where) as crib:
        notes = [cutter.note for cutter in crib.cutters()]
    return {"done": len(answered), "told": told, "lost": len(answered) - len(set(notes)),
            "doubled": len(notes) - len(set(notes)), "raw words": len(raw)}


def once(where: str, deed: str, processes: int) -> dict[str, int]:
    """Several do at once what can be done once: put line 1 right, or undo change 1."""
    with open_crib(where, create=True) as crib:
        crib.hold_back([HeldBack(1, "404", "why", "help")])
    answered, told, raw = _at_once(where, deed, processes)
    with open_crib(where) as crib:
        left = len(crib.held_back())
        count = sum(one.what in ("put-right", "let-go") for one in crib.changes())
    return {"done": len(answered), "told": told, "lost": max(0, left), "doubled": max(len(answered), count) - 1,
            "raw words": len(raw)}


def interrupted(server: Server, number: signal.Signals, after: float, lines: int = 2000) -> dict[str, int]:
    """A server that is stopped for a while, or killed, while the program takes in a list."""
    where = with_schema(server.url)
    with open_crib(where, create=True) as crib:
        crib.take_in([_DRILL])
    with TemporaryDirectory() as folder:
        file = Path(folder) / "list.txt"
        file.write_text("".join(f"{place % 31 + 1}/64 drill drawer B{place}\n" for place in range(lines)))
        program = subprocess.Popen([sys.executable, "-m", "crib", "--crib", where, "take-in", "--again", "--file",
                                    str(file)], stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True, cwd=ROOT)
        time.sleep(after)
        server.halt(number)
        if number is signal.SIGSTOP:
            threading.Timer(1.0, server.halt, [signal.SIGCONT]).start()
        _, said = program.communicate()
    if number is signal.SIGKILL:
        server.again()
    with open_crib(where) as crib:
        there, written = len(crib.cutters()) - 1, len(crib.changes()) - 1
    kept = lines if program.returncode == 0 else 0
    return {"done": int(program.returncode == 0), "told": int(program.returncode != 0), "lost": max(0, kept - there),
            "half": int(there not in (0, lines) or written != there), "raw words": sum(word in said for word in RAW)}


def _summed(many: list[dict[str, int]]) -> dict[str, int]:
    return {key: sum(found[key] for found in many) for key in many[0]}


def main(processes: int, changes: int) -> None:
    """Both databases, told."""
    programs = binaries()
    server = Server(programs) if programs else None
    with TemporaryDirectory() as folder:
        count = iter(range(1000))
        places: dict[str, Callable[[], str]] = {"file": lambda: str(Path(folder) / f"{next(count)}.db")}
        if server is not None:
            places["server"] = lambda: with_schema(server.url)
        for name, new in places.items():
            where = new()
            with open_crib(where, create=True) as crib:
                crib.take_in([_DRILL])
            tell: list[tuple[str, dict[str, Any]]] = [
                ("changes", trial(where, processes, changes)),
                ("begun at once by 8, 5 times", _summed([begun(new(), 8) for _ in range(5)])),
                ("a line put right at once by 6, 5 times", _summed([once(new(), "put-right", 6) for _ in range(5)])),
                ("a change undone at once by 8, 5 times", _summed([once(new(), "undo", 8) for _ in range(5)]))]
            for what, found in tell:
                print(f"{name}: {what}: {found}", flush=True)
    if server is None:
        return print(NONE)
    for deed, number in (("stopped for a second", signal.SIGSTOP), ("killed", signal.SIGKILL)):
        found = _summed([interrupted(server, number, 0.5 + place * 0.15) for place in range(12)])
        print(f"server {deed} in the middle of a list, 12 times: {found}", flush=True)
    server.stop()


if __name__ == "__main__":
    if len(sys.argv) == 5:
        several(sys.argv[1], sys.argv[2], int(sys.argv[3]), int(sys.argv[4]))
    else:
        main(*(map(int, sys.argv[1:3]) if len(sys.argv) == 3 else (20, 50)))
