"""The parts that are to be made: listed, sent in as a file or as text, taken out again."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from starlette.responses import Response

from crib.app.part import on_file
from crib.app.part.changes import changes, numbers_of
from crib.findings.errors import CribError
from crib.findings.finding import Finding
from crib.pages.part.changes import changes_page
from crib.pages.part.listing import stock_in_words
from crib.parts.part import Part
from crib.render.html.page import fragment
from crib.render.words import told, words
from crib.web.bench import News
from crib.web.call import Call


def parts(call: Call) -> Response:
    """Every part, and a form for one more."""
    return page(call)


def page(call: Call, failed: Finding | None = None) -> Response:
    """The same with what went wrong."""
    rows: list[dict[str, Any]] = []
    if call.bench.has_crib():
        with call.open() as crib:
            rows = [_row(kept.name, read.part, read.unread, crib.units) for kept, read in on_file.parts(crib)]
    return call.page("part_list.html", 400 if failed else 200, rows=rows, failed=failed,
                     typed=call.typed if failed else {})


def _row(name: str, part: Part | None, unread: Iterable[Finding], units: str) -> dict[str, Any]:
    faults = [told(one, units)[0] for one in unread]
    if part is None:
        return {"name": name, "features": 0, "stock": "", "material": "", "fits": "", "faults": faults}
    return {"name": name, "features": len(part.features), "stock": words(stock_in_words(part.stock), units),
            "material": part.material, "fits": part.fits, "faults": faults}


def changed(call: Call) -> Response:
    """What some cutters less and one more would change in every part on file."""
    without, more = call.text("without"), [text for text in (call.text("more"),) if text]
    try:
        if not (without or more):
            raise CribError("usage", "no cutter is named", "", "a number, or a cutter in your own words")
        with call.open() as crib, call.bench.planning:
            found, units = changes(crib, numbers_of(without), more), crib.units
    except CribError as error:
        return page(call, error.finding)
    pairs = [(one.name, one.now, one.then) for one in found.parts if one.now and one.then]
    return call.page("part_changes.html", blocks=fragment(changes_page(found.without, found.more, pairs), units),
                     faults=[(one.name, told(one.fault, units)[0]) for one in found.parts if one.fault])


def keep(call: Call) -> Response:
    """Keep a part as it was typed or sent; of a file and a text the file."""
    text = call.typed.get("file") or call.typed.get("text", "")
    name, version = call.text("name"), call.number("since")
    try:
        if not text.strip():
            raise CribError("usage", "no part was typed, and no file was sent", "", "a part's file, or its text")
        with call.open(create=True) as crib:
            kept = on_file.keep_text(crib, name or on_file.name_in(text), text, version)
    except CribError as error:
        from crib.web import part

        return part.page(call, name, error.finding) if version else page(call, error.finding)
    return call.go("/part", news=News(f"part-{kept.name}-text" if version else "part-new", "Kept."), name=kept.name)


def download(call: Call) -> Response:
    """A part's text as its owner wrote it."""
    with call.open() as crib:
        kept = on_file.find(crib, call.text("name"))
    safe = "".join(sign if sign.isascii() and (sign.isalnum() or sign in "-_") else "-" for sign in kept.name) or "part"
    return Response(kept.text, media_type="application/toml; charset=utf-8", headers={
        "content-disposition": f'attachment; filename="{safe}.toml"', "x-content-type-options": "nosniff"})
