"""What was last known of a crib's file, kept in a small file beside it: the day on which it was found sound, and the
size, the time and the change counter with which it was left."""

from __future__ import annotations

import json
from contextlib import suppress
from datetime import date
from pathlib import Path


def note(path: Path) -> None:
    """Remember that a file is sound as it is now. Where nothing can be written nothing is remembered."""
    with suppress(OSError):
        _beside(path).write_text(json.dumps([date.today().isoformat(), *_state(path)]), encoding="ascii")


def is_as_noted(path: Path) -> bool:
    """Whether a file was found sound today, and nothing else has touched it since."""
    return _noted(path) == [date.today().isoformat(), *_state(path)]


def was_noted_today(path: Path) -> bool:
    """Whether a file was found sound today, as it was then."""
    return _noted(path)[:1] == [date.today().isoformat()]


def noted_counter(path: Path) -> int | None:
    """How often a file had been changed when it was last noted; None where it never was."""
    noted = _noted(path)
    return noted[3] if len(noted) == 4 and isinstance(noted[3], int) else None


def _state(path: Path) -> list[int]:
    there = path.stat()
    with path.open("rb") as file:
        file.seek(24)
        return [there.st_size, there.st_mtime_ns, int.from_bytes(file.read(4), "big")]


def _noted(path: Path) -> list[object]:
    try:
        return list(json.loads(_beside(path).read_text(encoding="ascii")))
    except (OSError, ValueError, TypeError):
        return []


def _beside(path: Path) -> Path:
    return path.with_name(f".{path.name}.sound")
