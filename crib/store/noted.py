"""What was last known of a crib's file, kept in a small file beside it: the day on which it was found sound, and the
size, the time and the change counter with which it was left."""

from __future__ import annotations

import json
import os
from contextlib import suppress
from time import strftime

from crib.light.hints import TYPE_CHECKING

if TYPE_CHECKING:
    from pathlib import Path

_DAY = "%Y-%m-%d"


def note(path: str | Path) -> None:
    """Remember that a file is sound as it is now. Where nothing can be written nothing is remembered."""
    with suppress(OSError):
        known = json.dumps([strftime(_DAY), *_state(path)])
        with open(_beside(path), "w", encoding="utf-8") as file:
            file.write(known)


def is_as_noted(path: str | Path) -> bool:
    """Whether a file was found sound today, and nothing else has touched it since."""
    return _noted(path) == [strftime(_DAY), *_state(path)]


def was_noted_today(path: str | Path) -> bool:
    """Whether a file was found sound today, as it was then."""
    return _noted(path)[:1] == [strftime(_DAY)]


def noted_counter(path: str | Path) -> int | None:
    """How often a file had been changed when it was last noted; None where it never was."""
    noted = _noted(path)
    return noted[3] if len(noted) == 4 and isinstance(noted[3], int) else None


def _state(path: str | Path) -> list[int]:
    there = os.stat(path)
    with open(path, "rb") as file:
        file.seek(24)
        return [there.st_size, there.st_mtime_ns, int.from_bytes(file.read(4), "big")]


def _noted(path: str | Path) -> list[object]:
    try:
        with open(_beside(path), encoding="utf-8") as file:
            return list(json.load(file))
    except (OSError, ValueError, TypeError):
        return []


def _beside(path: str | Path) -> str:
    folder, name = os.path.split(path)
    return os.path.join(folder, f".{name}.sound")
