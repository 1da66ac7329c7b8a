"""`crib find`: cutters by words and sizes."""

from __future__ import annotations

from collections.abc import Iterator

from crib.app import looking
from crib.app.opening import Cutter
from crib.cli import out
from crib.cli.asked import Asked
from crib.cli.later import typer
from crib.cli.status import Status
from crib.light.hints import Annotated


def find(
    ctx: typer.Context,
    words: Annotated[list[str] | None, typer.Argument(
        help="What must fit: keyseat about 5/8, carbide in drawer B2, what fits the 3/8 collet")] = None,
    every: Annotated[bool, typer.Option("--all", help=f"All rows, not the first {out.MOST_ROWS}")] = False,
) -> Status:
    """Find cutters, best match first; all of them without words."""
    asked: Asked = ctx.obj
    most = None if every or asked.json else out.MOST_ROWS
    with asked.open() as crib:
        found = looking.find(crib, words or [], most)
    for word, taken_for in found.read_as.items():
        if found.cutters and word != taken_for:
            out.note(f"nothing fits {word!r}; read as {taken_for!r}")
    out.answer(asked, lambda: _document(found), lambda: _lines(found, most, " ".join(words or [])))
    return Status.ANSWERED if found.cutters else Status.NO


def _document(found: looking.Found) -> Iterator[str]:
    """What was found, as the pieces of a document."""
    from crib.app.export import as_json

    return as_json(found.cutters, {"read_as": found.read_as})


def _lines(found: looking.Found, most: int | None, words: str) -> list[str]:
    if not found.cutters:
        return [f"nothing fits {words}".rstrip()]
    shown = found.cutters[:most]
    more = len(found.cutters) - len(shown) + found.more
    lines = out.table(("no", "cutter", "count", "drawer", "condition", "to ask"), [_row(one) for one in shown])
    if more:
        lines.append(f"and {more} more; another word narrows it down, --all shows them")
    return lines


def _row(cutter: Cutter) -> tuple[str, ...]:
    count = "" if cutter.count == 1 and not cutter.away else str(cutter.count) if cutter.count else "missing"
    if cutter.away:
        count = ", ".join([*([count] if cutter.count else []), *cutter.away])
    condition = "" if cutter.condition == "unknown" else cutter.condition
    return str(cutter.id), cutter.label, count, cutter.drawer or "", condition, "; ".join(cutter.questions)
