"""What to measure and what that would turn: what is asked of `to_mic`, and what it tells."""

from __future__ import annotations

from crib.cutters.base import Cutter, Unknown
from crib.features.request import Request
from crib.findings.message import Text
from crib.findings.verdicts import Verdict
from crib.light.records import dataclass


@dataclass(frozen=True)
class Pending:
    """A question that is to be asked again: its number, its request, and how often it was asked."""

    number: int
    request: Request
    times: int = 1


@dataclass(frozen=True)
class Threshold:
    """The size at which a question turns by the plan that is likely then: the field, the last value that still does it
    [mm], and whether more does so too, else less. None for the value where any that it can have does, once it is known.
    """

    key: str
    mm: float | None
    more: bool


@dataclass(frozen=True)
class Turn:
    """A question that would turn: its verdict now and at the kindest, and where. `fix`: the same in the words of the
    answer of now, where it had any. `beside`: the other cutters (ids) that must be measured with this one for it;
    `instead`: other sets that would turn it."""

    number: int
    now: Verdict
    then: Verdict
    fix: Text | None = None
    at: tuple[Threshold, ...] = ()
    beside: tuple[int, ...] = ()
    instead: tuple[tuple[int, ...], ...] = ()


@dataclass(frozen=True)
class ToMeasure:
    """A cutter to measure, what to measure of it, and what that would turn."""

    cutter: Cutter
    asks: tuple[Unknown, ...]
    turns: tuple[Turn, ...]


@dataclass(frozen=True)
class ToMic:
    """What to measure, the most telling cutter first; which questions that would turn, which others could turn if more
    were measured, which can't be asked any more and why, and whether the search was cut short."""

    measures: tuple[ToMeasure, ...] = ()
    turned: tuple[int, ...] = ()
    could_turn: tuple[int, ...] = ()
    skipped: tuple[tuple[int, Text], ...] = ()
    cut_short: bool = False
