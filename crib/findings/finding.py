"""What is found about a plan: what a rule has to say, what lies outside the drawing, what was reckoned on the way."""

from __future__ import annotations

from crib.findings.message import Text
from crib.records import dataclass

NO_CHANGE = "no single change of this cutter would do"
"""The fix of a refusal where there is none."""


@dataclass(frozen=True)
class Finding:
    """A craft rule that has something to say. `severity`: note, warn, caution, stop. `cutter_id`: which cutter it is
    said of, where it is said of one. Of what forbids: both numbers, where there are any, the one change that would do,
    by how much the cutter falls short [mm], and whether it may do, once measured."""

    rule: str
    severity: str
    says: Text
    source: str = "common practice"
    cutter_id: int | None = None
    has_mm: float | None = None
    needs_mm: float | None = None
    fix: Text | None = None
    short_mm: float = 0.0
    unsure: bool = False


@dataclass(frozen=True)
class Deviation:
    """Something measured that lies outside the drawing, and how much of it the drawing allows [mm]."""

    what: Text
    mm: float
    allowed_mm: float


FINE_MM = 0.001 * 25.4
"""A band under this is shown to four places of an inch [mm]."""


@dataclass(frozen=True)
class Figure:
    """Something that was reckoned on the way: a length in mm, or any other value. `places`: the least that it is shown
    with in inches."""

    what: Text
    mm: float | None = None
    value: float | Text | None = None
    places: int = 3
