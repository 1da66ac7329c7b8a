"""The program asked from its command line, each question in a process and on a copy of a crib of its own."""

from __future__ import annotations

import contextlib
import io
import json
import multiprocessing
import os
import re
import runpy
import shutil
import signal
import sys
import tempfile
import time
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from types import FrameType
from typing import Any

LIMIT = 60.0
"""Seconds that a question may take before it is given up."""

_PATIENT = {"make": ("--patience", "1000")}
_WIDTH = "100"
_LOADING = (("take-in", "1/2 end mill 4 flute hss"), ("make", "slot", "--width", ".5", "--depth", ".1"))
_TIME = re.compile(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d[\d.:+Z]*|(?<=TODAY )\d\d:\d\d")


@dataclass(frozen=True)
class Crib:
    """How a crib comes to be: files by name, and command lines in their order."""

    files: Mapping[str, str]
    steps: tuple[tuple[str, ...], ...]


@dataclass(frozen=True)
class Question:
    """Command lines asked one after the other of a copy of a crib; `pages`: the units in which the page of the last one
    is kept too. `quick`: one of those that are asked with every run of the tests."""

    crib: str
    steps: tuple[tuple[str, ...], ...]
    pages: tuple[str, ...] = ()
    quick: bool = False


@dataclass(frozen=True)
class Answer:
    """What came of each step: the status and the JSON document; the pages by their units; the seconds of processor time
    that it took."""

    steps: tuple[tuple[int | None, Any], ...]
    pages: Mapping[str, str]
    seconds: float = 0.0


class TooLong(BaseException):
    """A question took longer than it may; no `Exception`, so that the program can't take it for one of its own."""


def asked(questions: Iterable[Question], cribs: Mapping[str, Crib], processes: int, limit: float = LIMIT
          ) -> Iterator[tuple[int, Answer]]:
    """The answers as they come, each with the place of its question."""
    with tempfile.TemporaryDirectory() as folder:
        wanted = list(questions)
        needed = sorted({one.crib for one in wanted})
        made = [(_make, name, cribs[name], folder, LIMIT) for name in needed]
        jobs = [(_ask, place, one, folder, limit) for place, one in enumerate(wanted)]
        with multiprocessing.get_context("fork").Pool(processes, maxtasksperchild=1) as pool:
            for name, failed in pool.imap_unordered(_carry_out, made):
                if failed:
                    raise RuntimeError(f"the crib {name!r} can't be made: {failed}")
            yield from pool.imap_unordered(_carry_out, jobs)


def prepare(checkout: Path | None = None) -> None:
    """Load the program once, of another checkout where one is named. The clock that patience goes by stands still:
    how busy the machine is decides nothing."""
    if checkout is not None:
        sys.path.insert(0, str(checkout.resolve()))
    for name in ("CRIB_DB", "CRIB_UNITS", "LOGNAME", "USERNAME", "LINES"):
        os.environ.pop(name, None)
    os.environ |= {"USER": "bench", "COLUMNS": _WIDTH, "TZ": "UTC"}
    time.process_time = time.thread_time = lambda: 0.0
    with tempfile.TemporaryDirectory() as folder, contextlib.chdir(folder):
        for words in _LOADING:
            _run((*words, "--json", "--crib", "first.db"))


def _carry_out(job: tuple[Callable[..., Any], Any, Any, str, float]) -> Any:
    """One job in a process of its own, stopped after its time."""
    function, name, what, folder, limit = job

    def stop(number: int, frame: FrameType | None) -> None:
        raise TooLong

    signal.signal(signal.SIGALRM, stop)
    signal.setitimer(signal.ITIMER_REAL, limit)
    try:
        return name, function(what, Path(folder), name)
    except TooLong:
        return name, Answer(((None, f"no answer in {limit:g} s"),), {}, limit)
    finally:
        signal.setitimer(signal.ITIMER_REAL, 0)


def _make(crib: Crib, folder: Path, name: str) -> str:
    """Make a crib; what went wrong."""
    home = folder / name
    home.mkdir()
    os.chdir(home)
    os.environ["XDG_DATA_HOME"] = str(home)
    for file, text in crib.files.items():
        Path(file).write_text(text, encoding="utf-8")
    for words in crib.steps:
        status, shown, noted = _run((*words, "--crib", "crib.db"))
        if status == 2:
            return f"{' '.join(words)}: {noted or shown}"
    return ""


def _ask(question: Question, folder: Path, number: int) -> Answer:
    """Ask one question; what came of it."""
    home = folder / f"question {number}"
    home.mkdir()
    os.chdir(home)
    os.environ["XDG_DATA_HOME"] = str(home)
    shutil.copy(folder / question.crib / "crib.db", "crib.db")
    began = os.times()
    steps = tuple(_document(words) for words in question.steps)
    pages = {units: _page(question.steps[-1], units) for units in question.pages}
    ended = os.times()
    shutil.rmtree(home)
    return Answer(steps, pages, ended.user + ended.system - began.user - began.system)


def _document(words: tuple[str, ...]) -> tuple[int | None, Any]:
    status, shown, noted = _run((*words, *_PATIENT.get(words[0], ()), "--json", "--crib", "crib.db"))
    try:
        return status, steady(json.loads(shown))
    except ValueError:
        return status, steady(f"no JSON: {shown}{noted}")


def _page(words: tuple[str, ...], units: str) -> str:
    status, shown, noted = _run((*words, *_PATIENT.get(words[0], ()), "--units", units, "--crib", "crib.db"))
    return str(steady(f"{shown}{noted}[{status}]"))


def _run(words: tuple[str, ...]) -> tuple[int | None, str, str]:
    """Run `python -m crib` here: its status, what it printed, and what it said beside it."""
    streams = [io.TextIOWrapper(io.BytesIO(), encoding="utf-8", newline="") for _ in range(2)]
    before = sys.argv, sys.stdin, sys.stdout, sys.stderr
    with open(os.devnull, encoding="utf-8") as nothing:
        sys.argv, sys.stdin, sys.stdout, sys.stderr = ["crib", *words], nothing, *streams
        try:
            runpy.run_module("crib", run_name="__main__")
            status: int | None = 0
        except SystemExit as end:
            status = end.code if isinstance(end.code, int) else int(end.code is not None)
        except Exception as error:
            status = None
            print(f"{type(error).__name__}: {error}", file=streams[1])
        finally:
            sys.argv, sys.stdin, sys.stdout, sys.stderr = before
    shown, noted = (_read(stream) for stream in streams)
    return status, shown, noted


def _read(stream: io.TextIOWrapper) -> str:
    stream.flush()
    buffer = stream.buffer
    assert isinstance(buffer, io.BytesIO)
    return buffer.getvalue().decode()


def steady(value: Any) -> Any:
    """A document without what is another every day: times, today, and the folder it was asked in.

    >>> steady({"at": "2024-03-01T10:00:00+00:00", "prices": [{"seen": "2024-03-01"}]})
    {'at': 'TIME', 'prices': [{'seen': '2024-03-01'}]}
    """
    if isinstance(value, dict):
        return {key: steady(inner) for key, inner in value.items()}
    if isinstance(value, list):
        return [steady(inner) for inner in value]
    if not isinstance(value, str):
        return value
    text = re.sub(rf"{date.today().isoformat()}(?!T)", "TODAY", value.replace(os.getcwd(), "HERE"))
    return _TIME.sub("TIME", text)
