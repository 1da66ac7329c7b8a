"""Gives a command an option for each entry of a table, and hands it the texts of those that were given."""

from __future__ import annotations

import inspect
from collections.abc import Callable, Iterable, Mapping, Sequence
from functools import wraps
from typing import Annotated, Any

import typer
from typer.core import TyperCommand

from crib.cli.declared import YES_NO, Slot

_YES, _NO = ("yes", "true"), ("no", "false")
_AMERICAN = {"centre-cutting": "center-cutting"}


_BARE = {"--refused": "12"}
"""Options that may stand without their value, and what they mean then."""


class YesNoCommand(TyperCommand):
    """A command whose yes-or-no options may also be followed by the word, and some others by none."""

    def parse_args(self, ctx: Any, args: list[str]) -> list[str]:
        """`--reground no` is `--no-reground`, `--refused` alone `--refused 12`."""
        return super().parse_args(ctx, _as_flags(_with_values(args)))


_GROUPS, _REST = ("Sizes", "The work"), "Besides"


def grouped(groups: Mapping[str, str]) -> type[YesNoCommand]:
    """A command whose help has its options in groups, sizes first, by the name of each; the rest comes last."""
    class Grouped(YesNoCommand):
        """A command with its options in groups."""

        def format_options(self, ctx: Any, formatter: Any) -> None:
            """Each group with its heading."""
            rows: dict[str, list[Any]] = {name: [] for name in (*_GROUPS, _REST)}
            for one in self.get_params(ctx):
                if (row := one.get_help_record(ctx)) is not None:
                    rows[groups.get(one.opts[0], _REST)].append(row)
            for name, listed in rows.items():
                if listed:
                    with formatter.section(name):
                        formatter.write_dl(listed)

    return Grouped


def with_options(slots: Iterable[Slot], but: Sequence[str] = ()) -> Callable[[Callable[..., Any]], Callable[..., Any]]:
    """Let a command that takes `texts` be called with an option for each slot, those for the fields in `but` left out.

    `texts` gets what was typed, by field; a yes-or-no option gives `yes` or `no`.
    """
    chosen = [slot for slot in slots if slot.key not in but]

    def wrap(command: Callable[..., Any]) -> Callable[..., Any]:
        own = [one for one in inspect.signature(command, eval_str=True).parameters.values() if one.name != "texts"]

        @wraps(command)
        def called(**given: Any) -> Any:
            texts = {slot.key: _text(given.pop(f"of_{slot.key}")) for slot in chosen}
            return command(**given, texts={key: text for key, text in texts.items() if text is not None})

        parameters = [*own, *map(_parameter, chosen)]
        called.__signature__ = inspect.Signature(parameters)  # type: ignore[attr-defined]
        called.__annotations__ = {one.name: one.annotation for one in parameters}
        return called

    return wrap


def _parameter(slot: Slot) -> inspect.Parameter:
    annotation: Any
    if slot.key in YES_NO:
        names = [slot.name, *([_AMERICAN[slot.name]] if slot.name in _AMERICAN else [])]
        flags = [f"--{name}/--no-{name}" for name in names]
        annotation = Annotated[bool | None, typer.Option(*flags, help=slot.help)]
    else:
        annotation = Annotated[str | None, typer.Option(f"--{slot.name}", help=slot.help, metavar=slot.value,
                                                           hidden=slot.hidden)]
    return inspect.Parameter(f"of_{slot.key}", inspect.Parameter.KEYWORD_ONLY, default=None, annotation=annotation)


def _text(value: str | bool | None) -> str | None:
    return {True: "yes", False: "no"}[value] if isinstance(value, bool) else value


def _with_values(args: Sequence[str]) -> list[str]:
    """Options that stand without their value with it.

    >>> _with_values(["--refused", "--why"]), _with_values(["--refused", "3"])
    (['--refused', '12', '--why'], ['--refused', '3'])
    """
    out: list[str] = []
    for at, word in enumerate(args):
        out.append(word)
        if word in _BARE and (at + 1 == len(args) or args[at + 1].startswith("-")):
            out.append(_BARE[word])
    return out


def _as_flags(args: Sequence[str]) -> list[str]:
    names = {f"--{key.replace('_', '-')}" for key in YES_NO} | {f"--{name}" for name in _AMERICAN.values()}
    flags: list[str] = []
    for word in args:
        if flags and flags[-1] in names and word.lower() in (*_YES, *_NO):
            flags[-1] = flags[-1] if word.lower() in _YES else flags[-1].replace("--", "--no-", 1)
        else:
            flags.append(word)
    return flags
