"""The lines that couldn't be taken in, and putting them right."""

from __future__ import annotations

from collections.abc import Mapping

from crib.cutters.base import Cutter
from crib.findings.errors import CribError
from crib.light.records import dataclass
from crib.store import Crib, HeldBack


@dataclass(frozen=True)
class PutRight:
    """What came of a line: the cutters that it became, or the line as it still stands; `says`: the same in words."""

    taken: list[Cutter]
    still: list[HeldBack]
    says: str


def lines(crib: Crib) -> list[HeldBack]:
    """What was held back, oldest first."""
    return crib.held_back()


def line(crib: Crib, number: str) -> HeldBack:
    """The line with a number as it is typed. Raises `CribError` where there is none."""
    held = next((one for one in crib.held_back() if str(one.id) == number), None)
    if held is None:
        raise CribError("no-line", f"no line {number!r} is held back", number,
                        "crib held-back lists them with their numbers")
    return held


def let_go(crib: Crib, held: HeldBack) -> None:
    """Take a line off the list; the history keeps it. Raises `CribError` where it is gone."""
    crib.put_right(held.id or 0)


def put_right(crib: Crib, held: HeldBack, text: str, texts: Mapping[str, str]) -> PutRight:
    """Say a line in better words: all of it, the word that was missing, or what is given by field. Raises `CribError`
    where the line is gone."""
    from crib.intake.talk.put_right import put_right as read_again

    line, taken = read_again(crib, held, text, texts, crib.units, crib.shop().currency)
    still = [] if taken else [one for one in crib.held_back() if one.id == held.id]
    return PutRight(taken, still, f"{taken[0].id}  {line}" if taken else f"still {line}")
