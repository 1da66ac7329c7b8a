"""Tests as pytest rewrites them, so that a failed assert says what it compared: kept in a folder of their own where no
compiled code is to be written beside them. To rewrite them anew in each process is half of what collecting takes."""

from __future__ import annotations

import marshal
import os
import sys
import tempfile
from collections.abc import Callable
from hashlib import sha256
from pathlib import Path
from types import CodeType
from typing import Any

from _pytest.assertion import rewrite

Rewritten = tuple[bytes, CodeType]
"""The hash of a file, and what is made of it."""


def keep_asserts() -> None:
    """From now on what was rewritten once is read, as long as its file is as it was. Where compiled code may be written
    pytest does so itself."""
    if sys.dont_write_bytecode and (folder := _own_folder()):
        rewrite._rewrite_test = kept(rewrite._rewrite_test, folder)


def _own_folder() -> Path | None:
    """A folder that nobody else can write into; None where there is none."""
    if not hasattr(os, "getuid"):
        return None
    folder = Path(tempfile.gettempdir()) / f"crib-tests-{os.getuid()}"
    try:
        folder.mkdir(mode=0o700, exist_ok=True)
        found = folder.lstat()
    except OSError:
        return None
    is_ours = found.st_uid == os.getuid() and not found.st_mode & 0o077 and not folder.is_symlink()
    return folder if is_ours else None


def kept(made: Callable[[Path, Any], Rewritten], folder: Path) -> Callable[[Path, Any], Rewritten]:
    """What rewrites a file, or reads what it was rewritten to."""

    def rewritten(path: Path, config: Any) -> Rewritten:
        file, told = folder / sha256(str(path).encode()).hexdigest(), _told(path)
        try:
            known, was, code = marshal.loads(file.read_bytes())
            if known == told:
                return was, code
        except (OSError, EOFError, ValueError, TypeError):  # none there, or not a whole one
            pass
        was, code = made(path, config)
        if _told(path) == told:
            _keep(file, (told, was, code))
        return was, code

    return rewritten


def _keep(file: Path, what: object) -> None:
    part = file.with_suffix(f".{os.getpid()}")
    try:
        part.write_bytes(marshal.dumps(what))
        part.replace(file)
    except (OSError, ValueError):  # no room, or a pytest that tells more of a file than its hash
        part.unlink(missing_ok=True)


def _told(path: Path) -> tuple[str, int, int, str, str]:
    """What a file is known by, and what it is rewritten for."""
    now = path.stat()
    return str(path), now.st_mtime_ns, now.st_size, sys.version, rewrite.PYTEST_TAG
