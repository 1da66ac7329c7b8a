"""The shop's settings: what the machine and its holders can do, and what the owner's time is worth."""

from __future__ import annotations

from dataclasses import asdict, dataclass, fields
from typing import Any

THOU = 0.0254


@dataclass(frozen=True)
class Arbor:
    """An arbor for cutters with a bore, with the diameter of its flange [mm]."""

    bore_mm: float
    flange_mm: float


@dataclass(frozen=True)
class Shop:
    """Every setting with its default. Lengths in mm, money in `currency`, times in minutes.

    `spindle_rpm` and `collets_mm` are None until the owner has said; an empty tuple means none at all. Times, shares
    and clearances are common practice, from memory; the owner's own figures replace them.
    """

    units: str = "in"
    spindle_rpm: tuple[int, ...] | None = None
    collets_mm: tuple[float, ...] | None = None
    chuck_mm: float | None = None
    arbors: tuple[Arbor, ...] | None = None
    nose_mm: float = 50.8
    dro: bool = True
    stiffness: str = "knee"
    backlash_mm: float = 5 * THOU
    screw_lead_mm: float | None = None
    neck_clearance_mm: float = 10 * THOU
    end_clearance_mm: float = 30 * THOU
    general_tolerance_mm: float = 5 * THOU
    loose_tolerance_mm: float = 15 * THOU
    most_levels: int = 4
    hour_rate: float = 15.0
    currency: str = "USD"
    blank_cost: float = 30.0
    setup_minutes: float = 20.0
    cutter_minutes: float = 2.0
    collet_minutes: float = 1.5
    touch_minutes: float = 3.0
    touch_disc_minutes: float = 4.0
    pass_minutes: float = 0.6
    buried_pass_minutes: float = 1.2
    measure_minutes: float = 1.5
    remember_questions: bool = True

    @property
    def readout_mm(self) -> float:
        """The finest step that can be set: .0005 in or .005 mm on a readout, .001 in or .01 mm on dials."""
        if self.units == "in":
            return 0.0127 if self.dro else 0.0254
        return 0.005 if self.dro else 0.01

    def as_json(self) -> dict[str, Any]:
        """Every setting under its own name."""
        return asdict(self)


SETTINGS: tuple[str, ...] = tuple(field.name for field in fields(Shop))
STIFFNESS = ("bench", "knee", "heavy")


def from_json(values: dict[str, Any]) -> Shop:
    """A shop from stored settings; names that this version doesn't know are passed over."""
    known = {key: value for key, value in values.items() if key in SETTINGS}
    for key in ("spindle_rpm", "collets_mm"):
        if known.get(key) is not None:
            known[key] = tuple(known[key])
    if known.get("arbors") is not None:
        known["arbors"] = tuple(Arbor(**arbor) for arbor in known["arbors"])
    return Shop(**known)
