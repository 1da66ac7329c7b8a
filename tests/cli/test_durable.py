"""What keeps a crib whole: pragmas, transactions, copies that are read back; and the faults put in on purpose."""

from __future__ import annotations

import os
import sqlite3
from pathlib import Path

import pytest

from crib.diagnostics import CribError
from crib.files import write
from crib.store import open_crib
from crib.store.copies import copy_to, restore_to
from crib.store.sqlite import SqliteDatabase
from tests.cli.conftest import Crib
from tests.trials import journals
from tests.trials.common import content, fresh
from tests.trials.mutations import MUTATIONS, ROOT


@pytest.fixture
def path(tmp_path: Path) -> Path:
    """A small crib."""
    here = tmp_path / "crib.db"
    fresh(here, 4)
    return here


def test_what_is_said_to_be_in_is_on_the_disk_and_points_somewhere(path: Path) -> None:
    """SQLite's own words: synchronous FULL is 2; with less, a power cut loses what was acknowledged."""
    database = SqliteDatabase(path)
    assert database.run("PRAGMA synchronous") == [(2,)]
    assert database.run("PRAGMA foreign_keys") == [(1,)]
    with pytest.raises(CribError):
        database.run("INSERT INTO change (at, who, what, subject, undoes) VALUES ('', '', 'x', 'y', 99999)")
    database.close()


def test_only_one_writes_at_a_time(path: Path) -> None:
    """Two that both begin to write and find out at the end would lose one's change."""
    one, other = SqliteDatabase(path), SqliteDatabase(path, patience=0.05)
    with one.transaction(), pytest.raises(CribError, match="locked"), other.transaction():
        pass
    one.close()
    other.close()


def test_one_inside_another_is_part_of_it(path: Path) -> None:
    before = content(path)
    with open_crib(str(path)) as crib, pytest.raises(RuntimeError), crib.transaction():
        with crib.transaction():
            crib.amend(crib.cutter(2).but(drawer="Z9"))
        raise RuntimeError
    assert content(path) == before


@pytest.mark.parametrize("form", ["list.csv", "list.txt"])
def test_a_list_comes_in_whole_or_not_at_all(crib: Crib, place: Path, tmp_path: Path, form: str,
                                             monkeypatch: pytest.MonkeyPatch) -> None:
    """Whatever fails in the middle, and whenever."""
    fresh(place, 2)
    file = tmp_path / form
    file.write_text("kind,diameter\n" + "drill,1/4\n" * 5 if form.endswith("csv") else "1/4 drill\n" * 5)
    before = content(place)
    real, calls = SqliteDatabase.run, []

    def failing(self: SqliteDatabase, sql: str, values: object = None) -> object:
        calls.append(sql)
        if sql.startswith("INSERT INTO change") and sum(one.startswith("INSERT INTO change") for one in calls) == 4:
            raise CribError("database", "the disk is full", "", "make room")
        return real(self, sql, values)  # type: ignore[arg-type]

    monkeypatch.setattr(SqliteDatabase, "run", failing)
    assert crib("take-in", "--file", str(file), "--again").status == 2
    monkeypatch.undo()
    assert content(place) == before


def test_a_copy_is_read_back_before_it_counts(path: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("crib.store.copies.fault_in", lambda _: "a page lacks")
    with pytest.raises(CribError, match="doesn't read back"):
        copy_to(path, tmp_path / "copy.db")
    assert not (tmp_path / "copy.db").exists()


def test_a_file_is_on_the_disk_before_it_gets_its_name(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    order: list[str] = []
    real_sync, real_link = os.fsync, os.link
    monkeypatch.setattr(os, "fsync", lambda number: (order.append("on the disk"), real_sync(number))[1])
    monkeypatch.setattr(os, "link", lambda one, other: (order.append("named"), real_link(one, other))[1])
    write(tmp_path / "a.txt", "words")
    assert order == ["on the disk", "named"]


def test_a_file_that_is_written_over_is_another_file(tmp_path: Path) -> None:
    """Whoever has the old one open reads it to its end."""
    path = tmp_path / "a.txt"
    path.write_text("what was there")
    with path.open() as before:
        write(path, "words", over=True)
        assert (before.read(), path.read_text()) == ("what was there", "words")


def test_a_backup_whose_index_lacks_a_row_is_not_put_back(path: Path, tmp_path: Path) -> None:
    """Such a file opens, and finds too little; only a look at every row and index tells."""
    with open_crib(str(path)) as crib:
        crib.amend(crib.cutter(2).but(drawer="QQQQ"))
    data = bytearray(path.read_bytes())
    [at] = [at for at in range(len(data)) if data[at:at + 4] == b"QQQQ" and data[at // 4096 * 4096] == 0x0A]
    data[at:at + 4] = b"QQAQ"
    copy = tmp_path / "copy.db"
    copy.write_bytes(data)
    with pytest.raises(CribError, match="damaged"):
        restore_to(copy, tmp_path / "other.db")
    assert not (tmp_path / "other.db").exists()


def test_a_copy_made_by_hand_in_the_middle_of_a_change_is_known_for_it(path: Path, tmp_path: Path) -> None:
    """`cp` of a crib that something was writing to held rows that were never committed."""
    for _ in range(5):
        assert journals.leave_a_journal(path, 600)
        copy = tmp_path / "copy.db"
        copy.write_bytes(path.read_bytes())
        open_crib(str(path)).close()
        with open_crib(str(copy)) as crib, pytest.raises(CribError, match="damaged"):
            crib.amend(crib.cutter(1).but(drawer="Z9"))
        copy.unlink()


def test_history_can_be_added_to_and_nothing_else(path: Path) -> None:
    with sqlite3.connect(path) as database:
        for sql in ("DELETE FROM change WHERE id = 1", "UPDATE change SET who = 'somebody else' WHERE id = 1"):
            with pytest.raises(sqlite3.Error):
                database.execute(sql)


@pytest.mark.parametrize("mutation", MUTATIONS, ids=[mutation.what for mutation in MUTATIONS])
def test_every_fault_that_is_tried_still_has_its_place(mutation: object) -> None:
    """`python -m tests.trials.mutations` puts each in and wants it caught."""
    one = next(each for each in MUTATIONS if each is mutation)
    text = (ROOT / one.file).read_text(encoding="utf-8")
    assert one.piece in text and one.piece != one.instead
    assert all((ROOT / test).exists() for test in one.tests)
