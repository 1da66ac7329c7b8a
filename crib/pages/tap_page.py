"""Tap advice as a page: the verdict, the taps and drills that are owned, the depth, the steps, what to look out for."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from crib.findings.message import ByUnits, Fact, Mm, Sentence, Text, Torque, joined, said
from crib.findings.verdicts import SHORT, WORDS, Verdict
from crib.machining.words import Making
from crib.pages.blocks import Block, Blocks, Bullets, Fit, Heading, Paragraph, clauses, spaced, table
from crib.pages.remarks import care, place, warnings
from crib.tapping.check_all import TapChecked
from crib.tapping.shape import Depth, JudgedHole, TapAdvice

_MOST_DRILLS = 5
_DRILLS = "Drills, best first; percent of thread by the drill's size, and by the hole it makes"
_MOST_WRONG = 4
_WORDS = {**WORDS, Verdict.CANNOT: "no", Verdict.AS_DRAWN: "yes - tap and drill belong together"}
_NO_TAP = "the drill will do - the tap isn't in the crib"
_VERDICTS = {**SHORT, Verdict.CANNOT: "no", Verdict.AS_DRAWN: "yes"}


def tap_page(advice: TapAdvice) -> Blocks:
    """The page."""
    if advice.answer == Verdict.REFER:
        return tuple(_head(advice))
    return spaced([list(_head(advice)), _taps(advice), _drills(advice), list(_not_owned(advice)), _depth(advice.depth),
                   _steps(advice), warnings(advice.warnings), list(_reckoned(advice)), care(advice.cautions)])


def _head(advice: TapAdvice) -> Iterator[Paragraph]:
    thread, limits = advice.thread, advice.limits
    hand = ", left hand" if advice.hand == "left" else ""
    told: list[Fact] = [
            said("{name}: {across} across", name=f"{thread.designation}{hand}", across=_size(thread.major_mm)),
            ByUnits(said("pitch {pitch} ({tpi:.4g} to the inch)", pitch=_size(thread.pitch_mm), tpi=thread.tpi),
                    said("pitch {pitch} mm", pitch=Mm(thread.pitch_mm))),
            f"{thread.form.angle_deg:g} degrees"]
    if limits.least is not None and limits.most is not None:
        told.append(said("hole {least} to {most} by {name}", least=_size(limits.least), most=_size(limits.most),
                         name=limits.name or ""))
    if advice.target:
        told.append(f"{advice.material} wants {advice.target.low:g} to {advice.target.high:g} percent")
    without = advice.answer == Verdict.EXTRA_PASSES and not advice.taps
    yield Paragraph(_NO_TAP if without else _WORDS[advice.answer], "Answer", hang=2)
    yield Paragraph(Sentence(advice.says))
    yield Paragraph(joined(", ", told), "Thread", hang=2)


def _size(mm: float) -> Mm:
    return Mm(mm, fine=True)


def _taps(advice: TapAdvice) -> list[Block]:
    rows = [(f"no. {tap.id}, {tap.label}", place(tap), tap.condition if tap.condition != "unknown" else "")
            for tap in advice.taps]
    return [Heading("Taps"), table(("",) * 3, rows, Fit.LIST, 2) if rows else Paragraph("none in the crib", indent=2)]


def _drills(advice: TapAdvice) -> list[Block]:
    good = [v for v in advice.drills if v.serves] + list(advice.other_ways)
    wrong = sorted((v for v in advice.drills if not v.serves), key=lambda v: v.score)
    shown = [*good[:_MOST_DRILLS], *wrong[:_MOST_WRONG]]
    if not shown:
        return []
    heads = ("drill", "where", "size", "by size", "hole it makes", "by hole", "")
    left = len(advice.drills) - sum(1 for v in shown if v in advice.drills)
    return [Heading(_DRILLS), table(heads, map(_row, shown), Fit.ALL, 2, frozenset({2, 3, 4, 5})),
            *(Paragraph(said("{label}: {says}", label=v.hole.label, says=v.says), indent=4, hang=6)
              for v in shown if v.answer != Verdict.AS_DRAWN or v.edge),
            *([Paragraph(f"and {left} more that don't serve", indent=2)] if left > 0 else [])]


def _row(verdict: JudgedHole) -> tuple[Fact, ...]:
    hole = verdict.hole
    number = f"no. {hole.cutter.id}, " if hole.cutter else ""
    label = hole.label if hole.way is Making.DRILL else f"{hole.label} ({hole.way})"
    return (f"{number}{label}", place(hole.cutter) if hole.cutter else "not owned", _size(hole.diameter_mm),
            _percent(verdict.percent_thread), _size(hole.expected_mm), _percent(verdict.percent_expected),
            _VERDICTS[verdict.answer])


def _percent(value: float | None) -> str:
    return "-" if value is None else f"{value:.0f} %"


def _not_owned(advice: TapAdvice) -> Iterator[Paragraph]:
    if not advice.not_owned:
        return
    yield Paragraph(joined("; ", (
        said("{label} ({size}{percent})", label=one.label, size=_size(one.diameter_mm),
             percent="" if one.percent_thread is None else f", {one.percent_thread:.0f} percent")
        for one in advice.not_owned)), "Right, not owned", hang=2)
    if advice.without:
        yield Paragraph(Sentence(advice.without), indent=2)


def _depth(depth: Depth | None) -> list[Paragraph]:
    if depth is None:
        return []
    if depth.through:
        text = said("through {thread}; let the point go {point} beyond", thread=_size(depth.full_thread_mm),
                    point=_size(depth.point_mm))
    else:
        text = said("full thread {thread} + chamfer {chamfer} + chips {chips} = {hole} at full diameter, + point "
                    "{point} = {tip} at the tip", thread=_size(depth.full_thread_mm), chamfer=_size(depth.chamfer_mm),
                    chips=_size(depth.chips_mm), hole=_size(depth.hole_mm), point=_size(depth.point_mm),
                    tip=_size(depth.tip_mm))
    return [Paragraph(text, "Depth", hang=2)]


def _steps(advice: TapAdvice) -> list[Block]:
    return [Heading("Steps"), Bullets(tuple(map(Sentence, advice.steps)), 1)] if advice.steps else []


def _reckoned(advice: TapAdvice) -> Iterator[Paragraph]:
    step = f"step {advice.rpm}" if advice.rpm else "no step of the spindle known that slow"
    speed = f"under power: {advice.wanted_rpm} rpm wanted, {step}"
    told: list[Text] = [speed if advice.power else "tapped by hand: no speed to set"]
    if advice.torque_nm is not None:
        told.append(said("torque about {torque}", torque=Torque(advice.torque_nm, of_a_tap=True)))
    if advice.drills or advice.other_ways:
        yield Paragraph(joined("; ", told), "Figures", hang=2)
    if advice.assumed:
        yield Paragraph(clauses(advice.assumed), "Assumed", hang=2)


def checked_page(found: Sequence[TapChecked]) -> Blocks:
    """Every tap with its drills."""
    if not found:
        return (Paragraph("there are no taps in the crib"),)
    return tuple(Paragraph(said("no. {number}, {label}: {told}", number=one.tap.id, label=one.tap.label,
                                told=_told(one)), hang=4) for one in found)


def _told(one: TapChecked) -> Text:
    drills = "; ".join(f"{v.hole.label} ({_percent(v.percent_expected)}, "
                       f"{'at the edge' if v.edge else _VERDICTS[v.answer]})" for v in one.drills)
    if drills:
        return drills
    missing = ", ".join(each.label for each in one.not_owned)
    return said("no drill for it: {says}{right}", says=one.says, right=f"; right would be {missing}" if missing else "")
