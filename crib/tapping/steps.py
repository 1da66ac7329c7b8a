"""Tap advice put into words: what decides, the steps in order, what to look out for, what was taken for granted."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from crib.cutters import goes_down
from crib.cutters.base import Cutter, Down
from crib.findings.finding import Finding, Grade
from crib.findings.message import ByUnits, Text, a, joined, said
from crib.findings.verdicts import Verdict
from crib.handbook.points import keep_below
from crib.handbook.tapping import risks
from crib.handbook.threads import HoleLimits, percent_of
from crib.light.records import replace
from crib.machining.holes import Hole, drill_hole
from crib.machining.own_holes import own_words
from crib.machining.words import Making
from crib.safety.cautions import THROUGH, cautions
from crib.tapping.depth import ways_out
from crib.tapping.judge import Case, chart_drill, fine, judge
from crib.tapping.shape import Asking, JudgedHole, TapAdvice
from crib.tapping.taps import BROKEN, hand_of, out_of_place, sequence

CARE_FROM, STOP_FROM = 3, 5
"""So many signs of a tap that will break want care, so many are a stop. Common practice."""

_EIGHTH = 25.4 / 8


def told(advice: TapAdvice, case: Case, asking: Asking, every: Sequence[Cutter], best: JudgedHole | None) -> TapAdvice:
    """The advice with its words; a stop among the warnings makes the answer a no."""
    warnings = tuple(_warnings(advice, case, asking, every, best))
    stops = [warning.says for warning in warnings if warning.grade == Grade.STOP]
    answer = Verdict.CANNOT if stops else advice.answer
    return replace(
        advice,
        answer=answer,
        says=stops[0] if stops else _says(advice, case, asking, best),
        steps=() if answer == Verdict.CANNOT else tuple(_steps(advice, case, asking, best)),
        warnings=warnings,
        assumed=tuple(_assumed(advice, case, asking, best)),
        cautions=cautions(case.material, work=(THROUGH,) if best and asking.through else ()),
    )


def _says(advice: TapAdvice, case: Case, asking: Asking, best: JudgedHole | None) -> Text:
    """The one sentence that decides."""
    if asking.drill_mm is not None:
        verdict = advice.drills[0]
        lacks = "" if advice.taps else f"; but no tap for {advice.thread.designation} is in the crib: get one"
        return said("{cutter}: {says}{lacks}", cutter=verdict.hole.label, says=verdict.says,
                    lacks=lacks if verdict.serves else '')
    if not advice.taps:
        amount = f"no tap for {advice.thread.designation} is in the crib: get {wanted_tap(advice, asking)}"
        return said("{lacks}; the drill for it would be {cutter}", lacks=amount,
                    cutter=best.hole.label) if best else amount
    if best is None and (unsure := next((v for v in advice.drills if v.answer == Verdict.MEASURE_FIRST), None)):
        return said("{cutter}: {says}", cutter=unsure.hole.label, says=unsure.says)
    if best is None:
        low, high = case.window
        return said("no drill in the crib makes a hole of {low} to {high}", low=fine(low), high=fine(high))
    how = "" if best.hole.way is Making.DRILL else f", {best.hole.way}"
    return said("{cutter}{how}: {says}", cutter=best.hole.label, how=how, says=best.says)


def _steps(advice: TapAdvice, case: Case, asking: Asking, best: JudgedHole | None) -> Iterator[Text]:
    if best is None:
        return
    yield "spot the place with a spot or centre drill"
    if best.hole.before:
        yield f"drill with {best.hole.before} first"
    if best.edge:
        yield f"make the hole in scrap with {best.hole.label} first and measure it"
    yield said("{verb} {cutter}{to_depth}", verb=_verb(best.hole), cutter=best.hole.label,
               to_depth=_to_depth(advice, case))
    rim = case.thread.major_mm + 0.010 * 25.4
    yield said("countersink to {rim} across", rim=fine(rim))
    for tap in _sequence(advice):
        chamfer = f", {tap.tap_chamfer}" if tap.tap_chamfer and tap.tap_chamfer not in tap.label else ""
        yield f"tap: no. {tap.id}, {tap.label}{chamfer}; {_manner(tap, advice)}"
    if not advice.taps:
        yield f"tap with {wanted_tap(advice, asking)}: none is in the crib"
    yield "clean it out, try it with a screw or plug that is right"


def _verb(hole: Hole) -> str:
    return {Making.DRILL: "drill with", Making.TWO_DRILLS: "open with", Making.REAM: "ream with",
            Making.END_MILL: "plunge with", Making.BORE: "bore to size with"}[hole.way]


def _to_depth(advice: TapAdvice, case: Case) -> Text:
    depth = advice.depth
    if depth is None:
        return ""
    if depth.through:
        return ", through"
    return said(", {hole} deep at full diameter, point at {tip}", hole=fine(depth.hole_mm), tip=fine(depth.tip_mm))


def _sequence(advice: TapAdvice) -> tuple[Cutter, ...]:
    if advice.depth is not None:
        return advice.depth.taps
    return sequence(advice.taps[0], advice.taps) if advice.taps else ()


def wanted_tap(advice: TapAdvice, asking: Asking) -> str:
    """The tap to get where none is owned, in words."""
    hand = "left-hand " if advice.hand == "left" else ""
    sort = "forming tap" if asking.form == "forming" else "plug tap"
    more = ", and a bottoming tap for the last threads" if asking.is_blind and asking.form != "forming" else ""
    return a(f"{hand}{advice.thread.designation} {sort}{more}")


def _manner(tap: Cutter, advice: TapAdvice) -> str:
    left = ", turning against the clock" if hand_of(tap) == "left" else ""
    if advice.power:
        speed = f"at {advice.rpm} rpm or slower" if advice.rpm else "at the slowest step there is"
        return f"under power {speed}, in a tapping head; without one by hand{left}; {advice.fluid}"
    if tap.tap_point == "spiral point" or tap.tap_form == "forming":
        return f"by hand, straight on without turning back{left}; {advice.fluid}"
    start = "by hand: start it square from the spindle with the power off, "
    return f"{start}half a turn forward, a quarter back{left}; {advice.fluid}"


def _assumed(advice: TapAdvice, case: Case, asking: Asking, best: JudgedHole | None) -> Iterator[Text]:
    yield from advice.notes
    if case.limits.name and not (asking.class_name or asking.reading.class_name):
        yield f"class {case.limits.name} looked at, none was called: a miss of it is told and refuses nothing"
    if not asking.material:
        yield f"material {case.material.name}: none was given"
    if case.limits.name is None and not case.thread.taper and not case.forming:
        yield "no class: judged by percent of thread"
    yield "percent by " + case.thread.form.base
    own = own_words(case.own, best.hole.diameter_mm) if best and best.hole.way is Making.DRILL else ()
    yield from own
    if best and best.hole.way is Making.DRILL and not own:
        over = ByUnits(".002 in", "0.05 mm")
        yield (said("a drilled hole comes out {over} and 1/200 of its size over the drill (from memory of a "
                    "handbook's tests)", over=over))
        if best.hole.diameter_mm < _EIGHTH:
            eighth = ByUnits("1/8 in", "3.2 mm")
            yield said("that figure is for drills from {eighth} up; below that it is drawn on", eighth=eighth)
    if advice.torque_nm is not None:
        chip = ByUnits(".0016 in", "0.04 mm")
        yield said("torque to an order of magnitude: cutting forces from memory, {chip} chip, 1.5 times blind or worn",
                   chip=chip)
    if best and best.hole.cutter and goes_down(best.hole.cutter, Down.DRILLING) and best.hole.cutter.angle_deg is None:
        yield "drill point 118 degrees"
    if advice.taps and advice.taps[0].tap_chamfer is None:
        yield f"no. {advice.taps[0].id}: chamfer taken for plug; count its threads"
    if asking.through and asking.below_mm is not None:
        yield "it goes through: the metal below it that was given isn't reckoned with"
    if asking.depth_mm is not None and not asking.through and asking.below_mm is None:
        yield _below(advice, case)


def _below(advice: TapAdvice, case: Case) -> Text:
    """What is taken of the metal below where nothing was said of it, and from where on fewer taps would do."""
    depth = advice.depth
    if depth is None:
        return "metal enough below the hole: --below wasn't given"
    least = depth.tip_mm + keep_below(depth.drill_mm) - depth.full_thread_mm
    amount = said("{least} of metal below the full thread at least: --below wasn't given", least=fine(least))
    return said("{reckoned}, so the shallowest hole that these taps allow",
                reckoned=amount) if len(advice.taps) > 1 else amount


def _warnings(advice: TapAdvice, case: Case, asking: Asking, every: Sequence[Cutter],
              best: JudgedHole | None) -> Iterator[Finding]:
    yield from _about_taps(advice, case, asking, every)
    yield from _about_size(advice, case, asking, best)
    yield from _about_depth(advice, case, best)
    yield from _about_breaking(advice, case, asking, best)
    if case.thread.taper:
        yield Finding("SF2", Grade.CAUTION, "taper pipe threads mostly hold pressure: where this one does, it is not a "
                      "bench decision")


def _about_taps(advice: TapAdvice, case: Case, asking: Asking, every: Sequence[Cutter]) -> Iterator[Finding]:
    for tap in every:
        if hand_of(tap) != advice.hand:
            grave = Grade.NOTE if advice.taps else Grade.STOP
            yield Finding("G10", grave, said("no. {id}, {cutter} is a {hand_of}-hand tap: not for a {hand}-hand thread",
                                             id=tap.id, cutter=tap.label, hand_of=hand_of(tap), hand=advice.hand))
        elif tap.condition in BROKEN:
            yield Finding("CD1", Grade.NOTE, said("no. {id}, {cutter} is {condition}: leave it", id=tap.id,
                                                  cutter=tap.label, condition=tap.condition))
        elif tap.tap_form == "forming" and not case.material.ductile:
            grave = Grade.NOTE if advice.taps and asking.form != "forming" else Grade.STOP
            yield Finding("MT2", grave,
                          said("no. {id}, {cutter}: a forming tap doesn't go into {name}", id=tap.id, cutter=tap.label,
                               name=case.material.name))
        elif tap.tap_form == "forming" and asking.drill_mm is not None and not case.forming and not asking.form:
            other = judge(replace(case, forming=True), advice.drills[0].hole)
            if not other.serves:
                yield Finding("MT2", Grade.CAUTION, said("not with no. {id}, {cutter}: "
                                                         "{says}", id=tap.id, cutter=tap.label,
                                                         says=other.says))
    for tap in _sequence(advice):
        if (why := out_of_place(tap, case.material, asking.is_blind)) is not None:
            yield Finding("TH4" if tap.tap_point == "spiral point" else "MT2", Grade.CAUTION,
                          said("no. {id}, {cutter}: {why}", id=tap.id, cutter=tap.label, why=why))
    if advice.hand == "left" and advice.taps:
        yield Finding("G10", Grade.NOTE, "left-hand thread: the tap turns against the clock, in and cutting")
    if not advice.taps and not any(hand_of(tap) != advice.hand for tap in every):
        yield Finding("TP1", Grade.CAUTION, said("no tap for {designation} is in the crib",
                                                 designation=case.thread.designation))


def _about_size(advice: TapAdvice, case: Case, asking: Asking, best: JudgedHole | None) -> Iterator[Finding]:
    charted = chart_drill(case)
    low, high = case.limits.least, case.limits.most
    if charted is not None and low is not None and high is not None:
        over, under = charted - high, low - charted
        if max(over, under) > 1e-6:
            side = said("above the most, {high}" if over > 0 else "below the least, {low}", high=fine(high),
                        low=fine(low))
            by = max(over, under)
            hole = drill_hole(charted, case.own)
            comes = "comes out inside" if case.limits.holds(hole) else "comes out outside"
            yield Finding("TH1", Grade.WARN, said("charts give {drill}: by its size {by} {side}, of {name}; its hole, "
                                                  "{hole}, {comes}", drill=case.thread.drill or "", by=fine(by),
                                                                                                            side=side,
                                                  name=case.limits.name or "", hole=fine(hole),
                                                  comes=comes), case.thread.drill_source)
    if (conflict := _conflict(case)) is not None:
        yield conflict
    if best and best.edge:
        where = "at the edge" if best.within_class else "outside"
        grave = Grade.CAUTION if case.called or best.within_class else Grade.NOTE
        yield Finding("TH1", grave, said("{cutter}: the hole expected is {where} of {name}: drill one in scrap and "
                                         "measure it first", cutter=best.hole.label, where=where,
                                         name=case.limits.name or ""))
    if best and best.percent_expected is not None and best.percent_expected < 55 and not best.forming:
        yield Finding("TH2", Grade.CAUTION, said("{percent_expected:.0f} percent of thread is weak: not for a load",
                                                 percent_expected=best.percent_expected))


def _conflict(case: Case) -> Finding | None:
    """Where the class doesn't let the percent be that the material wants."""
    window = percent_window(case.limits, case)
    if window is None or case.forming or window[0] <= case.target.middle <= window[1]:
        return None
    hole = case.thread.major_mm - case.target.middle / 100 * case.thread.form.percent_factor * case.thread.pitch_mm
    limit = case.limits.most if case.target.middle < window[0] else case.limits.least
    word = "most" if case.target.middle < window[0] else "least"
    wins = "The class wins" if case.called else (
        f"No class was called: the drills here keep {case.limits.name}, and the easy hole is yours to choose")
    says = said("the easy hole breaks the class: {why}: a hole of {hole}; {name} allows {limit} at the {word} "
                "({low:.0f} to {high:.0f} percent). {wins}", why=", ".join(case.target.why), hole=fine(hole),
                name=case.limits.name or "", limit=fine(limit or 0.0), word=word, low=window[0], high=window[1],
                wins=wins)
    return Finding("TH2", Grade.CAUTION if case.called else Grade.NOTE, says)


def percent_window(limits: HoleLimits, case: Case) -> tuple[float, float] | None:
    """The percent that a class leaves, from and to; None without one."""
    if limits.least is None or limits.most is None:
        return None
    return percent_of(case.thread, limits.most), percent_of(case.thread, limits.least)


def _about_depth(advice: TapAdvice, case: Case, best: JudgedHole | None) -> Iterator[Finding]:
    depth = advice.depth
    if depth is None:
        return
    if depth.short_mm:
        out = joined("; ", ways_out(depth, case.thread, advice.taps))
        what = "the drill breaks through into what is below" if depth.breaks_through else (
            said("the drill's point leaves less than the {keep} that must stay below", keep=fine(depth.keep_mm)))
        deep = said("the point goes to {tip}, {short} too deep", tip=fine(depth.tip_mm), short=fine(depth.short_mm))
        yield Finding("TH3", Grade.STOP, said("{what}: {deep}. What would do: {out}", what=what, deep=deep, out=out))
    if depth.taps and depth.taps[0].tap_chamfer == "bottoming":
        yield Finding("TH4", Grade.CAUTION, said("no. {id} alone starts badly: two turns with a plug or taper first",
                                                 id=depth.taps[0].id))
    if depth.through:
        return
    drill = best.hole.cutter if best else None
    if drill and drill.length_of_cut_mm is not None and drill.length_of_cut_mm < depth.tip_mm:
        has, needs = fine(drill.length_of_cut_mm), fine(depth.tip_mm)
        yield Finding("RE1", Grade.STOP, said("no. {id}, {cutter}: flutes {has}, the hole goes {needs} "
                                              "deep", id=drill.id,
                                              cutter=drill.label, has=has, needs=needs))


def _about_breaking(advice: TapAdvice, case: Case, asking: Asking, best: JudgedHole | None) -> Iterator[Finding]:
    if best is None or case.thread.taper or best.percent_expected is None:
        return
    dull = bool(advice.taps and advice.taps[0].condition == "dull")
    percent = 65.0 if best.forming else best.percent_expected
    signs = risks(case.thread, case.material, percent, asking.depth_mm, asking.is_blind, dull, asking.power)
    if len(signs) >= CARE_FROM:
        grave = Grade.STOP if len(signs) >= STOP_FROM else Grade.CAUTION
        yield Finding("TB1", grave, said("the tap is apt to break: {signs}. Oil, clear the chips every diameter of "
                                         "depth, feel for it", signs=', '.join(signs)))
