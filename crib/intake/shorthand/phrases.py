"""Phrases of shorthand that say what they are: money, how many, flutes, angles, taps."""

from __future__ import annotations

import re

from crib.intake.shorthand.needed import likely, likely_of
from crib.intake.shorthand.slip import SIZE, Slip
from crib.intake.shorthand.vocabulary import NOTES

_MONEY = (
    r"(?:paid )?\$\s?(?P<a>\d+(?:[.,]\d\d)?|\.\d\d)(?P<each> ?(?:ea|each|apiece))?(?: shipped)?",
    r"(?:paid )?(?P<a>\d+(?:[.,]\d\d)?) (?:bucks|dollars)(?P<each> ?(?:ea|each|apiece))?(?: shipped)?",
    r"(?:paid|costs?|priced?(?: at)?) (?P<a>\d+(?:[.,]\d\d)?)(?P<each> ?(?:ea|each))?(?: shipped)?",
    r"(?P<a>\d+(?:[.,]\d\d)?)(?P<each> ?(?:ea|each|apiece))",
)
_OWED = r"(?:paid|costs?|priced?(?: at)?) ?-\s?(?P<a>\d+(?:[.,]\d\d)?)(?: ?(?:ea|each))?(?: shipped)?"
_FOR_ALL = r"for (?:the |all )?(?:lot|all|both|pair|set|two|\d{1,2}|them)(?: of them)?|total|all in"
_COUNTS = (
    r"(?:qty|quantity)[.:]? ?(\d{1,3})(?![\d.])",
    r"^(\d{1,2}) (?:of|off)(?: the| them| these)?(?= )", r"(?:only |just )?(\d{1,2}) left(?! ?-?hand)",
    r"(\d{1,2}) no\.?(?= #?[\d.])", r"^(\d{1,2})(?=\s*,\s*\d+/\d+ (?:.* )?(?:mills|drills|taps|dies|reamers|saws|"
                                    r"cutters|"
    r"countersinks|blanks|bars|bits)\b)",
    r"lot of (\d+)", r"\((\d+)\)", r"(\d+) ?(?:pcs|pieces|off|of them|of these)", r"x(\d+)(?=\s*(?:,|$))",
    r"(?<!#)(\d{1,3})(?= (?:end mills|drills|taps|reamers|saws|cutters|countersinks|blanks)\b)",
    r"box of (\d+)", r"(\d+) (?:x|times)(?= end mill| drill| tap)",
)
_NUMBERS = ((r"half (?:a )?dozen|1/2 (?:a )?dozen", 6), ("dozen(?: of)?", 12), (r"(?:a )?pair(?: of)?", 2),
            (r"(?:a )?couple(?: of)?", 2))
_SOURCES = ((r"gift", "gift"), (r"bought|purchased", "purchase"), (r"home ?made|made", "made"))
_ANGLE = r"(?P<a>\d+(?:\.\d+)?) ?(?:°|deg(?:rees?)?\b\.?)(?: ?(?P<how>incl|per side|a side|each side))?"
_BARE_ANGLE = (r"(?P<a>30|45|55|60|82|90|100|110|118|120|130|135|140)(?!\s?(?:mm|in\b|\"|thou|-\d|/|\.\d))"
               r"(?: ?(?P<how>incl|per side|a side|each side))?")
_HELIX = (r"\d+(?:\.\d+)? ?(?:°|deg(?:rees?)?\b\.?)? ?(?:helix|rake|relief|hook|spiral angle)|"
          r"(?:helix|rake|relief|hook)(?: angle)?(?: of)? \d+(?:\.\d+)? ?(?:°|deg(?:rees?)?\b\.?)")
_MORSE = (r"#?\s?(?P<n>[0-6])[ -]?(?:(?:morse|mt)(?: taper)?(?: shank)?)|"
          r"(?:morse(?: taper)?|mt)(?: shank)?[ -]?#?(?P<m>[0-6])(?: shank)?")
_LIMIT = r"g?(?P<kind>[hd]) ?(?P<n>1[0-2]|[1-9])"
_CLASS = r"(?:class )?([1-3]b|[4-7]h)(?: fit)?"
_LIKELY_MONEY, _LIKELY_COUNTS = likely(_MONEY), likely(_COUNTS)
_LIKELY_NUMBERS, _LIKELY_SOURCES = likely_of(_NUMBERS), likely_of(_SOURCES)


def money(slip: Slip) -> None:
    """What one cost: `$8 shipped`, `12 bucks`, `9 ea`, `free`."""
    if slip.take("free|for nothing"):
        slip.values["price"] = 0.0
        return
    if found := slip.take(_OWED):
        slip.ask("price", f"is the price {found['a']}? it stands there below zero")
        return
    for pattern in _LIKELY_MONEY.among(slip.pieces):
        if "$" in pattern and "$" not in slip.text:
            continue
        if found := slip.take(pattern.replace(r"\$", r"[$]")) or _dollar(slip, pattern):
            slip.values["price"] = float(found["a"].replace(",", "."))
            all_of_them = slip.take(_FOR_ALL)
            if not found["each"] and (all_of_them or slip.has(r"lot of \d+|\(\d+\)|dozen|pair")):
                slip.ask("price", f"is {found['a']} for one or for all of them?")
            return


def _dollar(slip: Slip, pattern: str) -> re.Match[str] | None:
    found = re.search(pattern, slip.text) if "$" in pattern and "$" in slip.text else None
    if found:
        slip.blank(*found.span())
    return found


def whence(slip: Slip) -> None:
    """Where it came from, in the owner's words."""
    for pattern, source in _LIKELY_SOURCES.among(slip.pieces):
        if slip.has(pattern):
            slip.source = source
            slip.take(pattern)
    if found := slip.take(r"from (?:the )?(?!left|right)[a-z'’][\w'’ ]*?(?=\s*(?:[:,;$¦]|$))"):
        slip.notes.append(found[0].strip())


def count_each(slip: Slip) -> None:
    """How many of each, which isn't what each costs."""
    if found := slip.take(r"(?:^(\d{1,2}) ?(?:each|ea)|(\d{1,2}) each of|(\d{1,2}) of each)(?: of)?(?: the)?", "count"):
        slip.values["count"] = int(found[1] or found[2] or found[3])


def count(slip: Slip) -> None:
    """How many of them."""
    for word, number in _LIKELY_NUMBERS.among(slip.pieces):
        if slip.take(word, "count"):
            slip.values["count"] = number
    for pattern in _LIKELY_COUNTS.among(slip.pieces):
        found = _loose(slip, pattern) if pattern.startswith(r"\(") else slip.take(pattern, "count")
        if found:
            slip.values["count"] = int(found[1])
            return


def morse(slip: Slip) -> None:
    """The Morse taper of its shank. `#2 morse drill` may as well be a #2 by the maker of that name, and is asked."""
    if slip.has("taper reamers?"):
        return
    before = slip.text
    found = slip.take(_MORSE)
    if not found:
        return
    number = found["n"] or found["m"]
    sure = "taper" in found[0] or "mt" in found[0]
    if not sure and not SIZE.search(slip.text) and not slip.has("[a-z] drills?"):
        slip.text = before
        slip.ask("diameter_mm", f"is #{number} its size, or the Morse taper of its shank?")
        return
    slip.notes.append(f"Morse taper shank no. {number}")


def _loose(slip: Slip, pattern: str) -> re.Match[str] | None:
    found = re.search(pattern, slip.text) if "(" in slip.text else None
    if found:
        slip.blank(*found.span())
    return found


def flutes(slip: Slip) -> None:
    """Flutes or teeth, centre-cutting, and which way it cuts."""
    if found := slip.take(r"(\d{1,3}) (?:flutes?|tooth)|z ?=? ?(\d{1,2})", "flutes"):
        count = int(found[1] or found[2])
        if "flutes" in slip.values and slip.values["flutes"] != count:
            slip.ask("flutes", f"flutes: is it {slip.values['flutes']} or {count}?")
        slip.values.setdefault("flutes", count or None)
        if "flutes" in slip.assumed:
            slip.values["flutes"] = count or None
        slip.assumed = [key for key in slip.assumed if key != "flutes"]
        slip.notes += [] if count else ["zero flute (oblique hole)"]
    if found := slip.take(r"(?:non|not|no) ?-?cc", "centre_cutting") or slip.take(r"cc|ctr", "centre_cutting"):
        slip.values["centre_cutting"] = not found[0].startswith("no")
        slip.assumed = [key for key in slip.assumed if key != "centre_cutting"]
    if helix := slip.take(r"(?:lh|left|rh|right)(?:[ -]hand(?:ed)?)? (?:helix|spiral)(?: flute[ds]?)?"):
        slip.notes.append(helix[0].strip())
    if slip.take(r"lh(?: cut(?:ting)?)?|left(?= (?:cut|cutting|tap|die|thread))", "hand"):
        slip.values["hand"] = "left"
    elif slip.take(r"left"):
        slip.ask("hand", "hand: is it left-hand? 'left' was said")
    elif slip.take(r"rh|right[ -]hand(?:ed)?(?: cut(?:ting)?)?", "hand"):
        slip.values["hand"] = "right"


def angles(slip: Slip, is_angular: bool) -> None:
    """The angle, and whether it was said to be included or for a side."""
    if helix := slip.take(_HELIX):
        slip.notes.append(helix[0].strip())
    found = slip.take(_ANGLE, "angle_deg") if "°" in slip.text or "deg" in slip.text else None
    if found := found or (slip.take(_BARE_ANGLE, "angle_deg") if is_angular else None):
        slip.values["angle_deg"] = float(found["a"])
        slip.values["angle_how"] = found["how"] or (slip.take("incl|per side") or [""])[0]


def point_angle(slip: Slip) -> None:
    """A drill's point without a word for it: nothing else of a drill is 118 or 135."""
    if "angle_deg" not in slip.values and (found := slip.take(r"(118|135|140)(?! ?(?:mm|thou|in\b|\"))", "angle_deg")):
        slip.values["angle_deg"] = float(found[1])


def taps(slip: Slip) -> None:
    """Chamfer, form, point and limit of a tap."""
    british = slip.has("second") and not slip.has("second from")
    names = {"taper": "taper", "second": "plug", "bottoming": "bottoming", "plug": "bottoming" if british else "plug"}
    if slip.has("nptf?|bspt|pipe") and slip.take("taper(?:ed)?"):
        slip.ask("tap_chamfer", "tap-chamfer: is it a taper tap, or a tap for the taper thread? look at its lead")
    chamfers = [names[word] for word in re.findall(r"\b(taper|second|plug|bottoming)\b", slip.text)]
    while slip.take("taper|second|plug|bottoming", "chamfers"):
        pass
    if chamfers:
        slip.values["chamfers"] = list(dict.fromkeys(chamfers))
    if slip.take(r"forming|form|roll"):
        slip.values["tap_form"] = "forming"
    if slip.take(r"spiral point(?:ed)?"):
        slip.values["tap_point"] = "spiral point"
    elif slip.take(r"spiral flute[ds]?|spiral"):
        slip.values["tap_point"] = "spiral flute"
    if found := slip.take(_CLASS):
        slip.notes.append(f"class {found[1].upper()}")
    if found := slip.take(_LIMIT, "limit"):
        slip.values["limit"] = f"{found['kind']}{found['n']}".upper()


_FLAT = rf"(?:{SIZE.pattern}) (?:wide )?flats?(?: on(?: the)?(?: shank)?)?"
_HAS_BEEN = (rf"(?:re)?ground (?:down )?from (?:an? )?(?P<from>{SIZE.pattern})|"
             rf"(?:was|originally|used to be|started as)(?: an?)? (?P<was>{SIZE.pattern})")
_SO_MANY = (r"\d{1,2} (?:of (?:them|these) )?(?:are |is )?"
            r"(?:broken|broke|snapped|bent|dull|blunt|no good|scrap)|"
            r"(?:(?<=, )|(?<=and )|(?<=sharp )|(?<=dull ))\d{1,2} (?:chipped|sharp)"
            r"(?! (?:corner|tooth|flute|edge|end))")


def asides(slip: Slip) -> None:
    """Sizes and numbers that aren't the cutter's own: of a flat, of what it was, of how many are broken."""
    if found := slip.take(_FLAT):
        slip.notes.append(found[0].strip())
    if found := slip.take(_HAS_BEEN):
        slip.values["reground"] = True
        slip.size("nominal_mm", found["from"] or found["was"])
    some = []
    while found := slip.take(_SO_MANY):
        some.append(found[0].strip())
    if some:
        slip.notes += some
        slip.ask("condition", f"condition: {', '.join(some)} of how many? a line for each state")


_LIKELY = likely_of(NOTES)


def remarks(slip: Slip) -> None:
    """What goes into the note in words that are known."""
    for pattern, said in _LIKELY.among(slip.pieces):
        if slip.take(pattern):
            slip.notes.append(said)
