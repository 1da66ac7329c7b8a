"""Options as rows of a table, and groups with a command for each kind of feature."""

from __future__ import annotations

from collections.abc import Callable

from crib.light.hints import Any
from crib.light.records import dataclass

YES_NO = ("reground", "centre_cutting", "end_teeth", "dro", "magnesium", "through",
          "remember_questions")
"""Fields that are either so or not."""


@dataclass(frozen=True)
class Slot:
    """One option: the field it is for, its name, its line of help, and a word for its value; a `hidden` one isn't in
    the list of options. `group`: what it stands under in help."""

    key: str
    name: str
    help: str
    value: str
    hidden: bool = False
    group: str = ""

    @property
    def is_yes_no(self) -> bool:
        """Whether it has no value, but may be followed by yes or no."""
        return self.key in YES_NO


@dataclass(frozen=True)
class Command:
    """A command with options of a table: a function that takes `texts`, with an option for each of the `slots`. `help`
    is what stands in the list of commands where that doesn't."""

    name: str
    does: Callable[..., Any]
    slots: tuple[Slot, ...]
    help: str = ""
    epilog: str | None = None


@dataclass(frozen=True)
class Group:
    """A command whose commands are kinds: their names, what makes the command of one, and what raises `CribError` for
    a kind that there isn't."""

    help: str
    names: tuple[str, ...]
    of: Callable[[str], Command]
    check: Callable[[str], None]
