"""What of the trade is in force, written into DEVELOPERS.md: `python -m tests.docs.catalogue` writes it
anew from the catalogue of rules."""

from __future__ import annotations

import re
from dataclasses import dataclass
from pathlib import Path

from crib.rules.catalogue import RULES


@dataclass(frozen=True)
class Subject:
    """A part of the trade: its place among the others, what of it is in force beside the rules, and what isn't."""

    part: str
    name: str
    holds: str
    lacks: str = ""


SUBJECTS: tuple[Subject, ...] = (
    Subject("figures", "cutter steel",
            "carbon steel, HSS, cobalt and carbide speeds; the shop's habit for unknown ones",
            "a spark test that is asked about"),
    Subject("figures", "feeds",
            "speeds, feeds and bites by metal, hardness, stiffness and overhang; a hand's and the motor's "
            "limit; seconds an inch",
            "dial divisions a second"),
    Subject("figures", "what a process holds",
            "bands of each way, angles by protractor or sine, radii as they are ground; the owner's own holes, what "
            "runs out"),
    Subject("figures", "directions", "conventional and climb from the side that is cut"),
    Subject("A", "feature kinds",
            "slot, step, T-slot, dovetail and slide, undercut, slit, chamfer, V-groove, round groove, keyseats, "
            "facing, holes, flat-bottomed and elongated ones, pocket, counterbore, spotface, countersink, "
            "tapped and gib-screw holes, internal and ring grooves; tolerances, hardness, use, mate, hours; by the "
            "names of standards",
            "flats, "
            "taper hole"),
    Subject("B", "cutter kinds",
            "sizes by how they are known, what must be measured first",
            "wear by use"),
    Subject("B", "holding", "collets, chuck, boring heads, arbors with flange and nose",
            "screwed and taper shanks"),
    Subject("C", "general tests",
            "holder, steel, speed, condition, reach, collision, unknown sizes, entry, hand, corner, band, "
            "hours, stick-out, thin walls"),
    Subject("C", "straight slot",
            "own size, stepped, in strips; closed ends by plunge, hole or ramp",
            "a file, a chisel"),
    Subject("C", "step", "end mills along the edge, side cutters", "wall lean by bend"),
    Subject("C", "T-slot",
            "the cutter of the size, smaller ones stepped, levels, centre pass, lowered in",
            "lip plates, a one-tooth tool, planing"),
    Subject("C", "dovetail slot and slide",
            "one height or two, pins, gib room, relief",
            "taper gibs, planing, scraping"),
    Subject("C", "undercut", "from the side, turned up", "an end mill in the corner, a lathe tool"),
    Subject("C", "edge chamfer", "pointed cutters, the work tilted, edges under a lip", "the file"),
    Subject("C", "V-groove", "tilted end mill, double-angle and pointed cutters", "a saw cut at the root first"),
    Subject("C", "slit", "one cut, two side by side", "a thin end mill, the hacksaw"),
    Subject("C", "drilled hole",
            "nearest size by the hole that is expected, pecking, spotting, pilots, flutes by series",
            "a drill's share of its circle at a slope"),
    Subject("C", "reamed hole", "stock under a reamer, what it cuts over its size; hand and adjustable ones by hand",
            "lapping, a D-bit"),
    Subject("C", "bored hole", "a head, its range, speed and dial; a ladder of cuts, the bar's overhang",
            "boring outward"),
    Subject("C", "counterbore", "piloted ones, end mills plunged; spotfaces till they are clean",
            "back spotface, pecks on a circle"),
    Subject("C", "bolt circle", "places by table and cross, to the dial; the chord over pins, the web",
            "a rotary table or a dividing head"),
    Subject("C", "gib-screw holes", "spacing, lands, flank, dimples"),
    Subject("C", "round groove", "ball end mills, convex cutters from the side", "a smaller ball in steps"),
    Subject("C", "pocket",
            "strips and round the walls, corners as round as the mill or walked; entry by centre teeth, hole or ramp",
            "an island, a big mill before a small one, corners drilled first"),
    Subject("C", "Woodruff keyseat", "by number; the cutter of the number, a narrower one at two heights",
            "a cutter ground for it"),
    Subject("C", "parallel keyseat", "end mills of its size and stepped, side cutters; keys by shaft",
            "taper keys, a file"),
    Subject("C", "internal groove", "discs with the work on a rotary table, a grooving bar set out by a boring head "
            "or fed out by a facing head", "a lathe, rings by their standards"),
    Subject("C", "ring groove", "end mills of its width and smaller, the work turned on a rotary table; a trepanning "
            "tool in a boring head",
            "seals by their standards"),
    Subject("C", "keyseat in a bore",
            "broached, or slotted by the quill with the spindle locked, with a tool for it or a blank ground; hubs' "
            "keys by shaft", "a tapered key's"),
    Subject("C", "hole chamfer", "any point down to its rim, by its angle where that is named",
            "a big drill turned by hand"),
    Subject("C", "countersink", "by the screw's head; another angle with what the head then does",
            "a drill ground to the angle"),
    Subject("C", "oil hole", "", "all of it"),
    Subject("C", "outside corner round", "the rounder of the radius, else flats by pointed cutters to be filed",
            "a form tool ground from a blank"),
    Subject("C", "inside fillet", "a ball or a bull nose of the radius, a smaller ball along the round, "
            "convex cutters for a cove", "a form tool, the head tilted for a ball"),
    Subject("C", "bevel", "the work tilted until the face is level, or a pointed cutter of its angle",
            "the head tilted, steps and the file"),
    Subject("C", "flat-bottomed hole", "drilled short of the floor, then a mill on centre or a drill ground flat",
            "a smaller mill on a rotary table"),
    Subject("C", "elongated hole", "a slot between round ends, through or blind, by the screw"),
    Subject("C", "flats by indexing", "collet block, dividing head, rotary table, protractor; bar for sharp corners",
            "each flat from its own end"),
    Subject("C", "graduations", "", "all of it"),
    Subject("C", "facing",
            "fly cutters, face and shell mills, end mills in strips that overlap; how hollow a head out of square "
            "leaves it", ""),
    Subject("C", "risks",
            "each as a rule with what it adds to the chance of scrap",
            "heat growth, coolant on carbide"),
    Subject("D", "ranking and cost",
            "verdict, scrap where hours are at stake, cost, set-ups, stiffness; named lines"),
    Subject("E", "work sheet",
            "hold, touch-off, fluid, locks, dials, passes with settings and sides, stops for chips, checks, proof; "
            "on paper: boxes to tick, sizes to check, a picture a step; a whole part on one page"),
    Subject("E", "cautions and referral", "by metal, cutter and use; metals that aren't cut here"),
    Subject("F", "tapped hole", "class limits, percentage, drills owned, blind holes, torque, odd threads"),
    Subject("G", "shop shorthand", "names, fractions, numbers and letters, sets, corrections"),
    Subject("H", "buying", "break-even, borrowing, grinding, sending out, a neighbour's hour, one size for most jobs"),
    Subject("I", "audit of the crib", "walk-round, what to mic, the check-up with one thing to do for each fault",
            "wear by minutes of use, sizes wanted by a log"),
    Subject("K", "checks", "published rows beside every formula, a brute-force oracle, why not with the rest"),
)
"""The parts of the trade in a shop's order, from the figures to the checks."""


PAGE = Path(__file__).parents[2] / "DEVELOPERS.md"
BLOCK = re.compile(r"(?<=<!-- rules: begin -->\n).*?(?=<!-- rules: end -->)", re.DOTALL)


def block() -> str:
    """The table of the subjects with their rules."""
    rows = [("part", "subject", "in force", "rules", "not yet")]
    for one in SUBJECTS:
        rules = " ".join(rule.id for rule in RULES if rule.subject == one.name)
        rows.append((one.part, one.name, one.holds or "–", rules or "–", one.lacks or "–"))
    head, *body = rows
    lines = [head, tuple("---" for _ in head), *body]
    return "".join("| " + " | ".join(cells) + " |\n" for cells in lines)


if __name__ == "__main__":
    PAGE.write_text(BLOCK.sub(lambda _: block(), PAGE.read_text(encoding="utf-8")), encoding="utf-8")
