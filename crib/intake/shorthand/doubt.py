"""Doubt of any wording (`about`, `I think`, `or so`, `?`): what it is said of stays as it was read, with a question."""

from __future__ import annotations

import re
from collections.abc import Sequence

from crib.cutters.base import CUTTER_KEYS, LENGTH_KEYS
from crib.intake.shorthand.needed import may_fit, needed, pieces
from crib.intake.shorthand.slip import Slip
from crib.light.patterns import pattern
from crib.light.records import dataclass

_BEFORE, _BEHIND = "⁇", "⁈"
"""Signs that stand for a doubt of what follows it, and of what it follows."""

_IT = r"(?: (?:it|that|this|they|these)(?:'?s| is| are| was)?)?(?: an?(?= ))?"
_AHEAD = "|".join((
    r"about", r"abt\.?", r"around", r"approx(?:imately|\.)?", r"roughly", r"circa", r"ca\.?(?= ?[\d.])", r"close to",
    r"near(?:ly)?(?= ?[\d.#])", r"somewhere(?: near| around)", r"say,?(?= (?:about )?[\d.#])", r"best guess",
    r"(?:it |that )?(?:looks?|looking|seems?|appears?|feels?|sounds?|reads?)(?: to be| like| as if)" + _IT,
    r"(?:it |that )?(?:might|may|could)(?: well)? (?:be|have been)(?: an?(?= ))?",
    r"(?:it |that )?(?:must|should|ought to) (?:be|have been)(?! (?:re ?)?(?:ground|sharp))(?: an?(?= ))?",
    r"supposed(?:ly)?(?: to be)?", r"(?:i'?m |am )?not (?:really |quite )?(?:sure|certain)(?: if| whether| but)?" + _IT,
    r"(?:i |we )?(?:don'?t|do not) know (?:if|whether)" + _IT, r"unsure(?: if)?" + _IT, r"uncertain",
    r"(?:i |we )?(?:think|thinks|thought|guess|guessing|believe|reckon|suppose|assume|assuming|presume|suspect)"
    r"(?: that)?" + _IT,
    r"i(?:'d| would) (?:say|guess)" + _IT, r"may ?be", r"mebbe", r"perhaps", r"poss(?:ibly)?", r"prob(?:ably|\.)?",
    r"presumably", r"likely", r"apparently", r"allegedly", r"almost certainly", r"(?:by|from) eye", r"eyeball(?:ed)?",
    r"nominally", r"sort of", r"call it", r"(?:as )?far as i (?:know|can tell|remember|can see)", r"afaik", r"iirc",
    r"from memory", r"if i (?:remember|recall)(?: right| rightly| correctly)?", r"or maybe", r"not (?:100|100%) sure",
))
_AFTER = "|".join((
    r"or so", r"or thereabouts?", r"or something(?: like that)?", r"ish", r"more or less", r"give or take(?: a bit)?",
    r"(?:i |we )?(?:don'?t|do not) (?:really )?know(?! if| whether)", r"dunno", r"who knows", r"hard to (?:tell|say|"
                                                                                              r"read)",
    r"can'?t (?:tell|read|say)(?: for sure)?", r"check (?:it|this|that)", r"to be checked", r"tbc",
))
_BEGINS, _ENDS = r"(?<![\w/.'-])", r"(?![\w'/]|-\w)"
_END_OF_IT = r"(?=\s*(?:[,;)\]]|$))"
_WORDS = (
    rf"(?P<or>(?<=[\w\"]) or (?P<other>(?:\d+-\d+/\d+|\d+/\d+|\d*\.?\d+|hss|cobalt|carbide|dull|sharp|used)){_ENDS})"
    rf"|{_BEGINS}(?P<behind>(?:{_AFTER}){_ENDS}|(?:{_AHEAD}){_ENDS}{_END_OF_IT})"
    rf"|{_BEGINS}(?P<before>(?:{_AHEAD}){_ENDS})|(?P<ish>(?<=[\w\"])-?ish\b)")
_SAID = pattern(rf"{_WORDS}|(?P<more>(?<=[\d\"])\+(?=\s|$))|(?P<about>[~≈])|(?P<sign>\(?\?+\)?)", re.I)
_LETTERS, _SIGNS = needed(_WORDS), frozenset("+~≈?")
"""What a line has of which one doubt at the least is said: pieces of its words, or a sign."""

_BARE = pattern(r"[\d ./,-]*")
"""A size alone: nothing of it is a doubt."""

_READ_AS = {"miked": "diameter_mm", "ground_by": "diameter_mm", "ground_to": "diameter_mm", "ball": "corner_radius_mm",
            "neck_length": "reach_mm", "chamfers": "tap_chamfer", "off_by": "diameter_mm"}
_LABEL = {"flute": "flutes", "flutes": "flutes", "tooth": "flutes", "shank": "shank_mm", "neck": "neck_mm",
          "reach": "reach_mm", "face": "face_mm", "steel": "material", "material": "material",
          "diameter": "diameter_mm",
          "loc": "length_of_cut_mm", "oal": "overall_length_mm", "angle": "angle_deg", "bore": "bore_mm",
          "pilot": "pilot_mm", "thread": "thread", "pitch": "thread", "condition": "condition"}
_AMOUNT = pattern(r"about|abt\.?|around|approx\w*\.?|roughly|circa|ca\.?|close to|near(?:ly)?|or so|-?ish|[~≈]|"
                  r"or thereabouts?|more or less|give or take.*|by eye|eyeball\w*", re.I)
"""Doubts of a number."""

_NO_AMOUNT = ("kind", "material", "condition", "drawer", "hand", "reground", "chamfers", "limit", "centre_cutting")
_HOW = {"flutes": "count them", "count": "count them", "thread": "try a gauge", "angle_deg": "measure it"}


@dataclass(frozen=True)
class Doubt:
    """A doubt: where it stood in the line that is read without it, whether what follows is meant, and its words."""

    at: int
    ahead: bool
    words: str


def mark(text: str) -> tuple[str, tuple[str, ...]]:
    """A line with a sign in the place of each doubt, and the words of the doubts in order.

    >>> mark("about 1/2 end mill, 4 flutes I think")
    (' ⁇ 1/2 end mill, 4 flutes ⁈ ', ('about', 'I think'))
    """
    if _BARE.fullmatch(text):
        return text, ()
    words: list[str] = []
    if _SIGNS.isdisjoint(text) and not may_fit(pieces(text.lower()), _LETTERS):
        return text.replace(_BEFORE, " ").replace(_BEHIND, " "), ()

    def sign(found: re.Match[str]) -> str:
        words.append(found[0].strip())
        return f" {_BEFORE if found['before'] or found['about'] else _BEHIND} "

    return _SAID.sub(sign, text.replace(_BEFORE, " ").replace(_BEHIND, " ")), tuple(words)


def cut(said: str, words: Sequence[str]) -> tuple[str, tuple[Doubt, ...]]:
    """The line without the signs, and the doubts that they stood for."""
    kept = ""
    doubts: list[Doubt] = []
    for part in re.split(f"([{_BEFORE}{_BEHIND}])", said):
        if part in (_BEFORE, _BEHIND) and len(doubts) < len(words):
            doubts.append(Doubt(len(kept), part == _BEFORE, words[len(doubts)]))
            kept = kept.rstrip()
        else:
            kept = f"{kept.rstrip()} {part.strip()}".strip() if part.strip()[:1] not in (",", ";", ")") else \
                kept.rstrip() + part.rstrip()
    return kept, tuple(doubts)


def attach(slip: Slip, doubts: Sequence[Doubt]) -> None:
    """Ask about what each doubt is said of: what was read next to it, else the line as a whole."""
    for doubt in doubts:
        key = _named(slip, doubt) or _nearest(slip, doubt)
        if key in ("ends",) or (key and key in slip.doubts):
            continue
        if key is None:
            slip.ask("note", f"what is unsure? {doubt.words!r} was said")
            continue
        slip.ask(key, _question(slip, key, doubt.words))
        for how in (slip.measured, slip.stamped):
            if key in how:
                how.remove(key)


def _nearest(slip: Slip, doubt: Doubt) -> str | None:
    """The field whose words are nearest, on the side that is meant where there are any."""
    places = slip.at.items()
    if _AMOUNT.fullmatch(doubt.words):
        places = {key: span for key, span in places if key not in _NO_AMOUNT}.items()
    ahead = [(span[0] - doubt.at, key) for key, span in places if span[0] >= doubt.at - 1]
    behind = [(doubt.at - span[1], key) for key, span in places if span[1] <= doubt.at + 1]
    found = (ahead or behind) if doubt.ahead else (behind or ahead)
    key = min(found)[1] if found else None
    return _READ_AS.get(key, key) if key else None


def _named(slip: Slip, doubt: Doubt) -> str | None:
    """The field whose name alone stands before a doubt: `flutes?`."""
    before = re.search(r"(\w+)\W*$", slip.said[: doubt.at])
    key = _LABEL.get(before[1]) if before and not doubt.ahead else None
    return key if key and key not in slip.values else None


def _question(slip: Slip, key: str, words: str) -> str:
    name = key.removesuffix("_mm").removesuffix("_deg").replace("_", "-")
    value = slip.typed.get(key) or slip.values.get(key)
    said = f" {value}" if isinstance(value, str | int | float) and not isinstance(value, bool) else ""
    how = "mic it" if key in LENGTH_KEYS else _HOW.get(key, "look again")
    if key not in CUTTER_KEYS:
        return f"what is unsure? {words!r} was said"
    return f"{name}{said} was said with {words!r}: {how}" if said or key in slip.values else f"{name}: {how}"
