"""Lines that put others right: what comes of them."""

from __future__ import annotations

import re
from typing import Any

from crib.cutters import KINDS
from crib.cutters.base import Cutter
from crib.findings.errors import CribError
from crib.intake.build import amended
from crib.intake.shorthand.kinds import kind_named
from crib.intake.shorthand.line import Shop, kind_of_line, read_line, read_piece
from crib.intake.shorthand.slip import Held
from crib.intake.shorthand.spelling import plain
from crib.intake.talk.deeds import HELD_BEFORE, NONE_BEFORE, Ledger, Outcome
from crib.intake.talk.remarks import NO_MORE, THAT_KIND, alone, fix_of, how_many
from crib.units import NM, nm
from crib.units.words import told

_HELP = "say what is different: no, 3 flute; make that dull; it's hss; drawer B3; undo"
_FOLLOWING = ("drawer", "material", "condition")


def put_right(session: Ledger, text: str, number: int) -> Outcome | None:
    """What comes of a line that puts another right, or holds for those that follow; None for any other."""
    if (said := NO_MORE.fullmatch(text.strip())) is not None:
        key = "drawer" if said["what"].lower() in ("drawer", "place") else "material"
        return session.stick({key: None}, text, number, f"no {key} for the lines that follow")
    if many := how_many(text):
        last = [] if session.is_another_held() else session.last_cutters(1)
        return _fix(session, last, f"{many} of them", text, number)
    if (said := THAT_KIND.fullmatch(text.strip().rstrip(".!"))) is not None and \
            (kind := kind_named(plain(said["what"])[0])) and not read_line(text, session.shop).taken:
        return _of_kind(session, kind, said["rest"], text, number)
    fix = fix_of(text)
    if fix is not None and fix.form == "follow":
        texts = alone(fix.rest, _FOLLOWING)
        return _follows(session, texts, text, number) if texts else \
            session.hold(text, number, f"{fix.rest[:40]!r} can't be said for all that follow",
                         "a drawer, a steel, or sharp")
    if fix is None:
        texts = alone(text, ("drawer", "material"))
        return _for_last_too(session, texts, text, number) if texts else _bare(session, text, number)
    if fix.form in ("no", "sure") and (texts := _of_what_follows(session, fix.rest)):
        return _follows_instead(session, texts, text, number)
    if fix.form == "no" and _is_whole(fix.rest, session.shop) and not re.match(r"\w+[,:]", text.strip()):
        return None
    if fix.form == "no" and not session.last_cutters(1):
        return None
    return _fix(session, session.last_cutters(fix.many), fix.rest, text, number)


def _of_kind(session: Ledger, kind: str, rest: str, text: str, number: int) -> Outcome:
    """What is said of the cutter before by its kind; asked where that is of another kind."""
    last = [] if session.is_another_held() else session.last_cutters(1)
    if last and all(cutter.kind == kind for cutter in last):
        return _fix(session, last, rest, text, number)
    words = KINDS[kind].words
    is_what = f"the one before is {last[-1].label}" if last else "there is none just before it"
    return session.hold(text, number, f"which {words}? {is_what}", f"say it by its number: crib now NUMBER {rest}")


def _is_whole(text: str, shop: Shop) -> bool:
    return kind_of_line(text) is not None and bool(read_line(text, shop).taken)


def _follows(session: Ledger, texts: dict[str, str], text: str, number: int) -> Outcome:
    return session.stick(dict(texts), text, number, f"{_listed(texts)} from here on, until another is said")


def _for_last_too(session: Ledger, texts: dict[str, str], text: str, number: int) -> Outcome:
    """For the last cutter, where it has none, and for the lines that follow."""
    missing = [cutter for cutter in session.last_cutters(1)
               if any(getattr(cutter, key) in (None, "unknown") for key in texts)]
    says = f"{_listed(texts)} from here on, until another is said"
    if missing:
        for cutter in missing:
            lacks = {key: value for key, value in texts.items() if getattr(cutter, key) in (None, "unknown")}
            session.change(cutter, cutter.but(**lacks), {}, text)
        says = f"{_numbers(missing)} and what follows: {_listed(texts)}, until another is said; undo takes it back"
    return session.stick(dict(texts), text, number, says, tuple(missing))


def _of_what_follows(session: Ledger, rest: str) -> dict[str, str]:
    """What puts right the drawer or steel that the line before said for all that follow; empty where it said none."""
    before = session.deeds[-1].sticks if session.deeds else None
    if before is None:
        return {}
    texts, now = alone(rest, _FOLLOWING), session.shop.defaults or {}
    return texts if all(now.get(key) != before.get(key) for key in texts) else {}


def _follows_instead(session: Ledger, texts: dict[str, str], text: str, number: int) -> Outcome:
    """For the cutters that the line before gave its own, and for the lines that follow."""
    cutters = tuple(session.crib.cutter(cutter.id) for cutter in session.deeds[-1].before)
    for cutter in cutters:
        session.change(cutter, cutter.but(**texts), {}, text)
    to_whom = f"{_numbers(list(cutters))} and what follows: " if cutters else ""
    says = f"{to_whom}{_listed(texts)}{'' if cutters else ' from here on'}, until another is said; undo takes it back"
    return session.stick(dict(texts), text, number, says, cutters)


def _bare(session: Ledger, text: str, number: int) -> Outcome | None:
    """What can be said of the last cutter alone: `3 flute`, `dull`; None for what may be a cutter of its own."""
    last = [] if session.is_held_last() else session.last_cutters(1)
    if not last or kind_of_line(text) is not None or read_line(text, session.shop).taken:
        return None
    try:
        values, _, asks, unused = read_piece(text, session.shop, last[-1].kind)
    except (Held, CribError):
        return None
    said = values.keys() - {"kind", "note"}
    if not said or unused or asks or said & {"diameter_mm", "nominal_mm", "thread", "radius_mm"}:
        return None
    return _fix(session, last, text, text, number)


def _fix(session: Ledger, cutters: list[Cutter], rest: str, text: str, number: int) -> Outcome:
    """The cutters with what is different. A line that can't be read is held back, and changes nothing."""
    if not cutters:
        return session.hold(text, number, *(HELD_BEFORE if session.is_another_held() else NONE_BEFORE))
    try:
        changed = [different(cutter, rest, session.shop) for cutter in cutters]
    except Held as held:
        return session.hold(text, number, held.why, held.help)
    except CribError as error:
        return session.hold(text, number, *told(error.finding, session.shop.units))
    for cutter, (after, typed) in zip(cutters, changed, strict=True):
        session.change(cutter, after, typed, text)
    return session.changed(tuple(cutters), text, number)


def different(cutter: Cutter, rest: str, shop: Shop) -> tuple[Cutter, dict[str, str]]:
    """A cutter with what is said to be different. Raises `Held` and `CribError` where that can't be read, or can't be.
    """
    kind = kind_of_line(rest) or cutter.kind
    values, typed, asks, unused = read_piece(rest, shop, kind)
    values = {key: value for key, value in values.items() if key != "note"} | {"kind": kind}
    noted = " ".join(unused)
    if (values == {"kind": cutter.kind} and not asks) or (noted and len(values) == 1):
        raise CribError("correction", f"it can't be read what is different: {rest[:60]}", rest, _HELP)
    if "diameter_mm" in values and cutter.nominal_mm is not None and "nominal_mm" not in values:
        values["nominal_mm"] = None
    if "diameter_mm" in values and (corner := cutter.corner_radius_mm) and cutter.diameter_mm and abs(
            2 * corner - cutter.diameter_mm) < 1e-6:
        values["corner_radius_mm"] = nm(values["diameter_mm"] / 2) / NM
    after = amended(cutter, _as_changes(values), shop.currency)
    note = "; ".join(part for part in (after.note, noted) if part) or None
    return after.but(questions=tuple(dict.fromkeys((*after.questions, *asks.values()))), note=note), typed


def _as_changes(values: dict[str, Any]) -> dict[str, Any]:
    return {key: value for key, value in values.items() if key not in ("currency", "questions")}


def _listed(texts: dict[str, str]) -> str:
    return ", ".join(f"drawer {value}" if key == "drawer" and len(value) <= 4 else value for key,
        value in texts.items())


def _numbers(cutters: list[Cutter]) -> str:
    return ", ".join(str(cutter.id) for cutter in cutters)
