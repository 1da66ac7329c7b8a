"""What can be asked of which kind of feature, and for how long an answer is looked for. Quick to import: options are
made of it."""

from __future__ import annotations

from crib.features import KINDS
from crib.findings.errors import CribError
from crib.findings.message import a
from crib.light.hints import TYPE_CHECKING
from crib.light.records import dataclass
from crib.planning.search.watch import PATIENCE

if TYPE_CHECKING:
    from crib.planning.ask import Field

__all__ = ["NAMES", "PATIENCE", "Asks", "check", "fields_of", "form_of", "is_standard", "materials",
           "words_of"]

NAMES: tuple[str, ...] = tuple(KINDS)
_YES_NO = ("through", "run_out")
_NOT_YET = ("taper-hole",)


def fields_of(name: str) -> tuple[Field, ...]:
    """Everything that a kind can be asked with."""
    from crib.planning.ask import fields

    return fields(KINDS[name])


@dataclass(frozen=True)
class Asks:
    """What a form asks of a kind: a field; whether it can't go without; what there is to choose from; how it may be
    typed, as an example."""

    field: Field
    is_needed: bool = False
    choices: tuple[str, ...] = ()
    example: str = ""


def form_of(name: str) -> tuple[Asks, ...]:
    """Everything that a kind can be asked with, as a form asks it: what it can't go without first. Where a standard
    may give the sizes, the form can't tell which of them are missing."""
    kind = KINDS[name]
    choices = {"ends": kind.ends, **{one.key: tuple(one.value.split("|")) for one in kind.options if "|" in one.value},
               **{one.key: ("no", "yes") for one in kind.options if one.key in _YES_NO}}
    asks = (Asks(one, one.key in kind.needed, choices.get(one.key, ()), kind.example.get(one.key, ""))
            for one in fields_of(name) if is_of(name, one.key))
    return tuple(sorted(asks, key=lambda one: (not one.is_needed, not one.example)))


def is_common(key: str) -> bool:
    """Whether every kind can be asked with it: the metal, what stands beside it."""
    from crib.planning.ask import COMMON

    return key in COMMON


def is_of(name: str, key: str) -> bool:
    """Whether a kind has anything to choose from there: one that is open at both ends has no other ends."""
    return key != "ends" or len(KINDS[name].ends) > 1


def is_standard(name: str, key: str) -> bool:
    """Whether something that a kind can be asked with stands for sizes of a standard."""
    return key in {one.key for one in KINDS[name].standards}


def materials() -> tuple[str, ...]:
    """The names of the materials that are known, for who wants to choose one."""
    from crib.handbook.materials import materials as known

    return tuple(one.name for one in known())


def words_of(name: str) -> str:
    """What a kind is called."""
    return KINDS[name].words


def check(name: str) -> None:
    """Raises `CribError` for a kind that there isn't, or isn't yet."""
    if name in NAMES:
        return
    if name in _NOT_YET:
        raise CribError("feature", f"{a(name)} can't be asked yet", name, "one of " + ", ".join(NAMES))
    from crib.intake.near import one_of

    raise CribError("feature", f"{name!r} is not a kind of feature", name, one_of(name, NAMES))
