"""`crib take-in --file`: a file read, shown at a terminal before it is stored, or only checked."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from crib.cli import out
from crib.cli.asked import Asked
from crib.cli.status import Status
from crib.cli.take_in_lines import check_lines, take_list
from crib.cli.take_in_told import MOST_TOLD, check_document, note_table, passing_over, tell_table

if TYPE_CHECKING:
    from crib.intake.reading import Reading

_MOST = 200


def take_file(asked: Asked, file: Path, source: str | None, texts: Mapping[str, str], again: bool, check: bool,
              columns: Sequence[str], yes: bool) -> Status:
    """Take in a file. `check`: only show how it is read; `columns`: what columns hold, as it was typed; `yes`: without
    asking. Raises `CribError`."""
    from crib.app.tables import by_file
    from crib.cli.progress import ticking
    from crib.cli.told_later import TableLater
    from crib.intake.lists.files import is_lines, lines_of, notes_of
    from crib.intake.lists.headings import mapped

    for said in notes_of(file):
        out.note(said)
    if is_lines(file):
        if check:
            return check_lines(asked, lines_of(file), texts)
        return take_list(asked, lines_of(file), source, texts, str(file), again)
    watched = out.is_asking() and out.is_watched() and not asked.json and not yes
    given = mapped(columns)
    if watched:
        given = _asked_for(file, given)
    if check and not asked.heard and (status := _checked(asked, file, texts, again, given)) is not None:
        return status
    seen = _Look(asked, check, _units(asked))
    streams = asked.json and not asked.heard and not check
    with TableLater() as later:
        table = by_file(asked.crib, asked.units, file, texts, source, passing_over(asked, again), ticking, given,
                        seen.look if check or watched else None, None if asked.json and not streams else MOST_TOLD,
                        later if streams else None)
        if streams and not (table.taken or table.reading.held_back):
            note_table(asked, table)
            later.tell()
            return Status.ANSWERED if table.more[0] else Status.NO
    if table.is_kept:
        return tell_table(asked, table)
    if check:
        return seen.status
    out.note("nothing was taken in")
    return Status.NO


def _checked(asked: Asked, file: Path, texts: Mapping[str, str], again: bool, given: Mapping[str, str | None]
             ) -> Status | None:
    """Show how a table is read, entry by entry; None where it came before, and is to be seen as a whole."""
    from crib.app.tables import checked
    from crib.cli.progress import ticking
    from crib.cli.told_later import CheckLater

    with CheckLater() as later:
        table = checked(asked.crib, asked.units, file, texts, passing_over(asked, again), ticking, given, _MOST,
                        later if asked.json else None)
        if table is None:
            return None
        for said in table.reading.notes:
            out.note(said)
        if asked.json:
            later.tell()
        else:
            out.answer(asked, None, _lines(table.reading, _units(asked), table.more[0]))
    return Status.NO if table.reading.held_back or table.more[1] else Status.ANSWERED


class _Look:
    """What is done with a reading before it is stored."""

    def __init__(self, asked: Asked, check: bool, units: str) -> None:
        self.asked, self.check, self.units, self.status = asked, check, units, Status.NO

    def look(self, reading: Reading) -> bool:
        """Show it; at a terminal ask whether it is to be stored."""
        from crib.cli.before import is_wanted

        self.status = Status.NO if reading.held_back else Status.ANSWERED
        document = check_document([(one.line, one.cutter) for one in reading.taken], reading.held_back)
        for said in reading.notes:
            out.note(said)
        out.answer(self.asked, document, _lines(reading, self.units, max(0, len(reading.taken) - _MOST)))
        held = f", {len(reading.held_back)} to hold back" if reading.held_back else ""
        return not self.check and is_wanted(f"{len(reading.taken)} to take in{held}.")


def _lines(reading: Reading, units: str, more: int) -> list[str]:
    """A line for each cutter that was read, and for each line that can't be; `more` cutters aren't shown."""
    from crib.intake.shorthand.confirm import described

    rows = [(str(one.line or ""), described(one.cutter.but(id=1), units), "; ".join(one.cutter.questions))
            for one in reading.taken[:_MOST]]
    lines = out.table(("line", "read as", "to ask"), rows) if rows else []
    if more:
        lines.append(f"and {more} more")
    for one in reading.held_back[:_MOST]:
        lines += [f"held back, line {one.line}: {one.text}", f"    {one.why}; {one.help}"]
    return lines


def _units(asked: Asked) -> str:
    """The units that the crib reads a bare number in."""
    from crib.app.opening import crib_exists

    if asked.units or not crib_exists(asked.crib):
        return asked.units or "in"
    with asked.open() as crib:
        return crib.units


def _asked_for(file: Path, given: Mapping[str, str | None]) -> dict[str, str | None]:
    """What the columns hold whose headings mean nothing, as somebody at the terminal says."""
    from crib.intake.lists.files import headings_unknown
    from crib.intake.lists.headings import meaning

    known = dict(given)
    for name in headings_unknown(file):
        key = " ".join(name.lower().split())
        while key not in known:
            out.note(f"what is in the column {name!r}? face, neck, price ...; Enter keeps it in the notes")
            try:
                said = input().strip()
            except EOFError:
                said = ""
            if not said or meaning(said) is not None:
                known[key] = meaning(said) if said else None
    return known
