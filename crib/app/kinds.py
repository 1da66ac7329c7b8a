"""What can be asked of which kind of feature, and for how long an answer is looked for. Quick to import: options are
made of it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from crib.features import KINDS
from crib.findings.errors import CribError
from crib.planning.watch import PATIENCE

if TYPE_CHECKING:
    from crib.planning.ask import Field

__all__ = ["NAMES", "PATIENCE", "check", "fields_of", "words_of"]

NAMES: tuple[str, ...] = tuple(KINDS)
_NOT_YET = ("pocket", "woodruff", "corner-round")


def fields_of(name: str) -> tuple[Field, ...]:
    """Everything that a kind can be asked with."""
    from crib.planning.ask import fields

    return fields(KINDS[name])


def words_of(name: str) -> str:
    """What a kind is called."""
    return KINDS[name].words


def check(name: str) -> None:
    """Raises `CribError` for a kind that there isn't, or isn't yet."""
    if name in NAMES:
        return
    if name in _NOT_YET:
        raise CribError("feature", f"a {name} is outside what is reckoned so far", name, "one of " + ", ".join(NAMES))
    from crib.intake.near import one_of

    raise CribError("feature", f"{name!r} is not a kind of feature", name, one_of(name, NAMES))
