"""What can be done with a part that is on file: `move`, `drop`, `before`; and showing what it is then."""

from __future__ import annotations

from typing import Annotated, Any

import typer

from crib.cli import out
from crib.cli.asked import Asked
from crib.cli.status import Status
from crib.findings.errors import CribError

_FEATURE = "A feature of the part, by its name or its number in the list"


def put_into(app: typer.Typer) -> None:
    """Give the group of a part its commands."""
    app.command("move", help="Say where a feature lies.")(move)
    app.command("drop", help="Take a feature off the part, or the part off the list.")(drop)
    app.command("before", help="Have a feature made before another.")(before)


def name_of(ctx: Any) -> str:
    """The part that a command is about: what stands behind `crib part`."""
    while ctx.parent is not None and ctx.parent.info_name != "part":
        ctx = ctx.parent
    return str(ctx.info_name)


def move(
    ctx: typer.Context,
    feature: Annotated[str, typer.Argument(help=_FEATURE)],
    at: Annotated[str, typer.Option(help="Along, across: '1-1/2, .75'", metavar="PLACE")] = "",
    face: Annotated[str, typer.Option(help="The face it is cut from", metavar="FACE")] = "",
    runs: Annotated[str, typer.Option(help="along or across", metavar="WAY")] = "",
    from_: Annotated[str, typer.Option("--from", help="The corner that its place counts from", metavar="CORNER")] = "",
    toward: Annotated[str, typer.Option(help="The side that it opens to", metavar="SIDE")] = "",
    level: Annotated[str, typer.Option(help="How far below the face its surface lies", metavar="SIZE")] = "",
) -> Status:
    """Say where a feature lies."""
    from crib.app.part.on_file import amend

    said = {key: text for key, text in (("at", at), ("face", face), ("runs", runs), ("from", from_),
                                        ("toward", toward), ("level", level)) if text}
    if not said:
        raise CribError("usage", "it isn't said where to", feature, "--at '1-1/2, .75', --face front ...")
    with ctx.obj.open() as crib:
        amend(crib, name_of(ctx), feature, said)
    return shown(ctx.obj, name_of(ctx))


def drop(
    ctx: typer.Context,
    feature: Annotated[str, typer.Argument(help=_FEATURE)] = "",
    whole: Annotated[bool, typer.Option("--whole", help="The whole part")] = False,
) -> Status:
    """Take a feature off the part, or the part off the list."""
    from crib.app.part import on_file as use

    name = name_of(ctx)
    if bool(feature) == whole:
        raise CribError("usage", "it isn't said what to take off" if whole is False else
                        "a feature and the whole part don't go together", feature, "a feature's name, or --whole")
    with ctx.obj.open() as crib:
        if not whole:
            use.drop(crib, name, feature)
        else:
            gone = crib.drop_part(use.find(crib, name).name)
            out.answer(ctx.obj, {"dropped": gone.name}, [f"{gone.name} is off the list; crib undo brings it back"])
    return Status.ANSWERED if whole else shown(ctx.obj, name)


def before(
    ctx: typer.Context,
    first: Annotated[str, typer.Argument(help="The feature to be made first", metavar="FIRST")],
    then: Annotated[str, typer.Argument(help="The feature to be made after it", metavar="THEN")],
) -> Status:
    """Have a feature made before another."""
    from crib.app.part.on_file import put_before

    with ctx.obj.open() as crib:
        put_before(crib, name_of(ctx), first, then)
    return shown(ctx.obj, name_of(ctx))


def shown(asked: Asked, name: str, read: str = "") -> Status:
    """What the part is, and the order that must hold; that some of it can't be read or can't be so is a failure.
    `read`: how words were read that were put to it."""
    from crib.app.part.on_file import look
    from crib.pages.part.listing import part_page
    from crib.render.json.findings import error_json, warning_json
    from crib.render.json.part import drawing_json
    from crib.render.words import worded

    with asked.open() as crib:
        seen, units = look(crib, name), crib.units
    order = [{"first": one.first, "then": one.then, "why": one.why} for one in seen.order]
    faults = [error_json(one, units) for one in seen.faults]
    document = {"part": seen.part.name, "drawing": drawing_json(seen.part), "order": order,
                "findings": [warning_json(one) for one in seen.findings]}
    document |= {"read_line": read} if read else {}
    first = [f"Read      {read}", ""] if read else []
    out.answer(asked, worded({**document, **({"error": faults[0], "unread": faults} if faults else {})}, units),
               lambda: [*first, *out.shown(part_page(seen.part, seen.order, seen.findings, seen.faults), units)])
    return Status.FAILED if faults else Status.ANSWERED
