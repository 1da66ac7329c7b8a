"""Every rule by its id: what it checks, what comes of it, what part of the trade it belongs to and where it comes from.

Who judges, ranks and reckons goes by this table; what is written here once is written nowhere else. An id means one
thing, for good: whoever reads `--json` may keep to it.
"""

from __future__ import annotations

from crib.findings.finding import Grade
from crib.light.choices import StrEnum
from crib.light.records import dataclass


class Effect(StrEnum):
    """What comes of a rule that isn't kept: it forbids the plan, has it rank below one without, makes scrap likelier,
    is told; it is why a cutter can't, and no finding about a plan; something comes out outside the drawing."""

    FORBIDS = "forbids"
    OUTRANKED = "ranks below"
    CHANCE = "chance of scrap"
    NOTE = "note"
    REFUSES = "refuses"
    OUTSIDE = "outside the drawing"


EFFECTS = {Grade.STOP: Effect.FORBIDS, Grade.CAUTION: Effect.OUTRANKED, Grade.WARN: Effect.CHANCE,
           Grade.NOTE: Effect.NOTE, Grade.REFUSES: Effect.REFUSES, Grade.OUTSIDE: Effect.OUTSIDE}
"""What comes of a finding, by how grave it is."""

STOP, CAUTION, WARN, NOTE, REFUSES, OUTSIDE = Effect

PRACTICE, MEMORY, GEOMETRY = "common practice", "from memory", "geometry"
_B1_1, _TAPS = "ASME B1.1, ISO 965-1", "ASME B94.9"


@dataclass(frozen=True)
class Rule:
    """`check`: what should hold. `effects`: what may come of it where it doesn't. `subject`: the part of the trade that
    it belongs to. `chance`: the setting that says what its warning adds to the chance of scrap, where it has one of its
    own. `everywhere`: it keeps a cutter from this work whatever its sizes are. `of_kind`: its fix is another kind.
    `by_steel`: a cutter of unknown steel would keep it if it were of high-speed steel. `by_size`: what doesn't cut
    stands in the way, and one size of the cutter's own would cure it. `gives_up`: with its caution a plan isn't as
    drawn; `asks`: with it a plan waits for a measurement; `of_way`: down an axis its caution tells
    one way to a hole from another, it isn't said of whatever is made there. `first`: its warning is told with the first
    screen, however little room there is. `otherwise`: what it says comes out otherwise than as drawn, with no figure to
    tell by how much."""

    id: str
    check: str
    effects: tuple[Effect, ...]
    subject: str
    source: str
    chance: str = ""
    everywhere: bool = False
    gives_up: bool = False
    of_kind: bool = False
    by_steel: bool = False
    by_size: bool = False
    asks: bool = False
    of_way: bool = False
    first: bool = False
    otherwise: bool = False


RULES: tuple[Rule, ...] = (
    Rule("HD1", "a collet, arbor or chuck takes the shank or the bore", (STOP, REFUSES), "holding", PRACTICE),
    Rule("HD2", "nothing cuts on its side in a drill chuck", (STOP, NOTE, REFUSES), "holding", PRACTICE),
    Rule("HD3", "the arbor's flange and end clear the work", (REFUSES,), "holding", GEOMETRY),
    Rule("MT1", "the cutter's steel stands the hardness of the work", (STOP, CAUTION, REFUSES), "general tests",
         PRACTICE, everywhere=True, gives_up=True, by_steel=True),
    Rule("MT3", "a metal that hardens as it is rubbed is fed without a stop", (CAUTION,), "drilled hole", PRACTICE),
    Rule("MT4", "a finishing cut in such a metal is thick enough to cut", (CAUTION,), "risks", PRACTICE),
    Rule("MT5", "a drill's lips don't grab in brass and bronze", (CAUTION,), "drilled hole", PRACTICE),
    Rule("SP1", "some spindle speed is slow enough", (STOP, WARN, NOTE, REFUSES), "general tests", MEMORY,
         by_steel=True, first=True),
    Rule("FD1", "a hand turns the feed and the motor pulls the cut", (NOTE,), "feeds", MEMORY),
    Rule("UN1", "the cutter's steel is on record", (NOTE,), "cutter steel", PRACTICE),
    Rule("CD1", "its edges may make a size", (STOP, CAUTION, NOTE, REFUSES), "general tests", PRACTICE,
         everywhere=True, gives_up=True),
    Rule("G10", "its hand is the spindle's, or the thread's", (STOP, CAUTION, NOTE, REFUSES), "general tests", PRACTICE,
         everywhere=True),
    Rule("G5", "it reaches all of the room", (REFUSES,), "general tests", GEOMETRY),
    Rule("G6", "holder, spindle and what stands beside clear each other", (REFUSES,), "general tests", GEOMETRY),
    Rule("G7", "a size that decides is known", (REFUSES,), "general tests", PRACTICE),
    Rule("G8", "without end teeth it isn't fed down into metal", (NOTE,), "general tests", PRACTICE),
    Rule("G11", "its corner radius is one that the floor may have", (REFUSES,), "general tests", GEOMETRY),
    Rule("LF1", "nothing is left standing that has to go", (OUTSIDE,), "general tests", GEOMETRY),
    Rule("G12", "the way of cutting holds the drawing's band", (CAUTION, WARN, REFUSES, OUTSIDE),
         "what a process holds", PRACTICE, chance="careful_chance", of_way=True),
    Rule("G14", "a part with hours in it gets no experiment", (WARN,), "general tests", MEMORY),
    Rule("KD1", "its kind is reckoned with for this", (REFUSES,), "cutter kinds", PRACTICE, of_kind=True),
    Rule("PR1", "a size that places a wall is measured", (CAUTION, WARN, NOTE), "cutter kinds", MEMORY,
         chance="assumed_chance"),
    Rule("RE1", "its flutes are long enough, or the shank clears", (STOP, CAUTION, REFUSES), "general tests", GEOMETRY,
         by_size=True, asks=True),
    Rule("RE2", "the neck is long enough for the shank to stay out", (REFUSES,), "general tests", GEOMETRY,
         by_size=True),
    Rule("RE4", "it stands out no more than its stiffness bears", (STOP, CAUTION, WARN, REFUSES), "general tests",
         MEMORY, chance="overhang_chance"),
    Rule("SZ2", "the side passes take enough to cut", (CAUTION, WARN), "straight slot", PRACTICE),
    Rule("SZ3", "it is no wider than the room, and fits the hole", (REFUSES,), "general tests", GEOMETRY),
    Rule("SU1", "another set-up keeps what the first one had", (WARN,), "ranking and cost", PRACTICE),
    Rule("JN1", "one cutter makes a room", (WARN,), "ranking and cost", PRACTICE),
    Rule("TO1", "a depth or a wall to a thou is measured before its last bite", (NOTE,), "work sheet", PRACTICE),
    Rule("RO1", "the readout sets what was reckoned", (WARN,), "work sheet", GEOMETRY),
    Rule("RO2", "a depth is set off its limits, not at one of them", (NOTE,), "work sheet", GEOMETRY),
    Rule("BU1", "what opens from solid is made for it", (STOP, CAUTION, REFUSES), "straight slot", PRACTICE,
         gives_up=True),
    Rule("CL1", "no climb cut with slack in the screw", (STOP, CAUTION, WARN), "directions", PRACTICE),
    Rule("LR1", "a full-width cut isn't run back through", (NOTE,), "straight slot", PRACTICE),
    Rule("PO1", "a mill doesn't creep out of its collet", (NOTE,), "holding", PRACTICE),
    Rule("CL2", "a disc doesn't cut both walls at once", (WARN, NOTE), "T-slot", PRACTICE),
    Rule("CL3", "a wall isn't cut climb for want of an open end", (WARN, NOTE), "directions", PRACTICE),
    Rule("NK1", "the neck clears the lip", (REFUSES,), "T-slot", GEOMETRY, by_size=True),
    Rule("NK2", "the neck clears the wall at the full depth", (REFUSES,), "undercut", GEOMETRY, by_size=True),
    Rule("NK3", "the neck clears at each height along a flank", (REFUSES,), "dovetail slot and slide", GEOMETRY),
    Rule("FC1", "its face is no taller than the groove", (REFUSES,), "T-slot", GEOMETRY),
    Rule("FC2", "it takes few levels", (WARN, NOTE, REFUSES), "T-slot", MEMORY),
    Rule("CH1", "chips have a way out from behind a disc", (CAUTION, WARN), "T-slot", PRACTICE),
    Rule("EN1", "it can get down into the metal", (REFUSES,), "straight slot", PRACTICE),
    Rule("EN2", "a disc can be lowered in between closed ends", (REFUSES,), "T-slot", GEOMETRY),
    Rule("EN3", "the open end has room to run out", (NOTE,), "T-slot", PRACTICE),
    Rule("EN4", "a room under a lip ends with what opens it: the neck clears the closed end", (REFUSES, OUTSIDE),
         "T-slot", GEOMETRY),
    Rule("EN5", "a closed end is as round as the cutter", (WARN,), "straight slot", GEOMETRY),
    Rule("PK1", "a cutter goes round a corner without dwelling", (WARN,), "pocket", PRACTICE),
    Rule("PK2", "a corner is cut without a stop", (NOTE,), "pocket", GEOMETRY),
    Rule("PK3", "a pocket is fed along its long side", (NOTE,), "pocket", MEMORY),
    Rule("CR1", "a rounder's arc ends where the faces begin", (NOTE,), "outside corner round", PRACTICE),
    Rule("CR2", "a round is cut by its own cutter", (WARN,), "outside corner round", PRACTICE),
    Rule("AN1", "its angle is the flank's", (REFUSES, OUTSIDE), "dovetail slot and slide", PRACTICE),
    Rule("AN2", "a countersink's angle is the head's", (REFUSES, OUTSIDE), "countersink", PRACTICE),
    Rule("AN3", "no square corner goes into an acute one", (REFUSES,), "dovetail slot and slide", GEOMETRY),
    Rule("EN6", "a closed end that is cut from the side runs out with the cutter's radius", (OUTSIDE, NOTE),
         "parallel keyseat", GEOMETRY),
    Rule("CN1", "its cone is long enough for the edge", (REFUSES,), "edge chamfer", GEOMETRY),
    Rule("CH2", "a pointed cutter made to go down isn't run along", (CAUTION,), "edge chamfer", PRACTICE),
    Rule("CH3", "it has teeth enough, and odd, not to chatter", (WARN,), "edge chamfer", PRACTICE),
    Rule("DT1", "the points of a dovetail cutter aren't both in the first cut", (CAUTION, WARN),
         "dovetail slot and slide", PRACTICE),
    Rule("DT2", "it doesn't drag on the floor, nor climb", (NOTE,), "dovetail slot and slide", PRACTICE),
    Rule("DT3", "its angle was checked, the edges are broken", (NOTE,), "dovetail slot and slide", PRACTICE),
    Rule("DT4", "a slide is fitted to its own slot", (NOTE,), "dovetail slot and slide", PRACTICE),
    Rule("DT5", "much metal at a corner is opened first", (NOTE,), "dovetail slot and slide", PRACTICE),
    Rule("DT6", "it is known how the cutter gets in", (NOTE,), "dovetail slot and slide", GEOMETRY),
    Rule("SW1", "a saw has metal on both its sides", (OUTSIDE,), "slit", MEMORY),
    Rule("SW2", "a saw that runs out is fed by its high tooth", (NOTE,), "slit", PRACTICE),
    Rule("SW3", "few teeth are in the cut at once", (WARN,), "slit", PRACTICE),
    Rule("WA1", "a pass stays off what stands beside the work", (WARN,), "general tests", PRACTICE),
    Rule("WA2", "to pass over what stands beside the work it stands out no more than its stiffness bears",
         (STOP, CAUTION, WARN), "general tests", MEMORY, chance="overhang_chance"),
    Rule("WA3", "a holder passes over what stands beside the work", (WARN,), "general tests", GEOMETRY),
    Rule("WL1", "the leaf that is left beside is thick enough", (CAUTION,), "general tests", MEMORY),
    Rule("WL2", "the floor that is left is thick enough", (CAUTION, WARN), "general tests", MEMORY),
    Rule("TM1", "the head is square: a wide face comes out flat, walls and floors true", (NOTE,), "facing", GEOMETRY),
    Rule("ST1", "a groove in a part under load has a radius", (CAUTION, NOTE), "undercut", PRACTICE),
    Rule("HO1", "what is left for the reamer is what it takes", (CAUTION, WARN, REFUSES), "reamed hole", PRACTICE),
    Rule("RE3", "a boring bar stands out no further than it bears", (STOP, CAUTION, REFUSES), "bored hole", PRACTICE),
    Rule("HO2", "a drill starts square to the face", (STOP, CAUTION, REFUSES), "drilled hole", PRACTICE),
    Rule("HO3", "a drill breaks out square to the face", (CAUTION,), "drilled hole", PRACTICE),
    Rule("HO4", "a deep hole is pecked", (CAUTION, NOTE), "drilled hole", PRACTICE),
    Rule("HO5", "a hole is bored or reamed where that is asked for", (WARN,), "bored hole", PRACTICE, otherwise=True),
    Rule("HO6", "a large drill follows a pilot", (WARN,), "drilled hole", PRACTICE),
    Rule("HO8", "a drill starts in a spot", (NOTE,), "drilled hole", PRACTICE),
    Rule("HO7", "an end mill follows a drill into a hole", (CAUTION,), "drilled hole", PRACTICE, of_way=True),
    Rule("HO9", "a hand reamer is turned by hand", (NOTE, REFUSES), "reamed hole", PRACTICE),
    Rule("SL1", "what slots stands still: the spindle is locked", (NOTE,), "keyseat in a bore", PRACTICE),
    Rule("SL2", "a slotting tool stands out no further than it bears", (CAUTION, REFUSES), "keyseat in a bore", MEMORY),
    Rule("SL3", "who grinds a point on a blank minds eyes and wheel", (NOTE,), "keyseat in a bore", PRACTICE),
    Rule("FB1", "a flat floor comes out as true as it must", (CAUTION,), "flat-bottomed hole", PRACTICE),
    Rule("IG1", "what goes round an axis is turned under the cutter", (REFUSES,), "internal groove", PRACTICE),
    Rule("IG2", "a tooth is set out with the spindle stopped", (WARN,), "internal groove", PRACTICE),
    Rule("IG3", "a groove for a seal has no chatter in it", (CAUTION,), "internal groove", PRACTICE),
    Rule("RG1", "a tooth in a boring head is no wider than cuts without chatter", (WARN,), "ring groove", PRACTICE),
    Rule("CB1", "a counterbore's pilot fits its hole", (CAUTION, WARN, NOTE), "counterbore", PRACTICE),
    Rule("CB2", "a counterbored head lies below the surface", (WARN,), "counterbore", GEOMETRY),
    Rule("BC1", "between two holes of a circle stands metal enough", (CAUTION,), "bolt circle", PRACTICE),
    Rule("BC2", "table and cross place holes as closely as is asked", (WARN,), "bolt circle", PRACTICE),
    Rule("FL1", "the bar leaves its corners sharp", (WARN,), "flats by indexing", GEOMETRY),
    Rule("FL2", "flats are turned to by a block, a head or a table", (CAUTION,), "flats by indexing", PRACTICE),
    Rule("HF1", "a surface that must be true isn't filed", (WARN, OUTSIDE), "gib-screw holes", PRACTICE,
         chance="hand_chance"),
    Rule("GB1", "the nut has flank enough about it", (CAUTION,), "gib-screw holes", PRACTICE),
    Rule("GB2", "the screw stands where the gib bears", (CAUTION,), "gib-screw holes", PRACTICE),
    Rule("GB3", "the wall holds thread enough", (CAUTION,), "gib-screw holes", PRACTICE),
    Rule("GB4", "the male slide is out while the wall is drilled", (NOTE,), "gib-screw holes", PRACTICE),
    Rule("GB5", "no burr lifts the gib", (CAUTION,), "gib-screw holes", PRACTICE),
    Rule("GB6", "the gib is dimpled for its screws", (CAUTION, NOTE), "gib-screw holes", PRACTICE),
    Rule("TP1", "a tap for the thread is owned", (CAUTION,), "tapped hole", PRACTICE),
    Rule("TH1", "the hole lies inside the class", (STOP, CAUTION, WARN, NOTE, REFUSES), "tapped hole", _B1_1,
         of_way=True),
    Rule("TH2", "there is thread enough for a load, and not too much", (STOP, CAUTION, WARN, NOTE), "tapped hole",
         PRACTICE, otherwise=True),
    Rule("TH3", "the drill's point stays out of what is below", (STOP,), "tapped hole", GEOMETRY),
    Rule("TH4", "the tap's lead and chip suit the hole's bottom", (CAUTION, WARN, NOTE), "tapped hole", _TAPS),
    Rule("TB1", "the tap isn't apt to break", (STOP, CAUTION, WARN, NOTE), "tapped hole", PRACTICE),
    Rule("MT2", "the tap's form and flutes suit the metal", (STOP, CAUTION, WARN, NOTE), "tapped hole", PRACTICE),
    Rule("SF1", "the use is a bench decision", (REFUSES,), "cautions and referral", PRACTICE),
    Rule("SF2", "a pipe thread holds no pressure", (CAUTION,), "cautions and referral", PRACTICE),
)

BY_ID: dict[str, Rule] = {rule.id: rule for rule in RULES}


def ids(sort: str) -> tuple[str, ...]:
    """The ids of the rules of a sort, in the table's order.

    >>> ids("everywhere"), ids("gives_up"), ids("asks"), ids("of_way")
    (('MT1', 'CD1', 'G10'), ('MT1', 'CD1', 'BU1'), ('RE1',), ('G12', 'HO7', 'TH1'))
    """
    return tuple(rule.id for rule in RULES if getattr(rule, sort))
