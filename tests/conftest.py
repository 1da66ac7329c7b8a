"""Hypothesis as every test uses it, a server for those that try a shared crib, a browser for those that open pages."""

from __future__ import annotations

import gc
import importlib
import os
import shutil
import signal
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from crib.cli import _SELDOM
from tests import browser, strategies
from tests.examples_said import look_where_there_are_any
from tests.less_told import tell_less
from tests.server import NAMED, NONE, Server, binaries, with_schema

__all__ = ["strategies"]

gc.disable()
"""Thousands of tests are collected and stay: it is looked for rubbish when they are."""

os.environ["COLUMNS"] = "100"
"""As wide as a page is where there is no terminal. Else readline, which the run loads, tells the runs beside it 80."""
os.environ.pop("LINES", None)

_MEMORY, _ROOM = Path("/dev/shm"), 4 << 30
if _MEMORY.is_dir() and os.access(_MEMORY, os.W_OK) and shutil.disk_usage(_MEMORY).free >= _ROOM:
    os.environ.setdefault("PYTEST_DEBUG_TEMPROOT", str(_MEMORY))
    """Thousands of cribs are made, and each waits for the disk at every change: where there is ample room in memory
    they lie there, and what a test leaves is taken away when it has passed (`tmp_path_retention_policy`)."""


def pytest_configure(config: pytest.Config) -> None:
    """What is said of tests that pass took as long as many of them, and so did collecting them."""
    tell_less(config)
    look_where_there_are_any()


def pytest_collectstart(collector: pytest.Collector) -> None:
    """Of several processes that run all tests each begins to load their files at another one, so that what one of them
    has compiled the others need but read: it takes longer than all the rest of collecting."""
    share, config, folder = os.environ.get("PYTEST_XDIST_WORKER", ""), collector.config, Path(__file__).parent
    if (collector.path == folder and share and not sys.dont_write_bytecode
            and config.args_source is config.ArgsSource.TESTPATHS):
        files = sorted(folder.rglob("test_*.py"))
        begin = int(share.removeprefix("gw")) * len(files) // int(os.environ["PYTEST_XDIST_WORKER_COUNT"])
        for file in files[begin:] + files[:begin]:
            importlib.import_module(".".join(file.relative_to(folder.parent).with_suffix("").parts))


def pytest_collection_finish() -> None:
    """From now on it is looked for rubbish, and not among what was collected; most goes without (`light_draws.py`).
    Among few things at once, so that no look holds all up for long, and not again among what outlived two looks."""
    gc.freeze()
    gc.set_threshold(_SELDOM // 5, 10, 1000)
    gc.enable()


@pytest.fixture(scope="session")
def server() -> Iterator[str]:
    """The URL of a server at hand, or of one that is begun for the tests."""
    if named := os.environ.get(NAMED):
        yield named
        return
    programs = binaries()
    if programs is None:
        pytest.skip(NONE)
    own = Server(programs)
    yield own.url
    own.stop()


@pytest.fixture
def shared(server: str) -> str:
    """The URL of an empty place on a server for a crib."""
    return with_schema(server)


@pytest.fixture
def ctrl_c() -> Iterator[None]:
    """Ctrl-C is heeded, here and in what is started: a run begun in the background ignores it, and so would they."""
    before = signal.signal(signal.SIGINT, signal.default_int_handler)
    yield
    signal.signal(signal.SIGINT, before)


@pytest.fixture(scope="session")
def chromium() -> Iterator[Any]:
    """A real browser, one for the whole run: each test takes a context of its own."""
    program = browser.program()
    if program is None:
        pytest.skip(browser.NONE)
    from playwright.sync_api import sync_playwright

    with sync_playwright() as playwright:
        opened = playwright.chromium.launch(executable_path=program, args=browser.ARGUMENTS)
        yield opened
        opened.close()


@pytest.fixture(scope="session")
def axe() -> str:
    """The script that looks a page over for people who can't see or point well."""
    script = browser.axe()
    if script is None:
        pytest.skip(browser.NO_AXE)
    return script


def pytest_terminal_summary(terminalreporter: Any) -> None:
    """Say it loudly where something wasn't tried that should have been."""
    for title, why in (("SHARED CRIBS NOT TESTED", NONE), ("NO BROWSER: PAGES NOT OPENED", browser.NONE),
                       ("PAGES NOT LOOKED OVER FOR ACCESSIBILITY", browser.NO_AXE)):
        skipped = [one for one in terminalreporter.stats.get("skipped", []) if why in str(one.longrepr)]
        if skipped:
            terminalreporter.section(title, "=", red=True)
            terminalreporter.line(f"{len(skipped)} tests skipped: {why}", red=True)
