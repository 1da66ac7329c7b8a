"""Rules for what comes down an axis: its flutes, its bar, what is before it."""

from __future__ import annotations

from collections.abc import Iterator

from crib.cutters import goes_down
from crib.cutters.base import Down
from crib.cutters.drill import flutes_of
from crib.features import KINDS
from crib.features.down import Counterbore
from crib.features.request import is_said
from crib.findings.finding import Finding, Grade
from crib.findings.message import Mm, apart, said
from crib.handbook.boring import CAUTION_OVER, CHATTERS_MM, FREE_CUTTING, STOP_OVER
from crib.holders.chucks import CHUCK
from crib.machining.chain import Chain
from crib.machining.methods.cuts import Cut
from crib.machining.methods.down_the_axis.boring import stands_out
from crib.machining.methods.down_the_axis.counterbores import LOOSE_MM
from crib.machining.methods.down_the_axis.drilling import LARGE_MM, PILOT
from crib.machining.pecks import PECK_FROM, SPECIAL_FROM, diameters_deep
from crib.machining.tool import Tool
from crib.machining.words import Role

_SLACK = 1e-6

_WEB = 0.25
"""Between two holes that are drilled one after the other stands at least so much of their diameter [-]. Common
practice."""

_PLACED_MM = 0.003 * 25.4
"""How closely dials or a readout place a hole, all in all [mm]. Common practice."""


def known(chain: Chain) -> Iterator[Finding]:
    """What the method knows of its chain."""
    yield from chain.warnings


def flutes(chain: Chain) -> Iterator[Finding]:
    """RE1: the flutes are longer than the hole is deep, or the chips don't get out."""
    for tool, cut in _strokes(chain):
        has = tool.cutter.length_of_cut_mm
        drills = goes_down(tool.cutter, Down.DRILLING)
        if has is None or not (drills or goes_down(tool.cutter, Down.MILLING)):
            continue
        if cut.deep_mm > has + _SLACK:
            flute, needs = apart(has, cut.deep_mm)
            guess = " as one of its size usually has, not measured" if is_guessed(tool) else ""
            unsure = is_guessed(tool) and cut.deep_mm <= flutes_of(tool.owned).longest
            fix = "measure its flutes: {needs} would do" if is_guessed(tool) else "flutes of {needs}"
            yield Finding("RE1", Grade.STOP, said("{cutter}: flutes {has}{guess}, the hole goes {needs} "
                                                  "deep", guess=guess,
                                                  cutter=tool.owned.label, has=flute, needs=needs),
                          cutter_id=tool.id, has_mm=has, needs_mm=cut.deep_mm, fix=said(fix, needs=Mm(cut.deep_mm)),
                          short_mm=0.0 if unsure else cut.deep_mm - has, unsure=unsure)
        elif is_guessed(tool) and cut.deep_mm > flutes_of(tool.owned).shortest + _SLACK:
            flute, needs = apart(flutes_of(tool.owned).shortest, cut.deep_mm)
            yield Finding("RE1", Grade.CAUTION, said("{cutter}: its flutes aren't measured; a short one's are {has}, "
                                                     "the hole goes {needs} deep: measure them before you cut",
                                                     cutter=tool.owned.label, has=flute, needs=needs),
cutter_id=tool.id)


def is_guessed(tool: Tool) -> bool:
    """Whether a drill's flutes are taken as usual for its size."""
    return goes_down(tool.cutter, Down.DRILLING) and "length_of_cut_mm" in tool.cutter.assumed


def bars(chain: Chain) -> Iterator[Finding]:
    """RE3: a boring bar stands out no further than it bears, and goes as deep as the bore."""
    of_bars = (one for one in _strokes(chain) if goes_down(one[0].cutter, Down.BORING)
               or goes_down(one[0].cutter, Down.GROOVING))
    for tool, cut in [*of_bars][:1]:
        cutter, deep = tool.cutter, cut.deep_mm
        bar, out = cutter.diameter_mm or 0.0, stands_out(cutter, deep)
        if cutter.reach_mm is not None and cutter.reach_mm < deep - _SLACK:
            has, needs = apart(cutter.reach_mm, deep)
            yield Finding("RE3", Grade.STOP, said("{cutter}: it goes {has} deep, the bore goes {needs}", has=has,
                                                  cutter=cutter.label, needs=needs), cutter_id=tool.id,
                          has_mm=cutter.reach_mm, needs_mm=deep, fix="a longer bar", short_mm=deep - cutter.reach_mm)
        elif bar and out / bar > CAUTION_OVER + 1e-9:
            grave = Grade.STOP if out / bar > STOP_OVER + 1e-9 else Grade.CAUTION
            yield Finding("RE3", grave, said("{cutter}: it stands {out} out, {ratio:.1f} of its own diameters: it "
                                             "springs; 4 are usual, 6 the most, {most}", cutter=cutter.label,
                                             out=Mm(out), ratio=out / bar, most=Mm(STOP_OVER * bar)),
                          cutter_id=tool.id, has_mm=out, needs_mm=STOP_OVER * bar,
                          fix=said("a bar of {least} or more", least=Mm(out / STOP_OVER)))


def large(chain: Chain) -> Iterator[Finding]:
    """HO6: a large drill follows a pilot, or its web pushes it aside."""
    opened = 0.0
    for tool, cut in _strokes(chain):
        across = tool.cutter.diameter_mm or 0.0
        if goes_down(tool.cutter, Down.DRILLING) and across > LARGE_MM + _SLACK and opened < PILOT[0] * across:
            yield Finding("HO6", Grade.WARN, said("{cutter}: over {over} it wants a pilot, a drill of {least} to "
                                                  "{most}, and none that reaches is owned: spot it wide, feed it "
                                                  "without stopping",
                                                  cutter=tool.owned.label, over=Mm(LARGE_MM),
                                                                                   least=Mm(PILOT[0] * across),
                                                  most=Mm(PILOT[1] * across)), cutter_id=tool.id)
        opened = max(opened, across) if cut.role in (Role.DRILL, Role.BORE, Role.REAM) else opened


def unspotted(chain: Chain) -> Iterator[Finding]:
    """HO8: a drill that starts on a bare face walks off before its lips cut."""
    first = next(_strokes(chain), None)
    if first and first[1].role is Role.DRILL and not KINDS[chain.question.feature.kind].brought:
        yield Finding("HO8", Grade.NOTE, said("nothing that is owned spots the place for {cutter}: punch it deep, "
                                              "start with the shortest drill that stands, look where it has gone "
                                              "before it is at its full width", cutter=first[0].owned.label),
                      cutter_id=first[0].id)


def from_solid(chain: Chain) -> Iterator[Finding]:
    """HO7: an end mill follows a drill; from solid its middle, which hardly moves, is pushed through all of the
    metal."""
    opened = False
    for tool, cut in _strokes(chain):
        if cut.role is Role.PLUNGE and not opened:
            yield Finding("HO7", Grade.CAUTION, said("{cutter} is plunged from solid: its middle hardly cuts, and it "
                                                     "wanders; drill a hole under its size first",
                                                     cutter=tool.owned.label), cutter_id=tool.id)
        opened = opened or cut.role in (Role.DRILL, Role.BORE)


def deep(chain: Chain) -> Iterator[Finding]:
    """HO4: a hole deeper than four diameters is pecked."""
    for tool, cut in _strokes(chain):
        ratio = diameters_deep(tool, cut)
        if ratio > SPECIAL_FROM:
            yield Finding("HO4", Grade.CAUTION, said("{cutter}: {ratio:.0f} diameters deep: it wanders; peck every "
                                                     "half diameter, clear all the way out", cutter=tool.owned.label,
                                                     ratio=ratio), cutter_id=tool.id)
        elif ratio > PECK_FROM:
            yield Finding("HO4", Grade.NOTE, said("{cutter}: {ratio:.1f} diameters deep: peck, clear the chips every "
                                                  "diameter", cutter=tool.owned.label, ratio=ratio), cutter_id=tool.id)


def metal(chain: Chain) -> Iterator[Finding]:
    """MT3: metal that hardens. MT5: metal that grabs."""
    if chain.question.material.work_hardens:
        yield Finding("MT3", Grade.CAUTION, "it hardens where a drill rubs: keep feeding, never dwell")
    drilled = any(goes_down(tool.cutter, Down.DRILLING) for tool in chain.tools)
    if drilled and chain.question.material.group in ("brass", "bronze"):
        yield Finding("MT5", Grade.CAUTION, "brass and bronze pull a drill in: dub its lips or hold the quill back")


def sideways(chain: Chain) -> Iterator[Finding]:
    """HD2: a chuck doesn't cut sideways."""
    if any(tool.held.label == CHUCK for tool in chain.tools):
        yield Finding("HD2", Grade.NOTE, "nothing in a drill chuck cuts sideways: lock X and Y")


def pilots(chain: Chain) -> Iterator[Finding]:
    """CB1: a counterbore's pilot fits its hole."""
    asked = chain.question.feature.down
    if not isinstance(asked, Counterbore) or asked.hole is None:
        return
    cutter, hole = chain.tools[-1].cutter, asked.hole
    if not goes_down(cutter, Down.COUNTERBORING):
        yield Finding("CB1", Grade.NOTE, "no pilot: find the hole's centre with an indicator first")
    elif cutter.pilot_mm is None:
        yield Finding("CB1", Grade.CAUTION, said("{cutter}: no pilot on record: measure it against the hole",
                                                 cutter=cutter.label))
    elif (loose := hole.mid - cutter.pilot_mm) > LOOSE_MM:
        yield Finding("CB1", Grade.CAUTION, said("{cutter}: its pilot is {loose} loose in the hole and doesn't centre "
                                                 "it",
                                                 cutter=cutter.label, loose=Mm(loose)))
    elif cutter.pilot_mm > (hole.lo if hole.given else hole.nominal) - _SLACK:
        yield Finding("CB1", Grade.WARN, said("{cutter}: the pilot is {pilot}, the hole {hole}: try it in the hole "
                                              "first, it may not enter", cutter=cutter.label, pilot=Mm(cutter.pilot_mm,
                                                                                                   places=4),
                                              hole=hole.text))


def heads(chain: Chain) -> Iterator[Finding]:
    """CB2: a counterbore for a screw's head takes the whole of it, or it is said how far the head stands out."""
    asked, head = chain.question.feature.down, chain.question.feature.request.sizes.get("head_height")
    if isinstance(asked, Counterbore) and head and head.mid - asked.deep_mm > _SLACK:
        proud = head.mid - asked.deep_mm
        yield Finding("CB2", Grade.WARN, said("the screw's head is {head} high: at this depth it stands {proud} proud "
                                              "of the surface", head=Mm(head.mid), proud=Mm(proud)))


def sealing(chain: Chain) -> Iterator[Finding]:
    """IG3: what a seal lies in is smooth all round."""
    if is_said(chain.question.feature.request, "seal"):
        yield Finding("IG3", Grade.CAUTION, "a seal wants its groove smooth, 32 to 63 microinches, 0.8 to 1.6 "
                                            "microns, and no chatter: slow, a sharp edge, the last turn "
                                            "without a stop; feel it with a fingernail", "common practice")


def wide_teeth(chain: Chain) -> Iterator[Finding]:
    """RG1: a tooth that cuts on its whole width at once chatters where that is wide."""
    free = chain.question.material.group in FREE_CUTTING
    for tool in chain.tools:
        face, alone = tool.cutter.face_mm or 0.0, (Down.GROOVING, Down.TREPANNING)
        if not free and face > CHATTERS_MM + _SLACK and any(goes_down(tool.cutter, what) for what in alone):
            yield Finding("RG1", Grade.WARN, said(
                "{cutter}: a tooth {face} wide cuts on all of it at once, over {most} it chatters: slower, the "
                "quill snug, or a narrower one at two settings", cutter=tool.owned.label, face=Mm(face),
                most=Mm(CHATTERS_MM)), "common practice", tool.id)


def webs(chain: Chain) -> Iterator[Finding]:
    """BC1: between two holes of a circle stands metal enough. BC2: table and cross place them as close as is asked."""
    circle = chain.question.feature.circle
    if circle is None:
        return
    if circle.web_mm < (least := _WEB * circle.widest_mm):
        yield Finding("BC1", Grade.CAUTION, said("only {web} stands between two holes, {least} is wanted: it bulges, "
                                                 "and the drill runs off towards the hole that is there; drill every "
                                                 "other one first", web=Mm(circle.web_mm), least=Mm(least)))
    if circle.diameter.given and circle.diameter.band < _PLACED_MM:
        yield Finding("BC2", Grade.WARN, said("table and cross place holes to {usual}, the circle is to be held to "
                                              "{band}: check it over pins after the first two", usual=Mm(_PLACED_MM),
                                              band=Mm(circle.diameter.band)))


def _strokes(chain: Chain) -> Iterator[tuple[Tool, Cut]]:
    return ((job.tool, cut) for job, cut in chain.passes())


RULES = (pilots, heads, sealing, wide_teeth, webs, flutes, bars, deep, large, from_solid, unspotted, metal, sideways)
