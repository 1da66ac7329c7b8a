"""`crib take-in`: record a cutter by its options, or a file of them."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Annotated

import typer

from crib.cli import out
from crib.cli.asked import Asked
from crib.cli.attribute_options import CUTTER_SLOTS
from crib.cli.slots import with_options
from crib.cli.status import Status
from crib.cutters.base import Cutter
from crib.diagnostics import CribError
from crib.intake.files import read_file
from crib.intake.near import one_of
from crib.intake.options import read_options, read_words
from crib.intake.reading import Reading
from crib.planning.shop import Shop
from crib.store import SOURCES, HeldBack, crib_exists, open_crib


@with_options(CUTTER_SLOTS)
def take_in(
    ctx: typer.Context,
    text: Annotated[list[str] | None, typer.Argument(help="What it is, in words (kept for later)")] = None,
    file: Annotated[Path | None, typer.Option("--file", help="A CSV or JSON file of cutters")] = None,
    source: Annotated[str | None, typer.Option("--from", help="Where from: " + ", ".join(SOURCES))] = None,
    yes: Annotated[bool, typer.Option("--yes", help="Take in without asking")] = False,
    *,
    texts: dict[str, str],
) -> Status:
    """Record cutters; what can't be read is held back with why."""
    asked: Asked = ctx.obj
    if source is not None and source not in SOURCES:
        raise CribError("choice", f"--from {source!r} is not known", source, one_of(source, SOURCES))
    began = not crib_exists(asked.crib)
    reading = _read(asked, text or [], file, texts, _shop(asked, began))
    with open_crib(asked.crib, create=True, units=asked.units) as crib, crib.transaction():
        taken = crib.take_in([one.cutter for one in reading.taken], source, [one.typed for one in reading.taken])
        crib.hold_back(reading.held_back)
    if began:
        out.note("began a new crib")
    for said in reading.notes:
        out.note(said)
    _answer(asked, taken, reading.held_back)
    return Status.ANSWERED if taken else Status.NO


def _shop(asked: Asked, began: bool) -> Shop:
    if began:
        return Shop()
    with open_crib(asked.crib, create=True) as crib:
        return crib.shop()


def _read(asked: Asked, words: list[str], file: Path | None, texts: Mapping[str, str], shop: Shop) -> Reading:
    units = asked.units or shop.units
    described = set(texts) - {"drawer"}
    if (file is not None) + bool(words) + bool(described) > 1:
        raise CribError("usage", "a file, words and options don't go together", " ".join(words),
                        "one of them at a time")
    if file is not None:
        return read_file(file, units, shop.currency, texts)
    if words:
        return read_words(words, texts)
    if not described:
        raise CribError("usage", "nothing to take in", "",
                        "crib take-in --kind end-mill --diameter 1/2, or --file FILE")
    return read_options(texts, units, shop.currency)


def _answer(asked: Asked, taken: list[Cutter], held: tuple[HeldBack, ...]) -> None:
    document = {
        "taken_in": [cutter.as_json() for cutter in taken],
        "held_back": [{"line": one.line, "text": one.text, "why": one.why, "help": one.help} for one in held],
    }
    rows = [(str(cutter.id), cutter.label, "; ".join(cutter.questions)) for cutter in taken]
    lines = out.table(("no", "taken in", "to ask"), rows) if taken else []
    for one in held:
        lines += [f"held back, line {one.line}: {one.text}", f"    {one.why}; {one.help}"]
    out.answer(asked, document, lines)
