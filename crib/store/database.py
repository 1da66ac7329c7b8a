"""A database as the crib uses it: plain statements with named values, in transactions."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from contextlib import AbstractContextManager, contextmanager

from crib.findings.errors import CribError
from crib.light.hints import Any, Protocol
from crib.light.tuples import NamedTuple
from crib.store.statements import listed, who

Row = tuple[Any, ...]

_TOGETHER = 500
"""So many rows of a table wait at the most to be written together."""


class Database(Protocol):
    """What reading and writing need. Values are whole numbers and text only, so that every database takes them."""

    def run(self, sql: str, values: Mapping[str, Any] | None = None) -> list[Row]:
        """Run one statement; the rows that it gives."""
        ...

    def each(self, sql: str) -> Iterable[Row]:
        """Run one statement without values; its rows one by one, as they are asked for."""
        ...

    def read(self, *statements: str) -> list[Iterable[Row]]:
        """Run statements without values, in one go where it is far to the database; the rows of each, those of the last
        one by one."""
        ...

    def transaction(self) -> AbstractContextManager[None]:
        """Everything inside happens whole or not at all; one inside another is part of it."""
        ...

    def gathering(self) -> AbstractContextManager[None]:
        """A transaction in which rows that are added wait for one another and are written many at a time."""
        ...

    @property
    def gathers(self) -> bool:
        """Whether rows that are added wait for one another."""
        ...

    def by(self) -> str:
        """The name of who writes."""
        ...

    def add(self, table: str, row: Mapping[str, Any]) -> int:
        """Add a row to a table with numbers; its number."""
        ...

    def add_values(self, table: str, columns: tuple[str, ...], values: Row) -> int:
        """Add a row that doesn't bring its number, while rows are gathered: its values in the order of these columns;
        its number."""
        ...

    def unindexed(self, *tables: str) -> AbstractContextManager[None]:
        """Inside a transaction, and where it is quicker for many rows, do without the indexes of tables until they are
        in."""
        ...

    def last(self, table: str) -> int:
        """The number of the last row of a table, those that wait counted in; 0 where there is none."""
        ...

    def texts(self, column: str, most: int) -> list[str] | None:
        """The different texts in a column of the cutters, where they are looked up and not looked for, and there are no
        more than `most`; else None."""
        ...

    def hurry(self, seconds: float) -> None:
        """From here on wait no longer than this for another program that keeps it locked."""
        ...

    def close(self) -> None:
        """Let go of the database."""
        ...

    def numbers(self) -> dict[str, int]:
        """The greatest number that each table ever gave."""
        ...

    def renumber(self, numbers: Mapping[str, int]) -> None:
        """Go on numbering behind these numbers."""
        ...


class _Waiting(NamedTuple):
    """Rows of a table that wait to be written: the values of each in the order of the columns."""

    columns: tuple[str, ...]
    rows: list[Row]


class Transactions:
    """Transactions that may stand inside one another, and rows that are written together, for a database with
    `_execute`, `_add_rows` and `_greatest`. Whatever is run finds all rows that were added before it."""

    begin = "BEGIN"
    _depth = 0
    _by: str | None = None
    gathers = False

    def __init__(self) -> None:
        self._waiting: dict[str, _Waiting] = {}
        self._given: dict[str, int] = {}

    def run(self, sql: str, values: Mapping[str, Any] | None = None) -> list[Row]:
        """Run one statement; the rows that it gives."""
        self._settle()
        return self._execute(sql, values or {})

    def each(self, sql: str) -> Iterable[Row]:
        """Run one statement without values; its rows."""
        return self.run(sql)

    def read(self, *statements: str) -> list[Iterable[Row]]:
        """Run statements without values; the rows of each."""
        return [*(self.run(statement) for statement in statements[:-1]), self.each(statements[-1])]

    def transaction(self) -> AbstractContextManager[None]:
        """Everything inside happens whole or not at all; one inside another is part of it."""
        return self._transaction()

    @contextmanager
    def _transaction(self) -> Iterator[None]:
        outermost = self._depth == 0
        self._depth += 1
        try:
            if outermost:
                self.run(self.begin)
            yield
            if outermost:
                self.run("COMMIT")
        except BaseException:
            if outermost:
                self._roll_back()
            raise
        finally:
            self._depth -= 1

    @contextmanager
    def gathering(self) -> Iterator[None]:
        """A transaction in which rows that are added wait for one another and are written many at a time."""
        with self.transaction():
            gathered, self.gathers = self.gathers, True
            try:
                yield
                self._settle()
            finally:
                self.gathers, self._by = gathered, None
                self._waiting, self._given = {}, {}

    def by(self) -> str:
        """The name of who writes; asked of the system once while rows are gathered."""
        if not self.gathers:
            return who()
        if self._by is None:
            self._by = who()
        return self._by

    def add(self, table: str, row: Mapping[str, Any]) -> int:
        """Add a row to a table with numbers; its number. One that brings its own number doesn't wait."""
        if not self.gathers or "id" in row:
            columns, slots = ", ".join(f'"{one}"' for one in row), ", ".join(f":{one}" for one in row)
            [(number,)] = self.run(f"INSERT INTO {table} ({columns}) VALUES ({slots}) RETURNING id", row)
            self._given.pop(table, None)
            return int(number)
        return self.add_values(table, tuple(row), tuple(row.values()))

    def add_values(self, table: str, columns: tuple[str, ...], values: Row) -> int:
        """Add a row that doesn't bring its number, while rows are gathered: its values in the order of these columns;
        its number."""
        waiting = self._waiting.get(table)
        if waiting is None or waiting.columns != columns:
            waiting = self._line_up(table, columns)
        waiting.rows.append(values)
        self._given[table] = number = self._given[table] + 1
        if len(waiting.rows) >= _TOGETHER:
            self._settle()
        return number

    def _line_up(self, table: str, columns: tuple[str, ...]) -> _Waiting:
        """Where rows of a table wait that have these columns; those that have others are written first."""
        if table in self._waiting or table not in self._given:
            self._settle()
        if table not in self._given:
            self._given[table] = self._greatest(table)
        self._waiting[table] = waiting = _Waiting(columns, [])
        return waiting

    @contextmanager
    def unindexed(self, *tables: str) -> Iterator[None]:
        """Nothing is quicker without indexes unless a database says so."""
        yield

    def texts(self, column: str, most: int) -> list[str] | None:
        """Nothing is looked up unless a database says so."""
        return None

    def last(self, table: str) -> int:
        """The number of the last row of a table, those that wait counted in; 0 where there is none."""
        return self._given.get(table) or int(self.run(f"SELECT coalesce(max(id), 0) FROM {table}")[0][0])

    def _settle(self) -> None:
        """Write the rows that wait, table by table, each under the number that it was told."""
        waiting, self._waiting = self._waiting, {}
        for table, (columns, rows) in sorted(waiting.items()):
            if self._add_rows(table, columns, rows) != self._given[table]:
                raise CribError("changed", "another program wrote to the crib meanwhile; nothing of this was kept", "",
                                "try again, when the other program is done")

    def _roll_back(self) -> None:
        self._waiting, self._given = {}, {}
        self._execute("ROLLBACK", {})

    def _execute(self, sql: str, values: Mapping[str, Any]) -> list[Row]:
        """Run one statement; the rows that it gives."""
        raise NotImplementedError

    def _add_rows(self, table: str, columns: tuple[str, ...], rows: Sequence[Row]) -> int:
        """Add rows of these columns, in order; the number of the last."""
        raise NotImplementedError

    def _greatest(self, table: str) -> int:
        """The greatest number that a table ever gave; those of new rows go on from it."""
        raise NotImplementedError


def insert(database: Database, table: str, row: Mapping[str, Any], tail: str = "") -> list[Row]:
    """Add a row; what the tail of the statement gives."""
    slots = ", ".join(f":{column}" for column in row)
    return database.run(f"INSERT INTO {table} ({listed(row)}) VALUES ({slots}) {tail}", row)
