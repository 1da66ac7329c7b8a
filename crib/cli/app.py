"""The program: what was asked, handed to one command, and every way that it can end."""

from __future__ import annotations

import contextlib
import io
import os
import sys
from collections.abc import Sequence
from importlib import import_module
from typing import Any

import typer
from typer.core import TyperGroup

from crib.cli import out
from crib.cli.asked import HELP, Asked, is_on, split
from crib.cli.commands import COMMANDS
from crib.cli.status import Status
from crib.findings import notices
from crib.findings.errors import CribError, failure
from crib.findings.finding import Finding

_HELP_NAMES = ["-h", "--help"]
_SETTINGS: dict[str, Any] = {"help_option_names": _HELP_NAMES}
_EPILOG = "--crib, --units and --json may stand anywhere: see crib --help."


class Commands(TyperGroup):
    """The group of all commands; a command's module is imported when it is wanted and not before."""

    def list_commands(self, ctx: typer.Context) -> list[str]:  # type: ignore[override]
        """The names of all commands, in order."""
        return list(COMMANDS)

    def get_command(self, ctx: typer.Context, cmd_name: str) -> Any:  # type: ignore[override]
        """The command of a name, imported now."""
        return _load(cmd_name) if cmd_name in COMMANDS else None

    def resolve_command(self, ctx: typer.Context, args: list[str]) -> Any:  # type: ignore[override]
        """The command that is meant. Raises `CribError` with the near names for one that there isn't."""
        if args[0] not in COMMANDS and not args[0].startswith("-"):
            from crib.intake.near import one_of

            raise CribError("usage", f"there is no command {args[0]!r}", args[0], one_of(args[0], COMMANDS))
        return super().resolve_command(ctx, args)

    def format_commands(self, ctx: typer.Context, formatter: Any) -> None:  # type: ignore[override]
        """Every command with its line of help, and nothing imported for it."""
        with formatter.section("Commands"):
            formatter.write_dl([(name, entry.help) for name, entry in COMMANDS.items()])

    def format_options(self, ctx: typer.Context, formatter: Any) -> None:  # type: ignore[override]
        """The options that go anywhere."""
        with formatter.section("Options, before or after the command"):
            formatter.write_dl(list(HELP))
        self.format_commands(ctx, formatter)


def new_app(**settings: Any) -> typer.Typer:
    """A `typer.Typer` in the program's own style: plain help, no completion, errors left to us."""
    return typer.Typer(rich_markup_mode=None, pretty_exceptions_enable=False, add_completion=False,
                       context_settings=_SETTINGS, **settings)


def run(words: Sequence[str]) -> Status:
    """Carry out one command line, print its answer, and give its status. Nothing but a bug is raised with --debug."""
    out.prepare()
    as_json = is_on("--json", words)
    if sys.stdout is None:
        return _fail(words, False, failure("stdout", "there is nowhere to print the answer", "", ""), None)
    try:
        try:
            status = _answer(words)
        finally:
            for said in notices.take():
                out.note(f"crib: {said}")
        if status is Status.STOPPED:
            raise KeyboardInterrupt
        out.flush()
        return status
    except CribError as error:
        return _fail(words, as_json, error.finding, error)
    except typer.TyperException as error:
        return _fail(words, as_json, _usage(words, error), error)
    except (KeyboardInterrupt, typer.Abort):
        return _fail(words, as_json, failure("stopped", "stopped", "", ""), None, Status.STOPPED)
    except (BrokenPipeError, SystemExit):
        _forget_stdout()
        return Status.FAILED
    except Exception as error:
        return _fail(words, as_json, _bug(words, error), error)


def _answer(words: Sequence[str]) -> Status:
    for word in words:
        if any("\ud800" <= sign <= "\udfff" for sign in word):
            raise CribError("encoding", f"{word!a} isn't UTF-8 text", ascii(word), "type it again in UTF-8")
    asked, rest = split(words, {name: entry.keeps for name, entry in COMMANDS.items()})
    if not rest and (asked.json or words):
        raise CribError("usage", "no command is given", " ".join(words), "one of " + ", ".join(COMMANDS))
    if asked.json and any(name in rest for name in _HELP_NAMES):
        with contextlib.redirect_stdout(io.StringIO()) as shown:
            _dispatch(asked, rest)
        out.answer(asked, {"help": shown.getvalue()}, ())
        return Status.ANSWERED
    return _dispatch(asked, rest or ["--help"])


def _dispatch(asked: Asked, rest: list[str]) -> Status:
    app = new_app(cls=Commands, help="Which cutter that I already own can make this, and how?")
    app.callback()(lambda: None)
    answered = typer.main.get_command(app).main(args=rest, prog_name="crib", standalone_mode=False, obj=asked)
    return Status(answered) if isinstance(answered, int) else Status.ANSWERED


def _load(name: str) -> Any:
    entry = COMMANDS[name]
    module, _, attribute = entry.target.partition(":")
    try:
        target = getattr(import_module(module), attribute)
    except ModuleNotFoundError as error:
        if error.name != module:
            raise
        raise CribError("usage", f"the command {name!r} is not part of this installation", name,
                        "install the whole program again") from error
    if isinstance(target, typer.Typer):
        target.rich_markup_mode = None
        command: Any = typer.main.get_group(target)
    else:
        app = new_app()
        app.command(name, help=entry.help, epilog=_EPILOG, **getattr(target, "settings", {}))(target)
        command = typer.main.get_command(app)
    command.name = name
    command.help = command.help or entry.help
    return command


def _usage(words: Sequence[str], error: typer.TyperException) -> Finding:
    """A usage error of the parser, in our shape."""
    context = getattr(error, "ctx", None)
    path = context.command_path if context is not None else "crib"
    if type(error).__name__ == "NoArgsIsHelpError":
        return failure("usage", f"{path} needs a word more", " ".join(words), f"{path} --help shows which")
    what = error.format_message().rstrip(".")
    return failure("usage", what[:1].lower() + what[1:], " ".join(words), f"{path} --help shows what it takes")


def _bug(words: Sequence[str], error: Exception) -> Finding:
    if isinstance(error, OSError):
        return failure("system", f"the system says: {(error.strerror or str(error)).lower()}", "", "")
    what = f"the program failed: {type(error).__name__}: {error}"
    return failure("bug", what, " ".join(words), "that is a fault of the program; --debug shows where")


def _fail(words: Sequence[str], as_json: bool, found: Finding, error: BaseException | None,
          status: Status = Status.FAILED) -> Status:
    """Say what went wrong, and where if that was asked for."""
    if error is not None and is_on("--debug", words):
        import traceback

        traceback.print_exception(error)
    try:
        out.failure(as_json, found, _units(words, found))
        out.flush()
    except OSError:
        _forget_stdout()
        out.note(f"crib: {error or found.says}")
    return status


def _units(words: Sequence[str], found: Finding) -> str:
    """The units to say it in, as far as the words tell where the crib is."""
    from crib.app.opening import units_for

    try:
        asked, _ = split(words, {name: entry.keeps for name, entry in COMMANDS.items()})
    except CribError:
        asked = Asked()
    return units_for(found, asked.crib, asked.units)


def _forget_stdout() -> None:
    """Nobody reads any more: keep the interpreter from complaining when it shuts down."""
    with contextlib.suppress(OSError, ValueError):
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
