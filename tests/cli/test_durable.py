"""What keeps a crib whole: pragmas, transactions, copies that are read back; and the faults put in on purpose."""

from __future__ import annotations

import os
import sqlite3
from collections.abc import Iterable, Iterator, Sequence
from contextlib import closing
from pathlib import Path
from typing import Any

import pytest

from crib.app.tables import by_file
from crib.app.take_in import at_once, session_of
from crib.cutters.base import Cutter
from crib.files import write
from crib.findings.errors import CribError
from crib.store import begin_crib, copies, open_crib
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
    database = SqliteDatabase(str(path))
    assert database.run("PRAGMA synchronous") == [(2,)]
    assert database.run("PRAGMA foreign_keys") == [(1,)]
    with pytest.raises(CribError):
        database.run("INSERT INTO change (at, who, what, subject, undoes) VALUES ('', '', 'x', 'y', 99999)")
    database.close()


def test_only_one_writes_at_a_time(path: Path) -> None:
    """Two that both begin to write and find out at the end would lose one's change."""
    one, other = SqliteDatabase(str(path)), SqliteDatabase(str(path), patience=0.05)
    with one.transaction(), pytest.raises(CribError, match="in use by another program"), other.transaction():
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
    real, written = SqliteDatabase._add_rows, []

    def failing(self: SqliteDatabase, table: str, columns: tuple[str, ...], rows: Sequence[tuple[object, ...]]) -> int:
        written.append(table)
        if len(written) == 2:
            real(self, table, columns, rows[:3])
            raise CribError("database", "the disk is full", "", "make room")
        return real(self, table, columns, rows)

    monkeypatch.setattr(SqliteDatabase, "_add_rows", failing)
    assert crib("take-in", "--file", str(file), "--again").status == 2
    monkeypatch.undo()
    assert content(place) == before and set(written) == {"change", "cutter"}


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

def test_who_has_a_crib_open_while_it_is_restored_goes_on_with_what_was_restored(path: Path, tmp_path: Path) -> None:
    """A file renamed over an open one left a prompt writing, acknowledged, to a file without a name."""
    copy = tmp_path / "copy.db"
    copy_to(path, copy)
    with open_crib(str(path)) as crib:
        before = len(crib.cutters())
        crib.take_in([Cutter(0, "drill", diameter_mm=5.0)])
        kept = restore_to(copy, path)
        assert len(crib.cutters()) == before
        [taken] = crib.take_in([Cutter(0, "drill", diameter_mm=6.0)])
    with open_crib(str(path)) as crib:
        assert (len(crib.cutters()), crib.cutter(taken.id).diameter_mm) == (before + 1, 6.0)
    assert kept is not None
    with open_crib(str(kept)) as crib:
        assert len(crib.cutters()) == before + 1


def test_a_crib_that_is_being_written_to_is_not_restored_over(path: Path, tmp_path: Path) -> None:
    """What was under way was answered with a number, and gone; one that was kept to itself passed for damaged."""
    copy = tmp_path / "copy.db"
    copy_to(path, copy)
    for how in ("IMMEDIATE", "EXCLUSIVE"):
        with closing(sqlite3.connect(path, isolation_level=None)) as other:
            other.execute(f"BEGIN {how}")
            with pytest.raises(CribError, match="in use"):
                restore_to(copy, path)
    assert sorted(one.name for one in tmp_path.iterdir() if "damaged" in one.name or one.name.endswith(".new")) == []


def test_a_folder_is_not_moved_away_for_a_restored_crib(path: Path, tmp_path: Path) -> None:
    folder = tmp_path / "somebody"
    folder.mkdir()
    with pytest.raises(CribError, match="not a file"):
        restore_to(path, folder)
    assert folder.is_dir()


@pytest.mark.parametrize("said", ["database or disk is full", "attempt to write a readonly database"])
def test_a_restore_for_which_there_is_no_room_leaves_what_was_there(path: Path, tmp_path: Path, said: str,
                                                                    monkeypatch: pytest.MonkeyPatch) -> None:
    """It ended in the words of the database, with the damaged crib moved away and nothing in its place."""
    copy, torn = tmp_path / "copy.db", tmp_path / "torn.db"
    copy_to(path, copy)
    torn.write_bytes(path.read_bytes()[:5000])

    def full(*_: object) -> None:
        raise sqlite3.OperationalError(said)

    monkeypatch.setattr(copies, "_copied", full)
    with pytest.raises(CribError, match="can't be"):
        restore_to(copy, torn)
    assert torn.stat().st_size == 5000


@pytest.mark.parametrize(("start", "end", "restored"), [(16, 18, False), (100, 4096, False), (0, 4096, False),
                                                         (0, 4096, True)])
def test_where_only_the_first_page_is_lost_every_row_is_salvaged(path: Path, tmp_path: Path, start: int, end: int,
                                                                 restored: bool) -> None:
    """The first page says where each table begins; without it nothing came out of a file of 5,300 sound rows."""
    if restored:
        restore_to(path, tmp_path / "other.db")
        path = tmp_path / "other.db"
    before = content(path)
    data = bytearray(path.read_bytes())
    data[start:end] = bytes(end - start)
    path.write_bytes(data)
    with open_crib(str(tmp_path / "new.db"), create=True) as crib:
        crib.salvage_from(path)
    after = content(tmp_path / "new.db")
    assert (after["cutter"], after["change"], after["held_back"]) == \
        (before["cutter"], before["change"], before["held_back"])


def test_nothing_is_salvaged_of_what_never_was_a_crib(tmp_path: Path) -> None:
    other = tmp_path / "other.bin"
    other.write_bytes(b"not a crib at all\n" * 4000)
    with open_crib(str(tmp_path / "new.db"), create=True) as crib, pytest.raises(CribError, match="nothing can be"):
        crib.salvage_from(other)


def test_a_backup_that_was_asked_for_is_not_cleared_away_by_those_that_were_not(path: Path) -> None:
    """The thirteenth list took away the backup that its owner had been told of."""
    asked = copies.put_by(path, copies.ASKED_FOR)
    restored = copies.put_by(path, "before-restore")
    for _ in range(copies.KEPT + 2):
        with open_crib(str(path)) as crib:
            crib.take_in([Cutter(0, "drill", diameter_mm=6.0)])
        last = copies.put_by(path, "before-list")
    assert (asked.exists(), restored.exists(), last.exists()) == (True, True, True)
    assert len(list(last.parent.glob("*.before-list*"))) == copies.KEPT


def test_what_somebody_else_put_there_meanwhile_is_not_restored_over(path: Path, tmp_path: Path) -> None:
    """Three at once without --over each took the same new name for free."""
    other = tmp_path / "other.db"
    assert restore_to(path, other, over=False) is None
    with pytest.raises(CribError, match="there already"):
        restore_to(path, other, over=False)


@pytest.mark.parametrize("rest", ["'nonsense'", "7", "'[]'", "'{\"ends\": 3}'"])
def test_what_a_damaged_row_says_is_spoken_of_as_damage(path: Path, rest: str) -> None:
    """`find` on a file with flipped bits ended in the names of the program's own errors."""
    with closing(sqlite3.connect(path, isolation_level=None)) as database:
        database.execute("PRAGMA ignore_check_constraints = ON")
        database.execute(f"UPDATE cutter SET rest = {rest}, \"count\" = 2 WHERE id = 2")
        database.execute("CREATE TABLE torn (a INT CHECK (a > 0))")
        database.execute("INSERT INTO torn VALUES (-1)")
    with pytest.raises(CribError, match="damaged"), open_crib(str(path)) as crib:
        crib.find(())


@pytest.mark.parametrize("form", ["csv", "words"])
def test_a_list_that_is_stopped_while_it_begins_a_crib_leaves_none(tmp_path: Path, form: str) -> None:
    """It used to leave an empty crib behind, which then was the crib."""
    def stopped(items: Iterable[Any], what: str) -> Iterator[Any]:
        yield from [*items][:2]
        raise KeyboardInterrupt

    where, file = str(tmp_path / "new.db"), tmp_path / "list.csv"
    file.write_text("type,dia\n" + "drill,1/4\n" * 4, encoding="utf-8")
    with pytest.raises(KeyboardInterrupt):
        if form == "csv":
            by_file(where, None, file, {}, tick=stopped, most=1000)
        else:
            with begin_crib(where) as crib:
                list(at_once(session_of(crib), ["1/4 drill"] * 4, tick=stopped))
    assert [one.name for one in tmp_path.iterdir()] == [file.name]
    assert len(by_file(where, None, file, {}, most=1000).taken) == 4
    with open_crib(where) as crib:
        assert len(crib.cutters()) == 4
    assert not list(tmp_path.glob(".*.new*"))


def test_who_begins_a_crib_while_another_does_keeps_nothing_and_is_told(tmp_path: Path) -> None:
    where = str(tmp_path / "new.db")
    with pytest.raises(CribError, match="began the crib meanwhile"), begin_crib(where) as crib:
        crib.take_in([Cutter(0, "drill", diameter_mm=6.0)])
        with open_crib(where, create=True) as other:
            other.take_in([Cutter(0, "reamer", diameter_mm=5.0)])
    with open_crib(where) as crib:
        assert [cutter.kind for cutter in crib.cutters()] == ["reamer"]


def test_a_copy_that_would_be_the_same_as_the_last_is_not_made_again(path: Path) -> None:
    """A table given twice left two copies that were alike, sign by sign."""
    with open_crib(str(path)) as crib:
        first, again = crib.put_by("before-list"), crib.put_by("before-list")
        crib.take_in([Cutter(0, "drill", diameter_mm=6.0)])
        other = crib.put_by("before-list")
    assert first == again and first != other
    assert other is not None and len(list(other.parent.iterdir())) == 2
