"""Craft rules for what comes down its own axis."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from crib.cutters.drill import flutes_of
from crib.findings.finding import Finding
from crib.findings.message import Feed, Mm, apart, said
from crib.handbook.boring import CAUTION_OVER, STOP_OVER
from crib.planning.holes.boring import stands_out
from crib.planning.holes.draft import Question, Stroke
from crib.planning.holes.strokes import LARGE_MM, PILOT
from crib.rules.holding import UNKNOWN_STEEL
from crib.rules.metal import too_hard

PECK_FROM, SPECIAL_FROM = 4.0, 8.0
"""Depth in diameters from which a drill is pecked, and from which it is a special affair [-]. Common practice."""

_WORN_OUT = ("chipped", "burnt", "bent")


def judge(question: Question, strokes: Sequence[Stroke]) -> tuple[Finding, ...]:
    """All that the rules say of the strokes; a stop forbids them."""
    found: list[Finding] = []
    for rule in (holding, speed, steel, condition, flutes, bars, deep, large, hardness, measured, grabbing):
        found += rule(question, strokes)
    return tuple(dict.fromkeys(found))


def holding(question: Question, strokes: Sequence[Stroke]) -> Iterator[Finding]:
    """HD1: something holds the shank."""
    for stroke in strokes:
        if not stroke.tool.held.ok:
            yield Finding("HD1", "stop", said("{cutter}: {says}", cutter=stroke.tool.owned.label,
                                              says=stroke.tool.held.says))


def speed(question: Question, strokes: Sequence[Stroke]) -> Iterator[Finding]:
    """SP1: the slowest speed isn't too fast; a tap is turned by hand. FD1: the motor pulls the feed."""
    for stroke in strokes:
        step = stroke.tool.step
        if not stroke.tool.by_hand and stroke.tool.feed < stroke.tool.feeding.wants - 1e-9:
            yield Finding("FD1", "note", said("{cutter}: fed at {feed}, as much as the motor pulls; its lips would "
                                              "take {wants}", cutter=stroke.tool.owned.label,
                                              feed=Feed(stroke.tool.feed), wants=Feed(stroke.tool.feeding.wants)),
                          "from memory")
        if step and step.severity and not stroke.tool.by_hand and not step.says.startswith("slower"):
            yield Finding("SP1", step.severity, said("{cutter}: {says}", cutter=stroke.tool.owned.label,
                                                     says=step.says), step.source)


def steel(question: Question, strokes: Sequence[Stroke]) -> Iterator[Finding]:
    """UN1: what a cutter of unknown steel is run as; a tap that a hand turns has no speed."""
    if any(stroke.tool.cutter.material == "unknown" and not stroke.tool.by_hand for stroke in strokes):
        yield UNKNOWN_STEEL


def condition(question: Question, strokes: Sequence[Stroke]) -> Iterator[Finding]:
    """CD1: no hole to size with a broken cutter, and with care with a dull one."""
    for stroke in strokes:
        state = stroke.tool.owned.condition
        if state in _WORN_OUT:
            yield Finding("CD1", "stop", said("{cutter} is {state}: no hole to size with it",
                                              cutter=stroke.tool.owned.label, state=state))
        elif state == "dull":
            grave = "stop" if question.material.group in ("stainless", "titanium") else "caution"
            yield Finding("CD1", grave, said("{cutter} is dull: grind it first", cutter=stroke.tool.owned.label))


def flutes(question: Question, strokes: Sequence[Stroke]) -> Iterator[Finding]:
    """RE1: the flutes are longer than the hole is deep, or the chips don't get out."""
    for stroke in strokes:
        cut = stroke.tool.cutter.length_of_cut_mm
        if stroke.tool.cutter.kind not in ("drill", "end-mill") or cut is None or -stroke.z_mm <= cut:
            continue
        has, needs = apart(cut, -stroke.z_mm)
        guess = " as one of its size usually has, not measured" if is_guessed(stroke) else ""
        yield Finding("RE1", "stop", said("{cutter}: flutes {has}{guess}, the hole goes {needs} deep",
                                          cutter=stroke.tool.owned.label, has=has, guess=guess, needs=needs))
    for stroke in strokes:
        if not is_guessed(stroke) or -stroke.z_mm > (stroke.tool.cutter.length_of_cut_mm or 0.0):
            continue
        shortest = flutes_of(stroke.tool.owned).shortest
        if -stroke.z_mm > shortest + 1e-6:
            has, needs = apart(shortest, -stroke.z_mm)
            yield Finding("RE1", "caution", said("{cutter}: its flutes aren't measured; a short one's are {has}, the "
                                                 "hole goes {needs} deep: measure them before you cut",
                                                 cutter=stroke.tool.owned.label, has=has, needs=needs))


def is_guessed(stroke: Stroke) -> bool:
    """Whether a drill's flutes are taken as usual for its size."""
    return stroke.tool.cutter.kind == "drill" and "length_of_cut_mm" in stroke.tool.cutter.assumed


def bars(question: Question, strokes: Sequence[Stroke]) -> Iterator[Finding]:
    """RE3: a boring bar stands out no further than it bears, and goes as deep as the bore."""
    for stroke in [stroke for stroke in strokes if stroke.role == "bore"][:1]:
        cutter, deep = stroke.tool.cutter, -stroke.z_mm
        bar, out = cutter.diameter_mm or 0.0, stands_out(cutter, deep)
        if cutter.reach_mm is not None and cutter.reach_mm < deep:
            has, needs = apart(cutter.reach_mm, deep)
            yield Finding("RE3", "stop", said("{cutter}: it goes {has} deep, the bore goes {needs}",
                                              cutter=cutter.label, has=has, needs=needs))
        elif bar and out / bar > CAUTION_OVER + 1e-9:
            grave = "stop" if out / bar > STOP_OVER + 1e-9 else "caution"
            most = Mm(STOP_OVER * bar)
            yield Finding("RE3", grave, said("{cutter}: it stands {out} out, {out2:.1f} of its own diameters: it "
                                             "springs; 4 are usual, 6 the most, {most}", cutter=cutter.label,
                                             out=Mm(out), out2=out / bar, most=most))


def large(question: Question, strokes: Sequence[Stroke]) -> Iterator[Finding]:
    """HO6: a large drill follows a pilot, or its web pushes it aside."""
    opened = 0.0
    for stroke in strokes:
        across = stroke.tool.cutter.diameter_mm or 0.0
        if stroke.tool.cutter.kind == "drill" and across > LARGE_MM + 1e-6 and opened < PILOT[0] * across:
            sizes = (PILOT[0] * across, PILOT[1] * across, LARGE_MM)
            least, most, over = (Mm(mm) for mm in sizes)
            yield Finding("HO6", "warn", said("{cutter}: over {over} it wants a pilot, a drill of {least} to {most}, "
                                              "and none that reaches is owned: spot it wide, feed it without stopping",
                                              cutter=stroke.tool.owned.label, over=over, least=least, most=most))
        opened = max(opened, across) if stroke.role in ("drill", "bore", "ream") else opened


def deep(question: Question, strokes: Sequence[Stroke]) -> Iterator[Finding]:
    """A hole deeper than four diameters is pecked."""
    for stroke in strokes:
        across = stroke.tool.cutter.diameter_mm
        if stroke.tool.cutter.kind != "drill" or not across or stroke.role == "transfer":
            continue
        ratio = -stroke.z_mm / across
        if ratio > SPECIAL_FROM:
            yield Finding("HO4", "caution", said("{cutter}: {ratio:.0f} diameters deep: it wanders; peck every half "
                                                 "diameter, clear all the way out", cutter=stroke.tool.owned.label,
                                                 ratio=ratio))
        elif ratio > PECK_FROM:
            yield Finding("HO4", "note", said("{cutter}: {ratio:.1f} diameters deep: peck, clear the chips every "
                                              "diameter", cutter=stroke.tool.owned.label, ratio=ratio))


def hardness(question: Question, strokes: Sequence[Stroke]) -> Iterator[Finding]:
    """MT1: the cutter is hard enough for the work. MT3: metal that hardens. MT5: metal that grabs."""
    group, hrc = question.material.group, question.material.hrc
    for stroke in strokes:
        if found := too_hard(stroke.tool.owned.label, stroke.tool.cutter.material, question.material, hrc):
            yield found
    if group in ("stainless", "titanium"):
        yield Finding("MT3", "caution", "it hardens where a drill rubs: keep feeding, never dwell")
    if group in ("brass", "bronze") and any(stroke.tool.cutter.kind == "drill" for stroke in strokes):
        yield Finding("MT5", "caution", "brass and bronze pull a drill in: dub its lips or hold the quill back")


def measured(question: Question, strokes: Sequence[Stroke]) -> Iterator[Finding]:
    """PR1: the size that makes the hole is better measured than stamped."""
    for stroke in strokes:
        owned = stroke.tool.owned
        makes = stroke.is_measured and stroke.role in ("drill", "ream", "counterbore", "plunge")
        if makes and "diameter_mm" not in owned.measured:
            yield Finding("PR1", "note", said("{cutter}: the diameter isn't measured; mic it over the margins first",
                                              cutter=owned.label))


def grabbing(question: Question, strokes: Sequence[Stroke]) -> Iterator[Finding]:
    """A chuck doesn't cut sideways, and work is clamped."""
    if any(stroke.tool.held.label == "drill chuck" for stroke in strokes):
        yield Finding("HD2", "note", "nothing in a drill chuck cuts sideways: lock X and Y")
