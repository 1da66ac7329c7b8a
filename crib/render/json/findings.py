"""What was found as the JSON that other programs rely on: beside each sentence the id of what it says, and its facts,
lengths in mm whatever the sentence is in."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, Any

from crib.findings.finding import Finding
from crib.findings.message import (
    Apart,
    ByUnits,
    Clause,
    Deg,
    Fact,
    Feed,
    Handed,
    Head,
    InWords,
    Measure,
    Message,
    Mm,
    Power,
    Rate,
    Reading,
    Rpm,
    Sentence,
    Torque,
)
from crib.units.words import told, words

if TYPE_CHECKING:
    from crib.planning.told.advice import Refusal


def beside(found: Finding) -> dict[str, Any]:
    """What stands beside any sentence: the id, and the facts of the sentence."""
    return {"id": found.id, "facts": facts(found)}


def facts(found: Finding) -> dict[str, Any]:
    """The facts of what is found by their names, each with its unit behind it.

    >>> from crib.findings.finding import Grade
    >>> from crib.findings.message import said
    >>> thick = said("neck {has}, {ratio:.1f} times", has=Mm(9.5), ratio=2.5)
    >>> facts(Finding("NK1", Grade.REFUSES, thick, needs_mm=9.0))
    {'has_mm': 9.5, 'ratio': 2.5, 'needs_mm': 9.0}
    """
    named = dict(_facts(found.says))
    numbers = {"has_mm": found.has_mm, "needs_mm": found.needs_mm}
    return named | {key: mm for key, mm in numbers.items() if mm is not None}


def _facts(says: Fact) -> Iterator[tuple[str, Any]]:
    if isinstance(says, Message):
        for name, fact in says.facts:
            yield from _fact(name, fact)


def _fact(name: str, fact: Fact) -> Iterator[tuple[str, Any]]:
    """One fact under its name; of a message in a message its own facts."""
    if isinstance(fact, Sentence | Clause | Head):
        fact = fact.text
    if isinstance(fact, ByUnits):
        fact = fact.mm
    if isinstance(fact, Message):
        yield from _facts(fact)
    elif (unit := _UNITS.get(type(fact))) is not None:
        key, field = unit
        yield f"{name}_{key}", getattr(fact, field)
    else:
        yield name, fact


_UNITS: dict[type, tuple[str, str]] = {
    **dict.fromkeys((Mm, Reading, Measure, InWords, Apart), ("mm", "mm")),
    **dict.fromkeys((Feed, Rate, Handed), ("mm_per_min", "mm_per_min")),
    Deg: ("deg", "deg"),
    Rpm: ("rpm", "rpm"),
    Power: ("watts", "watts"),
    Torque: ("nm", "newton_metres"),
}
"""The unit that stands behind the name of a fact, and where its value is."""


def warning_json(one: Finding) -> dict[str, Any]:
    """What a rule says of a plan; what it says of a cutter that it forbids stands in the refusal."""
    return {"rule": one.id, "severity": one.grade, "says": one.says, "source": one.source, "cutter_id": one.cutter_id,
            **({"overruled": dict(zip(("rule", "words", "by"), one.overruled, strict=True))} if one.overruled else {}),
            **beside(one)}


def refusal_json(one: Refusal) -> dict[str, Any]:
    """One refused cutter, with both numbers and what would do."""
    return {"cutter_id": one.cutter.id, "label": one.cutter.label, "answer": one.answer, "rule": one.id,
            "says": one.says, "has_mm": one.has_mm, "needs_mm": one.needs_mm, "fix": one.fix, **beside(one)}


def deviation_json(one: Finding) -> dict[str, Any]:
    """What comes out outside the drawing, by how much, and how much of it is allowed."""
    return {"what": one.says, "mm": one.has_mm, "allowed_mm": one.needs_mm, **beside(one)}


def fault_json(one: Finding) -> dict[str, Any]:
    """What isn't as it should be in the crib, and what to do."""
    return {"rule": one.id, "cutter_id": one.cutter_id, "says": one.says, "help": one.fix, **beside(one)}


def error_json(one: Finding, units: str) -> dict[str, Any]:
    """What was wrong with a request."""
    what, help = told(one, units)
    return {"what": what, "read": words(one.read, units), "help": help, "code": one.id, **beside(one)}
