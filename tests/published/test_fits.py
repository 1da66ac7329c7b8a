"""Classes and fits against ISO 286 and ANSI B4.1, and against the formulas that ISO 286-1 was made by."""

from __future__ import annotations

import csv
from math import sqrt
from pathlib import Path

import pytest

from crib.findings.errors import CribError
from crib.handbook.fits import class_limits
from crib.handbook.iso286 import deviations
from crib.handbook.mates import NAMES, fit_for, fit_name, from_mate
from crib.planning.ask import read_request
from crib.shop import Shop
from crib.units import show

DATA = Path(__file__).parents[1] / "data"
STEPS = ((0, 3), (3, 6), (6, 10), (10, 18), (18, 30), (30, 50), (50, 80), (80, 120))


def rows(name: str) -> list[dict[str, str]]:
    with (DATA / name).open(encoding="utf-8") as file:
        return list(csv.DictReader(file))


@pytest.mark.parametrize("row", rows("iso286.csv"), ids=lambda row: f"{row['class']}-{row['to_mm']}")
def test_iso_286_rows(row: dict[str, str]) -> None:
    """Each row has its source beside it: ISO 286-2, seen on public tables or from memory as it says. Both ends of the
    range: a size belongs to the range that it ends."""
    letter, grade = row["class"].rstrip("0123456789"), int(row["class"].lstrip("abcdefghjksABCDEFGHJKSNP"))
    for size in (float(row["over_mm"]) + 0.001, float(row["to_mm"])):
        low, high = deviations(size, letter, grade)
        assert (low * 1000, high * 1000) == pytest.approx((float(row["lower_um"]), float(row["upper_um"])))


@pytest.mark.parametrize("row", rows("ansi_b4_1.csv"), ids=lambda row: f"{row['class']}-{row['to_in']}")
def test_ansi_running_and_sliding_clearances(row: dict[str, str]) -> None:
    """ANSI B4.1-1967 as Machinery's Handbook has it, 31st ed., tables 8a and 8b: from the limits of hole and shaft."""
    fit = fit_for(float(row["to_in"]) * 25.4, row["class"])
    assert fit.least_mm / 0.0254 == pytest.approx(float(row["least_thou"]))
    assert fit.most_mm / 0.0254 == pytest.approx(float(row["most_thou"]))


@pytest.mark.parametrize(("name", "low", "high"), [
    ("K7", -12, 6), ("M7", -18, 0), ("N7", -23, -5), ("P7", -29, -11), ("R7", -34, -16), ("S7", -39, -21),
    ("F8", 16, 43), ("G7", 6, 24), ("D9", 50, 93), ("H8", 0, 27), ("k6", 1, 12), ("n6", 12, 23), ("p6", 18, 29),
    ("s6", 28, 39), ("u6", 33, 44), ("f7", -34, -16), ("e8", -59, -32), ("d9", -93, -50), ("js6", -5.5, 5.5)])
def test_common_classes_of_twelve(name: str, low: float, high: float) -> None:
    """ISO 286-2, 10 to 18 mm, from memory."""
    lo, hi, _ = class_limits(12.0, name)
    assert ((lo - 12) * 1000, (hi - 12) * 1000) == pytest.approx((low, high))


@pytest.mark.parametrize("step", STEPS[1:])
@pytest.mark.parametrize(("grade", "times"), [(5, 7), (6, 10), (7, 16), (8, 25), (9, 40), (10, 64), (11, 100),
                                              (12, 160), (13, 250)])
def test_grades_come_of_the_tolerance_unit(step: tuple[int, int], grade: int, times: int) -> None:
    """ISO 286-1:2010, annex A: i = 0.45 D^(1/3) + 0.001 D, D the geometric mean of the range, IT6 10 i, IT7 16 i and so
    on; the standard rounds, so the table is within a tenth or a micron. Up to 3 mm it was rounded up by hand."""
    mean = sqrt(step[0] * step[1])
    unit = 0.45 * mean ** (1 / 3) + 0.001 * mean
    low, high = deviations(step[1], "H", grade)
    assert (high - low) * 1000 == pytest.approx(times * unit, rel=0.10, abs=1.0)


@pytest.mark.parametrize("step", STEPS[1:])
@pytest.mark.parametrize(("letter", "factor", "power"), [
    ("d", 16, 0.44), ("e", 11, 0.41), ("f", 5.5, 0.41), ("g", 2.5, 0.34), ("n", 5, 0.34)])
def test_letters_come_of_their_formulas(step: tuple[int, int], letter: str, factor: float, power: float) -> None:
    """ISO 286-1:2010, annex A, from memory; rounded by the standard, so within a twentieth or a micron."""
    low, high = deviations(step[1], letter, 7)
    found = low if letter == "n" else -high
    assert found * 1000 == pytest.approx(factor * sqrt(step[0] * step[1]) ** power, rel=0.05, abs=1.0)


def test_nothing_is_reckoned_beyond_the_tables() -> None:
    for name, size in (("Z9", 12.0), ("H14", 12.0), ("K9", 12.0), ("H7", 121.0), ("a9", 12.0), ("H7", 0.0), ("7", 12)):
        with pytest.raises(CribError, match=r"not in the tables|ends at|not one"):
            class_limits(size, name)


def test_a_slot_from_its_tongue() -> None:
    """By hand: H7/g6 between 10 and 18 mm clears 6 to 35 micron (ISO 286-2: +18/0, -6/-17); .4975 in is 12.6365 mm."""
    request = read_request("slot", {"fit": "sliding", "to": "tongue .4975 measured", "depth": "1/4"}, Shop(), "in")
    width = request.size("width")
    assert (width.lo, width.hi) == pytest.approx((12.6365 + 0.006, 12.6365 + 0.035))
    assert show(width.lo, "in", places=4) == ".4977" and show(width.hi, "in", places=4) == ".4989"
    assert request.mate is not None and request.mate.ask == "" and not width.doubtful


def test_a_worn_mate_is_asked_about() -> None:
    """The old mate is measured in three places and the slot made to the tightest: common practice, no source."""
    worn = from_mate("worn, about .62", "push", "in")
    assert worn.size.doubtful and "three places" in worn.ask
    assert from_mate("worn tongue .618", "sliding", "in").ask
    spots = from_mate("worn tongue .618 .6195 .617", "sliding", "in")
    assert spots.ask == "" and spots.mate_mm == pytest.approx(0.6195 * 25.4)
    assert from_mate("about .62", "sliding", "in").ask and not from_mate(".62", "sliding", "in").ask


def test_fits_go_from_loose_to_tight() -> None:
    """Each name is as tight as the one before it, or tighter, at every size."""
    order = ("loose running", "free running", "close running", "sliding", "snug", "push", "light press", "press",
             "drive", "force")
    assert set(order) | {"close sliding"} == set(NAMES)
    for size in (2.0, 5.0, 8.0, 14.0, 22.0, 35.0, 60.0, 100.0):
        clear = [fit_for(size, name).least_mm for name in order]
        assert clear == sorted(clear, reverse=True)


@pytest.mark.parametrize("text", ["", "sloppy", "H7", "H7/", "RC10"])
def test_what_is_no_fit(text: str) -> None:
    with pytest.raises(CribError, match="fit"):
        fit_name(text)


@pytest.mark.parametrize(("texts", "why"), [
    ({"to": "tongue", "fit": "sliding"}, "has no size"), ({"to": ".5"}, "which fit"),
    ({"to": ".5 .75", "fit": "push"}, "far apart"),
    ({"to": ".5", "fit": "sliding", "width": "1/2"}, "comes from its mate"),
    ({"width": "1/2+.001-0", "fit": "sliding"}, "limits of its own")])
def test_what_cannot_be_taken_from_a_mate(texts: dict[str, str], why: str) -> None:
    with pytest.raises(CribError, match=why):
        read_request("slot", {**texts, "depth": "1/4"}, Shop(), "in")
