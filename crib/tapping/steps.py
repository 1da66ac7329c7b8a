"""Tap advice put into words: what decides, the steps in order, what to look out for, what was taken for granted."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from crib.cutters.base import Cutter
from crib.findings.finding import Finding
from crib.handbook.points import keep_below
from crib.handbook.tapping import risks
from crib.handbook.threads import HoleLimits, percent_of
from crib.machining.own_holes import own_words
from crib.safety.cautions import THROUGH, cautions
from crib.tapping.depth import ways_out
from crib.tapping.holes import drill_hole
from crib.tapping.judge import Case, chart_drill, judge
from crib.tapping.shape import Asking, Hole, TapAdvice, Verdict
from crib.tapping.taps import BROKEN, hand_of, out_of_place, sequence

CARE_FROM, STOP_FROM = 3, 5
"""So many signs of a tap that will break want care, so many are a stop. Common practice."""

_EIGHTH = 25.4 / 8


def told(advice: TapAdvice, case: Case, asking: Asking, every: Sequence[Cutter], best: Verdict | None) -> TapAdvice:
    """The advice with its words; a stop among the warnings makes the answer a no."""
    warnings = tuple(_warnings(advice, case, asking, every, best))
    stops = [warning.says for warning in warnings if warning.severity == "stop"]
    answer = "cannot" if stops else advice.answer
    return replace(
        advice,
        answer=answer,
        says=stops[0] if stops else _says(advice, case, asking, best),
        steps=() if answer == "cannot" else tuple(_steps(advice, case, asking, best)),
        warnings=warnings,
        assumed=tuple(_assumed(advice, case, asking, best)),
        cautions=cautions(case.material, work=(THROUGH,) if best and asking.through else ()),
    )


def torque_words(torque_nm: float, units: str) -> str:
    """A torque in the units of a page: newton metres under millimetres, inch or foot pounds under inches.

    >>> torque_words(2.8, "mm"), torque_words(2.8, "in"), torque_words(40.0, "in")
    ('2.8 N m', '25 in-lb', '30 ft-lb')
    """
    if units != "in":
        return f"{torque_nm:.1f} N m"
    pounds = torque_nm * 8.8507
    return f"{pounds:.0f} in-lb" if pounds < 120 else f"{pounds / 12:.0f} ft-lb"


def _says(advice: TapAdvice, case: Case, asking: Asking, best: Verdict | None) -> str:
    """The one sentence that decides."""
    if asking.drill_mm is not None:
        verdict = advice.drills[0]
        lacks = "" if advice.taps else f"; but no tap for {advice.thread.designation} is in the crib: get one"
        return f"{verdict.hole.label}: {verdict.says}{lacks if verdict.serves else ''}"
    if not advice.taps:
        said = f"no tap for {advice.thread.designation} is in the crib: get {wanted_tap(advice, asking)}"
        return f"{said}; the drill for it would be {best.hole.label}" if best else said
    if best is None and (unsure := next((v for v in advice.drills if v.answer == "measure first"), None)):
        return f"{unsure.hole.label}: {unsure.says}"
    if best is None:
        low, high = case.window
        return f"no drill in the crib makes a hole of {case.said(low)} to {case.said(high)}"
    how = "" if best.hole.way == "drill" else f", {best.hole.way}"
    return f"{best.hole.label}{how}: {best.says}"


def _steps(advice: TapAdvice, case: Case, asking: Asking, best: Verdict | None) -> Iterator[str]:
    if best is None:
        return
    yield "spot the place with a spot or centre drill"
    if best.hole.before:
        yield f"drill with {best.hole.before} first"
    if best.edge:
        yield f"make the hole in scrap with {best.hole.label} first and measure it"
    yield f"{_verb(best.hole)} {best.hole.label}{_to_depth(advice, case)}"
    rim = case.thread.major_mm + 0.010 * 25.4
    yield f"countersink to {case.said(rim)} across"
    for tap in _sequence(advice):
        chamfer = f", {tap.tap_chamfer}" if tap.tap_chamfer and tap.tap_chamfer not in tap.label else ""
        yield f"tap: no. {tap.id}, {tap.label}{chamfer}; {_manner(tap, advice)}"
    if not advice.taps:
        yield f"tap with {wanted_tap(advice, asking)}: none is in the crib"
    yield "clean it out, try it with a screw or plug that is right"


def _verb(hole: Hole) -> str:
    return {"drill": "drill with", "two drills": "open with", "ream": "ream with", "end mill": "plunge with",
            "bore": "bore to size with"}[hole.way]


def _to_depth(advice: TapAdvice, case: Case) -> str:
    depth = advice.depth
    if depth is None:
        return ""
    if depth.through:
        return ", through"
    return f", {case.said(depth.hole_mm)} deep at full diameter, point at {case.said(depth.tip_mm)}"


def _sequence(advice: TapAdvice) -> tuple[Cutter, ...]:
    if advice.depth is not None:
        return advice.depth.taps
    return sequence(advice.taps[0], advice.taps) if advice.taps else ()


def wanted_tap(advice: TapAdvice, asking: Asking) -> str:
    """The tap to get where none is owned, in words."""
    hand = "left-hand " if advice.hand == "left" else ""
    sort = "forming tap" if asking.form == "forming" else "plug tap"
    more = ", and a bottoming tap for the last threads" if asking.is_blind and asking.form != "forming" else ""
    return f"a {hand}{advice.thread.designation} {sort}{more}"


def _manner(tap: Cutter, advice: TapAdvice) -> str:
    left = ", turning against the clock" if hand_of(tap) == "left" else ""
    if advice.power:
        speed = f"at {advice.rpm} rpm or slower" if advice.rpm else "at the slowest step there is"
        return f"under power {speed}, in a tapping head; without one by hand{left}; {advice.fluid}"
    if tap.tap_point == "spiral point" or tap.tap_form == "forming":
        return f"by hand, straight on without turning back{left}; {advice.fluid}"
    start = "by hand: start it square from the spindle with the power off, "
    return f"{start}half a turn forward, a quarter back{left}; {advice.fluid}"


def _assumed(advice: TapAdvice, case: Case, asking: Asking, best: Verdict | None) -> Iterator[str]:
    yield from advice.notes
    if case.limits.name and not (asking.class_name or asking.reading.class_name):
        yield f"class {case.limits.name} looked at, none was called: a miss of it is told and refuses nothing"
    if not asking.material:
        yield f"material {case.material.name}: none was given"
    if case.limits.name is None and not case.thread.taper and not case.forming:
        yield "no class: judged by percent of thread"
    yield "percent by " + case.thread.form.base
    own = own_words(case.own, best.hole.diameter_mm, case.units) if best and best.hole.way == "drill" else ()
    yield from own
    if best and best.hole.way == "drill" and not own:
        over = ".002 in" if case.units == "in" else "0.05 mm"
        yield (f"a drilled hole comes out {over} and 1/200 of its size over the drill (from memory of a handbook's "
               "tests)")
        if best.hole.diameter_mm < _EIGHTH:
            eighth = "1/8 in" if case.units == "in" else "3.2 mm"
            yield f"that figure is for drills from {eighth} up; below that it is drawn on"
    if advice.torque_nm is not None:
        chip = ".0016 in" if case.units == "in" else "0.04 mm"
        yield f"torque to an order of magnitude: cutting forces from memory, {chip} chip, 1.5 times blind or worn"
    if best and best.hole.cutter and best.hole.cutter.kind == "drill" and best.hole.cutter.angle_deg is None:
        yield "drill point 118 degrees"
    if advice.taps and advice.taps[0].tap_chamfer is None:
        yield f"no. {advice.taps[0].id}: chamfer taken for plug; count its threads"
    if asking.depth_mm is not None and not asking.through and asking.below_mm is None:
        yield _below(advice, case)


def _below(advice: TapAdvice, case: Case) -> str:
    """What is taken of the metal below where nothing was said of it, and from where on fewer taps would do."""
    depth = advice.depth
    if depth is None:
        return "metal enough below the hole: --below wasn't given"
    least = depth.tip_mm + keep_below(depth.drill_mm) - depth.full_thread_mm
    said = f"{case.said(least)} of metal below the full thread at least: --below wasn't given"
    return f"{said}, so the shallowest hole that these taps allow" if len(advice.taps) > 1 else said


def _warnings(advice: TapAdvice, case: Case, asking: Asking, every: Sequence[Cutter],
              best: Verdict | None) -> Iterator[Finding]:
    yield from _about_taps(advice, case, asking, every)
    yield from _about_size(advice, case, asking, best)
    yield from _about_depth(advice, case, best)
    yield from _about_breaking(advice, case, asking, best)
    if case.thread.taper:
        yield Finding("SF2", "caution", "taper pipe threads mostly hold pressure: where this one does, it is not a "
                      "bench decision")


def _about_taps(advice: TapAdvice, case: Case, asking: Asking, every: Sequence[Cutter]) -> Iterator[Finding]:
    for tap in every:
        if hand_of(tap) != advice.hand:
            grave = "note" if advice.taps else "stop"
            yield Finding("G10", grave, f"no. {tap.id}, {tap.label} is a {hand_of(tap)}-hand tap: not for a "
                          f"{advice.hand}-hand thread")
        elif tap.condition in BROKEN:
            yield Finding("CD1", "note", f"no. {tap.id}, {tap.label} is {tap.condition}: leave it")
        elif tap.tap_form == "forming" and not case.material.ductile:
            grave = "note" if advice.taps and asking.form != "forming" else "stop"
            yield Finding("MT2", grave,
                          f"no. {tap.id}, {tap.label}: a forming tap doesn't go into {case.material.name}")
        elif tap.tap_form == "forming" and asking.drill_mm is not None and not case.forming and not asking.form:
            other = judge(replace(case, forming=True), advice.drills[0].hole)
            if not other.serves:
                yield Finding("MT2", "caution", f"not with no. {tap.id}, {tap.label}: {other.says}")
    for tap in _sequence(advice):
        if (why := out_of_place(tap, case.material, asking.is_blind)) is not None:
            yield Finding("TH4" if tap.tap_point == "spiral point" else "MT2", "caution",
                          f"no. {tap.id}, {tap.label}: {why}")
    if advice.hand == "left" and advice.taps:
        yield Finding("G10", "note", "left-hand thread: the tap turns against the clock, in and cutting")
    if not advice.taps and not any(hand_of(tap) != advice.hand for tap in every):
        yield Finding("TP1", "caution", f"no tap for {case.thread.designation} is in the crib")


def _about_size(advice: TapAdvice, case: Case, asking: Asking, best: Verdict | None) -> Iterator[Finding]:
    charted = chart_drill(case)
    low, high = case.limits.least, case.limits.most
    if charted is not None and low is not None and high is not None:
        over, under = charted - high, low - charted
        if max(over, under) > 1e-6:
            side = f"above the most, {case.said(high)}" if over > 0 else f"below the least, {case.said(low)}"
            by = max(over, under)
            hole = drill_hole(charted, case.own)
            comes = "comes out inside" if case.limits.holds(hole) else "comes out outside"
            yield Finding("TH1", "warn", f"charts give {case.thread.drill}: by its size {case.said(by)} {side}, of "
                          f"{case.limits.name}; its hole, {case.said(hole)}, {comes}", case.thread.drill_source)
    if (conflict := _conflict(case)) is not None:
        yield conflict
    if best and best.edge:
        where = "at the edge" if best.within_class else "outside"
        grave = "caution" if case.called or best.within_class else "note"
        yield Finding("TH1", grave, f"{best.hole.label}: the hole expected is {where} of {case.limits.name}: "
                      "drill one in scrap and measure it first")
    if best and best.percent_expected is not None and best.percent_expected < 55 and not best.forming:
        yield Finding("TH2", "caution", f"{best.percent_expected:.0f} percent of thread is weak: not for a load")


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
    return Finding("TH2", "caution" if case.called else "note", f"the easy hole breaks the class: "
                   f"{', '.join(case.target.why)}: a hole of {case.said(hole)}; {case.limits.name} allows "
                   f"{case.said(limit or 0.0)} at the {word} ({window[0]:.0f} to {window[1]:.0f} percent). {wins}")


def percent_window(limits: HoleLimits, case: Case) -> tuple[float, float] | None:
    """The percent that a class leaves, from and to; None without one."""
    if limits.least is None or limits.most is None:
        return None
    return percent_of(case.thread, limits.most), percent_of(case.thread, limits.least)


def _about_depth(advice: TapAdvice, case: Case, best: Verdict | None) -> Iterator[Finding]:
    depth = advice.depth
    if depth is None:
        return
    if depth.short_mm:
        out = "; ".join(ways_out(depth, case.thread, advice.taps, case.said))
        what = "the drill breaks through into what is below" if depth.breaks_through else (
            f"the drill's point leaves less than the {case.said(depth.keep_mm)} that must stay below")
        deep = f"the point goes to {case.said(depth.tip_mm)}, {case.said(depth.short_mm)} too deep"
        yield Finding("TH3", "stop", f"{what}: {deep}. What would do: {out}")
    if depth.through:
        return
    if depth.taps and depth.taps[0].tap_chamfer == "bottoming":
        yield Finding("TH4", "caution", f"no. {depth.taps[0].id} alone starts badly: two turns with a plug or "
                      "taper first")
    drill = best.hole.cutter if best else None
    if drill and drill.length_of_cut_mm is not None and drill.length_of_cut_mm < depth.tip_mm:
        has, needs = case.said(drill.length_of_cut_mm), case.said(depth.tip_mm)
        yield Finding("RE1", "stop", f"no. {drill.id}, {drill.label}: flutes {has}, the hole goes {needs} deep")


def _about_breaking(advice: TapAdvice, case: Case, asking: Asking, best: Verdict | None) -> Iterator[Finding]:
    if best is None or case.thread.taper or best.percent_expected is None:
        return
    dull = bool(advice.taps and advice.taps[0].condition == "dull")
    percent = 65.0 if best.forming else best.percent_expected
    signs = risks(case.thread, case.material, percent, asking.depth_mm, asking.is_blind, dull, asking.power)
    if len(signs) >= CARE_FROM:
        grave = "stop" if len(signs) >= STOP_FROM else "caution"
        yield Finding("TB1", grave, f"the tap is apt to break: {', '.join(signs)}. Oil, clear the chips every diameter "
                      "of depth, feel for it")
