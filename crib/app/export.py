"""Writing a crib down for elsewhere: as a table, as JSON, all of it, as labels."""

from __future__ import annotations

import json
from collections.abc import Iterator, Sequence
from itertools import chain
from pathlib import Path
from typing import Any

from crib.app.looking import listed
from crib.cutters.base import Cutter
from crib.files import write
from crib.findings.errors import CribError
from crib.intake.lists.export import as_csv, as_json
from crib.store import Crib

__all__ = ["as_csv", "as_json", "export", "export_all", "write"]


def export(crib: Crib, words: Sequence[str], to: Path | None = None, over: bool = False) -> list[Cutter]:
    """The cutters that fit some words, written to a file where one is named: .csv or .json. Raises `CribError`."""
    cutters = listed(crib, words)
    if to is None:
        return cutters
    if to.suffix.lower() not in (".csv", ".json"):
        raise CribError("file", f"{to.name!r} is named neither .csv nor .json", str(to), "--to cutters.csv")
    write(to, chain(as_json(cutters), "\n") if to.suffix.lower() == ".json" else _as_table(cutters), over)
    return cutters


def _as_table(cutters: Sequence[Cutter]) -> Iterator[str]:
    """The text of a table, line by line, as spreadsheets want it."""
    between = "\ufeff"
    for line in as_csv(cutters):
        yield between + line
        between = "\r\n"
    yield "\n"


def export_all(crib: Crib, to: Path | None = None, over: bool = False) -> dict[str, Any]:
    """Everything on record as one document that a restore reads, written to a file where one is named."""
    document = crib.whole()
    if to is not None:
        write(to, json.dumps(document, ensure_ascii=False, indent=1) + "\n", over)
    return document
