"""All that can be typed: each command with its commands, its options and what each takes. Made of the commands
themselves, for what is printed of all of them at once: completions for a shell, the page for `man`."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from typing import Any

from crib.cli.asked import HELP
from crib.cli.commands import COMMANDS
from crib.light.records import dataclass

_OF_A_CUTTER = ("take-in", "amend", "held-back")
"""Commands whose options are a cutter's attributes."""

_FILES = ("file", "path", "crib", "csv")


@dataclass(frozen=True)
class Option:
    """An option: its names, what its value is called (empty where it has none), what there is to choose from, whether
    it takes a file, its line of help."""

    names: tuple[str, ...]
    value: str
    choices: tuple[str, ...]
    is_file: bool
    help: str


@dataclass(frozen=True)
class Words:
    """A command: its path, such as `("make", "slot")`, its lines of help, how it is used, its commands, its options."""

    path: tuple[str, ...]
    short: str
    help: str
    usage: str
    commands: tuple[str, ...]
    options: tuple[Option, ...]


@cache
def everything() -> tuple[Words, ...]:
    """The program, then every command, each before its own commands."""
    return tuple(_commands())


def _commands() -> Iterator[Words]:
    yield Words((), "", "", "[OPTIONS] COMMAND [ARGS]...", tuple(COMMANDS), ANYWHERE)
    from crib.cli.library import loaded

    for name, entry in COMMANDS.items():
        yield from _walk((name,), loaded(name), entry.help)


def _walk(path: tuple[str, ...], command: Any, short: str) -> Iterator[Words]:
    import typer

    context = typer.Context(command, info_name=" ".join(path))
    names = tuple(command.list_commands(context)) if hasattr(command, "list_commands") else ()
    usage = " ".join(command.collect_usage_pieces(context))
    yield Words(path, short, command.help or short, usage, names, tuple(_options(command, context)))
    for name in names:
        inner = command.get_command(context, name)
        yield from _walk((*path, name), inner, inner.help or "")


def _options(command: Any, context: Any) -> Iterator[Option]:
    for one in command.get_params(context):
        if one.param_type_name != "option" or one.hidden:
            continue
        names = (*one.opts, *one.secondary_opts)
        value = "" if one.is_flag else one.metavar or "TEXT"
        choices = _choices(command, names[-1])
        is_file = bool(value) and not choices and any(word in f"{value} {names[0]}".lower() for word in _FILES)
        yield Option(names, value, choices, is_file, one.help or "")


def _choices(command: Any, name: str) -> tuple[str, ...]:
    """What there is to choose from for an option, where that is known beforehand."""
    from crib.app import kinds
    from crib.intake.attributes import choices_of

    key = name.lstrip("-").replace("-", "_")
    if key == "kind" and command.name == "gauge":
        from crib.app.gauge import named_kinds

        return named_kinds()
    if command.name in kinds.NAMES:
        asked = {one.field.key: one.choices for one in kinds.form_of(command.name)}
        return asked.get(key, ())
    found = choices_of(key) if command.name in _OF_A_CUTTER else ()
    return tuple(word for word in found if " " not in word)


ANYWHERE = (Option(("--crib",), "PATH_OR_URL", (), True, dict(HELP).get("--crib PATH_OR_URL", "")),
            Option(("--units",), "in|mm", ("in", "mm"), False, dict(HELP).get("--units in|mm", "")),
            Option(("--json",), "", (), False, dict(HELP).get("--json", "")),
            Option(("--help", "-h"), "", (), False, "Show help"))
"""Options that may stand before and behind any command."""
