"""What is found of a plan, of a cutter that can't, of what was typed, of a crib that is looked over: one shape."""

from __future__ import annotations

from crib.findings.message import Text
from crib.light.choices import StrEnum
from crib.light.records import dataclass

NO_CHANGE = "no single change of this cutter would do"
"""The fix of a refusal where there is none."""


class Grade(StrEnum):
    """How grave it is. Of a plan: it is told, scrap gets likelier, it ranks below one without, it is forbidden. Why a
    cutter can't; what comes out outside the drawing; what is wrong with what was typed; what isn't as it should be in
    the crib."""

    NOTE = "note"
    WARN = "warn"
    CAUTION = "caution"
    STOP = "stop"
    REFUSES = "refuses"
    OUTSIDE = "outside"
    ERROR = "error"
    FAULT = "fault"


@dataclass(frozen=True)
class Finding:
    """One thing that was found. `id`: what it is, for programs, once and for good; `says`: a template with its facts.

    `cutter_id`: of which cutter, where it is of one. `has_mm`, `needs_mm`: both numbers, where there are any: what is
    there, and what would have to be or is allowed. `fix`: what would do. `short_mm`: by how much it falls short.
    `unsure`: it may do, once measured. `beyond`: `has_mm` is counted from the limits, not from nothing. `read`: what
    was typed, as it was read. `overruled`: by the owner's word: the rule, his words, and of what he said so. `of_mm`:
    the tolerance of which what comes out outside the drawing is a share, of what has none the size itself.
    """

    id: str
    grade: Grade
    says: Text
    source: str = "common practice"
    cutter_id: int | None = None
    has_mm: float | None = None
    needs_mm: float | None = None
    fix: Text | None = None
    short_mm: float = 0.0
    unsure: bool = False
    read: Text = ""
    overruled: tuple[str, str, str] | None = None
    beyond: bool = False
    of_mm: float = 0.0

    @property
    def share(self) -> float:
        """How far it comes out beyond what is allowed, as a share of the tolerance or of the size [-]."""
        over = (self.has_mm or 0.0) - (self.needs_mm or 0.0)
        return over / self.of_mm if self.of_mm else over


def off_drawing(id: str, says: Text, mm: float, allowed_mm: float = 0.0, beyond: bool = False, *, of_mm: float
                ) -> Finding:
    """Something measured that comes out outside the drawing, and how much of it the drawing allows [mm]; `beyond`: it
    is counted from the limits themselves, so that there is nothing to allow; `of_mm`: the tolerance that it is missed
    by a share of, of what has none the size."""
    return Finding(id, Grade.OUTSIDE, says, has_mm=mm, needs_mm=allowed_mm, beyond=beyond, of_mm=of_mm)


FINE_MM = 0.001 * 25.4
"""A band under this is shown to four places of an inch [mm]."""

LEAST_TOLD_MM = 0.00005 * 25.4
"""Less than this reads as nothing to four places of an inch [mm]."""


@dataclass(frozen=True)
class Figure:
    """Something that was reckoned on the way: a length in mm, or any other value. `places`: the least that it is shown
    with in inches."""

    what: Text
    mm: float | None = None
    value: float | Text | None = None
    places: int = 3
