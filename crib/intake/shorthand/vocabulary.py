"""The words of shop shorthand: kinds, materials, conditions, and what goes into the note. Data, and nothing else."""

from __future__ import annotations

KINDS: tuple[tuple[str, str, str], ...] = (
    (r"(?:slot drill)s?", "end-mill", "slot drill"),
    (r"taper(?:ed)? end ?mills?", "taper-end-mill", ""),
    (r"(?:rough(?:er|ing)|corncob|hog(?:ger)?)(?: end ?mills?)?", "end-mill", "roughing"),
    (r"ball(?: ?nosed?| end)?(?: end ?mills?)?", "end-mill", "ball"),
    (r"bull ?nosed?(?: end ?mills?)?", "end-mill", "bull nose"),
    (r"(?:end ?mills?|em|endmills?)", "end-mill", ""),
    (r"shell (?:end ?)?mills?", "face-mill", "shell mill"),
    (r"face ?mills?", "face-mill", ""),
    (r"fly ?cutters? bits?", "blank", "bits for a fly cutter"),
    (r"fly ?cutters?", "fly-cutter", ""),
    (r"(?:key ?seats?|woodruff|key ?ways?|key) ?(?:seat(?:ing)? )?(?:cutters?|mills?)", "keyseat-cutter", ""),
    (r"woodruff|key ?seats?|key ?ways?", "keyseat-cutter", ""),
    (r"(?:t|tee) ?slot(?: ?cutters?| mills?)?|t cutters?", "t-slot-cutter", ""),
    (r"(?:slitting|slit|slotting) saws?|saws?", "slitting-saw", ""),
    (r"side(?: and face)?(?: milling)? cutters?", "side-cutter", ""),
    (r"dove ?tails?(?: cutters?)?", "dovetail-cutter", ""),
    (r"single angle(?: cutters?)?", "angle-cutter", "single angle"),
    (r"double angle(?: cutters?)?", "angle-cutter", "double angle"),
    (r"angle cutters?", "angle-cutter", ""),
    (r"chamfer(?:ing)?(?: ?(?:mills?|bits?|cutters?|tools?))?", "chamfer-cutter", ""),
    (r"counter ?sinks?|csk|c'sink", "countersink", ""),
    (r"corner ?round(?:er|ing)?s?(?: cutters?)?", "corner-rounding-cutter", ""),
    (r"convex cutters?|convex", "form-cutter", "convex"),
    (r"concave cutters?|concave", "form-cutter", "concave"),
    (r"spot(?:ting)? drills?", "spot-drill", ""),
    (r"(?:cent(?:er|re)) drills?", "centre-drill", ""),
    (r"step (?:drill|bit)s?", "step-drill", ""),
    (r"annular(?: cutters?)?", "annular-cutter", ""),
    (r"taper pin(?: reamers?)?", "taper-reamer", "taper pin"),
    (r"taper reamers?", "taper-reamer", ""),
    (r"reamers?", "reamer", ""),
    (r"counter ?bores?|cbore", "counterbore", ""),
    (r"boring heads?", "boring-head", ""),
    (r"boring bars?", "boring-bar", ""),
    (r"(?:key )?broach(?:es)?", "broach", ""),
    (r"blanks?", "blank", ""),
    (r"dies?", "die", ""),
    (r"taps?", "tap", ""),
    (r"drills?|drill bits?", "drill", ""),
)
"""A pattern for each way to say a kind, the kind, and what the note says of it; the first that is found counts."""

NOUNS: tuple[tuple[str, str], ...] = (
    ("end mill|em", "end-mill"), ("face mill", "face-mill"), ("fly ?cutter", "fly-cutter"),
    ("woodruff", "keyseat-cutter"),
    ("key ?(?:seat|way) cutter", "keyseat-cutter"), ("t slot cutter", "t-slot-cutter"), ("saw", "slitting-saw"),
    ("side cutter", "side-cutter"), ("dovetail cutter", "dovetail-cutter"), ("counter ?sink", "countersink"),
    ("spot(?:ting)? drill", "spot-drill"), ("cent(?:er|re) drill", "centre-drill"), ("reamer", "reamer"),
    ("counter ?bore", "counterbore"), ("boring bar", "boring-bar"), ("boring head", "boring-head"), ("die", "die"),
    ("tap", "tap"), ("drill", "drill"),
)
"""Names that stand for nothing but a cutter of their kind: two of them in a line are two cutters."""

HOLDERS = {"collet": "collets", "arbor": "arbors", "chuck": "chuck"}
"""What isn't a cutter, and where the shop's settings have it."""

NO_CUTTERS: dict[str, str] = {
    "knurl": "a knurl presses and doesn't cut", "knurls": "a knurl presses and doesn't cut",
    "burr": "a burr is no cutter for the mill", "router": "a router bit is for wood",
}

MATERIALS: tuple[tuple[str, str], ...] = (
    (r"carbide[ -]tipped|ct", "carbide-tipped"),
    (r"cobalt|m42|m35|co[ -]?[58]|cob", "cobalt"),
    (r"carbide|carb|tc", "carbide"),
    (r"carbon steel|carbon|cs", "carbon-steel"),
    (r"m2 hss|hss m2|hss|hhs|hi[ -]speed(?: steel)?|high[ -]speed(?: steel)?|m2 steel|m7", "hss"),
)

CONDITIONS: tuple[tuple[str, str], ...] = (
    (r"new|nib|unused|sharp", "sharp"),
    (r"used|good|fair", "used"),
    (r"dull|blunt", "dull"),
    (r"chipped(?: corner)?|chip(?: on|ped)?", "chipped"),
    (r"burnt|blue", "burnt"),
    (r"bent", "bent"),
)

NOTES: tuple[tuple[str, str], ...] = (
    (r"with (?:a )?flats?(?: on(?: the)? shank)?", "flat on the shank"),
    (r"(?:turned[ -]down|reduced|cut[ -]down)", "reduced shank"),
    (r"shank (?:chewed|damaged|scored)|chewed shank", "shank chewed"),
    (r"al ?tin", "AlTiN coated"), (r"tialn", "TiAlN coated"), (r"tin", "TiN coated"),
    (r"black oxide", "black oxide"), (r"ox bright|bright", "bright"),
    (r"screw[ -]machine(?: length)?", "screw-machine length"), (r"stub(?: length)?", "stub"),
    (r"jobbers?(?: length)?", "jobber"), (r"taper length", "taper length"), (r"extra length", "extra length"),
    (r"extra long|long (?:series|reach)", "long"),
    (r"split(?: ?(?:pt|point))?", "split point"),
    (r"zero[ -]flutes?|0[ -](?:fl|flutes?)", "zero flute (oblique hole)"),
    (r"dubbed(?: lips)?", "dubbed lips; keep for brass"), (r"brass(?: only)?", "for brass"),
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
cutters mill mills pcs pc about some these those that's thats tool my i got lot series letter number"""
IDLE = frozenset(_IDLE.split())
"""Words that say nothing of their own."""

ALIASES: dict[str, str] = {
    "hhs": "hss",
    "rimmer": "reamer", "rimer": "reamer", "woodrough": "woodruff", "csk": "countersink",
    "c'sink": "countersink", "cbore": "counterbore", "c'bore": "counterbore", "flt": "flute",
    "flts": "flute",
    "fluit": "flute", "flut": "flute", "flood": "flute", "lip": "flute", "lips": "flute", "tslot": "t slot",
    "t-slot": "t slot", "tee-slot": "t slot", "teeslot": "t slot", "keyset": "keyseat", "shk": "shank", "shks": "shank",
    "shnk": "shank", "endmil": "end mill", "endmill": "end mill", "endmills": "end mills", "end-mill": "end mill",
    "end-mills": "end mills", "e/m": "end mill", "bottom": "bottoming", "btm": "bottoming", "rad": "radius",
    "dia": "diameter", "diam": "diameter", "dia.": "diameter", "ø": "diameter", "sore": "saw",
    "regound": "reground", "resharpened": "reground", "carb": "carbide", "cob": "cobalt", "neckdia": "neck",
    "center-drill": "center drill", "centre-drill": "center drill", "ballnose": "ball nose", "bullnose": "bull nose",
    "roughers": "rougher", "num": "#", "nr": "#", "spi": "spiral", "endmll": "end mill", "gound": "ground",
    "pt": "point", "pts": "point", "teeth": "tooth", "miked": "measured", "mics": "measured", "mic'd": "measured",
    "mikes": "measured", "measures": "measured", "actual": "measured",
    "gun": "spiral point", "whit": "whitworth", "rollform": "forming",
    "inc": "incl", "included": "incl", "inclusive": "incl", "handed": "hand", "clearance": "clear",
    "stamped": "marked", "etched": "marked", "engraved": "marked",
}
"""A word as it is written or heard, and the word that is meant; as such or by its letters too far off for likeness."""

PHRASES: tuple[tuple[str, str], ...] = (
    (r"(?<=\d) actually\b", " measured"),
    (r"\bbottoming in\b", "bottoming"), (r"\bend mil\b", "end mill"),
    (r"\bslit saw", "slitting saw"), (r"\broll ?form(?:ing)?\b|\bthread forming\b", "forming"),
    (r"\bhigh[ -]speed\b|\bhi[ -]speed\b", "hss"), (r"\bkey set\b", "keyseat"), (r"\bc / c\b|\bc/c\b", "cc"),
    (r"\bcent(?:er|re)[ -]cut(?:ting)?\b|\bcut(?:s)?[ -](?:to )?(?:the )?cent(?:er|re)\b", "cc"),
    (r"\bs/h\b", "hss"), (r"\bl\.h\.", "lh"), (r"\bleft[ -]hand(?:ed)?\b", "lh"),
    (r"\bmin\.? hole\b|\bsmallest hole\b", "minhole"), (r"\bcent(?:er|re) drill", "center drill"),
    (r"\bconcave\b", "concave"), (r"\bspi pt\b|\bspiral pt\b", "spiral point"), (r"\bspi fl\b", "spiral flute"),
    (r"\bcorners? (?:radius|r\b)", "radius"),
    (r"\bcomb(?:o|ined|ination) drill (?:and |& ?)?countersink", "center drill"),
    (r"\btwo[ -]ended\b|\bdouble[ -]end(?:ed|er)?\b", "de"), (r"\bsingle[ -]end(?:ed)?\b", "se"),
    (r"\bsingle[ -]flute\b", "1 flute"), (r"\bno need\b", ""), (r"\bneck length\b", "necklong"),
    (r"\blength of cut\b|\bcut length\b|\bflute length\b", "loc"), (r"\boverall(?: length)?\b|\bo\.?a\.?l\b", "oal"),
)
"""What is more than a word long, put into the words that the grammar knows."""

_WORDS = """end mill mills flute flutes woodruff keyseat keyway cutter cutters dovetail countersink counterbore chamfer
    reamer reamers bottoming jobber collet arbor slitting saw cobalt carbide carbon steel slot tapered taper shank
    brought lent loaned lost mislaid scrapped threw broke snapped moved sharpened honed stoned
    reground ground drawer tray cabinet shelf diameter radius angle double single side staggered spiral point forming
    corner rounding rounder convex concave broach boring annular blank drill drills countersinks centre center spot
    ball nose bull rougher roughing corncob chipped sharp unused measured limit adjustable chucking expansion straight
    square letter number overall length pilot bore face neck reach tooth missing fractional index left right hand
    plug second whitworth drawers plus shell flycutter wide thick high long short stub split museum neighbour dozen
    pair round brass adjusting black bright condition quarter half eighth sixteenth screw machine bolt shipped
    mushroom unknown little found paid free gift bought metric actually another marked"""
WORDS = frozenset(_WORDS.split())
"""Words that are spelt right; one of five letters or more that is like one of these is read as it."""
