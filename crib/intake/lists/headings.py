"""What the heading of a column means: by its own name, by what a shop calls it, and in which units its numbers are."""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import cache

from crib.findings.errors import CribError
from crib.intake.attributes import ATTRIBUTES, key_of
from crib.intake.near import one_of
from crib.light.patterns import pattern

WORDS = "words"
"""The key of a column that holds whole lines of shorthand."""

_MEANINGS: dict[str, str] = {
    "kind": "type|tool|tool type|cutter|cutter type|what|what it is|category",
    "diameter_mm": "dia|diam|d|ø|od|size|outside diameter|cutting diameter|cutter diameter|"
                   "cutter dia|tool diameter",
    "nominal_mm": "nominal size|stamped|stamped size|marked size|nominal diameter|nom",
    "face_mm": "face width|width|thickness|thick|tooth height|width of face|cutting width",
    "neck_mm": "neck diameter|neck dia", "neck_fillet_mm": "fillet|neck radius",
    "reach_mm": "neck reach|reach below shank",
    "shank_mm": "shank diameter|shank dia|shank size|shk|shank d",
    "length_of_cut_mm": "loc|flute length|cut length|cutting length|length of flutes|l1",
    "overall_length_mm": "oal|length|overall|total length|length overall|whole length|l2",
    "corner_radius_mm": "cr|corner|corner r|nose radius", "radius_mm": "r|form radius",
    "angle_deg": "included angle|degrees|point angle|deg|point|taper", "tip_mm": "tip diameter|small end|tip dia",
    "bore_mm": "hole|arbor|arbor hole|bore diameter|arbor size", "pilot_mm": "pilot diameter|pilot dia",
    "min_hole_mm": "smallest hole|minimum hole|minimum bore|min bore",
    "flutes": "teeth|no of flutes|number of flutes|flute|z|fl|no of teeth|number of teeth|flute count",
    "centre_cutting": "cc|center cutting|centre cut|cuts to centre", "thread": "thread size|pitch and size|tap size",
    "material": "made of|steel|tool material|substrate|grade", "condition": "state|sharpness|wear",
    "tap_chamfer": "chamfer|lead", "limit": "tolerance limit|class|h limit",
    "reground": "resharpened|ground", "count": "qty|quantity|number|how many|pcs|pieces|amount|stock|on hand|no",
    "drawer": "location|place|where|bin|tray|cabinet|slot|shelf|box|where kept|stored in",
    "marking": "mark|stamp|etched|stamping|part number|part no|maker's mark",
    "price": "cost|paid|price each|unit price|value",
    "note": "notes|remarks|remark|comment|comments|other", "hand": "cut direction|direction|rotation",
    WORDS: "description|words|item|text|line|as said",
}
_UNIT = pattern(r"(?<![\s_,(\[/])[\s_,(\[/]+(mm|millimet(?:er|re)s?|inch(?:es)?|in|\")[.)\]]*$|(\")$", re.IGNORECASE)
_ALIKE = 86


_DIMENSIONS = {word: what for what, words in {
    "across": "diameter dia diam size od", "width": "width wide height high thickness thick depth",
    "length": "length long", "radius": "radius rad", "many": "number no count qty many", "angle": "angle degrees deg",
}.items() for word in words.split()}
_OBJECTS = {word: what for what, words in {
    "teeth": "teeth tooth face head", "flutes": "flute flutes cut cutting lips lip", "shank": "shank shk shaft stem",
    "neck": "neck", "whole": "overall total whole full", "bore": "bore hole arbor", "corner": "corner corners nose",
    "pilot": "pilot", "tip": "tip", "cutter": "cutter tool outside over",
}.items() for word in words.split()}
_COMPOSED = {
    ("width", "teeth"): "face_mm", ("width", "cutter"): "face_mm", ("length", "teeth"): "face_mm",
    ("across", "teeth"): "diameter_mm", ("across", "cutter"): "diameter_mm", ("across", "flutes"): "diameter_mm",
    ("many", "teeth"): "flutes", ("many", "flutes"): "flutes", ("length", "flutes"): "length_of_cut_mm",
    ("width", "flutes"): "face_mm", ("across", "shank"): "shank_mm", ("width", "shank"): "shank_mm",
    ("across", "neck"): "neck_mm", ("width", "neck"): "neck_mm", ("length", "whole"): "overall_length_mm",
    ("length", "cutter"): "overall_length_mm", ("across", "bore"): "bore_mm", ("radius", "corner"): "corner_radius_mm",
    ("radius", "neck"): "neck_fillet_mm", ("across", "pilot"): "pilot_mm", ("across", "tip"): "tip_mm",
    ("width", "tip"): "tip_mm", ("angle", "teeth"): "angle_deg", ("angle", "cutter"): "angle_deg",
    ("angle", "tip"): "angle_deg", ("many", "cutter"): "count",
}
"""What a dimension of a part is; one that no part of a cutter has stands for nothing."""

_BETWEEN = frozenset(["of", "the", "in", "at", "over", "across", "its", "per", "to"])


def _composed(bare: str) -> str | None:
    """The field of a heading that names a dimension and what it is of, in any order: `width of teeth`."""
    words = [word for word in bare.split() if word not in _BETWEEN or word == "over"]
    parts = {_DIMENSIONS[word] for word in words if word in _DIMENSIONS}
    things = {_OBJECTS[word] for word in words if word in _OBJECTS}
    if any(word not in _DIMENSIONS and word not in _OBJECTS for word in words):
        return None
    things = things - {"cutter"} if len(things) > 1 else things
    return _COMPOSED.get((next(iter(parts)), next(iter(things)))) if len(parts) == len(things) == 1 else None


def mapped(texts: Sequence[str]) -> dict[str, str | None]:
    """Fields by heading, as they are given: `Width of teeth=face`; `=nothing` for a column to be kept in the notes.
    Raises `CribError`.

    >>> mapped(["Width of teeth=face", "Colour=nothing"])
    {'width of teeth': 'face_mm', 'colour': None}
    """
    found: dict[str, str | None] = {}
    for text in texts:
        heading, sign, name = text.rpartition("=")
        key = meaning(name) if sign else None
        if not heading.strip() or (key is None and name.strip().lower() not in ("nothing", "notes only", "")):
            raise CribError("map", f"--map {text!r} names no column and what it holds", text,
                            "--map \"Width of teeth=face\"; " + one_of(name.strip(), [
                                attribute.name for attribute in ATTRIBUTES.values()]))
        found[" ".join(heading.lower().split())] = key
    return found


def meaning(name: str) -> str | None:
    """The field that a heading means, or `WORDS`; None for one that means none.

    >>> meaning("Cutter Dia. (mm)"), meaning("Qty"), meaning("neck_mm"), meaning("Colour")
    ('diameter_mm', 'count', 'neck_mm', None)
    >>> meaning("Diametre"), meaning("shank daimeter")
    ('diameter_mm', 'shank_mm')
    >>> meaning("Width of teeth"), meaning("Dia. of Shank"), meaning("Teeth (number)"), meaning("Length of neck")
    ('face_mm', 'shank_mm', 'flutes', None)
    """
    key = key_of(name)
    if key is not None:
        return key
    bare = " ".join(re.sub(r"[._()\[\]:#/-]+", " ", _UNIT.sub("", name.strip()).lower()).split())
    return _names().get(bare) or _composed(bare) or _near(bare)


def units_of(name: str) -> str | None:
    """The units that a heading names, None where it names none.

    >>> units_of("OD, mm"), units_of("Shank (inch)"), units_of('Length "'), units_of("Pin")
    ('mm', 'in', 'in', None)
    """
    found = _UNIT.search(name.strip())
    if not found:
        return None
    return "mm" if (found[1] or found[2]).lower().startswith("m") else "in"


@cache
def _names() -> dict[str, str]:
    said = {name: key for key, names in _MEANINGS.items() for name in names.split("|")}
    return said | {attribute.name.replace("-", " "): key for key, attribute in ATTRIBUTES.items()}


@cache
def _near(bare: str) -> str | None:
    """The field whose name is spelt nearly like this; short names must be right."""
    if len(bare) < 5:
        return None
    from rapidfuzz import fuzz, process

    names = [name for name in _names() if len(name) >= 5]
    found = process.extractOne(bare, names, scorer=fuzz.ratio, score_cutoff=_ALIKE)
    return _names()[found[0]] if found else None
