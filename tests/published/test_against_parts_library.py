"""The tables of threads and drills beside those of an open parts library, bd-warehouse 0.4.0: its CSV files only, read
as data, for its code wants a CAD kernel. Every disagreement is listed here, with who is right and why.

A dependency can't be asked for in an extra without what it depends on, so the library stands in
`tests/requirements-tables.txt` and is installed with `--no-deps`. Without it these tests are skipped, unless
CRIB_NEEDS_TABLES says that they must run, as they do where the whole is checked.
"""

from __future__ import annotations

import csv
import os
import re
from importlib.util import find_spec
from pathlib import Path

import pytest

from crib.findings.errors import CribError
from crib.handbook.threads import hole_limits, percent_of, read_thread
from crib.handbook.threads.tables import threads
from crib.units import read
from crib.units.drills import LETTER_DRILLS, NUMBER_DRILLS

FOUND = find_spec("bd_warehouse")
pytestmark = pytest.mark.skipif(
    FOUND is None and not os.environ.get("CRIB_NEEDS_TABLES"), reason="bd-warehouse isn't installed")

DRILLS = {
    "#5": (0.205, 2055, "ours: B94.11M has .2055; theirs is rounded to three places"),
    "#10": (0.193, 1935, "ours: .1935, rounded down in theirs"),
    "#18": (0.17, 1695, "ours: .1695, rounded up in theirs"),
    "#25": (0.15, 1495, "ours: .1495, rounded up in theirs"),
    "#28": (0.14, 1405, "ours: .1405, rounded down in theirs"),
    "#69": (0.029, 292, "ours: .0292, rounded down in theirs"),
}
"""Number drills that differ: theirs [in], ours [ten-thousandths], and who is right."""

TAP_DRILLS = {
    "M4.5-0.75": ("3.75", "3.7mm", "both are inside 6H, 3.688 to 3.878; ISO 2306 gives 3.7"),
    "M6-0.75": ("5.25", "5.2mm", "both are inside 6H; ISO 2306 gives 5.2, theirs is D - P"),
    "M7-0.75": ("6.25", "6.2mm", "both are inside 6H; ISO 2306 gives 6.2, theirs is D - P"),
    "M12-1.75": ("10.3", "10.2mm", "both are inside 6H; ISO 2306 gives 10.2"),
    "M14-2": ("12.1", "12mm", "both are inside 6H; ISO 2306 gives 12.0"),
    "M22-2.5": ("18.5", "19.5mm", "ours: theirs is below the least of 6H, 19.294; 18.5 is an M21x2.5's or a slip"),
    "1-12": ("15/16", "59/64", "ours: theirs is above the most of 2B, .928; 15/16 is the 1-14 drill"),
}
"""Tap drills that differ: theirs, ours, and who is right."""

NOT_OURS = {
    "M1.5-0.35": "no ISO 261 size", "M2-0.45": "older pitch; ISO 261 has 0.4",
    "M3-0.6": "older pitch; ISO 261 has 0.5",
    "M4-0.75": "older pitch; ISO 261 has 0.7", "M5-1": "older pitch", "M5-0.9": "older pitch; ISO 261 has 0.8",
    "M5.5-0.9": "no ISO 261 size", "M15-1.5": "third choice", "M17-1.5": "third choice", "M19-2.5": "no ISO 261 size",
    "M21-2": "no ISO 261 size",
}
"""Theirs that we don't carry, and why not."""


def table(name: str) -> list[dict[str, str]]:
    """A CSV file of the library, names and values stripped."""
    assert FOUND is not None and FOUND.submodule_search_locations, "pip install -r tests/requirements-tables.txt"
    path = Path(next(iter(FOUND.submodule_search_locations))) / "data" / name
    with path.open(encoding="utf-8", newline="") as file:
        return [{key.strip(): value.strip() for key, value in row.items()} for row in csv.DictReader(file)]


def size(text: str, metric: bool) -> float:
    """A drill of theirs [mm]: bare numbers are millimetres in metric rows."""
    return float(text) if metric else read(text.replace(" ", "-"), "in").mm


def thread_text(text: str) -> str:
    """Their `M6-1` and `1 1/8-7` as we write them."""
    return text.replace("-", "x", 1) if text.startswith("M") else re.sub(r"^(\d+) (\d+/)", r"\1-\2", text)


def test_number_and_letter_drills() -> None:
    differ = {}
    for row in table("drill_sizes.csv"):
        name, theirs = row["Size"], float(row["Diameter"])
        ours = LETTER_DRILLS[name] if name in LETTER_DRILLS else NUMBER_DRILLS[int(name.lstrip("#"))]
        if round(theirs * 10_000) != ours:
            differ[name if name in LETTER_DRILLS else f"#{name.lstrip('#')}"] = (theirs, ours)
    assert differ == {name: (theirs, ours) for name, (theirs, ours, _) in DRILLS.items()}


def test_threads_and_their_drills() -> None:
    strange, differ = set(), {}
    for row in table("tap_hole_sizes.csv"):
        metric = row["Size"].startswith("M")
        try:
            thread = read_thread(thread_text(row["Size"])).thread
        except CribError:
            strange.add(row["Size"])
            continue
        ours = read(thread.drill or "", "in").mm
        if abs(ours - size(row["Soft"], metric)) > 1e-3:
            differ[row["Size"]] = (row["Soft"], thread.drill)
    assert strange == set(NOT_OURS)
    assert differ == {name: (theirs, ours) for name, (theirs, ours, _) in TAP_DRILLS.items()}


def test_the_judgement_on_each_disagreement() -> None:
    """Ours keeps the class in every one of them; theirs breaks it in two."""
    broken = set()
    for name, (theirs, ours, _) in TAP_DRILLS.items():
        thread = read_thread(thread_text(name)).thread
        limits = hole_limits(thread)
        assert limits.holds(read(ours, "in").mm), name
        if not limits.holds(size(theirs, name.startswith("M"))):
            broken.add(name)
    assert broken == {"M22-2.5", "1-12"}
    assert percent_of(read_thread("1-12").thread, 15 / 16 * 25.4) < 60


def test_straight_pipe_threads() -> None:
    """ISO 228-1: not a disagreement."""
    ours = {thread.name.removeprefix("G ").replace("-", " "): thread for thread in threads() if thread.series == "BSPP"}
    seen = 0
    for row in table("iso_228_1.csv"):
        thread = ours.get(row["size"])
        if thread is None or thread.minor_fixed_mm is None:
            continue
        least = float(row["minor_diameter"])
        assert thread.major_mm == float(row["major_diameter"]) and round(thread.tpi) == int(row["tpi"])
        assert thread.minor_fixed_mm == pytest.approx((least, least + float(row["internal_minor_tolerance"])))
        seen += 1
    assert seen >= 14
