"""What the trials share: a crib to try on, the program as others start it, and what is in a file."""

from __future__ import annotations

import io
import os
import sqlite3
import subprocess
import sys
from collections.abc import Sequence
from contextlib import closing, redirect_stderr, redirect_stdout
from pathlib import Path
from unittest.mock import patch

from crib.cli.app import run
from crib.store import open_crib
from crib.store.columns import TABLES

ROOT = Path(__file__).resolve().parents[2]
RAW = ("Traceback", "the program failed", "sqlalche.me", "sqlite3.", "psycopg.")
"""Words that no user is to read."""


def environment(home: Path) -> dict[str, str]:
    """An environment of a trial's own."""
    return {**os.environ, "PYTHONPATH": str(ROOT), "XDG_DATA_HOME": str(home), "CRIB_DB": "", "PYTHONHASHSEED": "0"}


def crib(path: Path, *words: str, stdin: str | None = None) -> subprocess.CompletedProcess[str]:
    """One command on a crib, run to its end; in this process where nothing is fed to it, for what is tried is what it
    leaves on the disk and says."""
    command = [sys.executable, "-m", "crib", "--crib", str(path), *words]
    if stdin is not None:
        return subprocess.run(command, input=stdin, text=True, capture_output=True, env=environment(path.parent),
                              timeout=120, check=False)
    out, err = (io.TextIOWrapper(io.BytesIO(), "utf-8", write_through=True) for _ in range(2))
    with (patch.dict(os.environ, environment(path.parent)), open(os.devnull, encoding="utf-8") as nothing,
          patch.object(sys, "stdin", nothing), redirect_stdout(out), redirect_stderr(err)):
        status = run(command[3:])
    said = (one.buffer.getvalue().decode("utf-8") for one in (out, err))
    return subprocess.CompletedProcess(command, int(status), *said)


def started(path: Path, *words: str, stdin: Path | None = None, **more: object) -> subprocess.Popen[bytes]:
    """The same, under way."""
    source = stdin.open("rb") if stdin else subprocess.DEVNULL
    return subprocess.Popen([sys.executable, "-m", "crib", "--crib", str(path), *words], stdin=source,  # type: ignore[call-overload,no-any-return]
                            stdout=subprocess.PIPE, stderr=subprocess.PIPE, env=environment(path.parent), **more)


def is_raw(said: str | bytes) -> bool:
    """Whether the program spoke in the words of what it is made of."""
    text = said.decode(errors="replace") if isinstance(said, bytes) else said
    return any(word in text for word in RAW)


def fresh(path: Path, cutters: int = 60) -> None:
    """A crib with so many cutters in it, and something amended and held back."""
    with open_crib(str(path), create=True) as opened:
        from crib.intake.shorthand import Shop
        from crib.intake.talk.session import Session

        session = Session(opened, Shop())
        with opened.transaction():
            for number in range(cutters):
                size, flutes = number % 31 + 1, number % 4 + 2
                session.say(f"{size}/64 end mill {flutes} flute drawer B{number} note number {number}")
            session.say("404")
        opened.amend(opened.cutter(1).but(condition="dull"))


def content(path: Path) -> dict[str, list[tuple[object, ...]]]:
    """Every row of a crib, rolled back by whatever journal stands beside it."""
    with closing(sqlite3.connect(path)) as database:
        return {table: database.execute(f'SELECT * FROM "{table}" ORDER BY 1').fetchall() for table in TABLES}


def is_sound(path: Path) -> bool:
    """Whether SQLite finds nothing amiss in a file, read as it stands."""
    try:
        with closing(sqlite3.connect(f"file:{path}?mode=ro&immutable=1", uri=True)) as database:
            return bool(database.execute("PRAGMA integrity_check(1)").fetchall() == [("ok",)])
    except (sqlite3.Error, UnicodeDecodeError):
        return False


def told(what: str, counts: Sequence[tuple[str, int]]) -> str:
    """What a trial found, in a line."""
    return f"{what}: " + ", ".join(f"{number} {word}" for word, number in counts)
