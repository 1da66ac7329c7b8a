"""`crib take-in`: record cutters in words, by options, from a file, or line by line at the prompt."""

from __future__ import annotations

import os
import stat
import sys
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import chain
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from crib.cli import out
from crib.cli.asked import Asked
from crib.cli.attribute_options import CUTTER_SLOTS
from crib.cli.slots import with_options
from crib.cli.status import Status
from crib.cutters.base import Cutter
from crib.findings.errors import CribError
from crib.intake.encoding import decoded, is_told, is_utf8, read_as_old
from crib.intake.files import is_lines, lines_of, notes_of, read_file
from crib.intake.near import one_of
from crib.intake.options import read_options
from crib.intake.reading import Reading, Taken
from crib.shop import Shop
from crib.store import SOURCES, Crib, HeldBack, crib_exists, open_crib

if TYPE_CHECKING:
    from crib.intake.session import Outcome, Session
    from crib.intake.twice import Came, Known

    _Line = tuple[int, str, Came | None]

_MANY = 50
"""Before so many entries are taken in at once a copy of the crib is put by."""

_EXAMPLE = 'crib take-in "3/8 2fl end mill hss drawer B2", or --file FILE, or --kind end-mill --diameter 1/2'


@with_options(CUTTER_SLOTS)
def take_in(
    ctx: typer.Context,
    text: Annotated[list[str] | None, typer.Argument(help="What it is, in shop words; none: line by line")] = None,
    file: Annotated[Path | None, typer.Option("--file", help="CSV, JSON, lines of words; - is standard input")] = None,
    source: Annotated[str | None, typer.Option("--from", help="Where from: " + ", ".join(SOURCES))] = None,
    yes: Annotated[bool, typer.Option("--yes", help="Take in without asking")] = False,
    again: Annotated[bool, typer.Option("--again", help="Take in a list that is in already once more")] = False,
    *,
    texts: dict[str, str],
) -> Status:
    """Record cutters; what can't be read is held back with why."""
    asked: Asked = ctx.obj
    if source is not None and source not in SOURCES:
        raise CribError("choice", f"--from {source!r} is not known", source, one_of(source, SOURCES))
    described = set(texts) - {"drawer"}
    if (file is not None) + bool(text) + bool(described) > 1:
        raise CribError("usage", "a file, words and options don't go together", " ".join(text or []),
                        "one of them at a time")
    if text:
        from crib.intake.arguments import texts_of

        return _lines(asked, _not_empty(texts_of(text)), source, texts, None, at_once=True, again=True)
    if file is not None and str(file) != "-":
        for said in notes_of(file):
            out.note(said)
        if is_lines(file):
            return _lines(asked, _not_empty(lines_of(file)), source, texts, str(file), at_once=True, again=again or yes)
        return _file(asked, file, source, texts, again or yes)
    if described:
        return _options(asked, source, texts)
    if out.is_asking() and not asked.json:
        from crib.cli.prompt import at_the_prompt

        return at_the_prompt(asked, source, texts)
    return _lines(asked, _piped(), source, texts, "-", at_once=False, again=again or yes)


def open_session(asked: Asked, crib: Crib, source: str | None, texts: Mapping[str, str], file: str | None) -> Session:
    """A session on a crib, by the units and the currency that hold."""
    from crib.intake.session import Session
    from crib.intake.shorthand import Shop as Units

    shop = crib.shop()
    return Session(crib, Units(asked.units or shop.units, shop.currency, dict(texts)), source, file)


def _not_empty(lines: Sequence[str]) -> Sequence[str]:
    """The lines. Raises `CribError` where none of them says anything."""
    if not any(line.strip() for line in lines):
        raise CribError("usage", "nothing to take in", "", _EXAMPLE)
    return lines


def _piped() -> Iterable[str]:
    """Standard input, line by line. Raises `CribError` where there is nothing in it."""
    try:
        lines = iter(getattr(sys.stdin, "buffer", sys.stdin) or ())
        first = next((line for line in lines if line.strip()), None)
    except (OSError, ValueError):
        first = None
    if first is None:
        raise CribError("usage", "nothing to take in", "", _EXAMPLE)
    return _told(chain([first], lines))


def _told(lines: Iterable[bytes | str]) -> Iterator[str]:
    """Lines as texts; the first that isn't UTF-8 is spoken of."""
    spoken = False
    for line in lines:
        if isinstance(line, str):
            yield line
            continue
        text = decoded(line)
        if not spoken and is_told(text) and not is_utf8(line):
            out.note(read_as_old(["standard input"]))
            spoken = True
        yield text


def _lines(asked: Asked, lines: Iterable[str], source: str | None, texts: Mapping[str, str], file: str | None,
           at_once: bool, again: bool) -> Status:
    """Lines of words; `at_once` all or none, else each as it comes. What is in already is passed over, unless it is to
    be taken in `again`."""
    began = not crib_exists(asked.crib)
    with open_crib(asked.crib, create=True, units=asked.units) as crib:
        session = open_session(asked, crib, source, texts, file)
        numbered = ((number, line.strip("\r\n")) for number, line in enumerate(lines, start=1) if line.strip())
        rest = ((number, line, None) for number, line in numbered) if again or began else \
            _known(asked, crib, numbered, is_whole=at_once or _is_a_file())
        if began:
            out.note("began a new crib")
        over: list[int] = []
        outcomes = list(_at_once(asked, crib, session, rest, file, over) if at_once else
                        _as_they_come(asked, session, rest, over))
    if asked.json:
        out.answer(asked, _document(outcomes) | {"passed_over": len(over)}, ())
    return Status.ANSWERED if any(outcome.is_done for outcome in outcomes) else Status.NO


def _is_a_file() -> bool:
    """Whether standard input is a file, of which the end is there already."""
    try:
        return stat.S_ISREG(os.fstat(sys.stdin.fileno()).st_mode)
    except (AttributeError, OSError, ValueError):
        return False


def _at_once(asked: Asked, crib: Crib, session: Session, lines: Iterable[_Line], file: str | None, over: list[int]
             ) -> Sequence[Outcome]:
    """All of the lines or none."""
    from crib.cli.progress import ticking

    every = list(lines)
    if sum(came is None for _, _, came in every) >= _MANY:
        crib.put_by("before-list")
    with crib.gathering():
        outcomes = list(_one_by_one(session, ticking(every, "lines"), over))
    if not asked.json:
        out.answer(asked, None, (_said(outcome, file is not None) for outcome in outcomes))
    return outcomes


def _as_they_come(asked: Asked, session: Session, lines: Iterable[_Line], over: list[int]) -> Iterator[Outcome]:
    """Line by line, each said once it is kept. Stopped from the keyboard, it says how far it came."""
    number = 0
    try:
        for outcome in _one_by_one(session, lines, over):
            number = outcome.number
            if not asked.json:
                out.answer(asked, None, [_said(outcome, True)])
                out.flush()
            yield outcome
    except KeyboardInterrupt:
        out.note(f"stopped: what came up to line {number} is kept; give the list once more and it goes on from there")
        raise


def _one_by_one(session: Session, lines: Iterable[_Line], over: list[int]) -> Iterator[Outcome]:
    """What came of each line; those that came before are passed over, and may be spoken of."""
    for number, line, came in lines:
        if came is None:
            yield session.say(line, number)
        else:
            session.came(line, *came)
            over.append(number)


def _known(asked: Asked, crib: Crib, lines: Iterator[tuple[int, str]], is_whole: bool) -> Iterator[_Line]:
    """Lines with what they became before. Nothing waits for the end of a list that is new: only where some lines in a
    row, or all that there are, came before is the rest of it read first."""
    from crib.intake.twice import LEAST, Known

    known = Known(crib, in_words=True)
    if is_whole:
        yield from _told_apart(asked, known, list(lines))
        return
    waiting: list[tuple[int, str]] = []
    for one in lines:
        waiting.append(one)
        if not known.has(one[1]):
            yield from ((number, line, None) for number, line in waiting)
            waiting = []
        elif len(waiting) == LEAST:
            yield from _told_apart(asked, known, [*waiting, *lines])
            return
    yield from _told_apart(asked, known, waiting)


def _told_apart(asked: Asked, known: Known, lines: Sequence[tuple[int, str]]) -> Iterator[_Line]:
    there = known.lines_there([line for _, line in lines])
    over = _to_pass_over(asked, frozenset(there), len(lines))
    for place, (number, line) in enumerate(lines):
        yield number, line, there[place] if place in over else None


def _to_pass_over(asked: Asked, there: frozenset[int], of: int) -> frozenset[int]:
    """The places of what to pass over of what is in the crib already: all of it, unless somebody is there who wants it
    once more."""
    if not there:
        return there
    many = f"all {of:,} lines" if len(there) == of else f"{len(there):,} of {of:,} lines"
    if asked.json or not out.is_asking():
        out.note(f"{many} were taken in before and are passed over; --again takes them in once more")
        return there
    out.note(f"{many} were taken in before. Once more? y takes them in again, Enter passes them over")
    try:
        return frozenset() if input().strip().lower() in ("y", "yes") else there
    except EOFError:
        return there


def _said(outcome: Outcome, numbered: bool) -> str:
    numbers = ", ".join(str(cutter.id) for cutter in outcome.taken[:1])
    if len(outcome.taken) > 1:
        numbers += f" to {outcome.taken[-1].id}"
    return (f"line {outcome.number}: " if numbered else "") + (f"{numbers}  " if numbers else "") + outcome.says


def _document(outcomes: Sequence[Outcome]) -> dict[str, Any]:
    held = [outcome.held for outcome in outcomes if outcome.held is not None]
    return {
        "taken_in": [cutter.as_json() for outcome in outcomes for cutter in outcome.taken if cutter.count],
        "missing": [cutter.as_json() for outcome in outcomes for cutter in outcome.taken if not cutter.count],
        "amended": [cutter.as_json() for outcome in outcomes for cutter in outcome.amended],
        "held_back": _held(held),
        "says": [{"line": outcome.number, "says": outcome.says} for outcome in outcomes],
    }


def _held(held: Iterable[HeldBack]) -> list[dict[str, Any]]:
    return [{"line": one.line, "text": one.text, "why": one.why, "help": one.help} for one in held]


def _file(asked: Asked, file: Path, source: str | None, texts: Mapping[str, str], again: bool) -> Status:
    from crib.cli.progress import ticking

    began = not crib_exists(asked.crib)
    shop = _shop(asked, began)
    reading = read_file(file, asked.units or shop.units, shop.currency, texts, tick=lambda all_: ticking(all_, "read"))
    return _store(asked, reading, source, began, again)


def _options(asked: Asked, source: str | None, texts: Mapping[str, str]) -> Status:
    began = not crib_exists(asked.crib)
    shop = _shop(asked, began)
    return _store(asked, read_options(texts, asked.units or shop.units, shop.currency), source, began)


def _store(asked: Asked, reading: Reading, source: str | None, began: bool, again: bool = True) -> Status:
    """A table's entries; what is in already is passed over, unless it is to be taken in `again`."""
    with open_crib(asked.crib, create=True, units=asked.units) as crib:
        reading = reading if again or began else _but_entries_there(asked, crib, reading)
        if len(reading.taken) >= _MANY:
            crib.put_by("before-list")
        taken = _written(crib, reading, source)
    if began:
        out.note("began a new crib")
    for said in reading.notes:
        out.note(said)
    _answer(asked, taken, reading)
    return Status.ANSWERED if taken else Status.NO


def _written(crib: Crib, reading: Reading, source: str | None) -> list[Cutter]:
    """All of a table, or nothing of it."""
    from crib.cli.progress import ticking

    with crib.gathering():
        taken = crib.take_in((one.cutter for one in ticking(reading.taken, "taken in")), source,
                             [one.typed for one in reading.taken])
        crib.hold_back(reading.held_back)
    return taken


def _but_entries_there(asked: Asked, crib: Crib, reading: Reading) -> Reading:
    from crib.intake.twice import LEAST, entries_there

    entries: list[Taken | HeldBack] = [*reading.taken, *reading.held_back]
    if len(entries) < LEAST:
        return reading
    over = _to_pass_over(asked, frozenset(entries_there(crib, entries)), len(entries))
    count = len(reading.taken)
    return replace(reading, taken=tuple(one for place, one in enumerate(reading.taken) if place not in over),
                   held_back=tuple(one for place, one in enumerate(reading.held_back, count) if place not in over))


def _shop(asked: Asked, began: bool) -> Shop:
    if began:
        return Shop()
    with open_crib(asked.crib, create=True) as crib:
        return crib.shop()


def _answer(asked: Asked, taken: list[Cutter], reading: Reading) -> None:
    lines_of_them = [one.line for one in reading.taken]
    if asked.json:
        out.answer(asked, {
            "taken_in": [cutter.as_json() for cutter in taken],
            "held_back": _held(reading.held_back),
            "lines": [{"line": line, "id": cutter.id} for line, cutter in zip(lines_of_them, taken, strict=True)],
        }, ())
        return
    rows = [(str(line or ""), str(cutter.id), cutter.label, "; ".join(cutter.questions))
            for line, cutter in zip(lines_of_them, taken, strict=True)]
    lines = out.table(("line", "no", "taken in", "to ask"), rows) if taken else []
    for one in reading.held_back:
        lines += [f"held back, line {one.line}: {one.text}", f"    {one.why}; {one.help}"]
    out.answer(asked, None, lines)
