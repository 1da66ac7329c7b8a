"""Sizes that say what they are (`1/2 shank`, `neck .200`), those that don't, and the words that are left."""

from __future__ import annotations

import re

from crib.intake.shorthand.slip import SIZE, Slip
from crib.intake.shorthand.vocabulary import IDLE
from crib.records import dataclass, replace

_LABELS = {
    "shank": "shank_mm", "neck": "neck_mm", "loc": "length_of_cut_mm", "flute": "length_of_cut_mm",
    "flutes": "length_of_cut_mm", "oal": "overall_length_mm", "long": "overall_length_mm", "face": "face_mm",
    "wide": "face_mm", "width": "face_mm", "thick": "face_mm", "high": "face_mm", "height": "face_mm",
    "bore": "bore_mm", "hole": "bore_mm", "arbor": "bore_mm", "bars": "bore_mm", "pilot": "pilot_mm", "tip": "tip_mm",
    "radius": "radius_mm", "r": "radius_mm", "cr": "radius_mm", "diameter": "diameter_mm", "od": "diameter_mm",
    "minhole": "min_hole_mm", "reach": "reach_mm", "measured": "measured", "necklong": "neck_length",
    "marked": "nominal_mm",
}
_BETWEEN = ("is", "=", ":", "of", "diameter")
_ONLY_BEFORE = ("long", "high", "wide", "thick", "bars")
_BEHIND = ("neck_mm", "pilot_mm", "measured", "min_hole_mm", "neck_length", "tip_mm", "nominal_mm")
"""Labels that stand before their size more often than behind it."""

_NUMBER = re.compile(r"\d{3,4}(?:-1/2)?")
"""A mark that names its sizes by a number, and is none itself."""

_DECIMAL = re.compile(r"\d*\.\d{3}")
"""A size as a micrometer gives it."""

_TOKEN = re.compile(rf"(?P<size>{SIZE.pattern})|(?P<word>[^\W\d_][\w'’/.-]*[^\W_]|[^\W\d_])|(?P<sign>\?)|(?P<other>\S)")
_NECK = re.compile(rf"neck ({SIZE.pattern}) (?:by|x) ({SIZE.pattern}) long")


@dataclass(frozen=True)
class _Token:
    """A size, a word, or a sign of the line; `gap` says that something else stood before it."""

    what: str
    text: str
    used: bool = False


def read_labelled(slip: Slip) -> list[str]:
    """Put sizes with a label into their fields, the others into `slip.sizes`; the words that nothing was made of."""
    slip.text = re.sub(r"(?<![\w])c?r ?(?=\.\d|\d+/\d)", "radius ", slip.text)
    if found := _NECK.search(slip.text):
        slip.size("neck_mm", found[1])
        slip.values["neck_length"] = slip.mm(found[2])
        slip.text = slip.text.replace(found[0], " ¦ ")
    tokens = _tokens(slip.text)
    asked = _queried(tokens)
    for place, token in enumerate(tokens):
        if token.what == "word" and (key := _LABELS.get(token.text)):
            _bind(slip, tokens, place, key, asked)
    slip.sizes = [token.text.strip() for token in tokens if token.what == "size" and not token.used]
    slip.values["separated"] = _separated(tokens)
    return [token.text for token in tokens if token.what == "word" and not token.used and token.text not in IDLE]


def _tokens(text: str) -> list[_Token]:
    return [_Token(str(found.lastgroup if found.lastgroup in ("size", "word", "sign") else "other"), found[0])
            for found in _TOKEN.finditer(text) if found[0] not in ("x",) or found["word"] is None]


def _queried(tokens: list[_Token]) -> list[int]:
    """Places that a question mark stands behind."""
    return [place - 1 for place, token in enumerate(tokens) if token.what == "sign" and place]


def _bind(slip: Slip, tokens: list[_Token], place: int, key: str, asked: list[int]) -> None:
    """Give the label at a place its size."""
    at = _size_for(slip, tokens, place, key)
    if at is None:
        return
    text = tokens[at].text
    if key == "nominal_mm" and _NUMBER.fullmatch(text.strip()):
        tokens[place] = replace(tokens[place], used=True)
        return
    if tokens[place].text in ("flute", "flutes") and not re.search(r"mm|in|\"", text):
        return
    tokens[at] = replace(tokens[at], used=True)
    tokens[place] = replace(tokens[place], used=True)
    if key == "neck_length":
        slip.values[key] = slip.mm(text)
    elif key == "measured":
        slip.values["miked"] = text.strip()
    else:
        if key in slip.values and slip.values[key] != slip.mm(text):
            slip.ask(key, f"is the {tokens[place].text} {slip.typed.get(key)} or {text.strip()}?")
        slip.size(key, text)
    if at in asked or place in asked:
        slip.ask(key, f"is the {tokens[place].text} {text.strip()}?")


def _size_for(slip: Slip, tokens: list[_Token], place: int, key: str) -> int | None:
    before = place - 1 if place and _is_free(tokens, place - 1) else None
    after = place + 1 if _is_free(tokens, place + 1) and tokens[place].text not in _ONLY_BEFORE else None
    if after is None and place + 2 < len(tokens) and tokens[place + 1].text in _BETWEEN:
        after = place + 2 if _is_free(tokens, place + 2) else None
    if before is None or after is None:
        return before if after is None else after
    if key == "measured" and _DECIMAL.match(tokens[before].text) and not _DECIMAL.match(tokens[after].text):
        return before
    if key in _BEHIND:
        return after
    belongs_on = after + 1 < len(tokens) and _LABELS.get(tokens[after + 1].text)
    others = [at for at, token in enumerate(tokens) if token.what == "size" and not token.used and at < before]
    if belongs_on or others or tokens[place].text in ("diameter", "face", "wide", "high", "thick", "bore", "radius"):
        return before
    slip.ask(key, f"is the {tokens[place].text} {tokens[before].text.strip()} or {tokens[after].text.strip()}?")
    return after


def _is_free(tokens: list[_Token], place: int) -> bool:
    return 0 <= place < len(tokens) and tokens[place].what == "size" and not tokens[place].used


def _separated(tokens: list[_Token]) -> bool:
    """Whether a comma stands between two sizes that follow each other."""
    texts = [token.what if token.what == "size" else token.text for token in tokens]
    return any(texts[at : at + 3] == ["size", ",", "size"] for at in range(len(texts)))
