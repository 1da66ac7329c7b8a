"""The drills of published charts: the program names the same ones, and refuses none of them where no class was called.

`tests/data/tap_drills.csv` has where each drill is from in its last column; limits by the formulas of ASME B1.1 and the
tables of ISO 965-1. How far a drilled hole is over its drill: least .001 + .003 d, mean .002 + .005 d, most
.005 + .005 d [in], from memory of a handbook's report of tests.
"""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from crib.cutters.base import Cutter
from crib.cutters.label import label
from crib.handbook.threads import hole_limits, percent_of, read_thread
from crib.shop import Shop
from crib.tapping.advise import advise_tap
from crib.tapping.shape import Asking, TapAdvice
from crib.units import read
from tests.spelt import spelt

IN = 25.4
with (Path(__file__).parents[1] / "data" / "tap_drills.csv").open(encoding="utf-8") as lines:
    ROWS = tuple(csv.DictReader(lines))
STRAIGHT = tuple(row for row in ROWS if not read_thread(row["thread"]).thread.taper)
CALLED = tuple(row for row in STRAIGHT if row["class"] and row["most"])


def ask(row: dict[str, str], class_name: str | None = None) -> TapAdvice:
    """A row's own drill, with the tap and that drill in the crib."""
    size = float(row["drill_mm"])
    named = Cutter(1, "drill", diameter_mm=size, condition="sharp", material="hss")
    tap = Cutter(2, "tap", thread=row["thread"], tap_chamfer="plug", condition="sharp", material="hss")
    crib = [one.but(label=label(one, "in")) for one in (named, tap)]
    return advise_tap(Asking(read_thread(row["thread"]), class_name, "mild steel", drill_mm=size), crib, Shop())


def limits_in_mm(row: dict[str, str]) -> tuple[float, float]:
    scale = IN if row["class"] == "2B" else 1.0
    return float(row["least"]) * scale, float(row["most"]) * scale


def test_there_are_enough() -> None:
    assert len(ROWS) == 254 and sum(row["series"] in ("UNC", "UNF") for row in ROWS) == 49


def test_the_chart_drill_is_the_programs() -> None:
    ours = {row["thread"]: read_thread(row["thread"]).thread.drill for row in ROWS}
    wrong = [(row["thread"], ours[row["thread"]], row["drill"]) for row in ROWS
             if read(ours[row["thread"]] or "", "in").mm != pytest.approx(float(row["drill_mm"]), abs=0.002)]
    assert not wrong


def test_percent_and_limits_of_every_row() -> None:
    for row in STRAIGHT:
        thread = read_thread(row["thread"]).thread
        if row["percent"]:
            assert percent_of(thread, float(row["drill_mm"])) == pytest.approx(float(row["percent"]), abs=0.35), row
    for row in CALLED:
        found, (least, most) = hole_limits(read_thread(row["thread"]).thread), limits_in_mm(row)
        near = 0.0006 * IN if row["class"] == "2B" else 0.0011
        assert found.least == pytest.approx(least, abs=near) and found.most == pytest.approx(most, abs=near), row


def test_no_chart_drill_is_refused_where_no_class_was_called() -> None:
    """A mean oversize was taken as certain: 12 of the 49 UNC and UNF drills were refused, ten of which lie inside the
    class by their own size."""
    for row in STRAIGHT:
        found = ask(row)
        assert found.answer in ("as drawn", "compromise"), (row, spelt(found.says))
        if found.drills[0].within_class is False:
            assert "likely" in spelt(found.says) or "surely" in spelt(found.says), spelt(found.says)
            assert "no class was called" in spelt(found.says) and found.drills[0].fix


def test_a_called_class_refuses_only_what_surely_misses_it() -> None:
    """By the whole range that the hole may come out at; a likely miss is measured in scrap first."""
    counts = dict.fromkeys(("as drawn", "compromise", "measure first", "cannot"), 0)
    for row in CALLED:
        thread = hole_limits(read_thread(row["thread"]).thread)
        least, most, size = thread.least or 0.0, thread.most or 0.0, float(row["drill_mm"]) / IN
        low, mean, high = (IN * (size + over) for over in (
            0.001 + 0.003 * size, 0.002 + 0.005 * size, 0.005 + 0.005 * size))
        answer = ask(row, row["class"]).answer
        counts[answer] += 1
        assert (answer == "cannot") == (low > most + 1e-6 or high < least - 1e-6), row
        assert (answer == "measure first") == (not least - 1e-6 <= mean <= most + 1e-6 and answer != "cannot"), row
    assert counts["measure first"] and counts["as drawn"] > 100, counts
