"""What to measure, and which questions that turns, as a page and as JSON."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from crib.findings.verdicts import WORDS
from crib.pages.remarks import place
from crib.pages.text import paragraph, sentence
from crib.pages.words import name_of
from crib.planning.to_mic import Threshold, ToMeasure, ToMic, Turn
from crib.render.words import worded, words
from crib.units import show


def to_mic_page(found: ToMic, asked: Mapping[int, str], options: Mapping[str, str], units: str,
                width: int) -> list[str]:
    """The page. `asked`: each question in a line; `options`: the option of each size."""
    lines = [_head(found, len(asked))]
    for number, one in enumerate(found.measures, start=1):
        lines += ["", f"{number}  no. {one.cutter.id}, {one.cutter.label}, {place(one.cutter)}"]
        lines += [line for ask in one.asks for line in paragraph(ask.ask, width, "   ", 5)]
        lines += [line for turn in one.turns for line in _turn(turn, asked, units, width)]
        sizes = " ".join(f"{options[ask.key]} SIZE" for ask in one.asks)
        names = ",".join(options[ask.key].removeprefix("--") for ask in one.asks)
        lines.append(f"   then: crib amend {one.cutter.id} {sizes} --measured {names}")
    if found.could_turn:
        lines += ["", f"with more measuring also: question {', '.join(map(str, found.could_turn))}"]
    if found.cut_short:
        lines += ["", "there is too much that isn't known to try all of it: these are good measurements, perhaps not "
                      "the best"]
    return lines


def _head(found: ToMic, asked: int) -> str:
    turned, cutters = len(found.turned), len(found.measures)
    what = "one question" if turned == 1 else f"{turned} questions"
    which = "one cutter" if cutters == 1 else f"{cutters} cutters"
    return f"measure {which}, and {what} of {asked} asked may turn into a better answer"


def _turn(turn: Turn, asked: Mapping[int, str], units: str, width: int) -> list[str]:
    lines = paragraph(f"question {turn.number}: {asked[turn.number]}", width, "   ", 5)
    lines += paragraph(f"now: {WORDS[turn.now]}; at best: {WORDS[turn.then]}", width, "     ", 7)
    where = [sentence(words(turn.fix, units))] if turn.fix else [_at(one, units) for one in turn.at]
    lines += [line for text in where for line in paragraph(text, width, "     ", 7)]
    if turn.beside:
        lines.append(f"     together with {_numbers(turn.beside)}")
    if turn.instead:
        others = " or ".join(_numbers(one) for one in turn.instead)
        lines += paragraph(f"measuring {others} may do it instead", width, "     ", 7)
    return lines


def _at(at: Threshold, units: str) -> str:
    name = name_of(at.key).capitalize()
    if at.mm is None:
        return f"{name}: whatever it turns out to be, once it is known."
    return f"{name} {show(at.mm, units)} or {'more' if at.more else 'less'} turns it."


def _numbers(ids: tuple[int, ...]) -> str:
    return " and ".join(f"no. {number}" for number in ids)


def to_mic_json(found: ToMic, units: str) -> dict[str, Any]:
    """The same for programs, lengths in mm."""
    shape = {
        "measure": [_measure(one) for one in found.measures],
        "turned": list(found.turned),
        "could_turn": list(found.could_turn),
        "skipped": [{"question": number, "why": why} for number, why in found.skipped],
        "cut_short": found.cut_short,
    }
    tidy: dict[str, Any] = worded(shape, units)
    return tidy


def _measure(one: ToMeasure) -> dict[str, Any]:
    return {
        "cutter_id": one.cutter.id,
        "label": one.cutter.label,
        "drawer": one.cutter.drawer,
        "sizes": [{"key": ask.key, "ask": ask.ask} for ask in one.asks],
        "turns": [{
            "question": turn.number, "answer_now": turn.now, "answer_at_best": turn.then, "fix": turn.fix,
            "turns_at": [_at_json(at) for at in turn.at],
            "beside": list(turn.beside), "instead": [list(ids) for ids in turn.instead],
        } for turn in one.turns],
    }


def _at_json(at: Threshold) -> dict[str, Any]:
    return {"key": at.key, "mm": None if at.mm is None else round(at.mm, 6), "or": "more" if at.more else "less"}
