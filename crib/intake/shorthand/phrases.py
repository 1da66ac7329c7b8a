"""Phrases of shorthand that say what they are: the place, money, how many, flutes, angles, taps, material."""

from __future__ import annotations

import re

from crib.intake.shorthand.slip import GAP, SIZE, Slip
from crib.intake.shorthand.vocabulary import CONDITIONS, MATERIALS, NOTES

_SPOT = r"(?:[a-z]{0,2}\d{1,3}[a-z]?|[a-z])(?:[-/]\d{1,3})*"
_CONTAINER = r"(?:cabinet|drawer|tray|shelf|bin|rack|(?<!t )(?<!tee )slot)"
_WHERE = r"(?:top|bottom|middle|upper|lower|left|right|red|blue|green|black|white|yellow|grey|wooden|tin|big|small)"
_ORDINAL = r"(?:first|second|third|fourth|fifth|sixth|seventh|eighth|1st|2nd|3rd|[4-9]th) from (?:the )?(?:left|right)"
_PLACES = (
    rf"(?:in |into )?(?:(?:the )?(?:cabinet) {_SPOT}[, ]+)?{_CONTAINER} {_SPOT}(?:[, ]+(?:slot|tray) {_SPOT})*"
    rf"(?:[, ]+{_ORDINAL})?",
    r"(?:in |into )?(?:the )?#\d{1,3} (?:tray|drawer|box|shelf|bin)",
    rf"(?:in |into )?(?:the )?{_WHERE}(?: {_WHERE})* (?:tray|drawer|box|shelf|bin|cabinet)(?:[, ]+{_ORDINAL})?",
    rf"(?:in |into )?{_CONTAINER} (?=[a-z]*[^\x00-\x7f])[^\W\d_]+(?: \d{{1,3}})?(?=$|[,;])",
)
_BARE_PLACE = re.compile(r",\s*([a-z]\d{1,2}(?:-\d{1,2})?)\s*$")
_MONEY = (
    r"(?:paid )?\$\s?(?P<a>\d+(?:[.,]\d\d)?|\.\d\d)(?P<each> ?(?:ea|each|apiece))?(?: shipped)?",
    r"(?:paid )?(?P<a>\d+(?:[.,]\d\d)?) (?:bucks|dollars)(?P<each> ?(?:ea|each|apiece))?(?: shipped)?",
    r"paid (?P<a>\d+(?:[.,]\d\d)?)(?P<each> ?(?:ea|each))?(?: shipped)?",
    r"(?P<a>\d+(?:[.,]\d\d)?)(?P<each> ?(?:ea|each|apiece))",
)
_COUNTS = (
    r"(?:qty|quantity)[.:]? ?(\d{1,3})(?![\d.])",
    r"lot of (\d+)", r"\((\d+)\)", r"(\d+) ?(?:pcs|pieces|off|of them|of these)", r"x(\d+)(?=\s*(?:,|$))",
    r"(?<!#)(\d{1,3})(?= (?:end mills|drills|taps|reamers|saws|cutters|countersinks|blanks)\b)",
    r"box of (\d+)", r"(\d+) (?:x|times)(?= end mill| drill| tap)",
)
_SOURCES = ((r"gift", "gift"), (r"bought|purchased", "purchase"), (r"home ?made|made", "made"))
_ANGLE = r"(?P<a>\d+(?:\.\d+)?) ?(?:°|deg(?:rees?)?\b\.?)(?: ?(?P<how>incl|per side|a side|each side))?"
_BARE_ANGLE = (r"(?P<a>30|45|55|60|82|90|100|110|118|120|130|135|140)(?!\s?(?:mm|in\b|\"|thou|-\d|/|\.\d))"
               r"(?: ?(?P<how>incl|per side|a side|each side))?")
_MORSE = (r"#?\s?(?P<n>[0-6])[ -]?(?:(?:morse|mt)(?: taper)?(?: shank)?)|"
          r"(?:morse(?: taper)?|mt)(?: shank)?[ -]?#?(?P<m>[0-6])(?: shank)?")
_LIMIT = r"g?(?P<kind>[hd]) ?(?P<n>1[0-2]|[1-9])"


def place(slip: Slip) -> None:
    """Where it lies: `drawer B2`, `top tray third from left`, a name behind the last comma."""
    for pattern in _PLACES:
        if found := slip.take(pattern):
            slip.values["drawer"] = _place(found[0])
            return
    bare = _BARE_PLACE.search(slip.text)
    if bare and not (bare[1][0] in "hd" and slip.has("taps?")) and not bare[1].startswith("m"):
        slip.text = slip.text[: bare.start()]
        slip.values["drawer"] = bare[1].upper()


def _place(said: str) -> str:
    bare = re.sub(r"^(?:in |into )?(?:the )?", "", said.strip())
    bare = re.sub(r"^#(\d+) drawer$", r"\1", re.sub(r"^drawer ", "", bare))
    return re.sub(r"\b[a-z]{0,2}\d[\w/-]*|(?<=cabinet )[a-z]\b|^[a-z]$", lambda found: found[0].upper(), bare)


def money(slip: Slip) -> None:
    """What one cost: `$8 shipped`, `12 bucks`, `9 ea`, `free`."""
    if slip.take("free|for nothing"):
        slip.values["price"] = 0.0
        return
    for pattern in _MONEY:
        if found := slip.take(pattern.replace(r"\$", r"[$]")) or _dollar(slip, pattern):
            slip.values["price"] = float(found["a"].replace(",", "."))
            if not found["each"] and slip.has(r"lot of \d+|\(\d+\)|dozen|pair"):
                slip.ask("price", f"is {found['a']} for one or for all of them?")
            return


def _dollar(slip: Slip, pattern: str) -> re.Match[str] | None:
    found = re.search(pattern, slip.text) if "$" in pattern and "$" in slip.text else None
    if found:
        slip.text = slip.text[: found.start()] + GAP + slip.text[found.end():]
    return found


def whence(slip: Slip) -> None:
    """Where it came from, in the owner's words."""
    for pattern, source in _SOURCES:
        if slip.has(pattern):
            slip.source = source
            slip.take(pattern)
    if found := slip.take(r"from (?:the )?(?!left|right)[a-z'’][\w'’ ]*?(?=\s*(?:[:,;$¦]|$))"):
        slip.notes.append(found[0].strip())


def count(slip: Slip) -> None:
    """How many of them."""
    for word, number in (("dozen", 12), (r"(?:a )?pair(?: of)?", 2)):
        if slip.take(word):
            slip.values["count"] = number
    for pattern in _COUNTS:
        found = _loose(slip, pattern) if pattern.startswith(r"\(") else slip.take(pattern)
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
    found = re.search(pattern, slip.text)
    if found:
        slip.text = slip.text[: found.start()] + GAP + slip.text[found.end():]
    return found


def flutes(slip: Slip) -> None:
    """Flutes or teeth, centre-cutting, and which way it cuts."""
    if found := slip.take(r"(\d{1,3}) (?:flutes?|tooth)"):
        slip.values["flutes"] = int(found[1]) or None
        slip.assumed = [key for key in slip.assumed if key != "flutes"]
        slip.notes += [] if int(found[1]) else ["zero flute (oblique hole)"]
    if found := slip.take(r"(?:non|not|no) ?-?cc") or slip.take(r"cc|ctr"):
        slip.values["centre_cutting"] = not found[0].startswith("no")
        slip.assumed = [key for key in slip.assumed if key != "centre_cutting"]
    if slip.take(r"lh|left"):
        slip.values["hand"] = "left"
    elif slip.take(r"rh|right[ -]hand"):
        slip.values["hand"] = "right"


def substance(slip: Slip) -> None:
    """Material and coating, condition, and whether it was reground."""
    grade = slip.take(r"(?<=carbide )c[1-8]|c[1-8](?= carbide)")
    if grade:
        slip.notes.append(f"grade {grade[0].upper()}")
    for pattern, material in MATERIALS:
        if slip.take(pattern):
            slip.values.setdefault("material", material)
    _reground(slip)
    for pattern, condition in CONDITIONS:
        if found := slip.take(pattern):
            slip.values.setdefault("condition", condition)
            if "corner" in found[0]:
                slip.notes.append("chipped corner")


def _reground(slip: Slip) -> None:
    if found := slip.take(r"reground ?(?P<by>\.\d+|\d+ thou) under|reground to (?P<to>\d*\.\d+)|reground"):
        slip.values["reground"] = True
        if found["by"]:
            slip.values["ground_by"] = found["by"]
        if found["to"]:
            slip.values["ground_to"] = found["to"]


def angles(slip: Slip, is_angular: bool) -> None:
    """The angle, and whether it was said to be included or for a side."""
    found = slip.take(_ANGLE) or (slip.take(_BARE_ANGLE) if is_angular else None)
    if found:
        slip.values["angle_deg"] = float(found["a"])
        slip.values["angle_how"] = found["how"] or (slip.take("incl|per side") or [""])[0]


def taps(slip: Slip) -> None:
    """Chamfer, form, point and limit of a tap."""
    british = slip.has("second") and not slip.has("second from")
    names = {"taper": "taper", "second": "plug", "bottoming": "bottoming", "plug": "bottoming" if british else "plug"}
    chamfers = [names[word] for word in re.findall(r"\b(taper|second|plug|bottoming)\b", slip.text)]
    while slip.take("taper|second|plug|bottoming"):
        pass
    if chamfers:
        slip.values["chamfers"] = list(dict.fromkeys(chamfers))
    if slip.take(r"forming|form|roll"):
        slip.values["tap_form"] = "forming"
    if slip.take(r"spiral point(?:ed)?"):
        slip.values["tap_point"] = "spiral point"
    elif slip.take(r"spiral flute[ds]?|spiral"):
        slip.values["tap_point"] = "spiral flute"
    if found := slip.take(_LIMIT):
        slip.values["limit"] = f"{found['kind']}{found['n']}".upper()


def remarks(slip: Slip) -> None:
    """What goes into the note in words that are known."""
    for pattern, said in NOTES:
        if slip.take(pattern):
            slip.notes.append(said)
