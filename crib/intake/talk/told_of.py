"""Lines that tell what became of a cutter on record, which they name by its size and kind."""

from __future__ import annotations

from datetime import date

from crib.cutters.away import away
from crib.cutters.base import Cutter
from crib.findings.errors import CribError
from crib.intake.life import now
from crib.intake.shorthand import Line, read_line
from crib.intake.shorthand import again as said_again
from crib.intake.shorthand.kinds import kind_named
from crib.intake.talk.deeds import Ledger, Outcome
from crib.light.records import replace
from crib.store.find import Wanted
from crib.units.words import told

_SAME_MM = 0.001


def like(session: Ledger, rest: str) -> tuple[Line, list[Cutter]]:
    """The cutters on record that a piece of a line could mean."""
    line = read_line(rest, session.shop)
    if len(line.taken) != 1:
        return line, []
    one = line.taken[0].cutter
    size = one.nominal_mm if one.nominal_mm is not None else one.diameter_mm
    wanted = Wanted(words=(one.thread.lower(),) if one.thread else (), kinds=(one.kind,),
                    near=((size, _SAME_MM),) if size else ())
    return line, list(session.crib.find(wanted).cutters)


def found(session: Ledger, rest: str, text: str, number: int) -> Outcome | None:
    """One that was missing is there again; else it is a new one."""
    line, alike = like(session, rest)
    missing = [cutter for cutter in alike if not cutter.count]
    if len(missing) == 1:
        became = now(missing[0], "found", date.today(), session.shop.units, session.shop.currency)
        return session.amend(missing[0], became.cutter, became.typed, text, number)
    if line.taken:
        return session.store(replace(line, text=text, source="found"), number)
    return session.hold(text, number, line.why, line.help)


def lived(session: Ledger, asked: said_again.Asked, text: str, number: int) -> Outcome | None:
    """What became of a cutter on record: lent, back, lost, dull ...; None where the line is of one that isn't."""
    if asked.form == "state" and session.joins and kind_named(asked.rest):
        return None
    line, alike = like(session, asked.rest)
    back = asked.form in ("brought", "back")
    states = asked.form in ("moved", "sharpened", "state")
    meant = [cutter for cutter in alike if (cutter.away if back else cutter.count or states)]
    if back and asked.who:
        who = asked.who.casefold()
        theirs = [cutter for cutter in meant if any(one.who.casefold() == who for one in away(cutter))]
        meant = theirs or meant
    if len(meant) != 1:
        if not alike and states and read_line(text, session.shop).taken:
            return None
        which = ", ".join(f"{cutter.id} {cutter.label}" for cutter in meant[:5])
        none = f"no {asked.rest} is on record that could be {'back' if back else asked.form}"
        why = f"it could be one of several: {which}" if meant else none
        return session.hold(text, number, line.why or why,
                          f"say which by its number: crib now {meant[0].id} ..." if meant else "take it in first")
    words = said_again.became(asked)
    try:
        became = now(meant[0], words, date.today(), session.shop.units, session.shop.currency)
    except CribError as error:
        return session.hold(text, number, *told(error.finding, session.shop.units))
    return session.amend(meant[0], became.cutter, became.typed, text, number, became.says)
