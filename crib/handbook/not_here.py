"""Words for what isn't cut on a mill at a bench, or isn't told apart by its name: each has its own answer, so that none
is ever taken for what is spelt like it. Common practice, no source."""

from __future__ import annotations

import re

from crib.light.choices import StrEnum
from crib.light.records import dataclass


class Sort(StrEnum):
    """What such a name is of: all that is cut, the skin of another metal, or it may be anything."""

    WHOLE = "whole"
    SKIN = "skin"
    VAGUE = "vague"


@dataclass(frozen=True)
class Special:
    """What a name means, and what to do about it. `pattern` is matched against the whole name in small letters."""

    pattern: str
    what: str
    help: str
    sort: Sort = Sort.WHOLE


_STRIP = "have the plate stripped by who is set up for it, or name the metal under it and keep the cut below the plate"
_DUST = "its dust goes to lungs, slides and bearings: it wants extraction, a mask and carbide, not this bench"
_TELL = ("weigh a piece in air and in water: about 1.8 magnesium, 2.7 aluminium, 6.7 zinc, 7.2 iron, 8.5 brass, 11 "
         "lead; try a magnet and a file; magnesium burns, so make sure before the first chip")

SPECIALS: tuple[Special, ...] = (
    Special(r".*\basbestos\b.*|.*\bbrake lining.*|.*\bclutch lining.*",
            "asbestos isn't cut here", "its dust kills years later: leave it whole, damp and wrapped, for those who "
            "are licensed to take it; an old lining counts as asbestos until it is tested"),
    Special(r".*\bcad(?:mium)?[ -]?plate.*|.*\bcadmium\b.*", "cadmium plate isn't cut here",
            "its dust and fumes poison: no cutting, filing, grinding or heating; a plater strips it", Sort.SKIN),
    Special(r".*\b(?:hard )?chrom(?:e|ium)[ -]?plat.*|.*\bchromed\b.*|.*\bhard chrome\b.*",
            "chrome plate is harder than the cutter and flakes off in splinters", _STRIP,
            Sort.SKIN),
    Special(r".*\bnickel[ -]?plat.*|.*\belectroless nickel\b.*", "nickel plate may be as hard as the cutter", _STRIP,
            Sort.SKIN),
    Special(r".*\bgalvani[sz]ed\b.*|.*\bzinc[ -]?plat.*", "zinc plate gives off fumes where it gets hot", _STRIP,
            Sort.SKIN),
    Special(r".*\bplated\b.*|.*\banodi[sz]ed\b.*|.*\bhard coat.*|.*\bnitrided\b.*|.*\bcase[ -]harden.*",
            "its skin isn't the metal under it", "get under the skin first, ground or with carbide; then name the "
            "metal under it, and its hardness by --hardness", Sort.SKIN),
    Special(r"(?:an? )?(?:old |unknown |scrap |mystery |odd )*(?:castings?|die[ -]?cast(?:ing)?s?|metal|alloy)|"
            r"pot metal|scrap|unknown|unmarked|don'?t know|not known|\?+",
            "what it is made of isn't known", _TELL, Sort.VAGUE),
    Special(r".*\b(?:inconel|incoloy|monel|hastelloy|nimonic|waspaloy|haynes|kovar|invar|nickel alloys?)\b.*|"
            r"(?:pure )?nickel", "there are no figures for nickel alloys here",
            "they harden where a cutter rubs and want far less speed than steel: who made it says how it is cut"),
    Special(r".*\b(?:tungsten|molybdenum|tantalum|niobium|zirconium)\b(?! carbide).*|.*\b(?:hadfield|manganese) "
            r"steel\b.*|.*\barmou?r(?: plate)?\b.*", "there are no figures for it here",
            "it burns or breaks common cutters: who made it says how it is cut"),
    Special(r".*\b(?:white|chilled) (?:cast )?iron\b.*|ni-?hard", "white iron is as hard as the cutter",
            "it is ground, or annealed first; where only the skin is chilled, say: grey iron with chill"),
    Special(r".*\b(?:tungsten|cemented) carbide\b.*|carbide|stellite|.*\bhigh[ -]speed steel\b.*|hss",
            "it is what cutters are made of", "it is ground, not milled"),
    Special(r".*\b(?:wood|timber|plywood|ply|mdf|chipboard|hardboard|oak|beech|pine|maple|walnut|ebony)\b.*",
            "wood isn't cut here", "its speeds, cutters and dust are another trade's"),
    Special(r".*\b(?:glass[ -]fibre|fibreglass|fiberglass|grp|g-?10|fr-?4|carbon fib(?:re|er)|cfrp|cfk|gfk)\b.*",
            "fibre laminate isn't cut here", _DUST),
    Special(r"(?:plate |sheet )?glass|.*\b(?:ceramic|porcelain|alumina|macor|stone|granite|marble|slate|concrete|brick|"
            r"quartz)\b.*", "it isn't cut with a milling cutter", _DUST),
    Special(r".*\bgraphite\b.*|.*\bcarbon (?:block|brush|plate)\b.*", "carbon isn't cut here", _DUST),
    Special(r"beryllium|beryllia|beryllium oxide", "beryllium isn't cut here", "its dust poisons the lungs; beryllium "
            "copper is another thing and has its own figures"),
    Special(r".*\b(?:rubber|neoprene|silicone|foam|leather|cork|felt|wax)\b.*", "so soft a thing isn't milled here",
            "frozen, or cut with a knife edge: no figures for it"),
    Special(r"mercury|uranium|.*\bradium\b.*|thorium|plutonium|sodium|phosphorus", "it isn't cut here",
            "it is for those who are licensed for it"),
)


def special(words: str) -> Special | None:
    """The answer that a name has of its own; None where it is a material like others, or nothing that is known.

    >>> found = special("Chrome-plated rod")
    >>> found.what if found else None
    'chrome plate is harder than the cutter and flakes off in splinters'
    >>> special("chrome moly") is None and special("plate glass filled nylon") is None
    True
    """
    said = " ".join(words.lower().split())
    return next((one for one in SPECIALS if re.fullmatch(one.pattern, said)), None)
