"""What the statements of the store share: lists of columns, and who writes when."""

from __future__ import annotations

import os
import time
from collections.abc import Iterable
from functools import lru_cache

LARGEST_ID = 2**31 - 1
"""The greatest number that every database can be asked for."""


def listed(columns: Iterable[str]) -> str:
    """Columns as a statement names them.

    >>> listed(["id", "count"])
    '"id", "count"'
    """
    return ", ".join(f'"{column}"' for column in columns)


def who() -> str:
    """The user's name as the system has it; empty where it has none."""
    return next((os.environ[name] for name in ("USER", "LOGNAME", "USERNAME") if os.environ.get(name)), "")


def now() -> str:
    """The time to the second, in UTC as ISO 8601 writes it."""
    return _at(int(time.time()))


@lru_cache(maxsize=1)
def _at(second: int) -> str:
    """A second since 1970 in these words, kept: of a long list many lines come in each."""
    return time.strftime("%Y-%m-%dT%H:%M:%S+00:00", time.gmtime(second))
