"""Surface speed, revolutions and the step of the spindle that comes nearest."""

from __future__ import annotations

from collections.abc import Sequence
from math import pi

from crib.findings.errors import CribError
from crib.findings.finding import Grade
from crib.handbook.materials import Material
from crib.light.records import dataclass

OPERATION_FACTORS: dict[str, float] = {
    "milling": 1.0, "buried": 0.7, "sawing": 0.5, "forming": 0.5, "drilling": 0.9, "boring": 0.9, "reaming": 0.45,
    "counterboring": 0.4, "countersinking": 0.3, "fly cutting": 0.8, "tapping": 0.25, "grooving": 0.5,
    "trepanning": 0.5, "slotting": 0.25, "broaching": 0.25,
}
"""Share of the milling speed [-]; `buried` is a disc cutter in a keyseat, T-slot, dovetail or groove.
Common practice."""

CUTTER_FACTORS: dict[str, float] = {
    "hss": 1.0, "cobalt": 1.15, "carbide": 2.5, "carbide-tipped": 2.5, "carbon-steel": 0.5, "unknown": 0.5,
}
"""Share of the HSS speed [-]; an unknown cutter is taken for carbon steel until it is tested. Common practice."""

CARBIDES = ("carbide", "carbide-tipped")

DULL_FACTOR = 0.8
"""Share of the speed that a dull cutter runs at [-]. From memory."""

OVER_WANTED, NOTE_OVER, WARN_OVER = 1.10, 1.25, 1.50
"""A step may be this much above the speed wanted; the lowest step is a note up to the second, a warning up to the
third and a stop beyond it [-]. From memory."""

SLOWER_THAN = 0.5
"""Below this share of the speed wanted a step is called slow [-]. From memory."""


def cutting_speed(material: Material, operation: str = "milling", cutter_material: str = "hss",
                  condition: str = "sharp") -> float:
    """The surface speed to run at.

    V = V_hss x operation x cutter material (x 0.8 if dull); in hard metal carbide loses less than HSS does

    Parameters: material; operation, one of `OPERATION_FACTORS`; cutter material and condition in the crib's words [-].
    Returns: surface speed [m/min]. Raises: `operation`, `cutter-material` for a word that isn't known.
    References: common practice; dull cutters from memory.

    >>> from crib.handbook.materials import find_material
    >>> round(cutting_speed(find_material("grey iron"), "buried"), 4)
    13.8684
    """
    share = _factor(OPERATION_FACTORS, operation, "operation")
    share *= _factor(CUTTER_FACTORS, cutter_material, "cutter-material")
    if cutter_material in CARBIDES:
        share *= material.carbide_gain
    if condition == "dull":
        share *= DULL_FACTOR
    return material.speed_m_min * share


def wanted_rpm(speed_m_min: float, diameter_mm: float) -> float:
    """The revolutions that give a surface speed.

    N = 1000 V / (pi D)

    Parameters: V [m/min], D [mm]. Returns: N [rev/min]. Raises: `diameter` where D isn't above zero.
    References: geometry. Examples: computed here for 100 ft/min on a 1 in cutter.

    >>> round(wanted_rpm(30.48, 25.4))
    382
    """
    if not diameter_mm > 0:
        raise CribError("diameter", f"a cutter of diameter {diameter_mm} mm has no surface speed", str(diameter_mm),
                        "a diameter above zero")
    return 1000 * speed_m_min / (pi * diameter_mm)


@dataclass(frozen=True)
class SpindleStep:
    """The step to run at. `ratio` is rpm over what is wanted; `grade` is note, warn, stop or None; `says` why."""

    rpm: int
    wanted_rpm: float
    ratio: float
    grade: Grade | None
    says: str
    source: str = "from memory"


def spindle_step(wanted: float, steps: Sequence[int], bears: float | None = None) -> SpindleStep:
    """The highest step that isn't above 1.10 of what is wanted, else the lowest with how much too fast it is.

    r = lowest / wanted: up to 1.25 a note, up to 1.5 a warning, beyond it a stop for HSS, unless the cutter bears more.

    Parameters: wanted [rev/min], steps of the spindle [rev/min] in any order; up to where too fast is no more than a
    warning [rev/min], 1.5 of what is wanted unless it is said. Returns: the step. Raises: `spindle`
    where there are no steps or nothing is wanted. References: from memory.

    >>> spindle_step(497.8, (80, 135, 210, 325, 660)).rpm
    325
    >>> spindle_step(100, (130, 260)).grade
    <Grade.WARN: 'warn'>
    """
    if not steps or min(steps) <= 0 or not wanted > 0:
        raise CribError("spindle", "no spindle speed to choose from", str(list(steps)), "speeds above zero, in rev/min")
    slow_enough = [step for step in steps if step <= OVER_WANTED * wanted]
    if not slow_enough:
        lowest = min(steps)
        ratio = lowest / wanted
        endured = max(WARN_OVER * wanted, bears or 0.0)
        grade = Grade.NOTE if ratio <= NOTE_OVER else Grade.WARN if lowest <= endured else Grade.STOP
        return SpindleStep(lowest, wanted, ratio, grade,
                           f"the lowest speed, {lowest}, is {ratio:.2f} times the {wanted:.0f} wanted")
    rpm = max(slow_enough)
    ratio = rpm / wanted
    if ratio < SLOWER_THAN:
        return SpindleStep(rpm, wanted, ratio, Grade.NOTE, f"slower than it could go: {rpm} of {wanted:.0f} wanted; "
                           "the feed per tooth must not rise")
    return SpindleStep(rpm, wanted, ratio, None, "")


def _factor(table: dict[str, float], word: str, code: str) -> float:
    if word not in table:
        raise CribError(code, f"{code.replace('-', ' ')} {word!r} is not known", word, f"one of: {', '.join(table)}")
    return table[word]
