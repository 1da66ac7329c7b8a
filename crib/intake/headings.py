"""What the heading of a column means: by its own name, by what a shop calls it, and in which units its numbers are."""

from __future__ import annotations

import re
from functools import cache

from crib.intake.attributes import ATTRIBUTES, key_of

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
_UNIT = re.compile(r"(?<![\s_,(\[/])[\s_,(\[/]+(mm|millimet(?:er|re)s?|inch(?:es)?|in|\")[.)\]]*$|(\")$", re.IGNORECASE)
_ALIKE = 86


def meaning(name: str) -> str | None:
    """The field that a heading means, or `WORDS`; None for one that means none.

    >>> meaning("Cutter Dia. (mm)"), meaning("Qty"), meaning("neck_mm"), meaning("Colour")
    ('diameter_mm', 'count', 'neck_mm', None)
    >>> meaning("Diametre"), meaning("shank daimeter")
    ('diameter_mm', 'shank_mm')
    """
    key = key_of(name)
    if key is not None:
        return key
    bare = " ".join(re.sub(r"[._()\[\]:#/-]+", " ", _UNIT.sub("", name.strip()).lower()).split())
    return _names().get(bare) or _near(bare)


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
