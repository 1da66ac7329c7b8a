"""From every schema that people may have on their disks to the one of this program, with nothing lost."""

from __future__ import annotations

import json
import shutil
import sqlite3
from pathlib import Path
from typing import Any

import pytest
from alembic import command
from alembic.autogenerate import compare_metadata
from alembic.migration import MigrationContext
from sqlalchemy import CheckConstraint, create_engine, text
from sqlalchemy.exc import DBAPIError

from crib.cutters.base import Cutter
from crib.findings.errors import CribError
from crib.store import open_crib
from crib.store.columns import APPLICATION_ID, TABLES, VERSION
from crib.store.copies import put_by, restore_to
from crib.store.find import find
from crib.store.migrate import config, migrations_dir, sqlite_url, upgrade
from crib.store.models import metadata
from crib.store.statements import listed
from tests.migrations.make_dump import SLIDE

HERE = Path(__file__).parent
DUMPS = sorted(HERE.glob("schema_*.sql"))

ASKED = [({"width": "1/2", "depth": ".250"}, 2, (1,))]
QUESTIONS: dict[str, list[Any]] = {"schema_0001": []}
"""What was asked of the cribs in the dumps: the first schema couldn't remember it."""

NOTED = {"schema_0001": [], "schema_0002": []}
"""What the owners of those cribs noted: the first two schemas couldn't keep it."""

PARTS = [("slide", SLIDE, 1)]
"""The part of those cribs: before the seventh schema none was kept."""

BESIDE = {"heading": "what,size", "units": "mm"}
"""What is kept beside the line that was held back; before the fourth schema nothing was."""

NEXT = """
import sqlalchemy as sa
from alembic import op

revision = "{next}"
down_revision = "{last}"


def upgrade():
    with op.batch_alter_table("cutter") as batch:
        batch.add_column(sa.Column("colour", sa.Text(), nullable=True))
        batch.create_check_constraint("colour", "colour <> ''")
    {then}


def downgrade():
    pass
"""


def restored(dump: Path, path: Path) -> None:
    with sqlite3.connect(path) as database:
        database.executescript(dump.read_text(encoding="utf-8"))


def number_of(dump: Path) -> int:
    return int(dump.stem.removeprefix("schema_"))


def later(folder: Path, then: str) -> Path:
    """The migrations and one more."""
    scripts = folder / "100% later"
    shutil.copytree(migrations_dir(), scripts, ignore=shutil.ignore_patterns("__pycache__"))
    text = NEXT.format(next=f"{VERSION + 1:04d}", last=f"{VERSION:04d}", then=then)
    (scripts / "versions" / "later.py").write_text(text)
    return scripts


def number(path: Path, pragma: str) -> int:
    with sqlite3.connect(path) as database:
        return int(database.execute(f"PRAGMA {pragma}").fetchone()[0])


def _as_then(cutter: dict[str, Any], then: dict[str, Any]) -> dict[str, Any]:
    """A cutter by the keys that it had then, without its label, which is made anew each time; a key that came since
    must say nothing."""
    assert not any(value for key, value in cutter.items() if key not in then)
    return {key: value for key, value in cutter.items() if key != "label" and key in then}


def test_there_is_a_dump_of_every_schema() -> None:
    assert [dump.stem for dump in DUMPS] == [f"schema_{version:04d}" for version in range(1, VERSION + 1)]


@pytest.mark.parametrize("dump", DUMPS, ids=lambda dump: dump.stem)
def test_every_earlier_crib_opens_with_everything_in_it(dump: Path, tmp_path: Path) -> None:
    path = tmp_path / "crib.db"
    restored(dump, path)
    with open_crib(str(path)) as crib:
        recorded = json.loads(dump.with_suffix(".json").read_text("utf-8"))
        read = [cutter.as_json() for cutter in crib.cutters()]
        assert [_as_then(one, then) for one, then in zip(read, recorded, strict=True)] == [
            _as_then(one, one) for one in recorded]
        assert crib.shop().collets_mm == (6.35,)
        assert [line.text for line in crib.held_back()] == ["½ großer Fräser"]
        assert [line.beside for line in crib.held_back()] == [BESIDE if number_of(dump) >= 4 else None]
        assert [change.what for change in crib.history(2)] == ["take-in", "amend"]
        assert [(one.texts, one.times, one.cutters) for one in crib.questions()] == QUESTIONS.get(dump.stem, ASKED)
        noted = [note.words for note in crib.notes("hole", "price")]
        assert noted == NOTED.get(dump.stem, ["the #7", "3/8 end mill"])
        assert len(crib.shop().own.holes) == len(noted) / 2
        assert [(one.name, one.text, one.version) for one in crib.parts()] == (PARTS if number_of(dump) >= 7 else [])
        assert crib.typed(1) == {"diameter_mm": "1/2"}
        assert crib.take_in([crib.cutter(1)])[0].id > 1
    assert number(path, "user_version") == VERSION


@pytest.mark.parametrize("dump", DUMPS, ids=lambda dump: dump.stem)
def test_what_is_said_is_found_in_every_earlier_crib_that_is_put_back(dump: Path, tmp_path: Path) -> None:
    """By what is looked up as by looking at every cutter."""
    backup, path = tmp_path / "backup.db", tmp_path / "crib.db"
    restored(dump, backup)
    restore_to(backup, path)
    with open_crib(str(path)) as crib:
        crib.amend(crib.cutter(3).but(note="Große Kiste", marking="A-17"))
        every = sorted(crib.find(()).cutters, key=lambda one: one.id)
        for word in ("b2", "1/4-20", "plug", "große", "kiste", "a-17", "reground", "cutter", "1/2"):
            assert crib.find([word]).cutters == find(every, [word], "in").cutters != ()


def test_a_new_crib_has_the_tables_of_the_models_and_the_columns_that_are_read(tmp_path: Path) -> None:
    path = tmp_path / "crib.db"
    open_crib(str(path), create=True).close()
    engine = create_engine(sqlite_url(path))
    with engine.connect() as connection:
        context = MigrationContext.configure(
            connection, opts={"compare_type": True, "render_as_batch": True, "version_table": "schema_version"}
        )
        assert compare_metadata(context, metadata) == []
        checks = {
            table: connection.exec_driver_sql(f"SELECT sql FROM sqlite_master WHERE name = '{table}'").scalar_one()
            for table in TABLES
        }
    engine.dispose()
    assert {table.name: tuple(column.name for column in table.columns) for table in metadata.sorted_tables} == {
        name: TABLES[name] for name in (table.name for table in metadata.sorted_tables)
    }
    assert set(metadata.tables) == set(TABLES)
    for table in metadata.sorted_tables:
        for check in table.constraints:
            if isinstance(check, CheckConstraint):
                assert str(check.sqltext) in checks[table.name]
    assert (number(path, "user_version"), number(path, "application_id")) == (VERSION, APPLICATION_ID)


def test_a_new_crib_is_what_all_migrations_come_to(tmp_path: Path) -> None:
    """It is laid out at once, for loading what migrates takes half a second; `make_schema` writes its tables anew."""
    migrated, begun = tmp_path / "migrated.db", tmp_path / "begun.db"
    upgrade(migrated)
    open_crib(str(begun), create=True).close()

    def all_of(path: Path) -> list[Any]:
        with sqlite3.connect(path) as database:
            pragmas = [database.execute(f"PRAGMA {name}").fetchone() for name in (
                "application_id", "user_version", "encoding", "page_size", "auto_vacuum", "journal_mode")]
            said = [line for line in database.iterdump() if '"sqlite_sequence" VALUES(\'cutter\',0)' not in line]
            return [*pragmas, *said]

    assert all_of(begun) == all_of(migrated)


def test_a_migration_keeps_the_rows_and_notes_the_number(tmp_path: Path) -> None:
    path = tmp_path / "crib.db"
    restored(DUMPS[-1], path)
    upgrade(path, later(tmp_path, "pass"))
    assert number(path, "user_version") == VERSION + 1
    with sqlite3.connect(path) as database:
        kept = database.execute("SELECT count(*), count(colour) FROM cutter").fetchone()
    assert kept == (len(json.loads(DUMPS[-1].with_suffix(".json").read_text("utf-8"))), 0)


def test_a_migration_that_fails_midway_leaves_nothing_behind(tmp_path: Path) -> None:
    path = tmp_path / "crib.db"
    restored(DUMPS[-1], path)
    with sqlite3.connect(path) as database:
        before = list(database.iterdump())
    with pytest.raises(CribError):
        upgrade(path, later(tmp_path, 'op.execute("SELECT nothing FROM nowhere")'))
    with sqlite3.connect(path) as database:
        assert list(database.iterdump()) == before
    assert number(path, "user_version") == VERSION


def test_an_older_crib_is_copied_before_it_is_upgraded(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "crib.db"
    restored(DUMPS[-1], path)
    monkeypatch.setattr("crib.store.in_a_file.VERSION", VERSION + 1)
    scripts = later(tmp_path, "pass")
    monkeypatch.setattr("crib.store.migrate.migrations_dir", lambda: scripts)
    open_crib(str(path)).close()
    [copy] = (tmp_path / "backups").glob(f"crib.*.schema-{VERSION}.db")
    assert (number(copy, "user_version"), number(path, "user_version")) == (VERSION, VERSION + 1)


def test_copies_never_replace_one_another(tmp_path: Path) -> None:
    path = tmp_path / "crib.db"
    made = set()
    for _ in range(3):
        with open_crib(str(path), create=True) as crib:
            crib.take_in([Cutter(0, "drill", diameter_mm=6.0)])
        made.add(put_by(path, "test"))
    assert len(made) == 3


def test_there_and_back(tmp_path: Path) -> None:
    path = tmp_path / "crib.db"
    upgrade(path)
    settings = config(sqlite_url(path))
    command.downgrade(settings, "base")
    assert number(path, "user_version") == 0
    upgrade(path)
    open_crib(str(path)).close()


def test_what_was_done_stays_written_down(tmp_path: Path) -> None:
    path = tmp_path / "crib.db"
    restored(DUMPS[-1], path)
    for statement in ("UPDATE change SET who = 'me'", "DELETE FROM change"):
        with sqlite3.connect(path) as database, pytest.raises(sqlite3.IntegrityError):
            database.execute(statement)


@pytest.mark.parametrize(
    "statement",
    [
        "UPDATE cutter SET diameter_nm = -1",
        "UPDATE cutter SET condition = 'shiny'",
        "UPDATE cutter SET rest = '{'",
        "UPDATE cutter SET version = 0",
        "UPDATE cutter SET kind = ''",
        "UPDATE setting SET value = 'inch'",
        "INSERT INTO held_back VALUES (9, '', '', 0, '', '', '', NULL)",
        "INSERT INTO held_back VALUES (9, '', '', 1, '', '', '', '{')",
        "UPDATE question SET times = 0",
        "UPDATE question SET units = 'furlong'",
        "UPDATE question SET texts = 'width 1/2'",
        "INSERT INTO question SELECT 9, first_at, at, who, kind, texts, units, times, answer, plan FROM question",
        "UPDATE note SET kind = 'gossip'",
        "UPDATE note SET about = '{'",
        "UPDATE part SET version = 0",
        "UPDATE part SET name = ''",
        "INSERT INTO part SELECT 9, name, at, who, text, version FROM part",
    ],
)
def test_the_tables_refuse_what_cannot_be(tmp_path: Path, statement: str) -> None:
    path = tmp_path / "crib.db"
    restored(DUMPS[-1], path)
    with sqlite3.connect(path) as database, pytest.raises(sqlite3.IntegrityError):
        database.execute(statement)


@pytest.mark.parametrize("dump", DUMPS[:-1], ids=lambda dump: dump.stem)
def test_no_number_is_given_twice_after_the_table_was_written_anew(dump: Path, tmp_path: Path) -> None:
    """Labels and notes go by a cutter's number: one that was the last and is gone stays gone. What the table refuses it
    refuses as ever, and its indexes are those of a new crib."""
    path, new = tmp_path / "crib.db", tmp_path / "new.db"
    restored(dump, path)
    open_crib(str(new), create=True).close()
    with sqlite3.connect(path) as database:
        last = database.execute("SELECT max(id) FROM cutter").fetchone()[0]
        database.execute("DELETE FROM cutter WHERE id = ?", (last,))
    with open_crib(str(path)) as crib:
        assert crib.take_in([crib.cutter(1)])[0].id == last + 1
    with sqlite3.connect(path) as database, sqlite3.connect(new) as fresh:
        indexes = "SELECT name, replace(sql, '\"', '') FROM sqlite_master WHERE type = 'index' ORDER BY name"
        assert database.execute(indexes).fetchall() == fresh.execute(indexes).fetchall()
        with pytest.raises(sqlite3.IntegrityError, match="ck_cutter_version"):
            database.execute("UPDATE cutter SET version = 0")


@pytest.mark.parametrize("dump", DUMPS, ids=lambda dump: dump.stem)
def test_every_earlier_crib_on_a_server_opens_with_everything_in_it(dump: Path, tmp_path: Path, shared: str) -> None:
    path = tmp_path / "crib.db"
    restored(dump, path)
    command.upgrade(config(shared), f"{number_of(dump):04d}")
    engine = create_engine(shared)
    with sqlite3.connect(path) as file, engine.begin() as there:
        for table in TABLES:
            if file.execute("SELECT count(*) FROM sqlite_master WHERE name = ?", (table,)).fetchone()[0]:
                rows = file.execute(f"SELECT * FROM {table} ORDER BY 1")
                names = [column[0] for column in rows.description]
                for row in rows.fetchall():
                    there.execute(text(f"INSERT INTO {table} ({listed(names)}) "
                                       f"VALUES ({', '.join(f':{name}' for name in names)})"),
                                  dict(zip(names, row, strict=True)))
    with open_crib(shared) as crib, open_crib(str(path)) as same:
        assert crib.cutters() == same.cutters() and crib.changes() == same.changes()
        assert crib.shop() == same.shop() and crib.held_back() == same.held_back()
        assert crib.parts() == same.parts()
    for statement in ("UPDATE change SET who = 'me'", "DELETE FROM change", "TRUNCATE change"):
        with engine.connect() as there, pytest.raises(DBAPIError, match="stays written down"):
            there.execute(text(statement))
    command.downgrade(config(shared), "base")
    engine.dispose()
