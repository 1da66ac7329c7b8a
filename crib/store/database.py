"""A database as the crib uses it: plain statements with named values, in transactions."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from contextlib import AbstractContextManager, contextmanager
from typing import Any, Protocol

Row = tuple[Any, ...]


class Database(Protocol):
    """What reading and writing need. Values are whole numbers and text only, so that every database takes them."""

    def run(self, sql: str, values: Mapping[str, Any] | None = None) -> list[Row]:
        """Run one statement; the rows that it gives."""
        ...

    def transaction(self) -> AbstractContextManager[None]:
        """Everything inside happens whole or not at all; one inside another is part of it."""
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


class Transactions:
    """Transactions that may stand inside one another, for a database with `run`."""

    begin = "BEGIN"
    _depth = 0

    def run(self, sql: str, values: Mapping[str, Any] | None = None) -> list[Row]:
        """Run one statement; the rows that it gives."""
        raise NotImplementedError

    @contextmanager
    def transaction(self) -> Iterator[None]:
        """Everything inside happens whole or not at all; one inside another is part of it."""
        if self._depth == 0:
            self.run(self.begin)
        self._depth += 1
        try:
            yield
            if self._depth == 1:
                self.run("COMMIT")
        except BaseException:
            if self._depth == 1:
                self._roll_back()
            raise
        finally:
            self._depth -= 1

    def _roll_back(self) -> None:
        self.run("ROLLBACK")
