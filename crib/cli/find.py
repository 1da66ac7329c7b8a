"""`crib find`: cutters by words and sizes."""

from __future__ import annotations

from typing import Annotated

import typer

from crib.cli import out
from crib.cli.asked import Asked
from crib.cli.status import Status
from crib.cutters.base import Cutter
from crib.store import open_crib


def find(
    ctx: typer.Context,
    words: Annotated[list[str] | None, typer.Argument(help="Words and sizes that all must fit: keyseat 5/8")] = None,
) -> Status:
    """Find cutters, best match first; all of them without words."""
    asked: Asked = ctx.obj
    with open_crib(asked.crib, units=asked.units) as crib:
        found = crib.find(words or [])
    for word, taken_for in found.read_as.items():
        out.note(f"nothing fits {word!r}; read as {taken_for!r}")
    lines = out.table(("no", "cutter", "count", "drawer", "condition", "to ask"), [_row(one) for one in found.cutters])
    document = {"cutters": [cutter.as_json() for cutter in found.cutters], "read_as": found.read_as}
    out.answer(asked, document, lines if found.cutters else [f"nothing fits {' '.join(words or [])}".rstrip()])
    return Status.ANSWERED if found.cutters else Status.NO


def _row(cutter: Cutter) -> tuple[str, ...]:
    count = "" if cutter.count == 1 else str(cutter.count)
    condition = "" if cutter.condition == "unknown" else cutter.condition
    return str(cutter.id), cutter.label, count, cutter.drawer or "", condition, "; ".join(cutter.questions)
