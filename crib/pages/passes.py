"""The pass table: what to set, which way to feed, and how deep to bite, from the slot's centre and the surface."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from itertools import groupby

from crib.machining.draft import ZEROS
from crib.pages.text import columns, exact, paragraph
from crib.planning.advice import Pass
from crib.render.words import worded, words
from crib.units import show

Run = tuple[Pass, ...]

_TO_SIZE = re.compile(r"^to [\d.,]+: ")
"""What a cut of a bore comes to stands in the table where several are alike."""

_ARROWS = {"right": "→", "left": "←", "away": "↑", "toward": "↓", "down": "↓", "up": "↑"}
_RIGHT = frozenset({3, 4, 7, 8, 9, 10, 11, 12})
_HEAD = ("no", "cutter", "what", "cross", "Z", "feed", "cut", "side", "depth", "rpm", "/min", "s/in", "min")
_ALONG, _AFTER_Z = "table", 5
_LYING = (
    "The work lies along the table, seen from its right-hand end. cross: the cutter's axis from {}, + away from you; "
)
_MEANING = "Z: its lower face from {}; feed: the way the cutter goes over the work"
_STOPS = "table: both stops of the axis along the feed, from the left end of the finished cut"
_BY_HAND = {"in": "s/in", "mm": "s/cm"}
_SPARE = ("min", "depth", "cut", "s/in", "rpm", "cutter")
_MEASURED = ("measure ", "depth by micrometer")
"""What is said of a pass that the list of what to measure says with its reading."""

_SHORT = 4
"""What a pass is called is cut down to so many letters before more is left out; no number is ever cut."""


def table(passes: Sequence[Pass], units: str, width: int = 100, lines: bool = True,
          zeros: tuple[str, str] = ZEROS, measured: bool = False) -> list[str]:
    """The passes as aligned text, at most `width` wide; cross and Z as they are dialled, in the user's units.

    Passes that follow each other and differ in nothing but depth share a line; every depth is then listed. Where the
    width isn't enough the columns that are needed least at the handle are left out, and named. `zeros`: what cross and
    Z count from. `measured`: whether what to measure is told elsewhere.
    """
    runs = folded(passes)
    between_ends = any(one.dial_from_mm is not None for one in passes)
    head = (*_HEAD[:_AFTER_Z], _ALONG, *_HEAD[_AFTER_Z:]) if between_ends else _HEAD
    across = any(one.direction != "axial" for one in passes)
    right = frozenset(at + (between_ends and at >= _AFTER_Z) for at in _RIGHT)
    shown = _shown(head, units, passes, across)
    rows = [shown, *(_row(run, units, lines, between_ends, across) for run in runs)]
    left_out: list[str] = []
    while len(left_out) < len(_SPARE) and _overhang(rows, width, right) > _to_cut(rows, len(left_out)):
        at = head.index(_SPARE[len(left_out)])
        left_out.append(_SPARE[len(left_out)])
        rows = [tuple("" if column == at else cell for column, cell in enumerate(row)) for row in rows]
    room = max(_SHORT, max(len(row[2]) for row in rows) - max(0, _overhang(rows, width, right)))
    title, *body = columns([(*row[:2], _cut(row[2], room), *row[3:]) for row in rows], right)
    out = [title[:width].rstrip()]
    for run, line in zip(runs, body, strict=True):
        out += [line[:width].rstrip(), *_depths(run, units, width)]
    left_out = [name for at, name in zip(map(head.index, left_out), left_out, strict=True) if shown[at]]
    if left_out:
        out += paragraph(f"left out for want of width: {', '.join(left_out)}", width, "  ")
    if "rpm" in left_out:
        out += paragraph("; ".join(_speeds(passes)), width, "  rpm: ")
    if "cutter" in left_out:
        out += paragraph("; ".join(_cutters(passes)), width, "  cutter: ")
    lying = _LYING.format(zeros[0]) if across else ""
    stops = paragraph(_STOPS, width, "  ") if between_ends else []
    meaning = paragraph(lying + _MEANING.format(zeros[1]), width, "  ")
    return out + meaning + stops + _notes(passes, units, width, measured)


def _shown(head: Sequence[str], units: str, passes: Sequence[Pass], across: bool) -> tuple[str, ...]:
    """The heads of the columns that there are: no cross slide where cutters only come down, no seconds without a
    hand."""
    hand = any(one.by_hand for one in passes)
    gone = {*(() if across else ("cross",)), *(() if hand else ("s/in",))}
    return tuple("" if each in gone else _BY_HAND[units] if each == "s/in" else each for each in head)


def _speeds(passes: Sequence[Pass]) -> list[str]:
    return list(dict.fromkeys(f"no. {one.cutter_id} {_rpm(one)}" for one in passes))


def _to_cut(rows: Sequence[Sequence[str]], left_out: int) -> int:
    """How much may be cut from what passes are called, once only the last of the spare columns is there."""
    return max(len(row[2]) for row in rows) - _SHORT if left_out == len(_SPARE) - 1 else 0


def _overhang(rows: Sequence[Sequence[str]], width: int, right: frozenset[int]) -> int:
    """By how much the table is too wide."""
    return max(map(len, columns(rows, right))) - width


def folded(passes: Sequence[Pass]) -> list[Run]:
    """Passes in a row that differ only in depth, and cuts of a bore that take the same, together."""
    groups: list[Run] = []
    for _, group in groupby(passes, key=_but_depth):
        groups.append(tuple(group))
    return groups


def dialled(mm: float, units: str, sign: bool = False) -> str:
    """A setting to three decimals; four in inches where it has half a thou; else a blank keeps the points in line.

    >>> dialled(4.445, "in", True), dialled(-10.4267, "in"), dialled(4.445, "mm")
    ('+.175 ', '-.4105', '4.445')
    """
    text = exact(mm, units, sign)
    return text + " " if units == "in" and len(text.rpartition(".")[2]) == 3 else text


def _but_depth(one: Pass) -> Pass:
    alike = replace(one, no=0, z_mm=0.0, dial_z_mm=0.0, axial_mm=0.0, minutes=0.0, says="", dials=(), stops_mm=())
    bored = replace(one, no=0, minutes=0.0, says="", dials=(), diameter_mm=0.0, radial_mm=round(one.radial_mm, 3))
    return bored if one.role == "bore" else alike


def _row(run: Run, units: str, lines: bool, between_ends: bool = False, across: bool = True) -> tuple[str, ...]:
    first, last = run[0], run[-1]
    no = str(first.no) if len(run) == 1 else f"{first.no}-{last.no}"
    what = " ".join(dict.fromkeys(word for word in (first.role, first.room) if word))
    return (
        no,
        f"no. {first.cutter_id}",
        what,
        dialled(first.dial_x_mm, units, sign=True) if across else "",
        dialled(last.dial_z_mm, units),
        *((_stops(first, units),) if between_ends else ()),
        _feed(first.feed, lines),
        first.direction,
        _bite([one.radial_mm for one in run], units),
        _bite([one.axial_mm for one in run], units),
        _rpm(first),
        _rate(first.mm_per_min, units),
        _seconds(first, units),
        f"{sum(one.minutes for one in run):.1f}",
    )


def _cutters(passes: Sequence[Pass]) -> list[str]:
    mine: dict[int, list[int]] = {}
    for one in passes:
        mine.setdefault(one.cutter_id, []).append(one.no)
    return [f"{numbers(those)} no. {cutter}" for cutter, those in mine.items()]


def _rpm(one: Pass) -> str:
    return str(one.rpm) if one.rpm is not None else "hand" if one.role == "tap" else f"~{one.wanted_rpm}"


def _seconds(one: Pass, units: str) -> str:
    """How long a hand takes to feed an inch, or a centimetre."""
    if not one.by_hand or one.mm_per_min <= 0:
        return ""
    return f"{60 * (25.4 if units == 'in' else 10.0) / one.mm_per_min:.0f}"


def _stops(one: Pass, units: str) -> str:
    """Both stops along the feed, one where it only goes down."""
    ends = dict.fromkeys(end for end in (one.dial_from_mm, one.dial_to_mm) if end is not None)
    return " - ".join(dialled(end, units).strip() for end in ends)


def _feed(feed: str, lines: bool) -> str:
    arrow = _ARROWS.get(feed.split(" ")[0] if feed else "")
    return f"{arrow} {feed}" if lines and arrow else feed


def _bite(bites: Sequence[float], units: str) -> str:
    most = max(bites)
    return show(most, units) if most > 0 else "-"


def _rate(mm_per_min: float, units: str) -> str:
    if mm_per_min <= 0:
        return "-"
    return f"{mm_per_min / 25.4:.1f}" if units == "in" else f"{mm_per_min:.0f}"


def _cut(text: str, length: int) -> str:
    return text if len(text) <= length else text[: length - 1].rstrip() + "."


def _depths(run: Run, units: str, width: int) -> list[str]:
    if len(run) == 1:
        return []
    if run[0].role == "bore":
        return paragraph(", ".join(exact(one.diameter_mm or 0.0, units) for one in run), width, "      in turn to ")
    depths = ", ".join(dialled(one.dial_z_mm, units).strip() for one in run)
    return paragraph(depths, width, "      at Z ")


def _notes(passes: Sequence[Pass], units: str, width: int, measured: bool = False) -> list[str]:
    """What is said about passes, each saying once with the numbers that it is for."""
    sayings: dict[str, list[int]] = {}
    listed = {one.no for run in folded(passes) for one in run[1:] if one.role == "bore"}
    for one in passes:
        stop = f"stop at {dialled(_stop(one), units).strip()} along the feed" if one.stop_mm is not None else ""
        says = words(one.says, units)
        says = "" if measured and says.startswith(_MEASURED) else says
        says = _TO_SIZE.sub("", says) if one.no in listed else says
        for saying in filter(None, (says, stop, _for_chips(one, units), *worded(one.way_says, units))):
            sayings.setdefault(saying, []).append(one.no)
    out: list[str] = []
    for saying, those in sayings.items():
        out += paragraph(saying, width, f"  {numbers(those)}: ", 4)
    if any(one.rpm is None and one.role != "tap" for one in passes):
        out += paragraph("~ the speed it wants; which speeds the mill has isn't known.", width, "  ")
    return out


def _for_chips(one: Pass, units: str) -> str:
    """Where a pass stops for its chips: the stops part it evenly."""
    return f"every {show(one.stops_mm[0], units)} stop, spindle off, brush the chips out" if one.stops_mm else ""


def _stop(one: Pass) -> float:
    """Where a pass stops that comes in from an open end, as it is dialled where that is known."""
    return max((along for along, _ in one.dial_path_mm), default=one.stop_mm or 0.0)


def numbers(those: Sequence[int]) -> str:
    """Passes' numbers with runs drawn together.

    >>> numbers([1, 2, 3, 5, 8, 9])
    '1-3, 5, 8-9'
    """
    parts: list[list[int]] = []
    for number in those:
        if parts and number == parts[-1][-1] + 1:
            parts[-1].append(number)
        else:
            parts.append([number])
    return ", ".join(str(part[0]) if len(part) == 1 else f"{part[0]}-{part[-1]}" for part in parts)
