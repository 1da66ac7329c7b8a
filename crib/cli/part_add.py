"""`crib part NAME add`: a feature by its kind's options, by the number of a question asked before, or in words."""

from __future__ import annotations

from typing import Annotated, Any

import typer
from typer.core import TyperGroup

from crib.app import kinds
from crib.cli import part_change
from crib.cli.declared import Slot
from crib.cli.library import new_app
from crib.cli.slots import YesNoCommand, with_options
from crib.cli.status import Status
from crib.findings.errors import CribError

PLACE_SLOTS = (
    Slot("of_name", "name", "What it is called in the part; else as its kind", "NAME"),
    Slot("of_at", "at", "Where: along, across, such as '1-1/2, .75'; of what runs one number, across its run; more "
         "places behind a semicolon", "PLACE"),
    Slot("of_face", "face", "The face it is cut from: top (as usual), bottom, front, back, left, right", "FACE"),
    Slot("of_runs", "runs", "Which way it runs on its face: along (as usual) or across", "WAY"),
    Slot("of_from", "from", "The corner that its place counts from, such as back left; else the part's own", "CORNER"),
    Slot("of_toward", "toward", "The side that it opens to, of a step or a chamfer: front, back, left ...", "SIDE"),
    Slot("of_level", "level", "How far below the face its own surface lies, as on the floor of a step", "SIZE"),
    Slot("of_after", "after", "The feature that must be made before it", "NAME"),
    Slot("of_before", "before", "The feature that must be made after it", "NAME"),
)
"""Where a feature lies and when it is made, as options."""

_KEYS = {slot.key: slot.name for slot in PLACE_SLOTS}


class _Adding(TyperGroup):
    """A command for each kind of feature; a number is a question's, anything else words."""

    def list_commands(self, ctx: Any) -> list[str]:
        """The names of the kinds."""
        return list(kinds.NAMES)

    def resolve_command(self, ctx: Any, args: list[str]) -> Any:
        """The command that is meant: where more words stand behind a kind's name, they are a question in words."""
        if len(args) > 1 and args[0] in kinds.NAMES and not args[1].startswith("-"):
            return args[0], _other(args[0], "A feature in words."), args[1:]
        return super().resolve_command(ctx, args)

    def get_command(self, ctx: Any, cmd_name: str) -> Any:
        """The command of a kind, of a question or of words."""
        if cmd_name in kinds.NAMES:
            return _of_kind(cmd_name)
        if cmd_name.isascii() and cmd_name.isdigit():
            return _other(cmd_name, "A question that was asked before, by its number (crib asked lists them).")
        return _other(cmd_name, "A feature in words.")


def group() -> Any:
    """The group of what can be put to a part."""
    app = new_app(cls=_Adding, no_args_is_help=True, subcommand_metavar="KIND|NUMBER|WORDS [OPTIONS]",
                  help="Put a feature to the part: its kind with the options of crib make and its place, the number of "
                       "a question that was asked before (crib asked), or 'words' as a shop says it.")
    app.callback()(lambda: None)
    made = typer.main.get_group(app)
    made.name = "add"
    return made


class _Amending(TyperGroup):
    """A command for each feature of the part, with the options of its kind."""

    def list_commands(self, ctx: Any) -> list[str]:
        """None that are always there."""
        return []

    def get_command(self, ctx: Any, cmd_name: str) -> Any:
        """The command of a feature."""
        from crib.app.part.on_file import kind_of

        with ctx.obj.open() as crib:
            kind = kind_of(crib, part_change.name_of(ctx), cmd_name)
        return _command(cmd_name, _amends, [*(slot for slot in PLACE_SLOTS if slot.name != "before"), *_slots(kind)],
                        f"Say something else of {cmd_name}, {kinds.words_of(kind)}.")


def amending() -> Any:
    """The group of the features of which something else can be said."""
    app = new_app(cls=_Amending, no_args_is_help=True, subcommand_metavar="FEATURE [OPTIONS]",
                  help="Say something else of a feature of the part: the options of its kind, and those of its place.")
    app.callback()(lambda: None)
    made = typer.main.get_group(app)
    made.name = "amend"
    return made


def _amends(ctx: typer.Context, *, texts: dict[str, str]) -> Status:
    from crib.app.part.on_file import amend

    said = {_KEYS.get(key, key).replace("_", "-"): text for key, text in texts.items()}
    if not said:
        raise CribError("usage", "it isn't said what else", str(ctx.info_name), "--depth 3/8, --at 1 ...")
    name = part_change.name_of(ctx)
    with ctx.obj.open() as crib:
        amend(crib, name, str(ctx.info_name), said)
    return part_change.shown(ctx.obj, name)


def _slots(kind: str) -> list[Slot]:
    return [Slot(one.key, one.name, one.help, one.value) for one in kinds.fields_of(kind)]


def _of_kind(name: str) -> Any:
    def add(ctx: typer.Context, *, texts: dict[str, str]) -> Status:
        said = {key: text for key, text in texts.items() if key not in _KEYS}
        return _put(ctx, {"kind": name, **said}, texts)

    return _command(name, add, [*PLACE_SLOTS, *_slots(name)], f"Put {kinds.words_of(name)} to the part.")


def _other(name: str, help: str) -> Any:
    """The command of a question's number, or of words: all that stand there."""
    def add(ctx: typer.Context,
            more: Annotated[list[str] | None, typer.Argument(metavar="[WORDS]...")] = None,
            *, texts: dict[str, str]) -> Status:
        from crib.app.part.adding import told

        given = {_KEYS[key]: text for key, text in texts.items() if key in _KEYS}
        with ctx.obj.open() as crib:
            said, read = told(crib, part_change.name_of(ctx), [name, *(more or ())], given)
        return _put(ctx, said, texts, read)

    return _command(name, add, list(PLACE_SLOTS), help)


def _command(name: str, does: Any, slots: list[Slot], help: str) -> Any:
    app = new_app()
    app.command(name, help=help, cls=YesNoCommand)(with_options(slots)(does))
    made = typer.main.get_command(app)
    made.name = name
    return made


def _put(ctx: Any, said: dict[str, str], texts: dict[str, str], read: str = "") -> Status:
    """Put it to the part, and show the part, and before it what was read of words."""
    from crib.app.part.adding import check_place
    from crib.app.part.on_file import add

    where = {_KEYS[key]: text for key, text in texts.items() if key in _KEYS}
    before = where.pop("before", "")
    name = part_change.name_of(ctx)
    block = {"name": where.pop("name", ""), **said, **where}
    with ctx.obj.open() as crib:
        check_place(crib, name, block)
        add(crib, name, block, before)
    return part_change.shown(ctx.obj, name, read)
