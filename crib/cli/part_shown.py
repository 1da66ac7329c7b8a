"""A part planned whole, shown and written to files."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from crib.cli import out
from crib.cli.asked import Asked
from crib.cli.on_paper import NONE, Files
from crib.cli.status import Status
from crib.pages.more import More

if TYPE_CHECKING:
    from crib.app.opening import Crib
    from crib.app.part.plan import Known, PartReply

Steps = Annotated[bool, typer.Option("--steps", help="Also how to touch off, and every pass of every operation")]
Why = Annotated[bool, typer.Option("--why", help="Also the way of each feature, what the minutes come of, and every "
                                   "remark")]
Everything = Annotated[bool, typer.Option("--all", help="All of these")]
Sheet = Annotated[Path | None, typer.Option(help="Write the sheet of the whole part there, to print or for a phone",
                                            metavar="FILE.html")]
Picture = Annotated[Path | None, typer.Option(help="Write there how it lies in each set-up, as a drawing to scale",
                                              metavar="FILE.svg")]
Patience = Annotated[float | None, typer.Option(help="Seconds to look before what was found is told",
                                                metavar="SECONDS", min=0.1)]

_SCREEN = 40
"""Lines that the page has at the most, if it can be told in them."""


def show(asked: Asked, name: str, also: tuple[bool, bool] = (False, False), files: Files = NONE,
         patience: float | None = None) -> Status:
    """The plan of a part, as a page or as JSON; and the files that were asked for. `also`: with every pass, and with
    why it is made so."""
    files.check()
    more = {one for one, is_on in zip((More.STEPS, More.WHY), also, strict=True) if is_on}
    with asked.open() as crib:
        reply = planned(asked, crib, name, patience)
        told(asked, reply, more, patience)
        write(reply, files)
    return status_of(reply)


def status_of(reply: PartReply) -> Status:
    """Whether all of it can be made; that some of it can't be read is a failure."""
    if reply.part.unread:
        return Status.FAILED
    return Status.ANSWERED if reply.planned.operations and not reply.planned.unmade else Status.NO


def planned(asked: Asked, crib: Crib, name: str, patience: float | None = None, known: Known | None = None
            ) -> PartReply:
    """The part planned, with what says how far that is where somebody waits."""
    from crib.app.part.plan import PART_PATIENCE, plan
    from crib.cli.reply import around

    return plan(crib, name, patience or PART_PATIENCE, around(asked), known)


def told(asked: Asked, reply: PartReply, more: Collection[More] = (), patience: float | None = None) -> None:
    """The answer."""
    if reply.ran_out:
        out.note(f"crib: not everything was tried; --patience {4 * (patience or 60):g} goes on for longer")
    if reply.stopped:
        out.note("crib: stopped: this is what was found until then; there may be a better one")
    if asked.json:
        from crib.render.json.part import part_json

        out.answer(asked, part_json(reply.planned, reply.shop.units, reply.sawn, reply.beside) | _unread(reply))
        return
    from crib.pages.part.page import part_page
    from crib.render.words import told as in_words

    for one in reply.part.unread:
        out.note(f"crib: {'; '.join(in_words(one, reply.shop.units))}")
    blocks = part_page(reply.planned, more, reply.blank, reply.news, reply.cautions if more else reply.cautions[:2])
    out.answer(asked, None, out.shown(blocks, reply.shop.units, None if more else _SCREEN))


def _unread(reply: PartReply) -> dict[str, Any]:
    """What of the part can't be read; the rest is planned."""
    from crib.render.json.findings import error_json

    those = [error_json(one, reply.shop.units) for one in reply.part.unread]
    return {"error": those[0], "unread": those} if those else {}


def write(reply: PartReply, files: Files) -> None:
    """The sheet and the picture, where they are asked for. Raises `CribError` where a file can't be written."""
    if files.sheet is None and files.picture is None:
        return
    from crib.app.export import write as written
    from crib.pages.part.scene import scenes
    from crib.render.html.part_sheet import part_sheet_html
    from crib.render.svg.part import parts_svg

    sheet = part_sheet_html(reply.planned, reply.shop, None, reply.blank, reply.news, reply.cautions,
                        reply.squaring)
    drawn = parts_svg(scenes(reply.planned).those) if sheet else None
    for path, what, text in ((files.sheet, "sheet of the part", sheet), (files.picture, "picture", drawn)):
        if path is None:
            continue
        if text is None:
            out.note(f"crib: no {what} was written: nothing of it has a plan")
            continue
        written(path, text, files.over)
        out.note(f"{what} written to {path}")


def before_after(asked: Asked, without: str, more: Sequence[str]) -> Status:
    """What some cutters less and some more change in every part on file."""
    from crib.app.part.changes import changes, numbers_of
    from crib.pages.part.changes import changes_page, differences
    from crib.render.words import told as in_words
    from crib.render.words import words

    with asked.open() as crib:
        found, units = changes(crib, numbers_of(without), more), crib.units
    pairs = [(one.name, one.now, one.then) for one in found.parts if one.now and one.then]
    for one in found.parts:
        if one.fault:
            out.note(f"crib: {one.name} can't be planned: {in_words(one.fault, units)[0]}")
    document = {"without": [one.as_json() for one in found.without], "with": [one.as_json() for one in found.more],
                "parts": [{"part": name, "minutes": now.minutes, "minutes_then": then.minutes,
                           "unmade": [each.feature for each in now.unmade],
                           "unmade_then": [each.feature for each in then.unmade],
                           "changes": [words(each, units) for each in differences(now, then)]}
                          for name, now, then in pairs]}
    out.answer(asked, document, lambda: out.shown(changes_page(found.without, found.more, pairs), units))
    return Status.ANSWERED if pairs else Status.NO
