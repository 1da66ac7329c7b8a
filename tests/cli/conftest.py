"""A crib of one's own for each test, and the program run on it in this process."""

from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest

from crib.cli.app import run


@dataclass(frozen=True)
class Result:
    """What came of one command line."""

    status: int
    out: str
    err: str

    @property
    def json(self) -> Any:
        """The one document on standard output."""
        return json.loads(self.out)


Crib = Callable[..., Result]


@pytest.fixture
def place(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Where the test's crib is, or will be."""
    path = tmp_path / "crib.db"
    monkeypatch.setenv("CRIB_DB", str(path))
    monkeypatch.delenv("CRIB_UNITS", raising=False)
    return path


@pytest.fixture
def crib(place: Path, capsys: pytest.CaptureFixture[str]) -> Crib:
    """Run one command line."""

    def call(*words: str) -> Result:
        capsys.readouterr()
        status = run(words)
        shown = capsys.readouterr()
        return Result(int(status), shown.out, shown.err)

    return call
