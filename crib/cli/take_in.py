"""`crib take-in`: record cutters in words, by options, from a file, or line by line at the prompt."""

from __future__ import annotations

import os
import stat
import sys
from collections.abc import Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from itertools import chain
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

from crib.app.opening import SOURCES, crib_exists
from crib.cli import out
from crib.cli.asked import Asked
from crib.cli.attribute_options import CUTTER_SLOTS
from crib.cli.later import typer
from crib.cli.slots import with_options
from crib.cli.status import Status
from crib.findings.errors import CribError

if TYPE_CHECKING:
    from crib.app.take_in import HeldBack, Outcome, PassOver, Session, Table

_EXAMPLE = 'crib take-in "3/8 2fl end mill hss drawer B2", or --file FILE, or --kind end-mill --diameter 1/2'


@with_options(CUTTER_SLOTS)
def take_in(
    ctx: typer.Context,
    text: Annotated[list[str] | None, typer.Argument(help="What it is, in shop words; none: line by line")] = None,
    file: Annotated[Path | None, typer.Option("--file", help="CSV, JSON, lines of words; - is standard input")] = None,
    source: Annotated[str | None, typer.Option("--from", help="Where from: " + ", ".join(SOURCES))] = None,
    yes: Annotated[bool, typer.Option("--yes", help="Take in without asking")] = False,
    again: Annotated[bool, typer.Option("--again", help="Take in a list that is in already once more")] = False,
    check: Annotated[bool, typer.Option("--check", help="Show how it is read, and store nothing")] = False,
    columns: Annotated[list[str] | None, typer.Option(
        "--map", help="What a column holds: \"Width of teeth=face\"; =nothing for none")] = None,
    *,
    texts: dict[str, str],
) -> Status:
    """Record cutters; what can't be read is held back with why."""
    asked: Asked = ctx.obj
    described = _described(source, text, file, texts)
    if text:
        from crib.intake.arguments import texts_of

        if check:
            return check_lines(asked, texts_of(text), texts)
        return take_list(asked, texts_of(text), source, texts, None, again=True)
    if file is not None and str(file) != "-":
        from crib.cli.take_in_file import take_file

        return take_file(asked, file, source, texts, again or yes, check, columns or [], yes)
    if check or columns:
        raise CribError("usage", "--check and --map are for words or a file that is named", "", _EXAMPLE)
    if described:
        from crib.app.take_in import by_options

        return tell_table(asked, by_options(asked.crib, asked.units, texts, source))
    if out.is_asking() and not asked.json:
        from crib.cli.prompt import at_the_prompt

        return at_the_prompt(asked, source, texts)
    return _stream(asked, source, texts, again or yes)


def _described(source: str | None, text: list[str] | None, file: Path | None, texts: Mapping[str, str]) -> bool:
    """Whether options describe the cutter. Raises `CribError` for what doesn't go together."""
    if source is not None and source not in SOURCES:
        from crib.intake.near import one_of

        raise CribError("choice", f"--from {source!r} is not known", source, one_of(source, SOURCES))
    described = bool(set(texts) - {"drawer"})
    if (file is not None) + bool(text) + described > 1:
        raise CribError("usage", "a file, words and options don't go together", " ".join(text or []),
                        "one of them at a time")
    return described


def take_list(asked: Asked, lines: Sequence[str], source: str | None, texts: Mapping[str, str], file: str | None,
          again: bool) -> Status:
    """Lines of words, all of them or none."""
    from crib.app.take_in import at_once
    from crib.cli.progress import ticking

    if not any(line.strip() for line in lines):
        raise CribError("usage", "nothing to take in", "", _EXAMPLE)
    with _session(asked, source, texts, file) as (session, began):
        came = at_once(session, lines, passing_over(asked, again or began), ticking)
    done = [one for one in came if one is not None]
    out.answer(asked, lambda: _document(done, len(came) - len(done)),
               (_said(outcome, file is not None) for outcome in done))
    return Status.ANSWERED if any(outcome.is_done for outcome in done) else Status.NO


def _stream(asked: Asked, source: str | None, texts: Mapping[str, str], again: bool) -> Status:
    """Standard input line by line, each said once it is kept. Stopped from the keyboard, it says how far it came."""
    from crib.app.take_in import as_they_come

    lines = _piped()
    done: list[Outcome] = []
    over = 0
    with _session(asked, source, texts, "-") as (session, began):
        try:
            for outcome in as_they_come(session, lines, passing_over(asked, again or began), _is_a_file()):
                if outcome is None:
                    over += 1
                    continue
                done.append(outcome)
                if not asked.json:
                    out.answer(asked, None, [_said(outcome, True)])
                    out.flush()
        except KeyboardInterrupt:
            out.note(f"stopped: what came up to line {done[-1].number if done else 0} is kept; give the list once more "
                     "and it goes on from there")
            raise
    if asked.json:
        out.answer(asked, _document(done, over))
    return Status.ANSWERED if any(outcome.is_done for outcome in done) else Status.NO


def check_lines(asked: Asked, lines: Sequence[str], texts: Mapping[str, str]) -> Status:
    """How lines of words are read; nothing is stored."""
    from crib.app.take_in import checked

    came = checked(asked.crib, asked.units, [line for line in lines if line.strip()], texts)
    document = _document(came, 0)
    cutters = [_unstored(cutter) for cutter in document["taken_in"]]
    out.answer(asked, {"would_take_in": cutters, "held_back": document["held_back"], "says": document["says"]},
               [f"line {outcome.number}: {outcome.says}" for outcome in came])
    return Status.ANSWERED if all(outcome.is_done for outcome in came) else Status.NO


def _unstored(cutter: dict[str, Any]) -> dict[str, Any]:
    return {key: value for key, value in cutter.items() if key != "id"}


@contextmanager
def _session(asked: Asked, source: str | None, texts: Mapping[str, str], file: str | None
             ) -> Iterator[tuple[Session, bool]]:
    """A session on the crib, and whether the crib began with it."""
    from crib.app.take_in import session_of

    began = not crib_exists(asked.crib)
    with asked.open(create=True) as crib:
        session = session_of(crib, source, texts, file)
        if began:
            out.note("began a new crib")
        yield session, began


def _piped() -> Iterable[str]:
    """Standard input, line by line. Raises `CribError` where there is nothing in it."""
    try:
        lines = iter(getattr(sys.stdin, "buffer", sys.stdin) or ())
        first = next((line for line in lines if line.strip()), None)
    except (OSError, ValueError):
        first = None
    if first is None:
        raise CribError("usage", "nothing to take in", "", _EXAMPLE)
    return _read(chain([first], lines))


def _read(lines: Iterable[bytes | str]) -> Iterator[str]:
    """Lines as texts; the first that isn't UTF-8 is spoken of."""
    from crib.intake.encoding import decoded, is_told, is_utf8, read_as_old

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


def _is_a_file() -> bool:
    """Whether standard input is a file, of which the end is there already."""
    try:
        return stat.S_ISREG(os.fstat(sys.stdin.fileno()).st_mode)
    except (AttributeError, OSError, ValueError):
        return False


def passing_over(asked: Asked, again: bool) -> PassOver | None:
    """What to do with what is in the crib already: nothing is looked for where it is to be taken in `again`, else all
    of it is passed over, unless somebody is there who wants it once more."""
    def which(there: frozenset[int], of: int) -> frozenset[int]:
        many = f"all {of:,} lines" if len(there) == of else f"{len(there):,} of {of:,} lines"
        if asked.json or not out.is_asking():
            out.note(f"{many} were taken in before and are passed over; --again takes them in once more")
            return there
        out.note(f"{many} were taken in before. Once more? y takes them in again, Enter passes them over")
        try:
            return frozenset() if input().strip().lower() in ("y", "yes") else there
        except EOFError:
            return there

    return None if again else which


def _said(outcome: Outcome, numbered: bool) -> str:
    numbers = ", ".join(str(cutter.id) for cutter in outcome.taken[:1])
    if len(outcome.taken) > 1:
        numbers += f" to {outcome.taken[-1].id}"
    return (f"line {outcome.number}: " if numbered else "") + (f"{numbers}  " if numbers else "") + outcome.says


def _document(outcomes: Sequence[Outcome], over: int) -> dict[str, Any]:
    return {
        "taken_in": [cutter.as_json() for outcome in outcomes for cutter in outcome.taken if cutter.count],
        "missing": [cutter.as_json() for outcome in outcomes for cutter in outcome.taken if not cutter.count],
        "amended": [cutter.as_json() for outcome in outcomes for cutter in outcome.amended],
        "held_back": _held(outcome.held for outcome in outcomes if outcome.held is not None),
        "says": [{"line": outcome.number, "says": outcome.says} for outcome in outcomes],
        "passed_over": over,
    }


def _held(held: Iterable[HeldBack]) -> list[dict[str, Any]]:
    return [{"line": one.line, "text": one.text, "why": one.why, "help": one.help} for one in held]


def tell_table(asked: Asked, table: Table) -> Status:
    """What came of a table."""
    if table.began:
        out.note("began a new crib")
    for said in table.reading.notes:
        out.note(said)
    with_lines = list(zip([one.line for one in table.reading.taken], table.taken, strict=True))

    def document() -> dict[str, Any]:
        return {
            "taken_in": [cutter.as_json() for cutter in table.taken],
            "held_back": _held(table.reading.held_back),
            "lines": [{"line": line, "id": cutter.id} for line, cutter in with_lines],
        }

    rows = [(str(line or ""), str(cutter.id), cutter.label, "; ".join(cutter.questions)) for line, cutter in with_lines]
    lines = out.table(("line", "no", "taken in", "to ask"), rows) if rows else []
    for one in table.reading.held_back:
        lines += [f"held back, line {one.line}: {one.text}", f"    {one.why}; {one.help}"]
    out.answer(asked, document, lines)
    return Status.ANSWERED if table.taken else Status.NO
