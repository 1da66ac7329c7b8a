"""A database as the crib uses it: plain statements with named values, in transactions."""

from __future__ import annotations

from collections.abc import Mapping
from contextlib import AbstractContextManager
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
