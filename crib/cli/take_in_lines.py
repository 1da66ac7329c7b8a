"""`crib take-in` in words: lines of them at once, one after the other as they come, or only read."""

from __future__ import annotations

import os
import stat
import sys
from collections.abc import Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from itertools import chain
from typing import TYPE_CHECKING, Any

from crib.app.opening import begin_crib, begin_in, crib_exists
from crib.cli import out
from crib.cli.asked import Asked
from crib.cli.status import Status
from crib.cli.take_in_told import document, note_began, passing_over, said
from crib.findings.errors import CribError

if TYPE_CHECKING:
    from crib.app.take_in import Outcome, Session

EXAMPLE = 'crib take-in "3/8 2fl end mill hss drawer B2", or --file FILE, or --kind end-mill --diameter 1/2'


def take_list(asked: Asked, lines: Sequence[str], source: str | None, texts: Mapping[str, str], file: str | None,
          again: bool) -> Status:
    """Lines of words, all of them or none."""
    from crib.app.take_in import at_once
    from crib.cli.progress import ticking
    from crib.cli.told_later import ToldLater

    if not any(line.strip() for line in lines):
        raise CribError("usage", "nothing to take in", "", EXAMPLE)
    with ToldLater(asked, numbered=file is not None) as told:
        with _session(asked, source, texts, file, at_once=file is not None) as (session, began):
            for one in at_once(session, lines, passing_over(asked, again or began), ticking, began):
                told.add(one)
        if began:
            note_began(asked)
        told.tell()
    return Status.ANSWERED if told.is_any_done else Status.NO


def stream(asked: Asked, source: str | None, texts: Mapping[str, str], again: bool) -> Status:
    """Standard input line by line, each said once it is kept. Stopped from the keyboard, it says how far it came."""
    from crib.app.take_in import as_they_come

    lines = _piped()
    done: list[Outcome] = []
    over = 0
    with _session(asked, source, texts, "-") as (session, began):
        if began:
            note_began(asked)
        try:
            for outcome in as_they_come(session, lines, passing_over(asked, again or began), _is_a_file()):
                if outcome is None:
                    over += 1
                    continue
                done.append(outcome)
                if not asked.json:
                    out.answer(asked, None, [said(outcome, True)])
                    out.flush()
        except KeyboardInterrupt:
            out.note(f"stopped: what came up to line {done[-1].number if done else 0} is kept; give the list once more "
                     "and it goes on from there")
            raise
    if asked.json:
        out.answer(asked, document(done, over))
    return Status.ANSWERED if any(outcome.is_done for outcome in done) else Status.NO


def check_lines(asked: Asked, lines: Sequence[str], texts: Mapping[str, str]) -> Status:
    """How lines of words are read; nothing is stored."""
    from crib.app.take_in import checked

    came = checked(asked.crib, asked.units, [line for line in lines if line.strip()], texts)
    came_of_it = document(came, 0)
    cutters = [_unstored(cutter) for cutter in came_of_it["taken_in"]]
    out.answer(asked, {"would_take_in": cutters, "held_back": came_of_it["held_back"], "says": came_of_it["says"]},
               [f"line {outcome.number}: {outcome.says}" for outcome in came])
    return Status.ANSWERED if all(outcome.is_done for outcome in came) else Status.NO


def _unstored(cutter: dict[str, Any]) -> dict[str, Any]:
    return {key: value for key, value in cutter.items() if key != "id"}


@contextmanager
def _session(asked: Asked, source: str | None, texts: Mapping[str, str], file: str | None, at_once: bool = False
             ) -> Iterator[tuple[Session, bool]]:
    """A session on the crib, and whether the crib began with it: `at_once`, when all of it is done."""
    from crib.app.take_in import session_of

    began = not crib_exists(asked.crib)
    with begin_crib(asked.crib, asked.units) if at_once else asked.open(create=True) as crib:
        if began:
            begin_in(crib, asked.units)
        yield session_of(crib, source, texts, file), began


def _piped() -> Iterable[str]:
    """Standard input, line by line. Raises `CribError` where there is nothing in it."""
    try:
        lines = iter(getattr(sys.stdin, "buffer", sys.stdin) or ())
        first = next((line for line in lines if line.strip()), None)
    except (OSError, ValueError):
        first = None
    if first is None:
        raise CribError("usage", "nothing to take in", "", EXAMPLE)
    return _read(chain([first], lines))


def _read(lines: Iterable[bytes | str]) -> Iterator[str]:
    """Lines as texts; the first that isn't UTF-8 is spoken of."""
    from crib.intake.lists.encoding import decoded, is_told, is_utf8, read_as_old

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
