"""Threads against printed tables, each row with where it stands; every thread's limits against a second hand."""

from __future__ import annotations

from decimal import Decimal

import pytest

from crib.handbook.threads import (
    Thread,
    forming_hole,
    hole_limits,
    percent_of,
    read_thread,
    threads,
)
from crib.handbook.threads.limits import printed_2b
from crib.handbook.threads.outside import screw_limits
from crib.handbook.threads.percent import small_end
from crib.units import read
from tests.published.thread_limits import METRIC_6H_MM, UNIFIED_2B_IN

IN = 25.4
MH2 = "Machinery's Handbook 31st ed. p. 2155, Table 2 (tap drill sizes and percentage of thread)"
MH4 = "Machinery's Handbook 31st ed. p. 2168, Table 4 (American National Form)"
B1 = "ASME B1.1 limits, public table and Machinery's Handbook 31st ed. Table 2"
B1_MEMORY = "ASME B1.1 limits table, printed value recalled"
ISO_724 = "public ISO metric thread tables (ISO 724 values)"
TD1 = "Machinery's Handbook 27th ed. p. 1794, Table 8 (ISO 965-1)"
WHIT = "public Whitworth table"
BA = "BS 93 rule; encyclopaedia page and public BA tables"
BA_MEMORY = "BS 93; printed value recalled"
NPT = "ASME B1.20.1 Table 2, printed value recalled"


def named(text: str) -> Thread:
    return read_thread(text).thread


@pytest.mark.parametrize(("thread", "hole_in", "percent", "source"), [
    ("0-80", 0.0472, 79, MH2), ("1-64", 0.0595, 66, MH2), ("1-72", 0.0595, 75, MH2), ("2-56", 0.0700, 69, MH2),
    ("2-56", 0.0730, 56, MH2), ("3-48", 0.0785, 76, MH2), ("3-48", 0.0781, 77, MH2), ("4-36", 0.0860, 72, MH2),
    ("4-36", 0.0890, 64, MH2), ("1/4-20", 0.2010, 75, "common US drill charts: 75 percent is a #7 in 1/4-20"),
])
def test_percent_by_the_three_quarter_height(thread: str, hole_in: float, percent: int, source: str) -> None:
    """The table mixes rounding and truncation: one point either way."""
    assert percent_of(named(thread), hole_in * IN) == pytest.approx(percent, abs=1), source


@pytest.mark.parametrize(("thread", "hole_in", "printed", "right", "source"), [
    ("0-80", 0.0492, 68, 66.5, MH2), ("1-64", 0.0571, 77, 78.3, MH2),
])
def test_rows_that_the_table_has_wrong(thread: str, hole_in: float, printed: int, right: float, source: str) -> None:
    """Neither rounding nor truncation gives what is printed; the arithmetic is right."""
    found = percent_of(named(thread), hole_in * IN)
    assert found == pytest.approx(right, abs=0.06) and abs(found - printed) > 1, source


def test_the_two_conventions_of_percent() -> None:
    """#7 in 1/4-20 is 75 percent by 1.299 P and 91 by 1.0825 P; the program says which it goes by."""
    thread, hole = named("1/4-20"), 0.2010 * IN
    assert round(percent_of(thread, hole)) == 75
    assert round(1.2 * percent_of(thread, hole)) == round(100 * (0.25 - 0.201) / (1.0825 / 20)) == 91
    assert "1.299 P" in thread.form.base and "1.0825 P" in thread.form.base
    assert "1.2807 P" in named("1/4 BSW").form.base and "1.2 P" in named("0 BA").form.base


@pytest.mark.parametrize(("thread", "root_in", "drill", "source"), [
    ("1/4-24 NS", 0.1959, "#4", MH4), ("5/16-20", 0.2476, "17/64", MH4), ("1/2-12 NS", 0.3918, "27/64", MH4),
    ("1/8-40 NS", 0.0925, "#38", MH4),
])
def test_root_diameters_and_drills(thread: str, root_in: float, drill: str, source: str) -> None:
    one = named(thread)
    assert (one.major_mm - one.form.percent_factor * one.pitch_mm) / IN == pytest.approx(root_in, abs=1e-4), source
    assert one.drill == drill, source


@pytest.mark.parametrize(("thread", "least", "most", "source"), [
    ("0-80", ".0465", ".0514", B1), ("1-64", ".0561", ".0623", B1), ("2-56", ".0667", ".0737", B1),
    ("2-64", ".0691", ".0753", B1), ("3-56", ".0797", ".0865", B1), ("4-40", ".0849", ".0939", B1),
    ("1/4-20", ".196", ".207", B1_MEMORY), ("3/8-16", ".307", ".321", B1_MEMORY), ("10-24", ".145", ".156", B1_MEMORY),
    ("10-32", ".156", ".164", B1_MEMORY), ("1-14", ".923", ".938", B1_MEMORY), ("1/4-28", ".211", ".220", B1_MEMORY),
])
def test_class_2b_as_printed(thread: str, least: str, most: str, source: str) -> None:
    limits = hole_limits(named(thread))
    assert limits.name == "2B"
    assert [round((mm or 0.0) / IN, 6) for mm in (limits.least, limits.most)] == [float(least), float(most)], source


SCREWS = "ASME B1.1 limits of size, public table of the Unified standard series"
METRIC_SCREWS = "ISO 965 limits 6g, public table of a fastener maker"


@pytest.mark.parametrize(("thread", "least", "most", "source"), [
    ("0-80", ".0563", ".0595", SCREWS), ("1-64", ".0686", ".0724", SCREWS), ("1-72", ".0689", ".0724", SCREWS),
    ("2-56", ".0813", ".0854", SCREWS), ("2-64", ".0816", ".0854", SCREWS), ("3-48", ".0938", ".0983", SCREWS),
    ("5/8-11", ".6113", ".6234", SCREWS), ("5/8-12", ".6120", ".6234", SCREWS), ("5/8-18", ".6149", ".6236", SCREWS),
    ("5/8-20", ".6156", ".6237", SCREWS), ("5/8-24", ".6166", ".6238", SCREWS),
    ("5/8-28", ".6174", ".6239", SCREWS), ("5/8-32", ".6179", ".6239", SCREWS),
    ("1/4-20", ".2408", ".2489", "worked by a public page of the B1.1 formulas"),
])
def test_class_2a_as_printed(thread: str, least: str, most: str, source: str) -> None:
    limits = screw_limits(named(thread))
    assert [round(mm / IN, 6) for mm in limits[:2]] == [float(least), float(most)], source


@pytest.mark.parametrize(("thread", "most", "least"), [
    ("M1.6", 1.581, 1.496), ("M1.8", 1.781, 1.696), ("M2", 1.981, 1.886), ("M2.5", 2.480, 2.380), ("M3", 2.980, 2.874),
    ("M3.5", 3.479, 3.354), ("M4", 3.978, 3.838), ("M5", 4.976, 4.826), ("M6", 5.974, 5.794),
])
def test_class_6g_as_printed(thread: str, most: float, least: float) -> None:
    limits = screw_limits(named(thread))
    assert [round(mm, 6) for mm in limits[:2]] == [least, most], METRIC_SCREWS


@pytest.mark.parametrize(("size", "tolerance_um"), [("M10", 236), ("M12", 265), ("M16", 280), ("M18", 335),
                                                    ("M24", 375), ("M30", 425), ("M36", 475)])
def test_tolerance_of_metric_screws(size: str, tolerance_um: int) -> None:
    """Grade 6, as a public table of ISO 965-4 has it."""
    limits = screw_limits(named(size))
    assert round((limits.most - limits.least) * 1000) == tolerance_um


def test_every_screw_has_limits_under_its_size() -> None:
    for thread in threads():
        limits = screw_limits(thread)
        assert limits.least < limits.most and (thread.taper or limits.most <= thread.major_mm), thread


def test_the_worked_example() -> None:
    """19/64-36 as worked in Machinery's Handbook 31st ed. Table 6 (titled -28, reckoned with 36)."""
    assert printed_2b(Decimal("0.2969"), Decimal(36)) == (Decimal("0.267"), Decimal("0.273"))


@pytest.mark.parametrize(("thread", "minor_mm", "source"), [
    ("M3", 2.459, ISO_724), ("M6", 4.917, ISO_724), ("M8", 6.647, ISO_724), ("M12", 10.106, ISO_724),
    ("M16", 13.835, ISO_724),
])
def test_metric_minor_diameters(thread: str, minor_mm: float, source: str) -> None:
    assert named(thread).minor_basic_mm == pytest.approx(minor_mm, abs=1e-3), source


@pytest.mark.parametrize(("thread", "tolerance_um", "source"), [
    ("M1.6", 100, TD1), ("M2.5", 125, TD1), ("M3", 140, TD1), ("M4", 180, TD1), ("M6", 236, "ISO 965-1, from memory"),
])
def test_class_6h(thread: str, tolerance_um: int, source: str) -> None:
    limits = hole_limits(named(thread))
    assert limits.name == "6H" and limits.least is not None and limits.most is not None
    assert round((limits.most - limits.least) * 1000) == tolerance_um, source


@pytest.mark.parametrize(("thread", "core_in", "drill_mm", "source"), [
    ("1/8 BSW", 0.0930, 2.55, WHIT), ("1/4 BSW", 0.1860, 5.1, WHIT), ("5/16 BSW", 0.2414, 6.5, WHIT),
    ("1 BSW", 0.8399, 22.0, WHIT),
])
def test_whitworth(thread: str, core_in: float, drill_mm: float, source: str) -> None:
    """BS 1157 sizes are said to give 77 to 87 percent; by their own 1.2807 P."""
    one = named(thread)
    assert one.minor_basic_mm / IN == pytest.approx(core_in, abs=1e-4), source
    assert read(one.drill or "").mm == drill_mm, source
    assert 76 < percent_of(one, drill_mm) < 87


@pytest.mark.parametrize(("number", "pitch", "major", "minor", "source"), [
    (0, 1.0, 6.0, 4.80, BA), (4, 0.66, 3.6, 2.81, BA), (6, 0.53, 2.8, 2.16, BA_MEMORY),
    (10, 0.35, 1.7, 1.28, BA_MEMORY),
])
def test_british_association(number: int, pitch: float, major: float, minor: float, source: str) -> None:
    one = named(f"{number} BA")
    assert (one.pitch_mm, one.major_mm) == (pitch, major), source
    assert one.minor_basic_mm == pytest.approx(minor, abs=0.005), source


@pytest.mark.parametrize(("thread", "e0_in", "source"), [
    ("1/8 NPT", 0.36351, NPT), ("1/2 NPT", 0.75843, NPT), ("1 NPT", 1.21363, NPT),
])
def test_taper_pipe(thread: str, e0_in: float, source: str) -> None:
    assert small_end(named(thread)) / IN == pytest.approx(e0_in, abs=2e-5), source


def test_forming() -> None:
    """Machinery's Handbook, cold-form tapping: D - 0.0068 x percent / tpi."""
    assert forming_hole(named("1/4-20"), 65) / IN == pytest.approx(0.2279, abs=1e-4)


def rows(block: str) -> list[tuple[str, float, float]]:
    found = []
    for row in block.split():
        thread, least, most = row.split("|")
        found.append((thread.replace("_", " "), float(least), float(most)))
    return found


@pytest.mark.parametrize(("block", "unit", "count"), [(UNIFIED_2B_IN, IN, 160), (METRIC_6H_MM, 1.0, 65)])
def test_every_thread_against_a_second_hand(block: str, unit: float, count: int) -> None:
    """All of them, so that no rounding slips: 10-24, 1-64, 1-72, 2-64, 7/8-14 and 1-14 turn on its order."""
    wrong = []
    for thread, least, most in rows(block):
        limits = hole_limits(named(thread))
        found = [round((mm or 0.0) / unit, 4 if unit > 1 else 3) for mm in (limits.least, limits.most)]
        if found != [least, most]:
            wrong.append((thread, found, least, most))
    assert not wrong and len(rows(block)) >= count


@pytest.mark.parametrize(("thread", "drill_in", "side"), [
    ("9/16-18", 33 / 64, "above"), ("5/8-18", 37 / 64, "above"), ("9/16-24", 33 / 64, "below"),
    ("5/8-24", 37 / 64, "below"),
])
def test_drills_of_the_charts_that_break_the_class(thread: str, drill_in: float, side: str) -> None:
    """Machinery's Handbook Table 4 and common US tables list them, by their size outside 2B."""
    one = named(thread)
    limits = hole_limits(one)
    assert read(one.drill or "").mm == pytest.approx(drill_in * IN) and limits.holds(drill_in * IN) is False
    assert (drill_in * IN > (limits.most or 0)) == (side == "above")


def test_every_thread_has_a_source() -> None:
    assert all(one.source and (not one.drill or one.drill_source) for one in threads())
    assert len({(one.name, one.series) for one in threads()}) == len(threads())
