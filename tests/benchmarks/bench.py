"""The bench page: from its start to the first page, and then how long a page and an answer take, beside an empty Python
and beside the command line."""

from __future__ import annotations

import os
import resource
import socket
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from http.client import HTTPConnection
from itertools import count
from pathlib import Path
from urllib.parse import urlencode

from crib.planning.ask import texts_of
from crib.sample import questions

ROOT = Path(__file__).parents[2]
CRIB = (sys.executable, "-c", "from crib.cli import main; main()")
LIBRARIES = "import uvicorn, uvicorn.protocols.http.h11_impl, starlette.applications, anyio._backends._asyncio, jinja2"
"""What the server, the framework and the templates take alone; no start can be shorter."""
TIMES_EMPTY = 10
"""So many times what an empty Python takes may a page take. A start to the first page should too, but the libraries
alone take longer by now; OWN is the limit until that changes."""
OWN = 4
"""So many times the processor time of an empty Python may a start to the first page take beside the libraries."""


def report(rounds: int) -> bool:
    """Print the times; whether all is within its limit."""
    with tempfile.TemporaryDirectory() as folder:
        os.environ.pop("PYTHONDONTWRITEBYTECODE", None)  # whoever starts it a second time has it compiled
        os.environ["PYTHONPYCACHEPREFIX"] = f"{folder}/compiled"
        crib = f"{folder}/crib.db"
        subprocess.run([*CRIB, "demo", "--into", crib], cwd=ROOT, check=True, capture_output=True)
        empty = best(lambda: ran(sys.executable, "-c", "pass"), rounds)
        start = best(lambda: first_page(crib), rounds)
        is_short = starts(crib, rounds)
        name, *words = questions()[0].make
        lengths = count(1)
        shown = best(lambda: ran(*CRIB, "show", "27", "--crib", crib), rounds)
        made = best(lambda: ran(*CRIB, "make", name, *words, "--length", f"4.{next(lengths):03}", "--crib", crib),
                    rounds)
        with served(crib) as port:
            page = best(lambda: asked(port, "/find?words=keyseat"), rounds)
            answer = best(lambda: asked(port, f"/answer/{name}?" + urlencode(
                {**texts_of(words), "length": f"5.{next(lengths):03}"})), rounds)
    print(f"\n{'the bench page':28}{'ms':>7}{'ratio':>8}{'limit':>8}")
    rows = (("start to first page", start, None), ("a page", page, TIMES_EMPTY * empty),
            ("an answer", answer, made - shown), ("the same by crib make", made, None),
            ("of which a start", shown, None))
    for said, seconds, limit in rows:
        verdict = "" if limit is None else f"{limit / empty:8.1f}  {'over' if seconds > limit else 'ok'}"
        print(f"{said:28}{seconds * 1000:7.0f}{seconds / empty:8.1f}{verdict}")
    return is_short and all(limit is None or seconds <= limit for _, seconds, limit in rows)


def starts(crib: str, rounds: int) -> bool:
    """Print what a start to the first page takes of the processor, beside an empty Python and the libraries alone, all
    in turn; whether it is within its limit."""
    least = [float("inf")] * 3
    for _ in range(rounds + 1):
        for place, call in enumerate((lambda: ran(sys.executable, "-c", "pass"),
                                      lambda: ran(sys.executable, "-c", LIBRARIES), lambda: first_page(crib))):
            least[place] = min(least[place], worked(call))
    empty, libraries, page = least
    limit = max(TIMES_EMPTY, libraries / empty + OWN)
    is_short = page <= limit * empty
    print(f"\nprocessor time from the start to the first page: {page / empty:.1f} times an empty Python "
          f"({empty * 1000:.1f} ms), the libraries alone {libraries / empty:.1f}; limit {limit:.1f}  "
          f"{'ok' if is_short else 'over'}")
    return is_short


def worked(call: Callable[[], object]) -> float:
    """The processor time of the processes that a call starts and sees end [s]."""
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    call()
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


def best(call: Callable[[], float], rounds: int) -> float:
    """The best of so many rounds, the first not counted: code is compiled and pages are read by then."""
    call()
    return min(call() for _ in range(rounds))


def ran(*words: str) -> float:
    """How long a process takes [s]."""
    begun = time.perf_counter()
    subprocess.run(words, cwd=ROOT, check=True, stdin=subprocess.DEVNULL, capture_output=True)
    return time.perf_counter() - begun


def first_page(crib: str) -> float:
    """From starting the bench page to its first answer [s]."""
    begun = time.perf_counter()
    with served(crib) as port:
        asked(port, "/")
        return time.perf_counter() - begun


def asked(port: int, path: str) -> float:
    """How long a page takes [s]."""
    begun = time.perf_counter()
    connection = HTTPConnection("127.0.0.1", port)
    connection.request("GET", path)
    answer = connection.getresponse()
    answer.read()
    connection.close()
    if answer.status != 200:
        raise SystemExit(f"{path} answers {answer.status}")
    return time.perf_counter() - begun


@contextmanager
def served(crib: str) -> Iterator[int]:
    """A bench page that answers at a port."""
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port = free.getsockname()[1]
    process = subprocess.Popen([*CRIB, "bench", "--crib", crib, "--port", str(port)], cwd=ROOT, env=dict(os.environ),
                               stdout=subprocess.DEVNULL)
    try:
        while True:
            try:
                socket.create_connection(("127.0.0.1", port)).close()
                break
            except OSError:
                time.sleep(0.001)
        yield port
    finally:
        process.terminate()
        process.wait()
