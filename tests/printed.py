"""The passes of a plan read back from its printed table alone: what a machinist sets, and goes by."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace

from crib.geometry.operation import Operation
from crib.geometry.silhouette import Silhouette
from crib.handbook.closed_ends import CORE_SHARE
from crib.machining.ends.entry import SPARE
from crib.units import nm

WIDE = 100_000
_ROW = re.compile(r"^(\d+)(?:-(\d+))?\s+no\. (\d+)\s")
_AGAIN = re.compile(r"as (\d+)-(\d+)\s+(\S+)")
_CUTS = {"full width": "both", "conventional": "conventional", "climb": "climb"}
_NOTE = re.compile(r"^  ([\d, -]+): (.*)$")
_LEG = re.compile(r"(right|left|away|toward you) to ([-+.\d]+)")
_WAYS = ("down ", "goes on", "in from", "at its height ")
_ENTRY = re.compile(r"^(?:(?:down (?:at|on a ramp from)|at its height beside the work,) table ([-+.\d]+),|"
                    r"in from the open end at) cross ([-+.\d]+)(.*)$")


@dataclass
class Read:
    """One pass as it is printed; lengths in nanometres. `along`: both stops of its row."""

    number: int
    cutter: int
    x: int
    z: int
    feed: str
    cut: str
    along: tuple[int, ...] = ()
    stop: int | None = None
    says: list[str] = field(default_factory=list)


def read_back(lines: Sequence[str], unit_mm: float) -> list[Read]:
    """Every pass of a printed table."""
    def length(text: str) -> int:
        return nm(float(text) * unit_mm)

    head = re.split(r"\s{2,}", lines[0].strip())
    found: list[Read] = []
    for line in lines:
        if row := _ROW.match(line):
            first, last = int(row[1]), int(row[2] or row[1])
            if again := _AGAIN.search(line):
                those = found[int(again[1]) - 1:int(again[2])]
                assert len(those) == last - first + 1, line
                found += [replace(one, number=first + k, z=length(again[3]), says=[]) for k, one in enumerate(those)]
                continue
            cells = dict(zip(head, re.split(r"\s{2,}", line.strip()), strict=False))
            count = last - first + 1
            across = _stops(cells["cross"], count) if "cross" in cells else [0.0] * count
            depths = [float(text) for text in cells["Z"].split()]
            feeds = [text.split(" ")[-1] for text in cells["feed"].split(", ") if text != "climb"]
            along = tuple(length(text) for text in cells.get("table", "").split(" - ") if text)
            assert len(across) in (1, count) and len(depths) in (1, count) and len(feeds) in (1, 2), line
            found += [Read(first + k, int(row[3]), nm(across[k % len(across)] * unit_mm),
                           nm(depths[k % len(depths)] * unit_mm), feeds[k % len(feeds)], "axial", along)
                      for k in range(count)]
        elif line.startswith("  cut: "):
            for those_, words in re.findall(r"([\d, -]+) (full width|conventional|climb)(?:;|$)", line):
                for number in numbers_of(those_.strip()):
                    found[number - 1].cut = _CUTS[words]
        elif note := _NOTE.match(line):
            for number in numbers_of(note[1]):
                found[number - 1].says.append(note[2])
    for one in found:
        for said in one.says:
            if stop := re.match(r"stop at ([-+.\d]+) along the feed", said):
                one.stop = length(stop[1])
    return found


def _stops(text: str, count: int) -> list[float]:
    """Every setting that a cell names; behind a double sign each on both sides, the upper sign's first."""
    if text[0] not in "±∓":
        return [float(one) for one in text.split()]
    sign = 1 if text[0] == "±" else -1
    both = [way * float(one) for one in text[1:].split() for way in (sign, -sign)]
    assert len(both) == count, text
    return both


def numbers_of(text: str) -> Iterator[int]:
    """The numbers that are meant by such as `1-3, 7`."""
    for part in text.split(", "):
        first, _, last = part.partition("-")
        yield from range(int(first), int(last or first) + 1)


def sweeps(found: Sequence[Read], forms: dict[int, Silhouette], unit_mm: float, zero: int,
           out: int = 0) -> list[Operation]:
    """The ways of the passes from what is said of them. `zero`: where along is nought from the middle; `out`: how
    far out of an open end one begins that goes straight in [nm]."""
    done: list[Operation] = []
    for one in found:
        form = forms[one.cutter]
        way = next((said for said in one.says if said.startswith(_WAYS)), None)
        if way is None:
            assert one.stop is not None
            done.append(Operation.along(form, one.x, one.z, one.cutter,
                                        ((min(out, one.stop - 1), one.x), (one.stop, one.x)), 0))
            continue
        entry = _ENTRY.match(way)
        if entry is None:
            at, free = done[-1].path[-1], None
        else:
            at, free = _begun(entry, form, unit_mm, zero, out)
        path = [at]
        for which, text in _LEG.findall(entry[3] if entry else way):
            to = nm(float(text) * unit_mm)
            x, y = path[-1]
            path.append((to + zero, y) if which in ("right", "left") else (x, to))
            moved = path[-1][0] - x or path[-1][1] - y
            assert (moved > 0) == (which in ("right", "away")), way
        done.append(Operation.above(form, tuple(path), one.z, free, one.cutter) if one.feed == "down" else
                    Operation.along(form, one.x, one.z, one.cutter, tuple(path), free))
    return done


def _begun(entry: re.Match[str], form: Silhouette, unit_mm: float, zero: int, out: int) -> tuple[tuple[int, int], int]:
    across = nm(float(entry[2]) * unit_mm)
    if entry[1] is None:
        return (out, across), 0
    beside = form.radius + SPARE
    free = {"in free": beside, "table locked": beside, "in what": round(CORE_SHARE * form.radius)}
    how = next((radius for words, radius in free.items() if words in entry[3]), 0)
    return (nm(float(entry[1]) * unit_mm) + zero, across), how
