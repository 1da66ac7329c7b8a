"""How lines are read as a shop says them: tests/data/shop_talk.txt against what a machinist means by each.

`python -m tests.shop_talk` counts those that are read, asked about rightly or without need, and wrong in silence.
"""

from __future__ import annotations

import sys
from collections import Counter
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

from crib.cutters.base import LENGTH_KEYS, Cutter
from crib.intake.shorthand import Line, Shop, read_line
from crib.units import nm, read

DATA = Path(__file__).parent / "data" / "shop_talk.txt"
KEYS = {
    "d": "diameter_mm", "nom": "nominal_mm", "face": "face_mm", "neck": "neck_mm", "reach": "reach_mm",
    "shank": "shank_mm", "loc": "length_of_cut_mm", "oal": "overall_length_mm", "cr": "corner_radius_mm",
    "rad": "radius_mm", "ang": "angle_deg", "tip": "tip_mm", "bore": "bore_mm", "pilot": "pilot_mm",
    "min": "min_hole_mm", "fl": "flutes", "mat": "material", "cond": "condition", "hand": "hand", "n": "count",
    "dr": "drawer", "rg": "reground", "thr": "thread", "ch": "tap_chamfer", "lim": "limit", "pt": "tap_point",
    "form": "tap_form", "price": "price",
}
_PLAIN = Cutter(0, "drill")
_FREE = {"tap_point": (None, "straight"), "tap_form": (None, "cutting"), "hand": ("right",)}
"""Values that go without saying."""


@dataclass(frozen=True)
class Case:
    """A line, the kind and the values that are meant by field, how many cutters, and whether it leaves a question or
    is held back."""

    said: str
    kind: str = ""
    fields: tuple[tuple[str, str], ...] = ()
    count: int = 1
    asks: bool = False
    held: bool = False


@cache
def cases(path: Path = DATA) -> tuple[Case, ...]:
    """The lines of a file of such cases."""
    lines = path.read_text(encoding="utf-8").splitlines()
    return tuple(_case(line) for line in lines if "=>" in line and not line.startswith("#"))


def _case(line: str) -> Case:
    said, meant = (part.strip() for part in line.rsplit("=>", 1))
    words = meant.split()
    kind = "" if words[0] == "held" else words[0]
    fields = tuple((KEYS[word.partition("=")[0]], word.partition("=")[2].replace("_", " ")) for word in words
                   if "=" in word)
    many = next((int(word[1:]) for word in words[1:] if word[0] == "x" and word[1:].isdigit()), 1)
    return Case(said, kind, fields, many, "?" in words, "held" in words)


def judged(case: Case, units: str = "in") -> tuple[str, str]:
    """`read`, `asked` where it leaves a question rightly, `needless`, or `wrong` in silence; and what differs."""
    line = read_line(case.said, Shop(units))
    differs = "; ".join(differences(case, line))
    asked = bool(line.asks) or not line.taken
    if not case.asks and not case.held:
        return ("needless", differs or ", ".join((line.asks or {}).values()) or line.why) if asked else \
            ("wrong", differs) if differs else ("read", "")
    if not asked or (case.held and line.taken and not case.asks):
        return ("wrong", differs or "nothing is asked")
    return ("asked", differs)


def differences(case: Case, line: Line) -> list[str]:
    """In what a line isn't what was meant."""
    if not line.taken:
        return [f"held: {line.why}"]
    one = line.taken[0].cutter
    wrong = [f"{len(line.taken)} cutters"] if len(line.taken) != case.count else []
    wrong += [f"kind {each.cutter.kind}" for each in line.taken[:1] if each.cutter.kind != case.kind]
    if case.count > 1:
        return wrong
    meant = dict(case.fields)
    return wrong + [f"{key} {getattr(one, key)!r}, not {meant.get(key)!r}" for key in KEYS.values()
                    if not _same(key, getattr(one, key), meant.get(key))]


def _same(key: str, value: Any, meant: str | None) -> bool:
    if meant is None:
        return value in _FREE.get(key, (getattr(_PLAIN, key),))
    if key in LENGTH_KEYS:
        return value is not None and abs(nm(value) - nm(read(meant, "in").mm)) <= 1
    if key in ("flutes", "count", "angle_deg", "price"):
        return value == float(meant)
    return value is True if key == "reground" else str(value) == meant


def main() -> int:
    """Print the counts, and every line that is neither read nor asked about rightly."""
    counts: Counter[str] = Counter()
    for case in cases():
        verdict, differs = judged(case)
        counts[verdict] += 1
        if verdict in ("needless", "wrong") or (differs and "-v" in sys.argv):
            print(f"{verdict:>9}  {case.said!r}: {differs}")
    total = sum(counts.values())
    print(*(f"{counts[verdict]} {verdict}" for verdict in ("read", "asked", "needless", "wrong")), f"of {total}")
    return int(counts["wrong"] > 0)


if __name__ == "__main__":
    sys.exit(main())
