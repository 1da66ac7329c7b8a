"""Rules for the row of tapped holes that sets a gib; and what is reckoned and assumed of them."""

from __future__ import annotations

from collections.abc import Iterator
from math import radians, tan

from crib.features.down import STEEP_DEG, GibScrews, Thread
from crib.findings.finding import Figure, Finding, Grade
from crib.findings.message import Deg, InWords, Mm, Text, joined, said
from crib.handbook import gib_screws
from crib.handbook.points import keep_below
from crib.machining.chain import Chain
from crib.machining.question import Question
from crib.machining.words import Role

_LENGTH_MM, _APART_MM = 6 * 25.4, 50.8
"""How long a gib is taken to be, and how far apart its screws are at the most [mm]. From memory."""


def starts(chain: Chain) -> Iterator[Finding]:
    """HO2: a slope is made flat with an end mill before anything is drilled on it."""
    gib = gib_of(chain.question)
    if gib is None or not gib.is_sloped:
        return
    if chain.filed_mm2:
        yield Finding("HO2", Grade.STOP, said("square to the flank the holes meet the side {tilt} degrees from square: "
                                              "no drill starts there, and no end mill that plunges is wide enough for "
                                              "a flat. Level ones would go", tilt=Deg(gib.starts_deg)))
        return
    deep = Mm(gib.land_mm * tan(radians(gib.starts_deg)))
    yield Finding("HO2", Grade.CAUTION, said("the flat comes first: on a slope of {tilt} degrees it is {deep} deep on "
                                             "its far side; Z counts from where it is clean all round", deep=deep,
                                             tilt=Deg(gib.starts_deg)))


def breaks_out(chain: Chain) -> Iterator[Finding]:
    """HO3: a drill that comes out on a slope is pushed aside, and isn't through until its far side is."""
    gib = gib_of(chain.question)
    if gib and gib.exits_deg > STEEP_DEG:
        says = ("drill and tap come out on a flank that leans {slope} degrees from square: {wall} on the axis, {far} "
                "at the far side. As the point breaks through it is pushed aside: a stiff drill, table and cross "
                "locked, fed by hand and slowly for the last of it")
        yield Finding("HO3", Grade.CAUTION, said(says, slope=Deg(gib.exits_deg), wall=Mm(gib.wall_mm),
                                                 far=Mm(gib.wall_mm + gib.exits_mm)))


def filed(chain: Chain) -> Iterator[Finding]:
    """HF1: a surface that must be true isn't filed."""
    if chain.filed_mm2:
        yield Finding("HF1", Grade.WARN, "lands for the nuts are filed: square to the hole, tried with the nut and "
                                         "blue")


def room(chain: Chain) -> Iterator[Finding]:
    """GB1: the nut has flank enough about it. GB2: the screw stands where the gib bears. GB3: the wall holds thread
    enough."""
    gib, metal = gib_of(chain.question), chain.question.material
    if gib is None:
        return
    major, half = _thread(chain.question).reading.thread.major_mm, gib.height_mm / 2
    nut = gib_screws.across_corners(gib.nut_mm) / 2 + 0.030 * 25.4 if gib.nut_mm else 0.0
    if nut > half:
        yield Finding("GB1", Grade.CAUTION, said("the nut wants {nut} from the screw to each edge of the flank, there "
                                                 "is {half}: look that it clears the "
                                                 "shoulder", nut=Mm(nut), half=Mm(half)))
    if half < (least := major / 2 + 0.06 * 25.4):
        yield Finding("GB2", Grade.CAUTION, said("the screw stands {half} over the floor, {least} is the least",
                                                 half=Mm(half), least=Mm(least)))
    if gib.wall_mm < (need := gib_screws.least_thread(major, metal.group == "steel")):
        yield Finding("GB3", Grade.CAUTION, said("only {wall} of thread: {need} is wanted in {metal}",
                                                 wall=Mm(gib.wall_mm), need=Mm(need), metal=metal.name))


def care(chain: Chain) -> Iterator[Finding]:
    """GB4: the male slide is out while the wall is drilled. GB5: no burr lifts the gib. GB6: it is dimpled."""
    if gib_of(chain.question) is None:
        return
    yield Finding("GB4", Grade.NOTE, "never drill into the male slide: gib and male out while the wall is drilled, a "
                  "depth stop for the dimples")
    yield Finding("GB5", Grade.CAUTION, "a burr inside the flank lifts the gib: stone it off after tapping")
    if _dimple(chain) is None:
        drill = next((job.tool.cutter.diameter_mm for job, cut in chain.passes() if cut.role is Role.DRILL), None)
        yield Finding("GB6", Grade.CAUTION, said("the gib isn't dimpled: --gib THICKNESS, a cone and {web} under it at "
                                                 "the least", web=Mm(keep_below(drill or 0.0))))
    else:
        yield Finding("GB6", Grade.NOTE, "points: 90 degree cone or ball in the dimples; hardened points dig into a "
                      "soft gib: brass tips")


def figures(chain: Chain) -> Iterator[Figure]:
    """Where the screws stand, how long they are, their key and the land of their nuts."""
    gib, units, dimple = gib_of(chain.question), chain.question.shop.units, _dimple(chain)
    if gib is None:
        return
    thread = _thread(chain.question).reading.thread
    yield Figure("from the gib's end", value=joined(", ", (said("{along}", along=Mm(x)) for x in gib.along_mm)))
    yield Figure("height over the floor, middle of the flank", gib.height_mm / 2)
    deep = dimple[0] - gib.wall_mm if dimple else 0.0
    step = 25.4 / 8 if units == "in" else 5.0
    long = gib_screws.screw_length(gib.wall_mm, deep, thread.major_mm, thread.pitch_mm, step)
    yield Figure("set screw", value=said("{long} long", long=InWords(long)))
    if key := gib_screws.hex_key(thread.name):
        yield Figure("its key", value=key)
    if gib.nut_mm:
        yield Figure("land for the nut", gib.land_mm)
    if dimple:
        yield Figure("transfer punch, if one is used", dimple[1] - 0.005 * 25.4)


def assumed(question: Question) -> Iterator[Text]:
    """What is taken for granted of the screws."""
    gib = gib_of(question)
    if gib is None:
        return
    says: dict[str, Text] = {
        "thickness": said("wall {wall} (1.5 diameters): --thickness wasn't given; it sets the depth stop and the "
                          "screw's length", wall=Mm(gib.wall_mm)),
        "number": said("as many screws as keep them within {apart} of each other, from memory", apart=Mm(_APART_MM)),
        "direction": "screws level, points in oval dimples: copy the old ones, or --direction square for square to the "
                     "flank",
        "length": said("gib {length} long: --length wasn't given", length=Mm(_LENGTH_MM)),
    }
    yield from (text for key, text in says.items() if key in gib.assumed)


def gib_of(question: Question) -> GibScrews | None:
    """The gib that threads are for; None where they are for none."""
    return question.feature.down.gib if isinstance(question.feature.down, Thread) else None


def _thread(question: Question) -> Thread:
    assert isinstance(question.feature.down, Thread)
    return question.feature.down


def _dimple(chain: Chain) -> tuple[float, float] | None:
    """How deep the dimple in the gib goes under the land, and its drill's size [mm]; None without one."""
    return next(((cut.deep_mm, job.tool.cutter.diameter_mm or 0.0) for job, cut in chain.passes()
                 if cut.role is Role.TRANSFER), None)


RULES = (starts, breaks_out, filed, room, care)
