"""Groups with a command for each kind of feature, made when it is wanted."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Any

import typer
from typer.core import TyperGroup

from crib.app import kinds
from crib.cli.app import new_app
from crib.cli.slots import Slot, with_options


def group(help: str, command: Callable[[str], Any]) -> typer.Typer:
    """A group whose commands are the kinds of feature; `command` makes one."""
    class Features(TyperGroup):
        """A command for each kind of feature."""

        def list_commands(self, ctx: typer.Context) -> list[str]:  # type: ignore[override]
            """The names of the kinds."""
            return list(kinds.NAMES)

        def get_command(self, ctx: typer.Context, cmd_name: str) -> Any:  # type: ignore[override]
            """The command of a kind."""
            return command(cmd_name) if cmd_name in kinds.NAMES else None

        def resolve_command(self, ctx: typer.Context, args: list[str]) -> Any:  # type: ignore[override]
            """The command that is meant. Raises `CribError` for a kind that there isn't, or isn't yet."""
            if not args[0].startswith("-"):
                kinds.check(args[0])
            return super().resolve_command(ctx, args)

    app = new_app(cls=Features, help=help, no_args_is_help=True)
    app.callback()(lambda: None)
    return app


def command(name: str, does: Callable[..., Any], help: str, epilog: str | None = None, more: Iterable[Slot] = ()
            ) -> Any:
    """The command of a kind: a function that takes `texts`, with an option for each size and each thing `more`."""
    slots = [*(Slot(one.key, one.name, one.help, one.value) for one in kinds.fields_of(name)), *more]
    app = new_app()
    app.command(name, help=help, epilog=epilog)(with_options(slots)(does))
    made = typer.main.get_command(app)
    made.name = name
    return made
