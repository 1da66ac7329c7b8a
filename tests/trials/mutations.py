"""Faults put into the store and the readers on purpose: each must be caught by some test.
`python -m tests.trials.mutations [FROM TO]`

A fault is a piece of the program, what stands in its place, and the tests of which one must fail then. A test sees to it
that every piece is still there.
"""

# ruff: noqa: E501  (pieces of the program stand here as they are)
from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import NamedTuple

ROOT = Path(__file__).resolve().parents[2]


class Mutation(NamedTuple):
    """What is wrong, in which file, which piece, what instead, and the tests that must see it."""

    what: str
    file: str
    piece: str
    instead: str
    tests: tuple[str, ...]


STORE, INTAKE = "crib/store/", "crib/intake/"
BACKUP, SAME = "tests/cli/test_backup.py", "tests/cli/test_same_list_again.py"
TAKE, LIFE, UNDO = "tests/cli/test_take_in.py", "tests/cli/test_life.py", "tests/cli/test_undo.py"
STORED, DURABLE = "tests/unit/test_store.py", "tests/cli/test_durable.py"

TOGETHER, UNDOING = "tests/unit/test_together.py", "tests/property/test_undo.py"
ROUNDS = "tests/unit/test_round_trips.py"

MUTATIONS: tuple[Mutation, ...] = (
    Mutation("several change a shared crib at once", STORE + "remote.py",
             'begin = f"BEGIN; SELECT pg_advisory_xact_lock({_WRITER})"', 'begin = "BEGIN"', (TOGETHER,)),
    Mutation("rows that wait aren't found by who reads", STORE + "database.py",
             '        self._settle()\n        return self._execute', '        return self._execute', (ROUNDS,)),
    Mutation("a journal is moved away under who writes", STORE + "family.py",
             "PermissionError):\n            return True", "PermissionError):\n            return False", (TOGETHER,)),
    Mutation("a cutter that was changed meanwhile is written over", STORE + "crib.py",
             "if cutter.id in self._seen and self._seen[cutter.id][0] != version:", "if False:", (TOGETHER,)),
    Mutation("a wrong `before` is written down", STORE + "crib.py", "was, now = _differences(before, after)",
             "was, now = _differences(after, before)", (UNDO,)),
    Mutation("a later change is undone over", INTAKE + "undo.py", "if (blocker := later.meets(_touched(change))) is not None:",
             "if False and (blocker := later.meets(_touched(change))) is not None:", (UNDO,)),
    Mutation("a range takes back twice what a line became", INTAKE + "undo.py", "if change.id in gone:", "if False:",
             (UNDOING,)),
    Mutation("the session counts what wasn't kept", INTAKE + "talk/session.py", "self.deeds = deque(before, maxlen=UNDONE)", "pass",
             (TOGETHER,)),
    Mutation("rows may point nowhere", STORE + "sqlite.py", "PRAGMA foreign_keys = ON", "PRAGMA foreign_keys = OFF",
             (DURABLE,)),
    Mutation("what was said to be in may be gone with the power", STORE + "sqlite.py", "PRAGMA foreign_keys = ON",
             "PRAGMA synchronous = OFF", (DURABLE,)),
    Mutation("two may begin to write at once", STORE + "sqlite.py", 'begin = "BEGIN IMMEDIATE"', 'begin = "BEGIN"',
             (DURABLE,)),
    Mutation("an import is not one transaction", "crib/app/tables.py", "with crib.gathering(), without_looking_for_rubbish():",
             "with without_looking_for_rubbish():", (BACKUP, DURABLE)),
    Mutation("a list of words is not one transaction", "crib/app/take_in.py",
             "with session.crib.gathering(is_first), seldom_looking_for_rubbish():", "with seldom_looking_for_rubbish():", (DURABLE,)),
    Mutation("a transaction inside another commits", STORE + "database.py", "if outermost:\n                self.run(\"COMMIT",
             "if True:\n                self.run(\"COMMIT", (STORED, DURABLE)),
    Mutation("what fails is committed", STORE + "database.py", "            if outermost:\n                self._roll_back()",
             "            if outermost:\n                self.run(\"COMMIT\")", (STORED, DURABLE)),
    Mutation("a file is written in its place", "crib/files.py", "            os.replace(beside, target)",
             "            shutil.copyfile(beside, target)", (DURABLE,)),
    Mutation("a file is taken for whole before it is on the disk", "crib/files.py", "            os.fsync(file.fileno())",
             "            pass", (DURABLE,)),
    Mutation("a copy isn't read back", STORE + "copies.py", "if (fault := fault_in(new)) or counts_of(new) != counts:",
             "if False:", (DURABLE,)),
    Mutation("a backup of anything is restored", STORE + "copies.py", '    if rows != [("ok",)]:', "    if False:", (DURABLE,)),
    Mutation("a journal is taken for its own whatever it is of", STORE + "family.py", "if _is_written(path) or _is_of(journal, path):",
             "if True:", (BACKUP,)),
    Mutation("nobody looks whether a file is sound", STORE + "in_a_file.py", "        database.look()\n", "", (BACKUP,)),
    Mutation("a damaged crib is written to", STORE + "sqlite.py", "        if self.fault:\n            raise damaged",
             "        if False:\n            raise damaged", (BACKUP,)),
    Mutation("a crib copied in the middle of a change passes for sound", STORE + "family.py",
             "        if _is_too_long(connection):", "        if False:", (BACKUP, DURABLE)),
    Mutation("restoring doesn't keep what was there", STORE + "copies.py", 'kept = put_by(path, "before-restore", there)',
             "kept = path", (BACKUP,)),
    Mutation("the sample crib is wiped", "crib/app/demo.py", "if place.exists() and not is_the_same(place, fresh)",
             "if False:", (BACKUP,)),
    Mutation("numbers are given out again after a restore", STORE + "whole.py", "        database.renumber(document.numbers)",
             "        pass", (BACKUP,)),
    Mutation("a change isn't written down", STORE + "crib.py",
             '                done.note(self._database, "take-in", f"cutter {number}", None, as_said(stored) | _source(source),\n'
             "                          at=at, by=by)", "                pass", (STORED, UNDO)),
    Mutation("long notes are cut", INTAKE + "reading.py", '.decode("utf-8").replace("\\0", "\\\\x00")',
             '.decode("utf-8").replace("\\0", "\\\\x00")[:2000]', (TAKE,)),
    Mutation("what can't be read of a cell is dropped", INTAKE + "lists/texts.py",
             "            noted += unsaid(ATTRIBUTES[key].name, text, why)\n", "", (TAKE,)),
    Mutation("signs that can't be told are guessed", INTAKE + "lists/encoding.py", "if not old or _BESIDE_A_DIGIT.search(old):",
             "if not old:", (TAKE, INTAKE + "lists/encoding.py")),
    Mutation("the same list comes in twice", INTAKE + "lists/twice.py", "            if not long_enough:", "            if True:",
             (SAME,)),
    Mutation("any two lists are the same", INTAKE + "lists/twice.py", "LEAST = 3", "LEAST = 1", (SAME,)),
    Mutation("what was taken back is passed over", INTAKE + "lists/twice.py", "        if group[0].is_gone:", "        if False:",
             (SAME,)),
    Mutation("more is lent than there is", "crib/cutters/away.py", "    if gone.count > cutter.count:", "    if False:", (LIFE,)),
    Mutation("a reground cutter keeps its size", INTAKE + "build.py",
             '        cutter = cutter.but(nominal_mm=nominal, diameter_mm=None)', "        pass", (LIFE, STORED, TAKE)),
    Mutation("what is lent is planned with", STORE + "holdings.py", """FROM cutter WHERE "count" > 0 ORDER BY id'""",
             """FROM cutter ORDER BY id'""", (LIFE,)),
    Mutation("a spreadsheet may reckon with a note", INTAKE + "lists/export.py", 'return f"\'{text}" if', 'return text if',
             ("tests/cli/test_shorthand.py", INTAKE + "lists/export.py")),
    Mutation("a held-back line is lost when it is put right in vain", INTAKE + "talk/put_right.py",
             "        crib.reword(held.id or 0, after)\n", "        crib.put_right(held.id or 0)\n",
             ("tests/cli/test_put_right.py",)),
)


def is_caught(mutation: Mutation, folder: Path) -> bool:
    """Whether some test fails with the fault in a copy of the program."""
    for name in ("crib", "migrations", "sample_crib", "tests", "pyproject.toml", "README.md", "DEVELOPERS.md"):
        here = ROOT / name
        if here.is_dir():
            shutil.copytree(here, folder / name, ignore=shutil.ignore_patterns("__pycache__", "*.db"))
        else:
            shutil.copy(here, folder / name)
    file = folder / mutation.file
    text = file.read_text(encoding="utf-8")
    if "shutil." in mutation.instead:
        text = text.replace("import os\n", "import os\nimport shutil\n", 1)
    file.write_text(text.replace(mutation.piece, mutation.instead, 1), encoding="utf-8")
    done = subprocess.run([sys.executable, "-m", "pytest", "-q", "-x", "-n", "0", *mutation.tests], cwd=folder,
                          capture_output=True, text=True, check=False, env={**os.environ, "PYTHONPATH": str(folder)})
    return done.returncode == 1


def run(first: int = 0, last: int | None = None) -> list[str]:
    """What isn't caught of the faults."""
    missed = []
    for mutation in MUTATIONS[first:last]:
        with TemporaryDirectory() as folder:
            caught = is_caught(mutation, Path(folder))
        print(f"{'caught' if caught else 'MISSED'}  {mutation.what}", flush=True)
        missed += [] if caught else [mutation.what]
    return missed


if __name__ == "__main__":
    sys.exit(bool(run(*(int(word) for word in sys.argv[1:3]))))
