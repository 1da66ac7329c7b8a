"""Why not with the rest: every cutter that no other refusal speaks of, by its kind and the hole that it would make."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import inf

from crib.cutters.base import Cutter
from crib.findings.finding import NO_CHANGE
from crib.findings.message import apart, said
from crib.planning.advice import Refusal
from crib.planning.holes.draft import Question
from crib.planning.refusals import wrong_kind
from crib.tapping.holes import REAMED_MM
from crib.tapping.taps import thread_of

_MILLED_MM = 1.0 * 0.0254
_CALLED = {"hole": ("drill",), "counterbore": ("counterbore", "end-mill"), "tapped-hole": ("drill", "tap"),
           "gib-screw-holes": ("drill", "tap")}


def not_with(question: Question, cutters: Sequence[Cutter], told: set[int]) -> Iterator[Refusal]:
    """A refusal for every cutter whose number isn't told."""
    kind = question.feature.kind
    for cutter in cutters:
        if cutter.id in told:
            continue
        own = _OWN.get(cutter.kind) if kind == "hole" else _other_thread if cutter.kind == "tap" else None
        yield own(question, cutter) if own else wrong_kind(cutter, _CALLED.get(kind, ()))


def _mill(question: Question, cutter: Cutter) -> Refusal:
    return _makes(question, cutter, _MILLED_MM, "plunged it", "it can't be plunged: its teeth aren't known to cut on "
                  "centre")


def _reamer(question: Question, cutter: Cutter) -> Refusal:
    return _makes(question, cutter, REAMED_MM, "it", "no drill in the crib leaves it what a reamer wants to take")


def _drill(question: Question, cutter: Cutter) -> Refusal:
    return _makes(question, cutter, 0.0, "it", f"{cutter.condition}: no hole to size with it")


def _makes(question: Question, cutter: Cutter, over: float, it: str, else_: str) -> Refusal:
    """The hole that it makes against the limit that it misses; else what keeps it from making it."""
    size = question.feature.request.size("diameter")
    if cutter.diameter_mm is None:
        return Refusal(cutter, "measure first", "G7", "its size isn't known", fix="mic the diameter")
    made = cutter.diameter_mm + over
    if size.lo - 1e-6 <= made <= size.hi + 1e-6:
        return Refusal(cutter, "cannot", "EN1", else_, fix=NO_CHANGE)
    over_it = made > size.hi
    limit = size.hi if over_it else size.lo
    has, needs = apart(made, limit)
    fix = said("one of {apart} or {x} would do", apart=apart(limit - over, cutter.diameter_mm)[0],
               x='less' if over_it else 'more')
    says = said("{it} makes {has}, {x}, {needs}", it=it, has=has, x='over the most' if over_it else 'under the least',
                needs=needs)
    return Refusal(cutter, "cannot", "SZ3", says, made, limit, fix, abs(made - limit))


def _bar(question: Question, cutter: Cutter) -> Refusal:
    size, least = question.feature.request.size("diameter"), cutter.min_hole_mm
    if least is None:
        return Refusal(cutter, "measure first", "G7", "the smallest hole that it goes into isn't known",
                       fix="measure across its bar and tip")
    if least < size.lo:
        return Refusal(cutter, "cannot", "EN1", "no drill in the crib makes the hole that it begins in", fix=NO_CHANGE)
    has, needs = apart(least, size.lo)
    return Refusal(cutter, "cannot", "SZ3", said("it goes into holes from {has}, this one is {needs}", has=has,
                                                 needs=needs), least, size.lo,
                   "a smaller bar would go in", least - size.lo)


def _head(question: Question, cutter: Cutter) -> Refusal:
    return Refusal(cutter, "cannot", "KD1", "it sets a boring bar out and cuts nothing itself", fix=NO_CHANGE,
                   short_mm=inf)


def _other_thread(question: Question, cutter: Cutter) -> Refusal:
    cut, wanted = thread_of(cutter), question.feature.request.said.get("thread", "")
    if cut is None:
        return Refusal(cutter, "measure first", "G7", "its thread isn't known", fix="measure it across and its pitch")
    return Refusal(cutter, "cannot", "TP1", said("it cuts {designation}, not {wanted}", designation=cut.designation,
                                                 wanted=wanted), fix=said("a tap for {wanted}",
                                                                                                 wanted=wanted),
                   short_mm=inf)


_OWN = {"end-mill": _mill, "reamer": _reamer, "drill": _drill, "boring-bar": _bar, "boring-head": _head}
