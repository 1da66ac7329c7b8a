"""What becomes of cutters: told in words, amended by options, ticked off on a walk."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from datetime import date

from crib.cutters.base import Cutter
from crib.findings.errors import CribError
from crib.intake.life import now as told
from crib.intake.options import amend_by_options
from crib.light.records import dataclass
from crib.store import Crib
from crib.store.meanwhile import changed


@dataclass(frozen=True)
class Became:
    """A cutter before and after, and in a few words what became of it."""

    before: Cutter
    after: Cutter
    says: str = ""

    @property
    def asks(self) -> str:
        """What must be asked of it since."""
        return "; ".join(question for question in self.after.questions if question not in self.before.questions)


def now(crib: Crib, number: int, words: str, since: int | None = None) -> Became:
    """Tell in words what became of a cutter. `since`: the last change of it that whoever tells has seen. Raises
    `CribError` for what can't be read, and where somebody changed it since."""
    with crib.transaction():
        before = crib.cutter(number)
        _check_unchanged(crib, number, since)
        found = told(before, words, date.today(), crib.units, crib.shop().currency)
        return Became(before, crib.amend(found.cutter, found.typed), found.says)


def amend(crib: Crib, number: int, texts: Mapping[str, str], since: int | None = None) -> Became:
    """Change what is known of a cutter, by field as it is typed. `since`: the last change of it that whoever types has
    seen. Raises `CribError`, also where somebody changed it since."""
    with crib.transaction():
        before = crib.cutter(number)
        _check_unchanged(crib, number, since)
        cutter, typed = amend_by_options(before, texts, crib.units, crib.shop().currency)
        return Became(before, crib.amend(cutter, typed))


def _check_unchanged(crib: Crib, number: int, since: int | None) -> None:
    """Nobody's change is overwritten by whoever hasn't seen it. Raises `CribError` with what it was."""
    later = [] if since is None else [one for one in crib.history(number) if one.id > since and one.what == "amend"]
    if later:
        raise changed(number, later, {}, crib.units)


def walked(crib: Crib, seen: str | None = None, dull: str | None = None, missing: str | None = None
           ) -> list[tuple[Cutter, str]]:
    """What came of a walk, by numbers as they are typed: each cutter with what was told of it. Raises `CribError`."""
    with crib.transaction():
        return [*_seen(crib, seen), *_dull(crib, dull), *_missing(crib, missing)]


def _seen(crib: Crib, numbers: str | None) -> Iterator[tuple[Cutter, str]]:
    for number in _numbers(numbers):
        crib.saw(number)
        if not (cutter := crib.cutter(number)).count:
            crib.amend(told(cutter, "found", date.today(), crib.units, "").cutter)
        yield cutter, "seen"


def _dull(crib: Crib, numbers: str | None) -> Iterator[tuple[Cutter, str]]:
    for number in _numbers(numbers):
        crib.saw(number)
        yield crib.amend(crib.cutter(number).but(condition="dull")), "dull"


def _missing(crib: Crib, numbers: str | None) -> Iterator[tuple[Cutter, str]]:
    for number in _numbers(numbers):
        cutter = crib.cutter(number)
        if cutter.count:
            crib.amend(told(cutter, f"{cutter.count} lost", date.today(), crib.units, "").cutter)
        yield cutter, "missing"


def _numbers(text: str | None) -> list[int]:
    words = [word for word in re.split(r"[,\s]+", text or "") if word]
    if wrong := next((word for word in words if not word.isascii() or not word.isdigit()), None):
        raise CribError("usage", f"{wrong!r} is not a cutter's number", wrong, "numbers with commas between: 3,4,9")
    if wrong := next((word for word in words if len(word) > 18), None):
        raise CribError("usage", f"there is no cutter {wrong[:12]}...", wrong, "crib find has the numbers")
    return [int(word) for word in words]
