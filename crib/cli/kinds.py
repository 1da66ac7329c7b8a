"""Groups with a command for each kind of feature, made when it is wanted."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from crib.app import kinds
from crib.cli.declared import Command, Group, Slot
from crib.light.hints import Any

_SIZES, _WORK = "Sizes", "The work"


def group(help: str, of: Callable[[str], Command]) -> Group:
    """A group whose commands are the kinds of feature; `of` makes one."""
    return Group(help, kinds.NAMES, of, kinds.check)


def command(name: str, does: Callable[..., Any], help: str, epilog: str | None = None, more: Iterable[Slot] = ()
            ) -> Command:
    """The command of a kind, with an option for each size and each thing `more`; sizes stand first in its help, and
    what every kind takes but this one has no choice of isn't there."""
    slots = (Slot(one.key, one.name, one.help, one.value, not kinds.is_of(name, one.key),
                  _WORK if kinds.is_common(one.key) else _SIZES) for one in kinds.fields_of(name))
    return Command(name, does, (*slots, *more), help, epilog)
