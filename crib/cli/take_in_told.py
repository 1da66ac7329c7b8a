"""What came of taking in, as it is told; and whether what is in already is taken in once more."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING, Any

from crib.cli import out
from crib.cli.asked import Asked
from crib.cli.status import Status

if TYPE_CHECKING:
    from crib.app.opening import Cutter
    from crib.app.tables import Table
    from crib.app.take_in import HeldBack, Outcome, PassOver


MOST_TOLD = 1000
"""So many cutters of a table, and so many lines that are held back, are told one by one."""


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


def said(outcome: Outcome, numbered: bool) -> str:
    """What came of a line in a line, with its number where it has several beside it."""
    numbers = ", ".join(str(cutter.id) for cutter in outcome.taken[:1])
    if len(outcome.taken) > 1:
        numbers += f" to {outcome.taken[-1].id}"
    return (f"line {outcome.number}: " if numbered else "") + (f"{numbers}  " if numbers else "") + outcome.says


def document(outcomes: Sequence[Outcome], over: int) -> dict[str, Any]:
    """What came of lines; `over`: how many were passed over."""
    return {
        "taken_in": [cutter.as_json() for outcome in outcomes for cutter in outcome.taken if cutter.count],
        "missing": [cutter.as_json() for outcome in outcomes for cutter in outcome.taken if not cutter.count],
        "amended": [cutter.as_json() for outcome in outcomes for cutter in outcome.amended],
        "held_back": held_lines(outcome.held for outcome in outcomes if outcome.held is not None),
        "says": [{"line": outcome.number, "says": outcome.says} for outcome in outcomes],
        "passed_over": over,
    }


def held_lines(held: Iterable[HeldBack]) -> list[dict[str, Any]]:
    """Lines held back, each with why and what would be right."""
    return [{"line": one.line, "text": one.text, "why": one.why, "help": one.help} for one in held]


def table_document(taken: Sequence[tuple[int, Cutter]], held: Iterable[HeldBack]) -> dict[str, list[dict[str, Any]]]:
    """What came of a table: cutters with the lines that they stood in, and lines that were held back."""
    return {
        "taken_in": [cutter.as_json() for _, cutter in taken],
        "held_back": held_lines(held),
        "lines": [{"line": line, "id": cutter.id} for line, cutter in taken],
    }


def check_document(taken: Sequence[tuple[int, Cutter]], held: Iterable[HeldBack]) -> dict[str, list[dict[str, Any]]]:
    """How a table is read: cutters, which have no number yet, with the lines that they stand in, and lines that would
    be held back."""
    return {
        "would_take_in": [{key: value for key, value in cutter.as_json().items() if key != "id"} | {"line": line}
                          for line, cutter in taken],
        "held_back": held_lines(held),
    }


def note_began(asked: Asked) -> None:
    """Say that a crib began, and what it reads bare sizes in where that isn't what it would be."""
    from crib.app.opening import usual_units

    usual, units = usual_units(), asked.units
    out.note("began a new crib" if units in (None, usual) else
             f"began a new crib in {units}: bare sizes are in {units} from here on; crib shop --units {usual} changes "
             "that")


def note_table(asked: Asked, table: Table) -> None:
    """What is to be said beside what came of a table."""
    if table.began:
        note_began(asked)
    for note in table.reading.notes:
        out.note(note)


def tell_table(asked: Asked, table: Table) -> Status:
    """What came of a table."""
    note_table(asked, table)
    with_lines = list(zip([one.line for one in table.reading.taken], table.taken, strict=True))
    rows = [(str(line or ""), str(cutter.id), cutter.label, "; ".join(cutter.questions)) for line, cutter in with_lines]
    lines = out.table(("line", "no", "taken in", "to ask"), rows) if rows else []
    for one in table.reading.held_back:
        lines += [f"held back, line {one.line}: {one.text}", f"    {one.why}; {one.help}"]
    cutters, held = table.more
    if cutters:
        last = table.taken[-1].id + cutters
        lines.append(f"and {cutters:,} more cutters, up to no. {last}; crib find --all shows them")
    if held:
        lines.append(f"and {held:,} more lines held back; crib held-back lists them")
    out.answer(asked, lambda: table_document(with_lines, table.reading.held_back), lines)
    return Status.ANSWERED if table.taken else Status.NO
