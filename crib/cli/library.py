"""The command-line library: help, and every command line that isn't plain (see `crib.cli.plain`)."""

from __future__ import annotations

import re
import shutil
from collections.abc import Sequence
from functools import lru_cache
from typing import Any

import typer
from typer.core import TyperGroup

from crib.cli.asked import Asked
from crib.cli.commands import COMMANDS, target
from crib.cli.declared import Command, Group
from crib.cli.first_page import ABOUT, first_page
from crib.cli.slots import YesNoCommand, grouped, with_options
from crib.findings.errors import CribError

_SETTINGS: dict[str, Any] = {"help_option_names": ["-h", "--help"]}
_NO_NUMBER = re.compile(r"is not a valid (?:float|int(?:eger)?)(?: range)?$")
_NO_ID = re.compile(r"^Invalid value for '\[?ID\]?': '([^']*[^'\d ][^']*)' is not a number$")
_TOO_SMALL = re.compile(r"is not in the range x>=(\S+)$")
_EPILOG = "--crib, --units and --json may stand anywhere: see crib --help."

once = lru_cache(maxsize=128)
"""For what builds a command: that takes longer than many a line does, and whoever runs many lines in one process, as
the tests do, is given the command that was built for the first."""


class Commands(TyperGroup):
    """The group of all commands; a command's module is imported when it is wanted and not before."""

    def list_commands(self, ctx: typer.Context) -> list[str]:  # type: ignore[override]
        """The names of all commands, in order."""
        return list(COMMANDS)

    def get_command(self, ctx: typer.Context, cmd_name: str) -> Any:  # type: ignore[override]
        """The command of a name, imported now."""
        return loaded(cmd_name) if cmd_name in COMMANDS else None

    def resolve_command(self, ctx: typer.Context, args: list[str]) -> Any:  # type: ignore[override]
        """The command that is meant. Raises `CribError` with the near names for one that there isn't."""
        if args[0] not in COMMANDS and not args[0].startswith("-"):
            from crib.cli.meant import other_words
            from crib.intake.near import one_of

            meant = other_words(args[0])
            raise CribError("usage", f"there is no command {args[0]!r}", args[0],
                            f"did you mean {' or '.join(meant)}?" if meant else one_of(args[0], COMMANDS))
        return super().resolve_command(ctx, args)

    def get_help(self, ctx: typer.Context) -> str:  # type: ignore[override]
        """Every command with its line of help, and nothing imported for it."""
        return first_page(shutil.get_terminal_size().columns)


def new_app(**settings: Any) -> typer.Typer:
    """A `typer.Typer` in the program's own style: plain help, no completion, errors left to us."""
    return typer.Typer(rich_markup_mode=None, pretty_exceptions_enable=False, add_completion=False,
                       context_settings=_SETTINGS, **settings)


def dispatch(asked: Asked, rest: Sequence[str], words: Sequence[str]) -> Any:
    """Have the library read what is left of a command line and carry it out. Raises `CribError`, with all the words,
    for what it doesn't understand."""
    app = new_app(cls=Commands, help=ABOUT)
    app.callback()(lambda: None)
    try:
        return typer.main.get_command(app).main(args=list(rest), prog_name="crib", standalone_mode=False, obj=asked)
    except typer.TyperException as error:
        raise CribError(*_usage(words, error)) from error
    except typer.Abort as error:
        raise KeyboardInterrupt from error


@once
def loaded(name: str) -> Any:
    """The command of a name, as the library has it."""
    entry, does = COMMANDS[name], target(name)
    if isinstance(does, Group):
        command = _group(does)
    elif isinstance(does, typer.Typer):
        does.rich_markup_mode = None
        command = typer.main.get_group(does)
    else:
        app = new_app()
        of_slots = isinstance(does, Command)
        app.command(name, help=entry.help, epilog=_EPILOG, cls=YesNoCommand if of_slots else None)(
            with_options(does.slots)(does.does) if of_slots else does)
        command = typer.main.get_command(app)
    command.name = name
    command.help = command.help or entry.help
    return command


def _group(group: Group) -> Any:
    """A group whose commands are the kinds of feature."""
    class Features(TyperGroup):
        """A command for each kind of feature."""

        def list_commands(self, ctx: typer.Context) -> list[str]:  # type: ignore[override]
            """The names of the kinds."""
            return list(group.names)

        def get_command(self, ctx: typer.Context, cmd_name: str) -> Any:  # type: ignore[override]
            """The command of a kind."""
            return _command(group.of(cmd_name)) if cmd_name in group.names else None

        def resolve_command(self, ctx: typer.Context, args: list[str]) -> Any:  # type: ignore[override]
            """The command that is meant. Raises `CribError` for a kind that there isn't, or isn't yet."""
            if not args[0].startswith("-"):
                group.check(args[0])
            return super().resolve_command(ctx, args)

    app = new_app(cls=Features, help=group.help, no_args_is_help=True)
    app.callback()(lambda: None)
    return typer.main.get_group(app)


@once
def _command(one: Command) -> Any:
    app = new_app()
    groups = {f"--{slot.name}": slot.group for slot in one.slots if slot.group}
    app.command(one.name, help=one.help, epilog=one.epilog, cls=grouped(groups))(with_options(one.slots)(one.does))
    made = typer.main.get_command(app)
    made.name = one.name
    return made


def _usage(words: Sequence[str], error: typer.TyperException) -> tuple[str, str, str, str]:
    """A usage error of the library, in our shape."""
    context = getattr(error, "ctx", None)
    named = next((word for word in words if word in COMMANDS), "")
    path = context.command_path if context is not None else f"crib {named}".rstrip()
    if type(error).__name__ == "NoArgsIsHelpError":
        such = {"make": "; such as: crib make \"slot 3/8 wide 1/4 deep in brass\""}.get(named, "")
        return "usage", f"{path} needs a word more", " ".join(words), f"{path} --help shows which{such}"
    what = _NO_NUMBER.sub("is not a number", error.format_message().rstrip("."))
    what = _TOO_SMALL.sub(r"is too small: \1 is the least", what)
    if said := _NO_ID.search(what):
        fix = f"crib find {said[1]} lists their numbers"
        return "usage", f"{said[1]!r} is not the number of a cutter", said[1], fix
    return "usage", what[:1].lower() + what[1:], " ".join(words), f"{path} --help shows what it takes"
