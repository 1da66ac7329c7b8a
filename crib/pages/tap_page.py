"""Tap advice as a page: the verdict, the taps and drills that are owned, the depth, the steps, what to look out for."""

from __future__ import annotations

from collections.abc import Sequence

from crib.findings.verdicts import WORDS
from crib.pages.remarks import place, warning_lines
from crib.pages.text import columns, join, paragraph, sentence
from crib.render.words import worded, words
from crib.tapping.check_all import TapChecked
from crib.tapping.shape import Depth, TapAdvice, Verdict
from crib.tapping.steps import torque_words
from crib.units import show

_MOST_DRILLS = 5
_MOST_WRONG = 4
_WORDS = {**WORDS, "cannot": "no", "as drawn": "yes - tap and drill belong together"}
_NO_TAP = "the drill will do - the tap isn't in the crib"
_VERDICTS = {"cannot": "no", "measure first": "mic it", "as drawn": "yes", "extra passes": "yes, with more work"}


def tap_page(advice: TapAdvice, units: str, width: int = 100, every: bool = False) -> list[str]:
    """The page as lines of at most `width` characters."""
    blocks = [_head(advice, units, width)]
    if advice.answer != "refer":
        blocks += [
            _taps(advice), _drills(advice, units, width, every), _not_owned(advice, units, width),
            _depth(advice.depth, units, width), _steps(advice, units, width),
            warning_lines(advice.warnings, units, width), _reckoned(advice, units, width),
            [*["Take care"] * bool(advice.cautions), *(line for text in advice.cautions for line in
                                                     paragraph(sentence(words(text, units)), width, "  - ", 4))],
        ]
    return [line for number, block in enumerate(b for b in blocks if b) for line in ([""] if number else []) + block]


def _head(advice: TapAdvice, units: str, width: int) -> list[str]:
    thread, limits = advice.thread, advice.limits
    hand = ", left hand" if advice.hand == "left" else ""
    said = [f"{thread.designation}{hand}: {_size(thread.major_mm, units)} across",
            _pitch(advice, units),
            f"{thread.form.angle_deg:g} degrees"]
    if limits.least is not None and limits.most is not None:
        said.append(f"hole {_size(limits.least, units)} to {_size(limits.most, units)} by {limits.name}")
    if advice.target:
        said.append(f"{advice.material} wants {advice.target.low:g} to {advice.target.high:g} percent")
    answer = _NO_TAP if advice.answer == "extra passes" and not advice.taps else _WORDS[advice.answer]
    return [*paragraph(answer, width, "Answer: ", 2), *paragraph(sentence(words(advice.says, units)), width),
            *paragraph(", ".join(said), width, "Thread: ", 2)]


def _taps(advice: TapAdvice) -> list[str]:
    rows = [(f"  no. {tap.id}, {tap.label}", place(tap), tap.condition if tap.condition != "unknown" else "")
            for tap in advice.taps]
    return ["Taps", *columns(rows)] if rows else ["Taps", "  none in the crib"]


def _drills(advice: TapAdvice, units: str, width: int, every: bool) -> list[str]:
    good = [v for v in advice.drills if v.serves] + list(advice.other_ways)
    wrong = sorted((v for v in advice.drills if not v.serves), key=lambda v: v.score)
    shown = [*good[: None if every else _MOST_DRILLS], *wrong[: None if every else _MOST_WRONG]]
    if not shown:
        return []
    head = ("  drill", "where", "size", "thread", "hole", "thread", "")
    rows = [head, *(_row(verdict, units) for verdict in shown)]
    out = columns(rows, frozenset({2, 3, 4, 5}), 2)
    if any(len(line) > width for line in out):
        out = [line for row in rows[1:] for line in paragraph(", ".join(cell for cell in row if cell), width, "", 4)]
    left = len(advice.drills) - sum(1 for v in shown if v in advice.drills)
    tail = [f"  and {left} more that don't serve"] if left > 0 else []
    told = [v for v in shown if v.answer != "as drawn" or v.edge]
    why = [line for v in told for line in paragraph(f"{v.hole.label}: {words(v.says, units)}", width, "    ", 6)]
    return ["Drills, best first", *out, *why, *tail]


def _row(verdict: Verdict, units: str) -> tuple[str, ...]:
    hole = verdict.hole
    number = f"no. {hole.cutter.id}, " if hole.cutter else ""
    label = hole.label if hole.way == "drill" else f"{hole.label} ({hole.way})"
    return (f"  {number}{label}", place(hole.cutter) if hole.cutter else "not owned", _size(hole.diameter_mm, units),
            _percent(verdict.percent_thread), _size(hole.expected_mm, units), _percent(verdict.percent_expected),
            _VERDICTS.get(verdict.answer, "at a price"))


def _percent(value: float | None) -> str:
    return "-" if value is None else f"{value:.0f} %"


def _not_owned(advice: TapAdvice, units: str, width: int) -> list[str]:
    if not advice.not_owned:
        return []
    said = [f"{one.label} ({_size(one.diameter_mm, units)}" + (
        f", {one.percent_thread:.0f} percent)" if one.percent_thread is not None else ")") for one in advice.not_owned]
    without = paragraph(sentence(advice.without), width, "  ", 2) if advice.without else []
    return paragraph("; ".join(said), width, "Right, not owned: ", 2) + without


def _depth(depth: Depth | None, units: str, width: int) -> list[str]:
    if depth is None:
        return []
    if depth.through:
        beyond = f"let the point go {_size(depth.point_mm, units)} beyond"
        return paragraph(f"through {_size(depth.full_thread_mm, units)}; {beyond}", width, "Depth: ", 2)
    parts = f"full thread {_size(depth.full_thread_mm, units)} + chamfer {_size(depth.chamfer_mm, units)} + chips " \
            f"{_size(depth.chips_mm, units)} = {_size(depth.hole_mm, units)} at full diameter, + point " \
            f"{_size(depth.point_mm, units)} = {_size(depth.tip_mm, units)} at the tip"
    return paragraph(parts, width, "Depth: ", 2)


def _steps(advice: TapAdvice, units: str, width: int) -> list[str]:
    out = [line for number, step in enumerate(advice.steps, start=1) for line in
           paragraph(sentence(words(step, units)), width, f"  {number}. ", 5)]
    return ["Steps", *out] if out else []


def _reckoned(advice: TapAdvice, units: str, width: int) -> list[str]:
    out = []
    step = f"step {advice.rpm}" if advice.rpm else "no step of the spindle known that slow"
    speed = f"under power: {advice.wanted_rpm} rpm wanted, {step}"
    said = [speed if advice.power else "tapped by hand: no speed to set"]
    if advice.torque_nm is not None:
        said.append(f"torque about {torque_words(advice.torque_nm, units)}")
    if advice.drills or advice.other_ways:
        out += paragraph("; ".join(said), width, "Figures: ", 2)
    return out + (paragraph(join(worded(advice.assumed, units)), width, "Assumed: ", 2) if advice.assumed else [])


def _pitch(advice: TapAdvice, units: str) -> str:
    """The pitch in the units of the page alone."""
    thread = advice.thread
    if units != "in":
        return f"pitch {show(thread.pitch_mm, 'mm')} mm"
    return f"pitch {_size(thread.pitch_mm, units)} ({thread.tpi:.4g} to the inch)"


def _size(mm: float, units: str) -> str:
    return show(mm, units, places=4 if units == "in" else 3)


def checked_page(found: Sequence[TapChecked], units: str, width: int = 100) -> list[str]:
    """Every tap with its drills."""
    out: list[str] = []
    for one in found:
        said = "; ".join(f"{v.hole.label} ({_percent(v.percent_expected)}, {'at the edge' if v.edge else v.answer})"
                         for v in one.drills)
        missing = ", ".join(each.label for each in one.not_owned)
        tail = said or f"no drill for it: {words(one.says, units)}" + (f"; right would be {missing}" if missing else "")
        out += paragraph(f"no. {one.tap.id}, {one.tap.label}: {tail}", width, "", 4)
    return out or ["there are no taps in the crib"]
