"""Writing files so that nobody ever sees half of one, and nothing is lost where there is no room for the new one."""

from __future__ import annotations

import os
from collections.abc import Iterable
from contextlib import suppress
from pathlib import Path
from stat import S_IMODE

from crib.findings.errors import CribError


def write(path: Path, text: str | Iterable[str], over: bool = False) -> None:
    """Write a text, or its pieces, beside its place, and give it its name when it is whole. Raises `CribError` where
    something is there already and isn't to be written over, and where it can't be written: then what was there stays as
    it was."""
    if path.exists() and not path.is_file():
        return _straight(path, text)
    if path.exists() and not over:
        raise _taken(path)
    target = path.resolve() if path.is_symlink() else path
    beside = target.with_name(f".{target.name}.{os.getpid()}.new")
    try:
        with beside.open("w", encoding="utf-8", newline="") as file:
            file.writelines([text] if isinstance(text, str) else text)
            file.flush()
            os.fsync(file.fileno())
        if target.exists():
            beside.chmod(S_IMODE(target.stat().st_mode))
        if over:
            os.replace(beside, target)
        else:
            give_name(beside, target)
    except FileExistsError:
        raise _taken(path) from None
    except OSError as error:
        raise _cannot(path, error) from error
    finally:
        with suppress(OSError):
            beside.unlink(missing_ok=True)


def give_name(beside: Path, path: Path) -> None:
    """Give a finished file its name. Raises `FileExistsError` where another program was quicker."""
    try:
        os.link(beside, path)
    except FileExistsError:
        raise
    except OSError:  # a file system without links, such as a memory card's
        beside.rename(path)


def _straight(path: Path, text: str | Iterable[str]) -> None:
    """Into what is no plain file: a terminal, a pipe."""
    try:
        with path.open("w", encoding="utf-8", newline="") as file:
            file.writelines([text] if isinstance(text, str) else text)
    except OSError as error:
        raise _cannot(path, error) from error


def _taken(path: Path) -> CribError:
    return CribError("file", f"{path} is there already", str(path), "another name, or --over")


def _cannot(path: Path, error: OSError) -> CribError:
    return CribError("file", f"{path} can't be written: {(error.strerror or str(error)).lower()}", str(path),
                     "another name or folder, or room on the disk")
