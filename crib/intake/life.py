"""What became of a cutter, in a few words: `lent to bob`, `back`, `reground .4875`, `dull`, `lost`, `moved to B3`."""

from __future__ import annotations

import re
from collections.abc import Callable
from datetime import date
from typing import Any

from crib.cutters import kind_of
from crib.cutters.away import LENT, LOST, SCRAPPED, Away, bring_back, send
from crib.cutters.base import Cutter
from crib.findings.errors import CribError
from crib.intake.attributes import ATTRIBUTES, read_value
from crib.intake.build import amended
from crib.light.tuples import NamedTuple
from crib.units import show

_SIZE = r"(?P<size>[#.\d][^,;]*?)"
_NUMBERS = {word: number for number, word in enumerate(
    ["one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"], start=1)}
_MANY = rf"(?P<count>\d{{1,4}}|all|both|{'|'.join(_NUMBERS)})(?: of (?:them|these|those))?"
_COUNT = re.compile(rf"{_MANY} (?P<rest>.+)", re.DOTALL | re.IGNORECASE)
_COUNT_BEHIND = re.compile(rf"(?P<verb>lost|mislaid|scrapped|broke|snapped|threw (?:out|away)|(?:lent|loaned)(?: out)?|"
                           rf"found|got) {_MANY}(?P<rest> .+)?", re.DOTALL | re.IGNORECASE)
_AND = re.compile(r"(?:,|;| and| but)+ (?:and |but )?")
_STATES = {"dull": "dull|blunt|worn", "chipped": "chipped|nicked", "burnt": "burnt|burned|blue", "bent": "bent",
           "sharp": "sharp|sharpened|resharpened|honed|stoned|touched up", "used": "used"}
_HELP = ("lent to NAME, back, lost, found, scrapped, moved to B3, reground .4875, measured .498, sharpened, dull or "
         "chipped")

_ENDS = {"one": (0,), "first": (0,), "other": (1,), "second": (1,), "both": (0, 1)}
_SAME_MM = 0.01

WAS_IT_GROUND = "diameter may be less now: mic it, if the flutes were ground"
"""What to ask of a cutter that was sharpened; it goes when a diameter is said."""


class Told(NamedTuple):
    """The cutter as it is now, what was typed for its sizes, and the same in words."""

    cutter: Cutter
    typed: dict[str, str]
    says: str


class _Said(NamedTuple):
    """What was said of a cutter: how many of it, the pieces of the pattern, the day, units and currency."""

    cutter: Cutter
    number: int | None
    parts: dict[str, str]
    today: str
    units: str
    currency: str


def now(cutter: Cutter, words: str, today: date, units: str, currency: str) -> Told:
    """A cutter after what is said of it. Raises `CribError` for what can't be read, and for what can't be.

    >>> from crib.cutters.base import Cutter
    >>> mill = Cutter(4, "end-mill", "1/2 end mill", diameter_mm=12.7)
    >>> lent = now(mill, "lent to Bob", date(2026, 11, 2), "in", "USD")
    >>> lent.cutter.count, lent.cutter.away
    (0, ('1 lent to Bob since 2026-11-02',))
    >>> now(lent.cutter, "back", date(2026, 11, 9), "in", "USD").cutter.count
    1
    >>> ground = now(mill, "reground .4875", date(2026, 11, 2), "in", "USD").cutter
    >>> ground.nominal_mm, ground.diameter_mm, ground.measured
    (12.7, 12.3825, ('diameter_mm',))
    """
    said = " ".join(words.split()).rstrip(".!")
    told = _told(cutter, said, today, units, currency)
    if told is None:
        raise CribError("now", f"{words.strip()[:60]!r} doesn't say what became of it", words, _HELP)
    return told


def _told(cutter: Cutter, said: str, today: date, units: str, currency: str) -> Told | None:
    """What is said, one deed or several one after the other; None where it can't be read. Raises `CribError`."""
    for joint in _AND.finditer(said):
        if _is_more(said[joint.end():]) and (first := _told(cutter, said[:joint.start()], today, units, currency)):
            then = _told(first.cutter, said[joint.end():], today, units, currency)
            return then and Told(then.cutter, first.typed | then.typed, f"{first.says}; {then.says}")
    found = _deed(said)
    if found is None:
        return None
    count, parts, tell = found
    many = cutter.count or 1 if count in ("all", "both") else _NUMBERS.get(count) or (int(count) if count else None)
    if count == "both" and cutter.count != 2 and tell is not _back:
        raise CribError("now", f"there are {cutter.count} of no. {cutter.id}, not two", count, "say how many")
    if count in ("all", "both") and tell is _back:
        many = None
    return tell(_Said(cutter, many, parts, today.isoformat(), units, currency))


def _is_more(said: str) -> bool:
    """Whether something more is said; `B2, back` is a place."""
    found = _deed(said)
    return found is not None and found[2] is not _back


def _deed(said: str) -> tuple[str, dict[str, str], Callable[[_Said], Told]] | None:
    """How many, as it was said, the pieces of the deed, and the deed; None where it isn't one."""
    counted = [("", said)]
    if found := _COUNT.fullmatch(said):
        counted.insert(0, (found["count"].lower(), found["rest"]))
    if found := _COUNT_BEHIND.fullmatch(said):
        counted.insert(0, (found["count"].lower(), f"{found['verb']}{found['rest'] or ''}"))
    for count, rest in counted:
        for pattern, tell in _DEEDS:
            if deed := re.fullmatch(pattern, rest, re.IGNORECASE):
                return count, {key: text.strip() for key, text in deed.groupdict().items() if text}, tell
    return None


def _gone(how: str) -> Callable[[_Said], Told]:
    def tell(said: _Said) -> Told:
        gone = Away(1 if said.number is None else said.number, how, said.today,
                    said.parts.get("who", "").replace(";", ","))
        if not gone.count:
            raise CribError("now", "none of them is none", "0", "how many, or nothing for one")
        return Told(send(said.cutter, gone), {}, gone.words.replace(f" since {said.today}", ""))

    return tell


def _back(said: _Said) -> Told:
    """There again; in another place, where one is named. One that was simply missing is found."""
    place = {"drawer": said.parts["place"]} if "place" in said.parts else {}
    if not said.cutter.away and not said.cutter.count:
        note = (said.cutter.note or "").removeprefix("missing from the ") or None
        return Told(said.cutter.but(count=said.number or 1, note=note, **place), {}, "there again")
    how = LOST if "found" in said.parts else ""
    after = bring_back(said.cutter, said.number, said.parts.get("who", ""), how).but(**place)
    back = after.count - said.cutter.count
    return Told(after, {}, f"{back} there again" if back > 1 else "there again")


def _moved(said: _Said) -> Told:
    place = read_value("drawer", said.parts["place"], said.units)
    return Told(said.cutter.but(drawer=place), {}, f"in {place} now")


def _reground(said: _Said) -> Told:
    """Smaller than its stamp from now on, and by how much only a micrometer tells."""
    size = said.parts.get("size")
    changes: dict[str, Any] = {"reground": True, "condition": "sharp"}
    if size is not None:
        changes |= {"diameter_mm": read_value("diameter_mm", size, said.units), "measured": ("diameter_mm",)}
    mark = said.cutter.nominal_mm if said.cutter.nominal_mm is not None else said.cutter.diameter_mm
    if mark is not None and changes.get("diameter_mm", 0.0) >= mark:
        raise CribError("now", f"{size} isn't less than the {show(mark, said.units)} it was ground from", str(size),
                        f"what a micrometer reads now; a wrong mark: crib amend {said.cutter.id} --nominal SIZE")
    again = said.cutter.reground
    before = said.cutter.but(diameter_mm=None, measured=_without(said.cutter.measured)) if again else said.cutter
    changes |= {} if mark is None else {"nominal_mm": mark}
    return Told(amended(before, changes, said.currency), {} if size is None else {"diameter_mm": size},
                "reground" + (f", measured {size}" if size else ": mic it"))


def _measured(said: _Said) -> Told:
    key = f"{said.parts.get('what', 'diameter').lower().replace(' ', '_').replace('-', '_')}_mm"
    if key not in ATTRIBUTES:
        raise CribError("now", f"{said.parts['what']!r} is not a size of a cutter", said.parts["what"],
                        "diameter, face, neck, reach, shank, length of cut ...")
    changes = {key: read_value(key, said.parts["size"], said.units), "measured": (key,)}
    if key == "diameter_mm" and said.cutter.nominal_mm is None and said.cutter.diameter_mm is not None:
        changes["nominal_mm"] = said.cutter.diameter_mm
    return Told(amended(said.cutter, changes, said.currency), {key: said.parts["size"]},
                f"{ATTRIBUTES[key].name.replace('-', ' ')} measured {said.parts['size']}")


def _state(state: str) -> Callable[[_Said], Told]:
    def tell(said: _Said) -> Told:
        after = amended(said.cutter, {"condition": state}, said.currency)
        if state == "sharp" and after.diameter_mm is not None and not kind_of(after).keeps_size:
            after = after.but(questions=tuple(dict.fromkeys((*after.questions, WAS_IT_GROUND))))
        return Told(after, {}, state)

    return tell


def _end_state(said: _Said) -> Told:
    """The state of one end of a double-ender, or of both. Raises `CribError` where there is no such end."""
    cutter, which = said.cutter, said.parts["which"].lower()
    state = next(state for state, words in _STATES.items() if re.fullmatch(words, said.parts["state"], re.IGNORECASE))
    if len(cutter.ends) < 2:
        raise CribError("now", f"no. {cutter.id} has one end as far as is known", which, state)
    ends = tuple(end.but(condition=state) if place in _ends_meant(said, which) else end
                 for place, end in enumerate(cutter.ends))
    return Told(cutter.but(ends=ends, condition=ends[0].condition), {}, f"{which} end{'s' * (which == 'both')} {state}")


def _ends_meant(said: _Said, which: str) -> tuple[int, ...]:
    """The places of the ends that are meant: by their order, or by their size."""
    if which in _ENDS:
        return _ENDS[which]
    mm, ends = read_value("diameter_mm", which, said.units), said.cutter.ends
    found = tuple(place for place, end in enumerate(ends) if abs((end.diameter_mm or 0.0) - mm) < _SAME_MM)
    if len(found) != 1:
        raise CribError("now", f"no. {said.cutter.id} has {len(found) or 'no'} ends of {which}", which,
                        "the first end, the other end, both ends")
    return found


def _without(keys: tuple[str, ...]) -> tuple[str, ...]:
    return tuple(key for key in keys if key != "diameter_mm")


_IS = r"(?:(?:it )?(?:is|was|'s|it's|came|got|now|been) )*"
_DEEDS: tuple[tuple[str, Callable[[_Said], Told]], ...] = (
    (_IS + r"(?:lent|loaned|given)(?: out)? to (?P<who>.+)", _gone(LENT)),
    (_IS + r"(?:with|at) (?P<who>(?!the )[^\d].*)", _gone(LENT)),
    (_IS + r"(?:lost|missing|gone|not there|can'?t be found|can'?t find it|mislaid)", _gone(LOST)),
    (_IS + r"(?:scrapped|thrown (?:out|away)|threw (?:it )?(?:out|away)|broken?|broke it|snapped|scrap|no good)",
     _gone(SCRAPPED)),
    (_IS + r"(?:back|returned|there|there again|brought back|(?P<found>found(?: again)?|turned up))"
           r"(?: (?:by|from) (?P<who>.+?))?(?:,? (?:in|into|to) (?P<place>.+))?", _back),
    (r"(?P<who>[^\d\s].*?) (?:brought|gave) (?:it |them )?back(?:,? (?:in|into|to) (?P<place>.+))?", _back),
    (_IS + r"(?:(?:moved|put|lives?|kept) )?(?:to|in|into) (?P<place>.+)", _moved),
    (_IS + rf"(?:re)?ground(?: under| down)?(?:,?(?: to| now| it| is| miked| mikes| measured| measures)* {_SIZE})?",
     _reground),
    (rf"(?:(?P<what>diameter|face|neck|reach|shank|length[ -]of[ -]cut|bore|tip|corner[ -]radius)s? )?"
     rf"(?:(?:is|mikes|miked|measures|measured|mics) )+{_SIZE}", _measured),
    (r"(?:the |its |on )?(?P<which>one|first|other|second|both|[#.\d][^\s,;]*)(?: ends?| sides?)"
     rf"(?: (?:is|are|was|were|got|came|has gone|now))* (?P<state>{'|'.join(_STATES.values())})(?: now)?", _end_state),
    *((_IS + rf"(?:{words})(?: now| again)?", _state(state)) for state, words in _STATES.items()),
)
