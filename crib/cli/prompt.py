"""`crib take-in` at the prompt: a line for each cutter, written down before the next is asked for."""

from __future__ import annotations

import sys
import textwrap
from collections.abc import Mapping
from typing import TYPE_CHECKING

from crib.cli import out
from crib.cli.asked import Asked
from crib.cli.status import Status
from crib.findings.errors import CribError
from crib.render.text import plain

if TYPE_CHECKING:
    from crib.app.take_in import Outcome, Session

_WELCOME = (
    "A line for each cutter, as you would say it. For instance:",
    "  1/2 4 flute end mill 1/2 shank hss dull drawer B2 $8",
    "  woodruff 606   #7 drill cobalt   1/4-20 plug tap H3   set 1-60 number drills",
    "Of the one before:",
    "  same as last but 5/16  ·  another one, dull  ·  no, 3 flute  ·  make that dull",
    "  that's .248 actually  ·  no wait, metric  ·  the last two are hss",
    "  undo  ·  forget that one  ·  undo the last two",
    "For all that follow: all of these hss, drawer B3  ·  drawer B4  ·  no drawer",
    "Right? is answered by y or the next line; n takes it back, or say what is wrong.",
    "Each line is kept as soon as you press Enter, even one that can't be read. Bare",
    "sizes are in {units}; 10mm and 3/4\" go anywhere. ? shows this again; an empty",
    "line ends.",
)
"""No line is wider than 80 columns: a terminal breaks it in the middle of a word."""
_QUIET_TRIES = 1
_END = ("", "done", "quit", "exit", "bye")


def at_the_prompt(asked: Asked, source: str | None, texts: Mapping[str, str]) -> Status:
    """Ask for lines until an empty one, the end of input or Ctrl-C; every line was kept by then."""
    from crib.app.opening import begin_in, crib_exists
    from crib.app.take_in import session_of
    from crib.cli.take_in_told import note_began

    began = not crib_exists(asked.crib)
    with asked.open(create=True) as crib:
        session = session_of(crib, source, texts, joins=True)
        if began:
            begin_in(crib, asked.units)
            note_began(asked)
        _welcome(session.shop.units)
        number = 0
        while (line := _ask()) is not None and line.strip().lower() not in _END:
            if line.strip() in ("?", "help"):
                _welcome(session.shop.units)
                continue
            number += 1
            outcome = _kept(session, line, number)
            _say(outcome.says, [cutter.id for cutter in outcome.taken], outcome.is_done)
        taken, back = session.tally()
    held = f", {_many(back, 'line')} held back: crib held-back lists them" if back else ""
    print(f"{_many(taken, 'cutter')} taken in{held}")
    return Status.ANSWERED if taken or not back else Status.NO


def _kept(session: Session, line: str, number: int) -> Outcome:
    """What came of a line, tried until it is kept: a crib that is locked, or a disk that is full, costs nobody what was
    typed. Raises `CribError` with the line where it is given up."""
    tries = 0
    while True:
        try:
            return session.say(line, number)
        except CribError as error:
            from crib.render.words import told

            out.note("not kept yet: " + "; ".join(told(error.finding, session.shop.units)))
        tries += 1
        if tries > _QUIET_TRIES:
            out.note(f"Enter tries again, an end gives it up: {line}")
            answer = _ask()
            if answer is None or answer.strip().lower() in _END[1:]:
                raise CribError("not-kept", f"the last line is not in the crib: {line}", line, "type it again")


def _welcome(units: str) -> None:
    for line in _WELCOME:
        print(line.format(units="inches" if units == "in" else "mm"))


def _ask() -> str | None:
    """The next line, None at the end. Ctrl-C ends too: nothing is under way between two lines."""
    try:
        return input("> ")
    except EOFError:
        print()
        return None
    except KeyboardInterrupt:
        print()
        return None
    except UnicodeDecodeError:
        out.note("that line isn't UTF-8 text; type it again")
        return "?"


def _say(says: str, numbers: list[int], done: bool) -> None:
    if len(numbers) > 1:
        shown = f"{numbers[0]} to {numbers[-1]}  "
    else:
        shown = f"{numbers[0]}  " if numbers else ""
    said = plain(f"{shown}{says}" + ("  Right?" if done and numbers else ""))
    print(textwrap.fill(said, out.width(), initial_indent="  ", subsequent_indent="     "))
    sys.stdout.flush()


def _many(count: int, word: str) -> str:
    return f"{count} {word}{'' if count == 1 else 's'}"
