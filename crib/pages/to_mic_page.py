"""What to measure, and which questions that turns."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from crib.findings.message import Fact, Mm, Sentence, said
from crib.findings.verdicts import SHORT
from crib.pages.blocks import Block, Blocks, Paragraph, spaced
from crib.pages.remarks import place
from crib.pages.words import name_of
from crib.planning.measures import Threshold, ToMeasure, ToMic, Turn


def to_mic_page(found: ToMic, asked: Mapping[int, str], options: Mapping[str, str]) -> Blocks:
    """The page. `asked`: each question in a line; `options`: the option of each size."""
    groups: list[list[Block]] = [[Paragraph(_head(found, len(asked)))]]
    groups += [list(_measure(number, one, asked, options)) for number, one in enumerate(found.measures, start=1)]
    if found.could_turn:
        groups.append([Paragraph(f"with more measuring also: question {', '.join(map(str, found.could_turn))}")])
    if found.cut_short:
        groups.append([Paragraph("there is too much that isn't known to try all of it: these are good measurements, "
                                 "perhaps not the best")])
    return spaced(groups)


def nothing_to_mic(asked: int, most: int, could_turn: tuple[int, ...], is_all: bool = True) -> str:
    """Why there is nothing to measure; `is_all`: that is all that was asked."""
    if not is_all:
        return f"no measuring was found that would turn an answer, of {asked} looked into"
    if could_turn:
        return f"no answer turns with so few cutters measured; it takes more than that: crib to-mic --most {most + 1}"
    if not asked:
        return "nothing was asked yet: crib make asks, and what it was asked is remembered"
    return f"no measuring would turn an answer: none of what was asked ({asked}) hangs on a size that isn't known"


def _head(found: ToMic, asked: int) -> str:
    turned, cutters = len(found.turned), len(found.measures)
    what = "one question" if turned == 1 else f"{turned} questions"
    which = "one cutter" if cutters == 1 else f"{cutters} cutters"
    return f"measure {which}, and {what} of {asked} asked may turn into a better answer"


def _measure(number: int, one: ToMeasure, asked: Mapping[int, str], options: Mapping[str, str]) -> Iterator[Paragraph]:
    """A cutter, what to measure of it, what that turns, and how to tell."""
    yield Paragraph(f"{number}  no. {one.cutter.id}, {one.cutter.label}, {place(one.cutter)}", hang=3)
    for ask in one.asks:
        yield Paragraph(ask.ask, indent=3, hang=5)
    for turn in one.turns:
        yield from _turn(turn, asked)
    sizes = " ".join(f"{options[ask.key]} SIZE" for ask in one.asks)
    names = ",".join(options[ask.key].removeprefix("--") for ask in one.asks)
    yield Paragraph(f"then: crib amend {one.cutter.id} {sizes} --measured {names}", indent=3, hang=5)


def _turn(turn: Turn, asked: Mapping[int, str]) -> Iterator[Paragraph]:
    yield Paragraph(f"question {turn.number}: {asked[turn.number]}", indent=3, hang=5)
    told: list[Fact] = [f"now: {SHORT[turn.now]}; at best: {SHORT[turn.then]}"]
    told += [Sentence(turn.fix)] if turn.fix else map(_at, turn.at)
    told += [f"together with {_numbers(turn.beside)}"] if turn.beside else []
    told += [f"measuring {' or '.join(map(_numbers, turn.instead))} may do it instead"] if turn.instead else []
    yield from (Paragraph(text, indent=5, hang=7) for text in told)


def _at(at: Threshold) -> Fact:
    name = name_of(at.key).capitalize()
    if at.mm is None:
        return f"{name}: whatever it turns out to be, once it is known."
    return said("{name} {size} or {side} turns it.", name=name, size=Mm(at.mm), side="more" if at.more else "less")


def _numbers(ids: tuple[int, ...]) -> str:
    return " and ".join(f"no. {number}" for number in ids)
