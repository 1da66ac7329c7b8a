"""The words of shop shorthand: materials, conditions, and what goes into the note; those for a kind the kind has. Data,
and nothing else."""

from __future__ import annotations

from crib.cutters import KINDS

HOLDERS = {"collet": "collets", "arbor": "arbors", "chuck": "chuck"}
"""What isn't a cutter, and where the shop's settings have it."""

HOLDER = r"drill chucks?|(?:end ?mills?|tool|cutter|shell mill|saw|tap) (?:holders?|adapt[eo]rs?)"
"""Holders that are called by what they hold: a kind that is named in them isn't meant."""

NO_CUTTERS: dict[str, str] = {
    "knurl": "a knurl presses and doesn't cut", "knurls": "a knurl presses and doesn't cut",
    "hole ?saws?": "a hole saw is none of the cutters that are reckoned with",
    "hacksaw": "a hacksaw is no cutter for the mill",
    "jigsaw": "a jigsaw blade is no cutter for the mill", "band ?saw": "a bandsaw blade is no cutter for the mill",
    "burr": "a burr is no cutter for the mill", "router": "a router bit is for wood",
}

MATERIALS: tuple[tuple[str, str], ...] = (
    (r"carbide[ -]tipped|ct", "carbide-tipped"),
    (r"cobalt|m42|m35|co[ -]?[58]|cob", "cobalt"),
    (r"carbide|carb|tc", "carbide"),
    (r"carbon steel|carbon|cs", "carbon-steel"),
    (r"m2 hss|hss m2|hss(?: steel)?|hhs|hi[ -]speed(?: steel)?|high[ -]speed(?: steel)?|m2 steel|m7", "hss"),
)

CONDITIONS: tuple[tuple[str, str], ...] = (
    (r"new|nib|unused|sharp", "sharp"),
    (r"used|good|fair|worn", "used"),
    (r"dull|blunt", "dull"),
    (r"chipped(?: corner)?|chip(?: on|ped)?|nicked", "chipped"),
    (r"burnt|blue", "burnt"),
    (r"bent", "bent"),
)

NOTES: tuple[tuple[str, str], ...] = (
    (r"straight flute[ds]?", "straight flutes"), (r"(?:helical|fast spiral|high helix) flute[ds]?", "helical flutes"),
    (r"with (?:a )?flats?(?: on(?: the)? shank)?", "flat on the shank"),
    (r"(?:turned[ -]down|reduced|cut[ -]down|(?:stepped|(?:ground|necked|stepped)[ -]down)(?= shank))",
     "reduced shank"),
    (r"shank (?:chewed|damaged|scored)|chewed shank", "shank chewed"),
    (r"al ?tin(?: coat(?:ed|ing))?", "AlTiN coated"), (r"tialn(?: coat(?:ed|ing))?", "TiAlN coated"),
    (r"tin(?: coat(?:ed|ing))?", "TiN coated"), (r"r8 (?:shank|arbor|taper|adapt[eo]r)", "R8 shank"),
    (r"black oxide", "black oxide"), (r"ox bright|bright", "bright"),
    (r"screw[ -]machine(?: length)?", "screw-machine length"), (r"stub(?: length)?", "stub"),
    (r"jobbers?(?: length)?", "jobber"), (r"taper length", "taper length"), (r"extra length", "extra length"),
    (r"extra long|long (?:series|reach)", "long"),
    (r"split(?: ?(?:pt|point))?", "split point"),
    (r"zero[ -]flutes?|0[ -](?:fl|flutes?)", "zero flute (oblique hole)"),
    (r"dubbed(?: lips)?", "dubbed lips; keep for brass"), (r"(?:for )?brass(?: only)?", "for brass"),
    (r"(?:for )?alumini?um(?: only)?", "for aluminium"),
    (r"staggered(?: (?:teeth|tooth))?", "staggered teeth"),
    (r"bell(?: type)?", "bell type"), (r"chucking", "chucking"), (r"hand", "hand"),
    (r"expansion", "expansion"), (r"adjustable|adj", "adjustable"), (r"dowel", "dowel"),
    (r"round", "round"), (r"sq(?:uare)?", "square"), (r"no bushing", "bushing missing"),
    (r"no screw", "screw missing"), (r"rusty|rusted", "rusty"), (r"old", "old"),
    (r"over(?:size)?", "oversize"), (r"under(?:size)?", "undersize"), (r"straight", "straight"),
    (r"serial|ringed", "serial tap: which of the set?"),
)
"""Patterns of what belongs in the note, and how the note says it."""


_IDLE = """a an the of with on in and is it its at for to w/ w bit bits x by them one size sized type kind cutter
cutters mill mills pcs pc about some these those that's thats tool my i got lot series letter number metric"""
IDLE = frozenset(_IDLE.split())
"""Words that say nothing of their own."""

ALIASES: dict[str, str] = {
    "hhs": "hss", "flt": "flute", "flts": "flute",
    "fluit": "flute", "flut": "flute", "flood": "flute", "lip": "flute", "lips": "flute", "shk": "shank",
    "shks": "shank", "shnk": "shank", "bottom": "bottoming", "btm": "bottoming", "rad": "radius",
    "dia": "diameter", "diam": "diameter", "dia.": "diameter", "ø": "diameter",
    "regound": "reground", "resharpened": "reground", "carb": "carbide", "cob": "cobalt", "neckdia": "neck",
    "millimetre": "mm", "millimetres": "mm", "millimeter": "mm", "millimeters": "mm", "l.o.c.": "loc",
    "l.o.c": "loc", "ltr": "letter", "scr": "screw", "scrs": "screws", "nk": "neck", "cbd": "carbide", "dbl": "double",
    "sgl": "single", "e.m.": "end mill", "e.m": "end mill", "s.e.": "se", "d.e.": "de", "pr": "pair",
    "resharp": "reground", "resharp'd": "reground", "spotting": "spot",
    "b.a.": "ba", "b.a": "ba", "m.e.": "me", "str": "straight", "fluted": "flute", "toothed": "tooth",
    "lipped": "flute",
    "ruffing": "roughing",
    "sh": "shank", "num": "#", "nr": "#", "spi": "spiral", "gound": "ground",
    "pt": "point", "pts": "point", "teeth": "tooth", "miked": "measured", "mics": "measured", "mic'd": "measured",
    "mikes": "measured", "measures": "measured", "actual": "measured",
    "gun": "spiral point", "whit": "whitworth", "rollform": "forming",
    "inc": "incl", "included": "incl", "inclusive": "incl", "handed": "hand", "clearance": "clear",
    "stamped": "marked", "etched": "marked", "engraved": "marked",
} | {word: meant for kind in KINDS.values() for word, meant in kind.speech.heard.items()}
"""A word as it is written or heard, and the word that is meant; as such or by its letters too far off for likeness."""

END_STATES = "|".join(pattern for pattern, _ in CONDITIONS) + "|broken(?: off)?|broke|gone|bad|shot|no good|ok|fine"
_ONE_END = (r"(?:one|1|(?:the )?(?:other|second|2nd|far)) (?:end|1|one)(?:'s| is| was| has)?"
            r"(?: (?:a bit|badly|slightly))?")

PHRASES: tuple[tuple[str, str], ...] = (
    (rf"\b{_ONE_END}:? ({END_STATES})\b", r"oneend \1"),
    (rf"\b({END_STATES}) (?:on|at) {_ONE_END}(?!\w)", r"oneend \1"),
    (rf"\b({END_STATES}) (?:one|1) end\b", r"oneend \1"),
    (rf"\b(oneend (?:{END_STATES})),?(?: and)? (?:(?:the )?other|one|1)(?: is)? ({END_STATES})\b",
     r"\1, oneend \2"),
    (r"\b(?:one|1) (?=(?:chipped|sharp|broken|nicked|burnt|dull) (?:corner|tooth|flute|edge)s?\b)", ""),
    (r"(?<!\w)#(?:'?s)? (?=drills?\b)", "number "), (r"(?<=\d) actually\b", " measured"),
    (r"\bmic:? (?=[.\d])", "measured "), (r"\bangle cutters?\b(.*?) double(?: angle)?\b", r"double angle cutter\1"),
    (r"\bbottoming in\b", "bottoming"), (r"\broll ?form(?:ing)?\b|\bthread forming\b", "forming"),
    (r"\bhigh[ -]speed\b|\bhi[ -]speed\b", "hss"), (r"\bc / c\b|\bc/c\b", "cc"),
    (r"\bcent(?:er|re)[ -]cut(?:ting)?\b|\bcut(?:s)?[ -](?:to )?(?:the )?cent(?:er|re)\b", "cc"),
    (r"\bs/h\b", "hss"), (r"\bl\.h\.", "lh"), (r"\bleft[ -]hand(?:ed)?\b", "lh"),
    (r"\bmin\.? hole\b|\bsmallest hole\b", "minhole"),
    (r"(?<![\w./-])(\.?\d[\d./-]*(?: ?(?:inch|in|mm|\"))?) min(?:imum)?\b(?! ?(?:hole|bore|dia(?:meter)?))",
     r"minhole \1"),
    (r"\bsp(?:ir)? point\b|\bspi pt\b|\bspiral pt\b", "spiral point"), (r"\bspi fl\b", "spiral flute"),
    (r"\bcorners? (?:radius(?:ed)?|rounded|r\b)", "radius"),
    (r"\bno (?:cent(?:er|re) (?:tooth|cut\w*)|(?:tooth|flutes) (?:in|at|to) (?:the )?cent(?:er|re))\b", "not cc"),
    (r"\b(shank|neck|face|bore|reach|diameter|flutes?|pilot|tip)'s\b", r"\1"),
    (r"([\d\"]|inch|in|mm) long flutes?\b", r"\1 loc"),
    (r"(?<![\w/.-])(\d+(?:-\d+/\d+|/\d+)?)(?: ?inch| ?in| ?\")?,?(?: x)? (\d{1,2}) ?(?:tpi|threads? per inch|to the "
     r"inch)\b",
     r"\1-\2"),
    (r"\btwo[ -]ended\b|\bdouble[ -]end(?:ed|er)?\b", "de"), (r"\bsingle[ -]end(?:ed)?\b", "se"),
    (r"(\d) inserts?\b", r"\1 tooth"),
    (r"(^|[a-z,;] )(?:an? )?inch (?=bore|hole|arbor|shank|diameter|wide|face|thick|loc|oal|long|neck|reach|"
     r"of flute|of cut)",
     r"\g<1>1 inch "),
    (r"\bctr\.? ?cut(?:ting)?\b\.?", "cc"), (r"\btaper shank (?=(?:.*\W)?(?:mt|morse|\d ?mt|#?\d morse))", ""),
    (r"\bsingle[ -]flute\b", "1 flute"), (r"\bno need\b", ""), (r"\bneck length\b", "necklong"),
    (r"\b(shank|neck|bore|pilot|tip) diameter\b", r"\1"),
    (r"\bdiameter (shank|neck|bore|pilot|tip)\b(?! ?(?:is |of |an? |= ?|: ?)*[\d.#])", r"\1"),
    (r"\b(?:neck(?:ed)?|relieved|relief)(?: (?:down|ground|turned|relieved|reduced|out))*(?: to)?(?= [\d.])", "neck"),
    (r"\bshank (?:is )?(?:turned|ground|cut|reduced|stepped)(?: down)?(?: to)?(?= [\d.])", "reduced shank"),
    (r"\b(?:sticks?|sticking|stands?|hangs?) out\b|\bstick ?out\b|\bprojection\b|\bbelow (?:the )?shank\b|\breaches\b",
     "reach"),
    (r"\b(?:total|whole|full) length\b", "oal"), (r"\bthk\b|\bthickness\b", "thick"), (r"\bkerf\b", "face"),
    (r"\bmin(?:imum)?\.? (?:bore|diameter)\b|\bsmallest bore\b|\bholes? (?:from|down to|over|above)\b", "minhole"),
    (r"(?<!\d )\bflutes? (?:are |is )?([\d./-]+(?: ?(?:inch|in|mm))?) long\b", r"loc \1"),
    (r"\b(?:cutting )?edges? (?:are |is )?([\d./-]+(?: ?(?:inch|in|mm))?) long\b", r"loc \1"),
    (r"\bcutting (?:length|edges?(?: length)?)\b|\blength of (?:flutes?|cut|tooth)\b|\bof (?:flute|cut)\b", "loc"),
    (r"\blength of cut\b|\bcut length\b|\bflute length\b", "loc"), (r"\boverall(?: length)?\b|\bo\.?a\.?l\b", "oal"),
)
"""What is more than a word long, put into the words that the grammar knows."""

KIND_PHRASES: tuple[tuple[str, str], ...] = tuple(one for kind in KINDS.values() for one in kind.speech.phrases)
"""The same for the names of kinds."""

_WORDS = """flute flutes carbide carbon steel cobalt collet arbor shank tapered cutter cutters mill mills
    brought lent loaned lost mislaid scrapped threw broke broken snapped moved sharpened honed stoned
    reground ground drawer tray cabinet shelf diameter radius angle double single staggered spiral point forming
    convex concave rounder centre center ball nose bull rougher roughing corncob chipped sharp unused measured limit
    adjustable chucking expansion straight bottoming jobber
    square letter number overall length pilot bore face neck reach tooth missing fractional index left right hand
    plug second whitworth drawers plus shell flycutter wide thick high height long short stub split museum neighbour
    dozen pair round brass adjusting black bright condition quarter half eighth sixteenth screw machine bolt shipped
    sp comb hole holes holesaw holesaws holder holders adapter adaptor
    mushroom unknown little found paid free gift bought metric actually another marked rounded woodruff keyway"""
WORDS = frozenset(_WORDS.split()) | {word for kind in KINDS.values() for said in (kind.words, kind.plural)
                                     for word in said.lower().replace("-", " ").split()}
"""Words that are spelt right; one of five letters or more that is like one of these is read as it."""
