"""A crib of one's own for each test, and the program run on it in this process."""

from __future__ import annotations

import json
import shutil
from collections.abc import Callable
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from crib.app import demo
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


@pytest.fixture(scope="session")
def made_sample(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The sample crib, made once for all tests that begin with it."""
    path = tmp_path_factory.mktemp("sample") / "crib.db"
    demo.copy(path)
    return path


@pytest.fixture
def bench(place: Path, made_sample: Path) -> Path:
    """The test's crib is the sample crib."""
    return Path(shutil.copyfile(made_sample, place))


@pytest.fixture(scope="session")
def made(tmp_path_factory: pytest.TempPathFactory) -> Callable[..., Path]:
    """A crib on which some command lines were run, made once for all tests that begin with it; `PLACE` among the words
    is where it is."""
    @cache
    def crib_of(*lines: tuple[str, ...]) -> Path:
        path = tmp_path_factory.mktemp("made") / "crib.db"
        for line in lines:
            words = [str(path) if word == "PLACE" else word for word in line]
            assert run(["--crib", str(path), *words]) == 0, line
        return path

    return crib_of


@pytest.fixture
def begun(crib: Crib, place: Path, made: Callable[..., Path]) -> Callable[..., Crib]:
    """The program on a crib of one's own that begins as if some command lines had been run on it."""
    def begin(*lines: tuple[str, ...]) -> Crib:
        shutil.copyfile(made(*lines), place)
        return crib

    return begin
