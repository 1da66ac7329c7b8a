"""Why not with a cutter, and what would do: those first that come nearest by their share of what they miss."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from crib.findings.message import Sentence, Text, joined, said
from crib.findings.verdicts import SHORT, Verdict
from crib.pages.blocks import Block, Bullets, Heading, Paragraph, clauses
from crib.pages.passes import template
from crib.pages.remarks import name, place
from crib.planning.told.advice import Advice, Refusal
from crib.planning.told.nearness import nearest

_WAYS_OUT = {Verdict.CANNOT: 3, Verdict.MEASURE_FIRST: 6}
_NEAREST = {Verdict.CANNOT: 6, Verdict.MEASURE_FIRST: 2}
"""Without a plan: so many ways on at the most, and so many refusals of the rest where nobody asked for them."""
_NAMED = 3
"""So many of those that one reason keeps out are named where nobody asked for them."""


def ways_out(advice: Advice) -> list[Block]:
    """What to mic, or the nearest changes that would do."""
    measure = advice.answer == Verdict.MEASURE_FIRST
    title = "Measure first" if measure else "What would do, nearest first"
    body = tuple(_why(refusal, place(refusal.cutter), measure) for refusal in _leading(advice))
    return [Heading(title), Bullets(body)] if body else []


def _leading(advice: Advice) -> list[Refusal]:
    """The refusals that are told before all else, because they hold the way on; those first that come nearest, each for
    another reason as far as there are so many."""
    if advice.answer == Verdict.MEASURE_FIRST:
        asked_for = [refusal for refusal in advice.refused if refusal.answer == Verdict.MEASURE_FIRST]
        return ([refusal for refusal in asked_for if refusal.helps] or asked_for)[:_WAYS_OUT[advice.answer]]
    hopeful = [refusal for refusal in advice.refused if refusal.helps and refusal.is_hopeful]
    return _varied(hopeful)[:_WAYS_OUT[advice.answer]] if advice.answer == Verdict.CANNOT else []


def _varied(refused: Iterable[Refusal]) -> list[Refusal]:
    """The nearest of each reason first, then the others."""
    told = nearest(refused)
    first = list({one.id: one for one in reversed(told)}.values())
    return [*nearest(first), *(one for one in told if one not in first)]


def _why(refusal: Refusal, where: str = "", is_asked: bool = False) -> Text:
    """A cutter, why not, and what would do. `is_asked`: what it stands under says already that it is to be measured."""
    mic = SHORT[Verdict.MEASURE_FIRST] if refusal.answer == Verdict.MEASURE_FIRST and not is_asked else ""
    cutter = joined(", ", [name(refusal.cutter), *filter(None, [where])])
    said_of = refusal.says if template(refusal.says).endswith("?") else said("{why}", why=clauses([refusal.says]))
    whole = joined(": ", [cutter, *filter(None, [mic]), said_of])
    return joined(" ", [whole, Sentence(_would_do(refusal.fix))]) if refusal.fix else whole


def _together(refused: Sequence[Refusal]) -> list[list[Refusal]]:
    """Those that follow one another for the same reason, put together."""
    groups: list[list[Refusal]] = []
    for one in refused:
        if groups and (one.says, one.fix, one.answer) == (groups[-1][0].says, groups[-1][0].fix, groups[-1][0].answer):
            groups[-1].append(one)
        else:
            groups.append([one])
    return groups


def _why_of(alike: Sequence[Refusal], most: int) -> Text:
    """Cutters that are refused for one reason: it is told once, of each of them, so many by name."""
    first, *others = alike
    if not others:
        return _why(first)
    more = [f"{len(alike) - most} more"] if len(alike) > most else []
    cutters = joined("; ", [*(name(one.cutter) for one in alike[:most]), *more])
    whole = joined(": ", [cutters, "each", clauses([first.says])])
    return joined(" ", [whole, Sentence(_would_do(first.fix))]) if first.fix else whole


def _would_do(fix: Text) -> Text:
    """What would do, as a sentence: a thing alone would."""
    is_thing = template(fix).startswith(("a ", "an ")) and "would" not in template(fix)
    return said("{fix} would do", fix=fix) if is_thing else fix


def refused_ones(advice: Advice, most: int | None, is_asked: bool) -> list[Block]:
    """Why not with the rest, nearest first, and how many more there are: so many of them where they `are asked` for,
    else a few, each for another reason."""
    leading = _leading(advice)
    rest = nearest(refusal for refusal in advice.refused if refusal not in leading)
    shown = _together(rest[:most]) if is_asked else _a_reason_each(rest)[:_NEAREST[advice.answer]]
    more = len(rest) - sum(map(len, shown)) + advice.not_told
    named = len(advice.refused) if is_asked else _NAMED
    body: list[Block] = [Bullets(tuple(_why_of(alike, named) for alike in shown))] if shown else []
    body += more_of(more)
    return [Heading("Not with these, nearest first"), *body] if body else []


def _a_reason_each(told: Sequence[Refusal]) -> list[list[Refusal]]:
    """The nearest of each reason, with those of which it is said in the same words."""
    firsts = list({one.id: one for one in reversed(told)}.values())
    return [[one for one in told if (one.says, one.fix, one.answer) == (first.says, first.fix, first.answer)]
            for first in nearest(firsts)]


def more_of(number: int) -> Iterable[Paragraph]:
    """How many more there are than are told; nothing where there are none."""
    return [Paragraph(f"and {number} more", indent=2)] if number > 0 else []


