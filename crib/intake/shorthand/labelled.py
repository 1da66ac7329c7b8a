"""Sizes that say what they are (`1/2 shank`, `neck .200`), those that don't, and the words that are left."""

from __future__ import annotations

import re

from crib.cutters.speech import Order
from crib.intake.shorthand.slip import GAP, NAMED, SIZE, Slip
from crib.intake.shorthand.vocabulary import IDLE
from crib.light.patterns import pattern
from crib.light.tuples import NamedTuple
from crib.units import nm

LABELS = {
    "shank": "shank_mm", "neck": "neck_mm", "loc": "length_of_cut_mm", "flute": "length_of_cut_mm",
    "flutes": "length_of_cut_mm", "oal": "overall_length_mm", "long": "overall_length_mm", "face": "face_mm",
    "wide": "face_mm", "width": "face_mm", "thick": "face_mm", "high": "face_mm", "height": "face_mm",
    "bore": "bore_mm", "hole": "bore_mm", "arbor": "bore_mm", "bars": "bore_mm", "pilot": "pilot_mm", "tip": "tip_mm",
    "radius": "radius_mm", "r": "radius_mm", "cr": "radius_mm", "diameter": "diameter_mm", "od": "diameter_mm",
    "collet": "shank_mm", "minhole": "min_hole_mm", "length": "overall_length_mm", "reach": "reach_mm",
    "measured": "measured", "necklong": "neck_length",
    "marked": "nominal_mm", "stated": "stated",
}
_BETWEEN = ("is", "at", "a", "an", "=", ":", "of", "diameter", "measured")
_ONLY_BEFORE = ("long", "high", "wide", "thick", "bars")
_BEHIND = ("stated", "neck_mm", "pilot_mm", "measured", "min_hole_mm", "neck_length", "tip_mm", "nominal_mm")
"""Labels that stand before their size more often than behind it."""

_NUMBER = pattern(r"\d{3,4}(?:-1/2)?")
"""A mark that names its sizes by a number, and is none itself."""

_BY_NUMBER = r"cent(?:er|re) drills?|taper (?:pin )?reamers?|taper pin"
"""Cutters whose mark is a number that isn't the drill's of that number."""

_DECIMAL = pattern(r"\d*\.\d{3}")
"""A size as a micrometer gives it."""

_TOKEN = pattern(rf" *(?:(?P<size>(?=[#\d.]){SIZE.pattern})|(?P<word>[^\W\d_][\w'’/.-]*[^\W_]|[^\W\d_])|"
                 r"(?P<sign>\?)|(?P<figure>\d[\d/.,]*)|(?P<other>\S))")
_TURNED = pattern(rf"(?:(?:shank )?(?:is )?{SIZE.pattern} )?(?:(?:is )?(?:turned|cut|reduced|stepped)(?: down)? to|"
                  rf"shank (?:is )?ground(?: down)? to|{GAP} *to) ({SIZE.pattern})(?: shank)?(?= *(?:[,;¦]|$))")
_NECK = pattern(rf"neck ({SIZE.pattern}) (?:by|x) ({SIZE.pattern}) long")


class _Token(NamedTuple):
    """A size, a word, or a sign of the line; `gap` says that something else stood before it."""

    what: str
    text: str
    start: int
    used: bool = False


def read_labelled(slip: Slip, order: Order | tuple[str, ...] = ()) -> list[str]:
    """Put sizes with a label into their fields, the others into `slip.sizes`; the words, and figures that are no size,
    of which nothing was made. `order`: how the sizes of the kind are said, as far as it is known."""
    if "neck " in slip.text and (found := _NECK.search(slip.text)):
        slip.size("neck_mm", found[1])
        slip.values["neck_length"] = slip.mm(found[2])
        slip.blank(*found.span())
    if "to " in slip.text and (found := _TURNED.search(slip.text)):
        slip.said_now("shank_mm")
        slip.size("shank_mm", found[1])
        slip.ask("shank_mm", f"shank {found[1].strip()}: is that what it was turned down to? mic it")
        slip.blank(*found.span())
    tokens = _tokens(slip.text)
    asked = _queried(tokens)
    for place, token in enumerate(tokens):
        if token.what == "word" and not tokens[place].used and (key := LABELS.get(token.text)):
            _bind(slip, tokens, place, key, asked, _has_face(order))
    slip.sizes = [token.text.strip() for token in tokens if token.what == "size" and not token.used]
    slip.values["separated"] = _separated(tokens)
    return [token.text for token in tokens if not token.used and (
        token.what == "figure" or (token.what == "word" and token.text not in IDLE))]


def _tokens(text: str) -> list[_Token]:
    found = ((str(one.lastgroup), one) for one in _TOKEN.finditer(text.rstrip()))
    return [_Token(what, one[what], one.start(what)) for what, one in found if what != "word" or one[what] != "x"]


def _used(token: _Token) -> _Token:
    """A token of which something was made."""
    return _Token(token.what, token.text, token.start, True)


def _queried(tokens: list[_Token]) -> list[int]:
    """Places that a question mark stands behind."""
    return [place - 1 for place, token in enumerate(tokens) if token.what == "sign" and place]


def _has_face(order: Order | tuple[str, ...]) -> bool:
    """Whether a kind's second size is its face where two are said one by the other."""
    return order in (Order.MARK, Order.DISC) if isinstance(order, Order) else order[:2] == ("diameter_mm", "face_mm")


def _bind(slip: Slip, tokens: list[_Token], place: int, key: str, asked: list[int], faced: bool) -> None:
    """Give the label at a place its size."""
    at = _size_for(slip, tokens, place, key, faced)
    if at is None:
        return
    text = tokens[at].text
    if (told := _told_measured(tokens, place, at)) is not None and key not in ("measured", "nominal_mm"):
        slip.measured.append(key)
        tokens[told] = _used(tokens[told])
    if key == "nominal_mm" and _NUMBER.fullmatch(text.strip()):
        tokens[place] = _used(tokens[place])
        return
    if key == "nominal_mm" and text.startswith("#") and slip.has(_BY_NUMBER):
        tokens[at], tokens[place] = (_used(tokens[there]) for there in (at, place))
        slip.values["marking"] = text.strip()
        return
    if tokens[place].text in ("flute", "flutes") and re.fullmatch(r"\d+", text.strip()):
        return
    tokens[at] = _used(tokens[at])
    tokens[place] = _used(tokens[place])
    if key == "neck_length":
        slip.values[key] = slip.mm(text)
    elif key == "stated":
        slip.values["stated"] = text.strip()
    elif key == "measured":
        slip.values["miked"] = text.strip()
        slip.at["miked"] = (tokens[at].start, tokens[at].start + len(text))
    else:
        slip.said_now(key)
        if key in slip.values and slip.values[key] != slip.mm(text):
            slip.ask(key, f"is the {tokens[place].text} {slip.typed.get(key)} or {text.strip()}?")
        slip.size(key, text, at=tokens[at].start)
    if at in asked or place in asked:
        slip.ask(key, f"is the {tokens[place].text} {text.strip()}?")


def _size_for(slip: Slip, tokens: list[_Token], place: int, key: str, faced: bool) -> int | None:
    """The size that a label speaks of: the nearer one, unless that has a label of its own; asked where both may be."""
    before = _beyond(tokens, place, -1)
    after = _beyond(tokens, place, 1) if tokens[place].text not in _ONLY_BEFORE else None
    if before is None or after is None:
        return before if after is None else after
    if _names_stand_behind(tokens):
        return before
    if _names_stand_ahead(slip, tokens):
        return after
    if tokens[place].text == "height" and after == place + 1 and _names_lead(tokens):
        return after
    if key == "measured" and _DECIMAL.match(tokens[before].text) and not _DECIMAL.match(tokens[after].text):
        return before
    if key in _BEHIND:
        return after
    if _leads(slip, tokens, (before, place, after), key, faced):
        return after
    belongs_on = after + 1 < len(tokens) and tokens[after + 1].text in (*LABELS, NAMED)
    others = [at for at, token in enumerate(tokens) if token.what == "size" and not token.used and at < before]
    if belongs_on or others or tokens[place].text in ("diameter", "face", "wide", "high", "thick", "bore", "radius"):
        return before
    if place - before != after - place:
        return before if place - before < after - place else after
    slip.ask(key, f"is the {tokens[place].text} {tokens[before].text.strip()} or {tokens[after].text.strip()}?")
    return after


_SHANKS = frozenset(nm(size) for size in (*(part / 16 * 25.4 for part in (2, 3, 4, 5, 6, 8, 10, 12, 14, 16)),
                                          3, 4, 5, 6, 8, 10, 12, 14, 16, 18, 20, 25))
"""Usual shanks: of inch cutters common practice, no source; of metric ones ISO 3338-1, from memory."""

_OWN = ("diameter_mm", "face_mm")
_BY = re.compile(r"\s*(?:x|by)\s*")
_TO = re.compile(r"\s*(?::|=|is\b|of\b)?\s*")


def _leads(slip: Slip, tokens: list[_Token], places: tuple[int, int, int], key: str, faced: bool) -> bool:
    """Whether a label stands before its size, for the size before it is said of another one, `5/8 x 3/16 shank 1/2`:
    that is the face of what has one (`faced`). Of other kinds only where it is no shank, and the one behind may be."""
    before, place, after = (tokens[at] for at in places)
    first = next((one for one in reversed(tokens[:places[0]]) if one.what == "size"), None)
    label_ends, after_ends = place.start + len(place.text), after.start + len(after.text)
    if key in _OWN or not _TO.fullmatch(slip.text[label_ends:after.start]) or re.match(r"\s*(?:x|by)\b",
                                                                                      slip.text[after_ends:]):
        return False
    if first is None:
        return key == "bore_mm" and _is_over(slip, before, after)
    if not _BY.fullmatch(slip.text[first.start + len(first.text):before.start]) or _is_of_the_next(tokens, places[2]):
        return False
    if faced:
        return True
    is_shank = [nm(slip.mm(one.text) or 0.0) in _SHANKS for one in (before, after)]
    return key == "shank_mm" and is_shank[1] and (
        not is_shank[0] or (_is_over(slip, before, after) and _is_over(slip, before, first)))


def _is_over(slip: Slip, one: _Token, other: _Token) -> bool:
    return (slip.mm(one.text) or 0.0) > (slip.mm(other.text) or 0.0)


def _is_of_the_next(tokens: list[_Token], at: int) -> bool:
    """Whether the label behind a size speaks of it, for none follows that."""
    behind = tokens[at + 1] if at + 1 < len(tokens) else None
    return behind is not None and behind.text in LABELS and _beyond(tokens, at + 1, 1) is None


def _told_measured(tokens: list[_Token], place: int, at: int) -> int | None:
    """Where it is said that the size of a label was measured: between them, or behind both."""
    last = max(place, at)
    for there in range(min(place, at) + 1, min(last + 2, len(tokens))):
        has_its_own = there > last and there + 1 < len(tokens) and tokens[there + 1].what == "size"
        if tokens[there].text == "measured" and not tokens[there].used and not has_its_own:
            return there
    return None


def _names_stand_behind(tokens: list[_Token]) -> bool:
    """Whether the sizes of a line have their names behind them: the first has, and the last name has none behind it."""
    names = [at for at, token in enumerate(tokens) if token.what == "word" and token.text in LABELS]
    if len(names) < 2 or not names[0]:
        return False
    sizes = [token.what == "size" for token in tokens]
    return sizes[names[0] - 1] and not any(sizes[names[-1] + 1 : names[-1] + 3])


def _names_stand_ahead(slip: Slip, tokens: list[_Token]) -> bool:
    """Whether its own size goes first and each name stands before its size: `3/8 loc 3/4 oal 2-1/2`, where the last is
    the overall length and the longest."""
    line = [token for token in tokens if token.what == "size" or token.text in LABELS]
    if len(line) < 5 or line[-2].text not in ("oal", "length"):
        return False
    sizes = [slip.mm(token.text) or 0.0 for token in line[::2]]
    return [token.what == "size" for token in line] == [True, False] * (len(line) // 2) + [True] and (
        sizes[-1] > max(sizes[:-1]))


def _names_lead(tokens: list[_Token]) -> bool:
    """Whether the last size of a line has its name before it and none behind it."""
    last = max(at for at, token in enumerate(tokens) if token.what == "size")
    before = tokens[last - 1] if last else None
    return before is not None and before.text in LABELS and not any(
        token.text in LABELS for token in tokens[last + 1:])


def _beyond(tokens: list[_Token], place: int, step: int) -> int | None:
    """The place of the size on one side of a label, past words that say nothing of it and pieces that were read."""
    at = place + step
    while 0 <= at < len(tokens) and (tokens[at].text == GAP or (step > 0 and tokens[at].text in _BETWEEN)):
        at += step
    return at if _is_free(tokens, at) else None


def _is_free(tokens: list[_Token], place: int) -> bool:
    return 0 <= place < len(tokens) and tokens[place].what == "size" and not tokens[place].used


def _separated(tokens: list[_Token]) -> bool:
    """Whether a comma stands between two sizes that follow each other."""
    texts = [token.what if token.what == "size" else token.text for token in tokens]
    return any(texts[at : at + 3] == ["size", ",", "size"] for at in range(len(texts)))
