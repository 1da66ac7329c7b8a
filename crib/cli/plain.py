"""Plain command lines, read without the command-line library, which takes longer to load than most answers.

What an option or an argument is called is read off the command's own annotations, as the library reads them. Whatever
isn't plainly usual (help, a value that begins with a dash, something missing, a mistake) is left to the library, which
alone says what is wrong. `tests/cli/test_plain.py` holds that both read the same.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from types import FunctionType

from crib.cli.asked import Asked
from crib.cli.commands import COMMANDS, target
from crib.cli.declared import Command, Group, Slot
from crib.light.hints import Any
from crib.light.modules import load
from crib.light.tuples import NamedTuple


class _Path:
    """Stands for `pathlib.Path` where annotations are read."""


_TEXTS = ("str", "str | None")
_PATH = str(_Path | None)
_NUMBERS = ("int", "int | None")
_LIMITS = {"min", "max", "clamp"}


class Context(NamedTuple):
    """As much of the library's context as commands go by."""

    obj: Asked


class _Declared(NamedTuple):
    """An option or an argument as it is annotated; free: any number goes."""

    is_option: bool
    names: tuple[str, ...]
    is_free: bool = True


class _Library:
    """Stands for the library where annotations are read."""

    Context = None

    @staticmethod
    def Option(*names: str, **settings: Any) -> _Declared:
        return _Declared(True, names, not settings.keys() & _LIMITS)

    @staticmethod
    def Argument(**settings: Any) -> _Declared:
        return _Declared(False, ())


class _Annotated:
    """Stands for `typing.Annotated`: what is declared beside a type."""

    def __class_getitem__(cls, both: tuple[Any, _Declared]) -> tuple[str, _Declared]:
        kind, declared = both
        return kind.__name__ if isinstance(kind, type) else str(kind), declared


class _Taken(NamedTuple):
    """What a command takes: options by name, arguments in order, each with its type as it is written."""

    options: dict[str, tuple[str, str]]
    arguments: list[tuple[str, str]]


def read(words: Sequence[str]) -> Callable[[Asked], Any] | None:
    """The command that a command line means, ready to be carried out; None where the library must look at it."""
    name, *rest = words
    does: Any = target(name) if name in COMMANDS else None
    slots: Sequence[Slot] | None = None
    if isinstance(does, Group):
        if not rest or rest[0] not in does.names:
            return None
        does = does.of(rest.pop(0))
    if isinstance(does, Command):
        does, slots = does.does, does.slots
    if not isinstance(does, FunctionType):
        return None
    given = arguments(does, rest, slots)
    return None if given is None else lambda asked: does(ctx=Context(asked), **given)


def arguments(does: FunctionType, words: Sequence[str], slots: Sequence[Slot] | None = None) -> dict[str, Any] | None:
    """What a command line gives a function, beside its context and what is usual; None where the library must look at
    it. With `slots` there is an option for each, and the function takes their `texts`."""
    taken = _taken(does)
    free = {f"--{slot.name}": slot.key for slot in slots or () if not slot.is_yes_no}
    given: dict[str, Any] = {}
    texts: dict[str, str] = {}
    loose: list[str] = []
    rest = iter(words)
    for word in rest:
        if not word.startswith("-"):
            loose.append(word)
            continue
        name, equals, value = word.partition("=")
        into: dict[str, Any] = texts if name in free else given
        key, kind = (free[name], "str") if name in free else taken.options.get(name, ("", ""))
        if not key or key in into or (kind == "bool" and equals):
            return None
        into[key] = kind == "bool" or (value if equals else _bare(next(rest, "")))
        if not into[key]:
            return None
        if kind in _NUMBERS:
            if not _is_number(value := into[key]):
                return None
            into[key] = int(value)
        elif kind == _PATH:
            into[key] = load("pathlib").Path(into[key])
    if not _place(loose, taken.arguments, given):
        return None
    return given if slots is None else given | {"texts": {one.key: texts[one.key] for one in slots if one.key in texts}}


def _bare(word: str) -> str:
    """A word that is a value, empty where it may be an option."""
    return "" if word.startswith("-") else word


def _is_number(word: str) -> bool:
    return len(word) < 16 and word.isascii() and word.isdigit()


def _taken(does: FunctionType) -> _Taken:
    """What a command's annotations declare, of the types that can be read here."""
    known = {**does.__globals__, "typer": _Library, "Annotated": _Annotated, "Path": _Path}
    taken = _Taken({}, [])
    for key, text in does.__annotations__.items():
        if not text.startswith("Annotated["):
            continue
        kind, declared = eval(text, known)
        if not declared.is_option:
            taken.arguments.append((key, kind))
        elif kind in (*_TEXTS, _PATH) or (kind in _NUMBERS and declared.is_free) or (kind == "bool" and declared.names):
            for name in declared.names or ("--" + key.replace("_", "-"),):
                taken.options[name] = (key, kind)
    return taken


def _place(loose: list[str], arguments: list[tuple[str, str]], given: dict[str, Any]) -> bool:
    """Give the words that are no options to the arguments; whether they go in."""
    if not arguments:
        return not loose
    (key, kind), *more = arguments
    if more or "" in loose:
        return False
    if not loose:
        return kind.endswith(" | None")
    if kind.startswith("list[str]"):
        given[key] = loose
        return True
    is_number = _is_number(loose[0])
    if len(loose) > 1 or not (kind.startswith("str") or (kind.startswith("int") and is_number)):
        return False
    given[key] = int(loose[0]) if kind.startswith("int") else loose[0]
    return True
