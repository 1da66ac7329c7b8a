"""`crib find`: cutters by words and sizes."""

from __future__ import annotations

from typing import Annotated

import typer

from crib.cli import out
from crib.cli.asked import Asked
from crib.cli.status import Status
from crib.cutters.base import Cutter
from crib.store import Crib, open_crib
from crib.store.find import Found

_MOST_ROWS = 200


def find(
    ctx: typer.Context,
    words: Annotated[list[str] | None, typer.Argument(
        help="What must fit: keyseat about 5/8, carbide in drawer B2, what fits the 3/8 collet")] = None,
    every: Annotated[bool, typer.Option("--all", help=f"All rows, not the first {_MOST_ROWS}")] = False,
) -> Status:
    """Find cutters, best match first; all of them without words."""
    asked: Asked = ctx.obj
    with open_crib(asked.crib, units=asked.units) as crib:
        found = _found(crib, words or [])
    for word, taken_for in found.read_as.items():
        out.note(f"nothing fits {word!r}; read as {taken_for!r}")
    if asked.json:
        document = {"cutters": [cutter.as_json() for cutter in found.cutters], "read_as": found.read_as}
        out.answer(asked, document, ())
        return Status.ANSWERED if found.cutters else Status.NO
    shown = found.cutters if every else found.cutters[:_MOST_ROWS]
    lines = out.table(("no", "cutter", "count", "drawer", "condition", "to ask"), [_row(one) for one in shown])
    if len(shown) < len(found.cutters):
        lines.append(f"and {len(found.cutters) - len(shown)} more; another word narrows it down, --all shows them")
    out.answer(asked, None, lines if found.cutters else [f"nothing fits {' '.join(words or [])}".rstrip()])
    return Status.ANSWERED if found.cutters else Status.NO


def _found(crib: Crib, words: list[str]) -> Found:
    """By what a shop means by the words; where nothing fits, by the words as they stand."""
    if not words:
        return crib.find(words)
    from crib.intake.query import read_query

    wanted = read_query(words, crib.units)
    meant = crib.find(wanted)
    return meant if meant.cutters or not (wanted.kinds or wanted.material or wanted.place) else crib.find(words)


def _row(cutter: Cutter) -> tuple[str, ...]:
    count = "" if cutter.count == 1 and not cutter.away else str(cutter.count) if cutter.count else "missing"
    if cutter.away:
        count = ", ".join([*([count] if cutter.count else []), *cutter.away])
    condition = "" if cutter.condition == "unknown" else cutter.condition
    return str(cutter.id), cutter.label, count, cutter.drawer or "", condition, "; ".join(cutter.questions)
