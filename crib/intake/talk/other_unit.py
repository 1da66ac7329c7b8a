"""The line before once more, its bare numbers in another unit: `no wait, metric`."""

from __future__ import annotations

from crib.findings.errors import CribError
from crib.intake.shorthand import Line, read_line
from crib.intake.shorthand import again as said_again
from crib.intake.talk.deeds import NONE_BEFORE, Deed, Ledger, Outcome
from crib.light.records import replace
from crib.units.words import told


def in_unit(session: Ledger, word: str, text: str, number: int) -> Outcome:
    """The line before once more, its bare numbers in the unit that was meant."""
    unit = "in" if word.startswith(("in", "imp")) else "mm"
    last = session.deeds[-1] if session.deeds else None
    if last is None or len(last.taken) > 1:
        return session.hold(text, number, *NONE_BEFORE)
    if last.before and not last.taken:
        return _corrected(session, last, unit, text, number)
    again = said_again.in_unit(last.text, unit)
    line = read_line(again, session.shop) if again else Line("")
    if len(line.taken) != 1:
        why = line.why if again else f"no number in {last.text!r} could be in {unit}"
        return session.hold(text, number, why, "undo, and say it again with its unit")
    if last.held:
        held = tuple(one for one in session.crib.held_back() if one.id in last.held)
        if not held:
            return session.hold(text, number, "somebody put the line before right meanwhile", "say the whole cutter")
        return session.store(replace(line, text=f"{last.text} / {text}"), number, held)
    before = session.crib.cutter(last.taken[0])
    return session.amend(before, line.taken[0].cutter.but(id=before.id), dict(line.taken[0].typed), text, number)


def _corrected(session: Ledger, last: Deed, unit: str, text: str, number: int) -> Outcome:
    """A correction once more, in the unit that was meant."""
    asked, before = said_again.asked(last.text), last.before[0]
    stamp = before.nominal_mm or before.diameter_mm or 0.0
    try:
        cutter, typed = said_again.corrected(before, f"{asked.rest if asked else ''} {unit}", session.shop)
    except CribError as error:
        return session.hold(text, number, *told(error.finding, session.shop.units))
    if not 0.5 < (cutter.diameter_mm or 0.0) / (stamp or 1.0) < 2:
        return session.hold(text, number, f"{typed['diameter_mm']} can't be what {before.label} measures",
                          "say what it measures, with its unit")
    return session.amend(session.crib.cutter(before.id), cutter, typed, text, number)
