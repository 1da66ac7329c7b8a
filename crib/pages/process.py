"""What goes before and beside the passes: holding, locks, touching off, handwheels, and what to measure."""

from __future__ import annotations

from crib.pages.passes import numbers
from crib.pages.text import exact, paragraph
from crib.planning.advice import Check, Pass, Plan
from crib.render.words import words
from crib.units import show


def block(plan: Plan, units: str, width: int = 100) -> list[str]:
    """The lines, at most `width` characters wide; nothing where nothing is told."""
    said = [("Hold: ", words(plan.hold, units)), ("Touch off: ", _touches(plan, units)), ("Lock: ", _locks(plan)),
            ("In and out: ", _in_and_out(plan, units)), ("Dials: ", _dials(plan, units)),
            ("Measure: ", _checks(plan, units))]
    return [line for lead, text in said if text for line in paragraph(text + ".", width, lead, 2)]


def _touches(plan: Plan, units: str) -> str:
    return "; ".join(f"{number} {words(one.says, units)}" for number, one in enumerate(plan.touch_off, start=1))


def _locks(plan: Plan) -> str:
    """What is locked throughout, then what else is where passes differ."""
    if not any(one.locks for one in plan.passes):
        return ""
    always = " and ".join(filter(None, (", ".join(plan.locks[:-1]), *plan.locks[-1:])))
    groups: dict[tuple[str, ...], list[Pass]] = {}
    for one in plan.passes:
        groups.setdefault(tuple(slide for slide in one.locks if slide not in plan.locks), []).append(one)
    more = [f"{numbers([one.no for one in those])} {' and '.join(extra)} too"
            for extra, those in groups.items() if extra]
    return "; ".join(filter(None, (always, *more)))


def _in_and_out(plan: Plan, units: str) -> str:
    """How far beyond the work each cutter's axis begins and ends its cuts."""
    beyond = {one.cutter_id: -min(one.enters_mm, one.leaves_mm or 0.0) for one in plan.passes
              if one.enters_mm is not None}
    told = [f"no. {number} {exact(mm, units)}" for number, mm in beyond.items()]
    return f"axis clear of the end by {', '.join(told)}" if told else ""


def _dials(plan: Plan, units: str) -> str:
    """Each reading once with its turns and divisions, where there is no readout."""
    if not plan.handwheels:
        return ""
    slides: dict[str, dict[float, str]] = {}
    for one in plan.passes:
        for dial in one.dials:
            said = f"{exact(dial.reading_mm, units, sign=True)} = {dial.turns} + {dial.divisions:g}"
            slides.setdefault(dial.slide, {})[dial.reading_mm] = said
    told = [f"{slide} {', '.join(readings.values())}" for slide, readings in slides.items()]
    return "; ".join((*told, words(plan.handwheels, units)))


def _checks(plan: Plan, units: str) -> str:
    after: dict[int, list[str]] = {}
    for one in plan.checks:
        after.setdefault(one.after_no, []).append(f"{one.what} {_reading(one, units)} by {one.instrument}")
    return "; ".join(f"after {number} {', '.join(said)}" for number, said in after.items())


def _reading(one: Check, units: str) -> str:
    """What it should read; limits where the drawing gives them."""
    reads = exact(one.reads_mm, units)
    if one.low_mm is None or one.high_mm is None:
        return reads
    return f"{reads} ({show(one.low_mm, units)} to {show(one.high_mm, units)})"
