"""The page for `man`: `crib help --man | man -l -`. Made of what `--help` says of each command."""

from __future__ import annotations

from collections.abc import Iterator
from importlib.metadata import version

from crib.app import kinds
from crib.cli.all_words import ANYWHERE, Option, Words, everything
from crib.cli.first_page import ABOUT

_FIRST = "make"
"""The command under which kinds of features are told."""

_VARIABLES = (("CRIB_DB", "The crib, where --crib doesn't name one."),
              ("CRIB_UNITS", "in or mm, where --units doesn't say."), ("NO_COLOR", "No colour where it is set."))
_STATUSES = (("0", "Answered."), ("1", "Answered, and the answer is no: nothing makes it, nothing was found."),
             ("2", "Not understood, or not carried out."))


def page() -> str:
    """The page in the language of man pages."""
    lines = [f'.TH CRIB 1 "" "crib {version("crib-advisor")}" "User commands"', ".SH NAME",
             f"crib \\- {_plain(ABOUT)}", ".SH SYNOPSIS", ".B crib", "[OPTIONS] COMMAND [ARGS]...", ".SH OPTIONS",
             "Before or behind any command.", *_options(ANYWHERE), ".SH COMMANDS"]
    for one in everything():
        if one.path and not _is_told_before(one):
            lines += _command(one)
    lines += [".SH ENVIRONMENT", *_listed(_VARIABLES), ".SH EXIT STATUS", *_listed(_STATUSES)]
    return "\n".join(lines) + "\n"


def _is_told_before(one: Words) -> bool:
    """Whether it is a kind of feature that stands under another command: it takes the same sizes in both."""
    return len(one.path) == 2 and one.path[1] in kinds.NAMES and one.path[0] != _FIRST


def _command(one: Words) -> Iterator[str]:
    """A command: how it is used, what it does, its options; of a kind of feature its sizes, for what every kind takes
    stands under the first of them."""
    yield ".SS " + _plain(f"crib {' '.join(one.path)} {one.usage}")
    yield from (_plain(line) for line in one.help.split("\n") if line.strip())
    yield from _options(tuple(option for option in one.options if _is_told(one, option)))
    if one.commands and set(one.commands) <= set(kinds.NAMES):
        yield "With each kind of feature, as crib make has them: " + _plain(", ".join(one.commands))


def _is_told(one: Words, option: Option) -> bool:
    """Whether an option is told where it stands: the sizes of a kind of feature, all else of the first alone."""
    if one.path[:1] != (_FIRST,) or len(one.path) < 2 or one.path[1] == kinds.NAMES[0]:
        return True
    sizes = {f"--{each.name}" for each in kinds.fields_of(one.path[1]) if not kinds.is_common(each.key)}
    return option.names[0] in sizes


def _options(options: tuple[Option, ...]) -> Iterator[str]:
    for one in options:
        yield ".TP"
        yield ".B " + _plain(", ".join(one.names) + (f" {one.value}" if one.value else ""))
        yield _plain(one.help) or "\\&"


def _listed(rows: tuple[tuple[str, str], ...]) -> Iterator[str]:
    for name, says in rows:
        yield from (".TP", f".B {_plain(name)}", _plain(says))


def _plain(text: str) -> str:
    """Text that the page shows as it is: no line begins with a dot or an apostrophe, no dash is typographic.

    >>> print(_plain("--all .5 a\\\\b"))
    \\-\\-all .5 a\\eb
    """
    shown = " ".join(text.split()).replace("\\", "\\e").replace("-", "\\-")
    return f"\\&{shown}" if shown[:1] in (".", "'") else shown
