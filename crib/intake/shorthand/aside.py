"""Sizes that aren't the cutter's own: that of the screw or key it is for; and its own said by so much more or less."""

from __future__ import annotations

import re

from crib.cutters import KINDS
from crib.cutters.speech import Order
from crib.intake.shorthand.kinds import called
from crib.intake.shorthand.needed import may_fit, needed
from crib.intake.shorthand.slip import SIZE, Held, Slip
from crib.light.patterns import pattern
from crib.units import NM, nm

_OF = (r"(?:hex|allen|socket|head|cap|flat ?head|flat|countersunk|machine|button|pan|fillister|shoulder|set|wood|grub|"
       r"carriage|coach|square|round|woodruff|gib|dowel|taper|clevis|cotter|body|close|free|loose|fit|clearance)")
_THING = (r"(?:screws?|capscrews?|bolts?|t nuts?|keys?|keyways?|studs?|pins?|dowels?|shafts?|nuts?|"
          r"shcs|fhcs|bhcs|fhs|csk|"
          r"inserts?|bushings?|bearings?|slots?|rivets?|flathead|flatheads|heads?|washers?|threads?|taps?|tapping|"
          r"holes?|work)")
_SIZE = rf"(?:m\d{{1,2}}(?: ?x ?[\d.]+)?|#?(?:\d+/)?\d+ ?- ?\d+(?![/\d])|{SIZE.pattern})"
_FOR = pattern(rf"(?<![\w/.-])(?:for|to suit|suits?|to take|takes|to fit|fits?)"
               r"(?: (?:use|cutting|making|on|with|an?|the|my))*"
               rf" (?P<size>{_SIZE})(?P<of>(?: {_OF})*(?: {_THING})?)(?![\w/]|-\w)")
_BESIDE = pattern(rf"(?<![\w/.-])(?P<size>{_SIZE})(?P<of>(?: {_OF})* (?:screws?|capscrews?|bolts?|keys?|keyways?|"
                  rf"studs?|shcs|fhcs|bhcs|fhs|flatheads?|clearance|body|nuts?|rivets?))(?![\w/]|-\w)"
                  r"(?! ?(?:cutters?|seats?|seating|ways?|broach))")
_SAYS_FOR = ("for", "suit", "take", "fit")
_SAYS_BESIDE = ("screw", "bolt", "key", "nut", "stud", "hcs", "fhs", "flathead", "clearance", "body", "rivet")
"""What each of them can't do without."""

_OWN = pattern(r"\s*(?:radius|rad|bores?|arbors?|shanks?|collets?|pilots?|spindle|chamfers?|deg\w*|°)")
"""What a size is of that is the cutter's own even behind a `for`."""

_HOLE = pattern(r"holes?|bores?")

_OFF = r"(?P<off>\.\d+|\d+(?:\.\d+)? ?thou|an? thou|(?:half|1/2) (?:a )?thou|\d*\.\d+ ?mm)"
_LESS = r"(?:under(?:size)?|below|small(?:er)?|less(?: than)?|minus|shy(?: of)?|short of|down|light|off|too small)"
_MORE = r"(?:over(?:size)?|above|big(?:ger)?|more(?: than)?|plus|large(?:r)?|up|heavy|too big)"
_MOST_OFF = 1.6
"""The most that a size is said to differ from another [mm]: a sixteenth (common practice, no source)."""

_OFFS = (
    pattern(rf"(?<![\w/.-])(?P<base>{SIZE.pattern})(?: nominal)?,? (?:(?P<less>less|minus|-)|(?P<more>plus|\+)) ?"
            rf"{_OFF}(?![\w/.-])"),
    pattern(rf"(?<![\w/.-]){_OFF},? (?:(?P<less>{_LESS})|(?P<more>{_MORE}))(?: of| on)?(?: the)? "
            rf"(?P<base>{SIZE.pattern})"),
    pattern(rf"(?<![\w/.-]){_OFF},? (?:(?P<less>{_LESS})|(?P<more>{_MORE}))(?![\w/]|-\w)"),
    pattern(rf"(?<![\w/.-])(?:(?P<less>less|minus)|(?P<more>plus)) {_OFF}(?![\w/.-])"),
    pattern(rf"(?<![\w/.-])(?:(?P<less>under(?:size)?|short|small|down)|(?P<more>over(?:size)?|big)) (?:by |of "
            rf")?{_OFF}"
            r"(?![\w/.-])"),
)

_SAYS_OFF = needed(f"{_LESS}|{_MORE}")
"""Pieces of the words of which one says that a size is said by another; without one a sign does."""

_FEET = r"(?:ft\.?|foot)"
_PER_FOOT = (rf"(?<!#)(?<!# )(?<!no )({SIZE.pattern})(?: ?(?:inch|in|\"))?(?: of)?(?: taper)? ?"
             rf"(?:per|/|to the|to a|to|a|each) ?{_FEET}|"
             rf"({SIZE.pattern})(?: ?(?:inch|in|\"))? ?(?:tpf|t\.p\.f\.?)|"
             rf"(?:tpf|t\.p\.f\.?|taper (?:per|/|to the) ?{_FEET})(?: is| of|:)? ?({SIZE.pattern})")
_SAYS_FOOT = ("ft", "foot", "tpf", "t.p.f")
_FOOT = rf"(?<!#)(?<!# )(?<!no )((?:\d+[- ])?\d+/\d+|\d*\.\d+)(?: ?(?:inch|in|\"))?(?: taper)? ?{_FEET}"
"""How much a cutter tapers to the foot, said outright; and as it is said of a taper reamer."""


def of_another(slip: Slip, kind: str | None) -> None:
    """Take what the cutter is for off the slip and keep it as a note; a size that is its own all the same stays."""
    kind = _named_beside(slip) or kind
    order = KINDS[kind].speech.order if kind else None
    if order is Order.THREAD:
        return
    for about, signs in ((_FOR, _SAYS_FOR), (_BESIDE, _SAYS_BESIDE)):
        for found in about.finditer(slip.text) if any(sign in slip.text for sign in signs) else ():
            if _OWN.match(slip.text[found.end("size"):]) or _is_own(found["of"].strip(), kind, order):
                continue
            slip.notes.append(found[0].strip() if about is _FOR else f"for {found[0].strip()}")
            slip.values["for"] = (found["size"], found["of"].strip())
            slip.blank(*found.span())
            return


def _named_beside(slip: Slip) -> str | None:
    """The kind that is named outside of what the cutter is for: `drill for a 10-32 tap` is a drill."""
    outside = _FOR.sub(" ¦ ", slip.text) if any(sign in slip.text for sign in _SAYS_FOR) else slip.text
    found = called(slip if outside == slip.text else Slip(outside, slip.units))
    return found.kind.name if found else None


def _is_own(of: str, kind: str | None, order: object) -> bool:
    """Whether what it is for has the cutter's own size: a boring bar's hole, a reamer's dowel, a pin's number."""
    if kind is None:
        return False
    smallest = KINDS[kind].size_keys
    return ("min_hole_mm" in smallest and bool(_HOLE.fullmatch(of))) or (order is Order.PIN)


def only_for(slip: Slip, kind: str) -> None:
    """Say what follows for a cutter that is known by what it is for. Raises `Held` where it has no size of its own."""
    if (found := slip.values.get("for")) is None:
        return
    size, of = found
    speech = KINDS[kind].speech
    if slip.sizes or any(slip.values.get(key) for key in (*KINDS[kind].size_keys, "nominal_mm", "miked")):
        if "key" in of.split() and speech.order is Order.MARK and "face_mm" not in slip.values:
            slip.size("face_mm", size)
            slip.ask("face_mm", f"face is taken to be the key's width, {size}: mic it")
        return
    thing = of.split()[-1] if of and of not in ("clearance", "body", "close fit", "free fit") else "work"
    thing = thing if thing.endswith("hcs") else thing.removesuffix("s")
    if speech.by_bolt:
        raise Held(f"{size} names the bolt of a T-slot as a rule, not the cutter's size",
                   f"mic it: T slot cutter DIAMETER x FACE, or {size} dia")
    if speech.order is Order.FIT and re.search("dowel|pin|shaft|bearing|bushing", thing):
        slip.size("diameter_mm", size)
        slip.ask("diameter_mm", f"diameter {size} is the {thing}'s: mic the reamer")
        return
    words = KINDS[kind].words
    why = f"{size} is the {thing}'s, not the {words}'s"
    raise Held(why + (": its head takes a wider one" if speech.order is Order.SCREW else ""),
               "mic it: counterbore 13/32 pilot 17/64" if speech.order is Order.SCREW else
               f"mic it, and say the {words}'s own size")


def offset(slip: Slip) -> None:
    """A size that is said by another one, so much less or more: the other stays, and the difference is noted."""
    if not may_fit(slip.pieces, _SAYS_OFF) and "-" not in slip.text and "+" not in slip.text:
        return
    for said in _OFFS:
        if not (found := said.search(slip.text)):
            continue
        off = _in_mm(slip, found["off"])
        if off is None or not 0 < off < _MOST_OFF:
            continue
        base = found.groupdict().get("base")
        slip.values["off_by"] = (-off if found["less"] else off, base and base.strip(), found[0].strip())
        slip.at["off_by"] = found.span()
        start, end = found.span()
        kept = found.span("base") if base else (end, end)
        slip.text = "".join(sign if not start <= at < end or kept[0] <= at < kept[1] else " "
                            for at, sign in enumerate(slip.text))
        return


def per_foot(slip: Slip, order: object) -> None:
    """Take how much it tapers to the foot off the slip and keep it as a note. `1/4 ft` alone says so of a taper reamer;
    a whole number before it may be of flutes."""
    if not any(says in slip.text for says in _SAYS_FOOT):
        return
    found = slip.take(_PER_FOOT) or (slip.take(_FOOT) if order is Order.PIN else None)
    if found:
        slip.values["per_foot"] = next(part for part in found.groups() if part).strip()
        slip.notes.append(f"taper {slip.values['per_foot']} to the foot")


def only_taper(slip: Slip, kind: str) -> None:
    """Raises `Held` for a cutter of which only the taper is said, and no size."""
    taper = slip.values.get("per_foot")
    sized = any(slip.values.get(key) for key in (*KINDS[kind].size_keys, "nominal_mm"))
    if taper and not sized and "diameter_mm" not in slip.doubts:
        words = KINDS[kind].words
        raise Held(f"{taper} is how much it tapers to the foot; it doesn't say what size the {words} is",
                   f"mic its large end: {words} 1/2 dia, {taper} per foot")


def _in_mm(slip: Slip, text: str) -> float | None:
    text = re.sub(r"^(?:half|1/2) (?:a )?thou$", "0.5 thou", text)
    return slip.mm(re.sub(r"^an? thou$", "1 thou", text))


def set_off(slip: Slip) -> None:
    """Work out what `1/2 less two thou` measures: the size that was said is its name."""
    if (found := slip.values.get("off_by")) is None:
        return
    off, base, said = found
    values = slip.values
    name = values.get("nominal_mm", values.get("diameter_mm"))
    is_other = base is not None and base not in (slip.typed.get("diameter_mm"), slip.typed.get("nominal_mm"))
    if name is None or is_other or values.get("miked") or name + off <= 0 or abs(off) > name / 4:
        slip.ask("diameter_mm", f"what is {said} of? mic it")
        return
    if "nominal_mm" not in values:
        slip.typed["nominal_mm"] = slip.typed.pop("diameter_mm", "")
    values |= {"nominal_mm": name, "diameter_mm": nm(name + off) / NM}
    slip.notes.append(f"said to be {said}")
