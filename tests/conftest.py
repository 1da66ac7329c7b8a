"""Hypothesis as every test uses it, and a server for those that try a shared crib."""

from __future__ import annotations

import os
from collections.abc import Iterator
from typing import Any

import pytest

from tests import strategies
from tests.server import NAMED, NONE, Server, binaries, with_schema

__all__ = ["strategies"]


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


def pytest_terminal_summary(terminalreporter: Any) -> None:
    """Say it loudly where shared cribs weren't tried."""
    skipped = [one for one in terminalreporter.stats.get("skipped", []) if NONE in str(one.longrepr)]
    if skipped:
        terminalreporter.section("SHARED CRIBS NOT TESTED", "=", red=True)
        terminalreporter.line(f"{len(skipped)} tests skipped: {NONE}", red=True)
