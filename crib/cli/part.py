"""`crib part`: the parts that are to be made, each with its features, and how it is made whole."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated, Any

import typer
from typer.core import TyperGroup

from crib.cli import out, part_add, part_change, part_made, part_shown
from crib.cli.asked import Asked
from crib.cli.library import new_app, once
from crib.cli.on_paper import Files
from crib.cli.part_shown import Everything, Patience, Picture, Sheet, Steps, Why
from crib.cli.status import Status
from crib.findings.errors import CribError

_NAME_HELP = "NAME stands for the part's name: crib part slide --help shows what can be done with it."


class Parts(TyperGroup):
    """A command for every part: whatever stands there is a part's name."""

    def get_command(self, ctx: Any, cmd_name: str) -> Any:
        """The command of a part."""
        return _of_part(cmd_name)

    def list_commands(self, ctx: Any) -> list[str]:
        """None that are always there."""
        return []


app = new_app(cls=Parts, subcommand_metavar="[NAME [COMMAND] ...]", epilog=_NAME_HELP,
              help="Parts to be made: what they are, and how the whole of one is made with what you own.")


@app.callback(invoke_without_command=True)
def listed(
    ctx: typer.Context,
    without: Annotated[str, typer.Option(help="What it changes in the parts to be without these cutters",
                                         metavar="NUMBER,...")] = "",
    more: Annotated[list[str] | None, typer.Option("--with", help="What it changes to have one more: '3/8 keyseat "
                                                   "cutter'", metavar="WORDS")] = None,
) -> Status:
    """The parts that are on file; what other cutters would change in them."""
    if ctx.invoked_subcommand is not None:
        return Status.ANSWERED
    if without or more:
        return part_shown.before_after(ctx.obj, without, more or ())
    from crib.app.part.on_file import parts
    from crib.pages.part.listing import parts_page
    from crib.render.json.part import drawing_json
    from crib.render.words import told

    asked: Asked = ctx.obj
    with asked.open() as crib:
        every, units = parts(crib), crib.units
    known = [read.part for _, read in every if read.part is not None]
    lines = [*out.shown(parts_page(known), units)] if known else ["no parts yet", "begin one: crib part slide --stock "
                                                                  "'4 x 2 x 1' --material 1018"]
    lines += [f"{kept.name}: {told(found, units)[0]}" for kept, read in every for found in read.unread]
    out.answer(asked, {"parts": [{"part": part.name, "drawing": drawing_json(part)} for part in known]}, lines)
    return Status.ANSWERED if every else Status.NO


@once
def _of_part(name: str) -> Any:
    """The group of what can be done with a part."""
    part = new_app(help=f"The part {name}: what it is and how it is made; with options made or changed.",
                   subcommand_metavar="[COMMAND] ...")
    part.callback(invoke_without_command=True)(one)
    part_change.put_into(part)
    part_made.put_into(part)
    group: Any = typer.main.get_group(part)
    group.add_command(part_add.group(), "add")
    group.add_command(part_add.amending(), "amend")
    group.name = name
    return group


def one(
    ctx: typer.Context,
    stock: Annotated[str, typer.Option(help="The squared stock: '4 x 2 x 1', of a bar '1-1/2 round x 6'",
                                       metavar="SIZES")] = "",
    material: Annotated[str, typer.Option(help="What it is made of", metavar="WORDS")] = "",
    hours: Annotated[str, typer.Option(help="Hours of work already in it", metavar="HOURS")] = "",
    fits: Annotated[str, typer.Option(help="What it goes with", metavar="WORDS")] = "",
    use: Annotated[str, typer.Option(help="What it is for: cover, slide, load ...", metavar="WORDS")] = "",
    datum: Annotated[str, typer.Option(help="The corner to count from: front left, back left ...", metavar="CORNER")
                     ] = "",
    source: Annotated[Path | None, typer.Option("--from", help="Read the whole part from a file", metavar="FILE.toml")
                      ] = None,
    to: Annotated[Path | None, typer.Option(help="Write the part there", metavar="FILE.toml")] = None,
    over: Annotated[bool, typer.Option("--over", help="Write over what is there")] = False,
    steps: Steps = False,
    why: Why = False,
    everything: Everything = False,
    sheet: Sheet = None,
    picture: Picture = None,
    patience: Patience = None,
) -> Status:
    """How a part is made whole; made or changed where anything is said of it."""
    if ctx.invoked_subcommand is not None:
        return Status.ANSWERED
    asked: Asked = ctx.obj
    name = str(ctx.info_name)
    said = {key: text for key, text in (("stock", stock), ("material", material), ("hours", hours), ("fits", fits),
                                        ("use", use), ("datum", datum)) if text}
    if source is not None:
        return _read_in(asked, name, source, over, bool(said))
    if said:
        return _made(asked, name, said)
    if to is not None:
        return _written(asked, name, to, over)
    return part_shown.show(asked, name, (steps or everything, why or everything), Files(sheet, picture, over), patience)


def _read_in(asked: Asked, name: str, source: Path, over: bool, also: bool) -> Status:
    from crib.app.part.on_file import from_file

    if also:
        raise CribError("usage", "--from says all that a part is; nothing goes with it", str(source), "--from alone")
    with asked.open(create=True) as crib:
        from_file(crib, name, source, over)
    return part_change.shown(asked, name)


def _made(asked: Asked, name: str, said: dict[str, str]) -> Status:
    from crib.app.part.on_file import make

    with asked.open(create=True) as crib:
        make(crib, name, said)
    return part_change.shown(asked, name)


def _written(asked: Asked, name: str, to: Path, over: bool) -> Status:
    from crib.app.part.on_file import to_file

    with asked.open() as crib:
        kept = to_file(crib, name, to, over)
    out.answer(asked, {"part": kept.name, "file": str(to)}, [f"{kept.name} is written to {to}"])
    return Status.ANSWERED
